//! Drawn points go where they are wanted, the same way every time.

use std::collections::BTreeSet;

use foldcourse::geometry::snap::{ALL_KINDS, Snap, SnapIndex, SnapKind, SnapRequest, SnapShape};
use foldcourse::geometry::{Outline, Point};

use super::shapes::{Chance, square, star_ring};

/// A field of 100 m, a track across its east side, and a trough.
fn farm() -> SnapIndex {
    let mut shapes = SnapShape::of_outline(7, &Outline::simple(square(0.0, 0.0, 100.0)));
    shapes.push(SnapShape {
        owner: 8,
        places: vec![
            Point::new(80.0, 35.0),
            Point::new(130.0, 35.0),
            Point::new(160.0, 75.0),
        ],
        closed: false,
    });
    shapes.push(SnapShape {
        owner: 9,
        places: vec![Point::new(30.0, 60.0)],
        closed: false,
    });
    SnapIndex::build(&shapes)
}

fn snap(pointer: (f64, f64), from: Option<(f64, f64)>) -> Option<Snap> {
    let point = |(east_m, north_m)| Point::new(east_m, north_m);
    farm().snap(&SnapRequest::new(point(pointer), from.map(point), 2.0))
}

fn kind_and_place(pointer: (f64, f64), from: Option<(f64, f64)>) -> (SnapKind, Point) {
    let snap = snap(pointer, from).expect("something to snap to");
    (snap.kind, snap.place)
}

#[test]
fn corners_crossings_middles_and_sides_are_taken_in_that_order() {
    assert_eq!(
        kind_and_place((1.5, -0.5), None),
        (SnapKind::Corner, Point::new(0.0, 0.0))
    );
    assert_eq!(
        kind_and_place((101.0, 36.0), None),
        (SnapKind::Crossing, Point::new(100.0, 35.0))
    );
    assert_eq!(
        kind_and_place((51.0, 0.2), None),
        (SnapKind::Middle, Point::new(50.0, 0.0))
    );
    assert_eq!(
        kind_and_place((70.0, 1.0), None),
        (SnapKind::AlongSide, Point::new(70.0, 0.0))
    );
    assert_eq!(
        kind_and_place((31.0, 60.5), None),
        (SnapKind::Corner, Point::new(30.0, 60.0))
    );
    assert_eq!(
        snap((1.0, 1.0), None).expect("a corner").target,
        Some((7, 0))
    );
    assert_eq!(
        snap((159.0, 75.0), None).expect("an end").target,
        Some((8, 2))
    );
    assert_eq!(snap((50.0, 25.0), None), None);
}

#[test]
fn a_new_stretch_meets_a_side_square() {
    let (kind, place) = kind_and_place((41.0, 1.0), Some((40.0, 50.0)));
    assert_eq!(kind, SnapKind::Square);
    assert!(place.distance_m(Point::new(40.0, 0.0)) < 1e-9, "{place:?}");
    let snap = snap((41.0, 1.0), Some((40.0, 50.0))).expect("square");
    assert_eq!(snap.guides.len(), 2);
}

#[test]
fn the_line_of_a_side_is_kept_beyond_its_end() {
    let (kind, place) = kind_and_place((120.0, 0.8), None);
    assert_eq!(kind, SnapKind::InLine);
    assert!(place.distance_m(Point::new(120.0, 0.0)) < 1e-9);
    let guide = snap((120.0, 0.8), None).expect("in line").guides[0];
    assert_eq!(guide.0, Point::new(100.0, 0.0));
}

#[test]
fn a_new_stretch_runs_parallel_or_at_a_fixed_bearing() {
    // Parallel to the slanting end of the track: 3 across, 4 up.
    let (kind, place) = kind_and_place((165.5, 50.0), Some((150.0, 30.0)));
    assert_eq!(kind, SnapKind::Parallel);
    let bearing_deg = Point::new(150.0, 30.0).bearing_deg(place);
    assert!(
        (bearing_deg - 36.869_897_645_844).abs() < 1e-9,
        "{bearing_deg}"
    );
    // Far from everything: 45° in steps of 15°.
    let (kind, place) = kind_and_place((-440.0, -461.0), Some((-500.0, -520.0)));
    assert_eq!(kind, SnapKind::FixedAngle);
    assert!((Point::new(-500.0, -520.0).bearing_deg(place) - 45.0).abs() < 1e-9);
}

#[test]
fn two_conditions_at_once_come_before_one() {
    // In line with the south side and with the east side of another field.
    let mut shapes = SnapShape::of_outline(1, &Outline::simple(square(0.0, 0.0, 40.0)));
    shapes.extend(SnapShape::of_outline(
        2,
        &Outline::simple(square(60.0, 20.0, 30.0)),
    ));
    let index = SnapIndex::build(&shapes);
    let snap = index
        .snap(&SnapRequest::new(Point::new(60.9, 0.7), None, 2.0))
        .expect("a snap");
    assert_eq!(snap.kind, SnapKind::InLine);
    assert!(
        snap.place.distance_m(Point::new(60.0, 0.0)) < 1e-9,
        "{snap:?}"
    );
    assert_eq!(snap.guides.len(), 2);
}

#[test]
fn only_the_kinds_wanted_are_found_and_the_grid_is_the_last_of_them() {
    let mut request = SnapRequest::new(Point::new(1.0, 0.9), None, 2.0);
    request.kinds = [SnapKind::AlongSide].into_iter().collect();
    let found = farm().snap(&request).expect("a side");
    assert_eq!(
        (found.kind, found.place),
        (SnapKind::AlongSide, Point::new(1.0, 0.0))
    );
    request.kinds = BTreeSet::new();
    assert_eq!(farm().snap(&request), None);
    let mut request = SnapRequest::new(Point::new(51.2, 26.0), None, 2.0);
    request.grid_m = 5.0;
    let found = farm().snap(&request).expect("the grid");
    assert_eq!(
        (found.kind, found.place),
        (SnapKind::Grid, Point::new(50.0, 25.0))
    );
    request.pointer = Point::new(70.2, 0.5);
    assert_eq!(
        farm().snap(&request).expect("a side").kind,
        SnapKind::AlongSide
    );
}

#[test]
fn a_snap_lies_within_the_tolerance_where_it_says_and_comes_the_same_every_time() {
    let mut chance = Chance(91);
    let mut shapes = Vec::new();
    for owner in 0..60 {
        let centre = Point::new(chance.between(-300.0, 300.0), chance.between(-300.0, 300.0));
        let corners = chance.count(3, 30);
        let ring = star_ring(&mut chance, centre, corners, 20.0, 60.0);
        shapes.extend(SnapShape::of_outline(owner, &Outline::simple(ring.corners)));
    }
    let (index, again) = (SnapIndex::build(&shapes), SnapIndex::build(&shapes));
    let sides: Vec<(Point, Point)> = shapes
        .iter()
        .flat_map(|shape| {
            foldcourse::geometry::Ring::new(shape.places.clone())
                .sides()
                .collect::<Vec<_>>()
        })
        .collect();
    let mut kinds = BTreeSet::new();
    for _ in 0..1500 {
        let pointer = Point::new(chance.between(-350.0, 350.0), chance.between(-350.0, 350.0));
        let from =
            (chance.share() < 0.5).then(|| pointer.towards(chance.between(0.0, 360.0), 40.0));
        let request = SnapRequest::new(pointer, from, 1.5);
        let found = index.snap(&request);
        assert_eq!(found, again.snap(&request));
        let nearest_corner_m = sides
            .iter()
            .map(|(corner, _)| corner.distance_m(pointer))
            .fold(f64::INFINITY, f64::min);
        let Some(found) = found else {
            assert!(nearest_corner_m > 1.5);
            continue;
        };
        assert!(found.place.distance_m(pointer) <= 1.5);
        kinds.insert(found.kind);
        match found.kind {
            SnapKind::Corner => {
                assert!((found.place.distance_m(pointer) - nearest_corner_m).abs() < 1e-12);
            }
            SnapKind::AlongSide | SnapKind::Crossing => {
                let off_m = sides.iter().map(|(from, to)| {
                    found
                        .place
                        .distance_m(found.place.nearest_on_side(*from, *to))
                });
                assert!(off_m.fold(f64::INFINITY, f64::min) < 1e-9);
            }
            SnapKind::FixedAngle if found.guides.len() == 1 => {
                let bearing_deg = from.expect("a stretch").bearing_deg(found.place);
                assert!((bearing_deg / 15.0 - (bearing_deg / 15.0).round()).abs() < 1e-9);
            }
            _ => {}
        }
    }
    assert_eq!(kinds.len(), ALL_KINDS.len() - 1, "{kinds:?}");
}

#[test]
fn ten_thousand_sides_are_asked_quickly() {
    let mut chance = Chance(92);
    let mut shapes = Vec::new();
    for owner in 0..250 {
        let centre = Point::new(chance.between(-2e3, 2e3), chance.between(-2e3, 2e3));
        let ring = star_ring(&mut chance, centre, 40, 40.0, 90.0);
        shapes.extend(SnapShape::of_outline(owner, &Outline::simple(ring.corners)));
    }
    let index = SnapIndex::build(&shapes);
    for tolerance_m in [1.0, 40.0] {
        let begun = std::time::Instant::now();
        for _ in 0..100 {
            let pointer = Point::new(chance.between(-2e3, 2e3), chance.between(-2e3, 2e3));
            index.snap(&SnapRequest::new(
                pointer,
                Some(Point::default()),
                tolerance_m,
            ));
        }
        let each = begun.elapsed() / 100;
        eprintln!("tolerance {tolerance_m} m: {each:?} a snap");
        assert!(each.as_secs_f64() < 0.05);
    }
}

#[test]
fn what_is_no_request_finds_nothing() {
    assert_eq!(
        farm().snap(&SnapRequest::new(Point::new(f64::NAN, 0.0), None, 2.0)),
        None
    );
    assert_eq!(
        farm().snap(&SnapRequest::new(Point::default(), None, 0.0)),
        None
    );
    assert_eq!(
        SnapIndex::build(&[]).snap(&SnapRequest::new(Point::default(), None, 1.0)),
        None
    );
    let broken = SnapShape {
        owner: 1,
        places: vec![Point::new(f64::NAN, 0.0), Point::new(0.0, 0.0)],
        closed: true,
    };
    assert_eq!(
        SnapIndex::build(&[broken]).snap(&SnapRequest::new(Point::default(), None, 1.0)),
        None
    );
}

#[test]
fn an_index_that_follows_changes_snaps_like_one_built_anew() {
    let mut chance = Chance(11);
    let shape = |owner: u64, chance: &mut Chance| SnapShape {
        owner,
        places: star_ring(chance, Point::default(), 8, 20.0, 60.0).corners,
        closed: true,
    };
    let mut shapes: Vec<SnapShape> = (0..6).map(|owner| shape(owner, &mut chance)).collect();
    let mut followed = SnapIndex::build(&shapes);
    for owner in [4, 0, 4, 2] {
        let changed = shape(owner, &mut chance);
        followed.replace(owner, std::slice::from_ref(&changed));
        shapes.retain(|shape| shape.owner != owner);
        shapes.push(changed);
    }
    followed.replace(5, &[]);
    shapes.retain(|shape| shape.owner != 5);
    let fresh = SnapIndex::build(&shapes);
    for step in 0..200 {
        let turn = f64::from(step);
        let pointer = Point::default().towards(turn * 137.5, turn * 0.4);
        let request = SnapRequest::new(pointer, Some(Point::new(3.0, 2.0)), 2.0);
        assert_eq!(followed.snap(&request), fresh.snap(&request), "{pointer:?}");
    }
}

#[test]
fn what_does_not_hold_still_is_not_snapped_to() {
    let mut request = SnapRequest::new(Point::new(0.5, 0.5), None, 2.0);
    assert!(
        farm()
            .snap(&request)
            .is_some_and(|snap| snap.kind == SnapKind::Corner)
    );
    request.without = BTreeSet::from([7]);
    assert_eq!(farm().snap(&request), None);
}
