//! Strips that fan out from a place: equal to parts in a billion, nothing lost, and every one reaches the place.

use foldcourse::geometry::cut::{CutError, Fan, StripPiece, StripSize, strips_about_place};
use foldcourse::geometry::{Outline, Point, Polygon, Ring, Whereabouts, validity};

use super::shapes::{Chance, comb, square, star_ring, star_with_holes, turned};

const REACH_M: f64 = 3.0;

fn fan(outline: &Outline, place: Point, count: usize) -> Fan {
    strips_about_place(outline, place, REACH_M, 20.0, StripSize::Count(count)).expect("ground")
}

/// The worst share off of a strip, and of the sum.
fn shares_off(outline: &Outline, strips: &[StripPiece]) -> (f64, f64) {
    let whole_m2 = outline.area_m2();
    let due_m2 = whole_m2 / strips.len() as f64;
    let worst = strips
        .iter()
        .map(|strip| (strip.outline.area_m2() / due_m2 - 1.0).abs())
        .fold(0.0, f64::max);
    let sum_m2: f64 = strips.iter().map(|strip| strip.outline.area_m2()).sum();
    (worst, (sum_m2 / whole_m2 - 1.0).abs())
}

/// Places of a grid lie in one strip each where they lie in the ground, clear of all sides.
fn assert_no_place_is_lost_or_doubled(outline: &Outline, strips: &[StripPiece]) {
    let bounds = outline.bounds().expect("corners");
    for east in 0..14 {
        for north in 0..14 {
            let place = Point::new(
                bounds.least.east_m
                    + (bounds.most.east_m - bounds.least.east_m) * (f64::from(east) + 0.513) / 14.0,
                bounds.least.north_m
                    + (bounds.most.north_m - bounds.least.north_m) * (f64::from(north) + 0.487)
                        / 14.0,
            );
            let is_inside = outline.whereabouts(place) == Whereabouts::Inside;
            let held = strips
                .iter()
                .filter(|strip| strip.outline.whereabouts(place) == Whereabouts::Inside)
                .count();
            let on_side = strips
                .iter()
                .any(|strip| strip.outline.whereabouts(place) == Whereabouts::OnBoundary);
            assert!(
                on_side || held == usize::from(is_inside),
                "{place:?}: {held}"
            );
        }
    }
}

#[test]
fn about_a_place_inside_random_ground_strips_are_equal_and_every_one_reaches_it() {
    let mut chance = Chance(21);
    let (mut worst, mut worst_sum) = (0.0_f64, 0.0_f64);
    for round in 0..300 {
        let size_m = 10.0_f64.powf(chance.between(1.2, 3.5));
        let centre = Point::new(
            chance.between(-size_m, size_m),
            chance.between(-size_m, size_m),
        );
        let outline = if round % 2 == 0 {
            star_with_holes(&mut chance, centre, size_m)
        } else {
            Outline::simple(star_ring(&mut chance, centre, 70, size_m * 0.3, size_m).corners)
        };
        let count = [1, 2, 3, 7, 24, 100][round % 6];
        let made = strips_about_place(
            &outline,
            centre,
            size_m * 0.01,
            chance.between(0.0, 360.0),
            StripSize::Count(count),
        )
        .expect("ground");
        assert_eq!(made.strips.len(), count);
        let (off, sum_off) = shares_off(&outline, &made.strips);
        assert!(
            off < 1e-9 && sum_off < 1e-9,
            "round {round}: {off:e} {sum_off:e}"
        );
        (worst, worst_sum) = (worst.max(off), worst_sum.max(sum_off));
        for (index, strip) in made.strips.iter().enumerate() {
            let gap_m = strip.outline.distance_m(made.centre);
            assert!(
                gap_m < 1e-9 * size_m,
                "round {round}, strip {index}: {gap_m}"
            );
            let faults = validity::faults(&strip.outline);
            assert!(
                faults.is_empty(),
                "round {round}, strip {index}: {faults:?}"
            );
        }
        if round % 10 == 0 {
            assert_no_place_is_lost_or_doubled(&outline, &made.strips);
        }
    }
    eprintln!("largest share off: a strip {worst:.1e}, the sum {worst_sum:.1e}");
}

#[test]
fn from_a_place_on_or_near_the_boundary_of_round_ground_strips_fan_out_in_order() {
    let mut chance = Chance(22);
    for round in 0..200 {
        // A ring of even radius bends outwards everywhere, so every ray meets it once.
        let corners = chance.count(3, 40);
        let outline =
            Outline::simple(star_ring(&mut chance, Point::default(), corners, 99.9, 100.0).corners);
        let ring = &outline.parts[0].outer;
        let (from, to) = ring
            .sides()
            .nth(chance.count(0, corners - 1))
            .expect("a side");
        let share = if round % 4 == 0 { 0.0 } else { chance.share() };
        let on = from.between(to, share);
        let place = on.towards(
            chance.between(0.0, 360.0),
            [0.0, 0.001, 1.0, 2.9][round % 4],
        );
        let count = chance.count(2, 30);
        let made = fan(&outline, place, count);
        assert!(made.centre.distance_m(place) <= REACH_M);
        let (off, sum_off) = shares_off(&outline, &made.strips);
        assert!(
            off < 1e-9 && sum_off < 1e-12,
            "round {round}: {off:e} {sum_off:e}"
        );
        for strip in &made.strips {
            assert_eq!(strip.pieces, 1, "round {round}");
            let corners = &strip.outline.parts[0].outer.corners;
            assert!(corners.contains(&made.centre), "round {round}");
        }
        // Neighbours share a whole ray, and the first and last none but the place.
        for pair in made.strips.windows(2) {
            assert!(corners_in_common(&pair[0], &pair[1]) >= 2, "round {round}");
        }
        assert_no_place_is_lost_or_doubled(&outline, &made.strips);
    }
}

fn corners_in_common(one: &StripPiece, two: &StripPiece) -> usize {
    let of_two: Vec<Point> = two
        .outline
        .rings()
        .flat_map(|ring| ring.corners.clone())
        .collect();
    let of_one = one.outline.rings().flat_map(|ring| ring.corners.clone());
    of_one.filter(|corner| of_two.contains(corner)).count()
}

#[test]
fn a_square_about_its_middle_falls_in_the_triangles_that_anyone_would_draw() {
    let outline = Outline::simple(square(0.0, 0.0, 100.0));
    let made = strips_about_place(
        &outline,
        Point::new(50.0, 50.0),
        REACH_M,
        45.0,
        StripSize::Count(4),
    )
    .expect("ground");
    let expected = [
        (100.0, 100.0, 100.0, 0.0),
        (100.0, 0.0, 0.0, 0.0),
        (0.0, 0.0, 0.0, 100.0),
        (0.0, 100.0, 100.0, 100.0),
    ];
    for (strip, (east_a, north_a, east_b, north_b)) in made.strips.iter().zip(expected) {
        let corners = &strip.outline.parts[0].outer.corners;
        assert_eq!(corners.len(), 3, "{corners:?}");
        for corner in [
            Point::new(50.0, 50.0),
            Point::new(east_a, north_a),
            Point::new(east_b, north_b),
        ] {
            assert!(corners.contains(&corner), "{corner:?} in {corners:?}");
        }
    }
}

#[test]
fn the_strip_over_the_far_end_of_the_first_line_is_one_piece_without_corners_of_its_own() {
    let outline = Outline::simple(square(0.0, 0.0, 100.0));
    // Three from due north: the middle one lies astride due south.
    let made = strips_about_place(
        &outline,
        Point::new(50.0, 50.0),
        REACH_M,
        0.0,
        StripSize::Count(3),
    )
    .expect("ground");
    let middle = &made.strips[1];
    assert_eq!(middle.pieces, 1);
    assert_eq!(middle.outline.parts[0].outer.corners.len(), 5, "{middle:?}");
    assert_eq!(
        made.strips.iter().map(|strip| strip.pieces).sum::<usize>(),
        3
    );
}

#[test]
fn ground_that_is_bent_or_in_parts_is_shared_out_whole_and_pieces_that_do_not_reach_are_there_to_be_told()
 {
    let mut chance = Chance(23);
    let mut broken = 0;
    for round in 0..120 {
        let outline = if round % 3 == 2 {
            let shift = Point::new(150.0, 20.0);
            Outline {
                parts: vec![
                    star_with_holes(&mut chance, Point::default(), 60.0).parts[0].clone(),
                    star_with_holes(&mut chance, shift, 60.0).parts[0].clone(),
                ],
            }
        } else {
            turned(
                &comb(&mut chance, Point::new(-50.0, -30.0), 6, 100.0, 60.0),
                7.0 * f64::from(round),
            )
        };
        let ring = &outline.parts[0].outer;
        let corner = ring.corners[chance.count(0, ring.corners.len() - 1)];
        let place = corner.towards(chance.between(0.0, 360.0), chance.between(0.0, 12.0));
        let count = chance.count(2, 12);
        let made = fan(&outline, place, count);
        let (off, sum_off) = shares_off(&outline, &made.strips);
        assert!(
            off < 1e-9 && sum_off < 1e-9,
            "round {round}: {off:e} {sum_off:e}"
        );
        broken += made.strips.iter().filter(|strip| strip.pieces > 1).count();
        for strip in &made.strips {
            assert_eq!(strip.pieces, strip.outline.parts.len());
        }
        assert_no_place_is_lost_or_doubled(&outline, &made.strips);
    }
    assert!(broken > 20, "{broken}");
}

#[test]
fn about_a_place_in_a_hole_every_strip_lies_round_the_hole() {
    let outline = Outline {
        parts: vec![Polygon {
            outer: Ring::new(square(0.0, 0.0, 100.0)),
            holes: vec![Ring::new(square(40.0, 40.0, 20.0))],
        }],
    };
    let made = fan(&outline, Point::new(50.0, 50.0), 5);
    let (off, sum_off) = shares_off(&outline, &made.strips);
    assert!(off < 1e-9 && sum_off < 1e-12, "{off:e} {sum_off:e}");
    for strip in &made.strips {
        assert_eq!((strip.pieces, strip.outline.parts[0].holes.len()), (1, 0));
        assert!(strip.outline.distance_m(Point::new(50.0, 50.0)) <= 10.0 * 2.0_f64.sqrt());
    }
}

#[test]
fn strips_of_a_given_area_leave_the_rest_to_the_last_one_clockwise() {
    let outline = Outline::simple(square(0.0, 0.0, 100.0));
    let made = strips_about_place(
        &outline,
        Point::new(50.0, 0.0),
        REACH_M,
        0.0,
        StripSize::AreaM2(3000.0),
    )
    .expect("ground");
    let areas: Vec<f64> = made
        .strips
        .iter()
        .map(|strip| strip.outline.area_m2())
        .collect();
    assert_eq!(areas.len(), 4);
    for (area_m2, due_m2) in areas.iter().zip([3000.0, 3000.0, 3000.0, 1000.0]) {
        assert!((area_m2 / due_m2 - 1.0).abs() < 1e-9, "{areas:?}");
    }
    // Seen from the south side, the first lies to the west.
    assert!(made.strips[0].outline.contains(Point::new(1.0, 1.0)));
    assert!(made.strips[3].outline.contains(Point::new(99.0, 1.0)));
}

#[test]
fn what_cannot_fan_is_refused_with_the_cause() {
    let outline = Outline::simple(square(0.0, 0.0, 100.0));
    let middle = Point::new(50.0, 50.0);
    let made =
        |place, bearing_deg, size| strips_about_place(&outline, place, REACH_M, bearing_deg, size);
    assert_eq!(
        made(middle, 0.0, StripSize::WidthM(5.0)),
        Err(CutError::NoOneWidth)
    );
    assert_eq!(
        made(middle, 0.0, StripSize::Count(0)),
        Err(CutError::NoStrips)
    );
    assert_eq!(
        made(middle, f64::NAN, StripSize::Count(3)),
        Err(CutError::NotABearing)
    );
    assert_eq!(
        made(middle, 0.0, StripSize::AreaM2(-1.0)),
        Err(CutError::NoSize)
    );
    assert_eq!(
        strips_about_place(&Outline::default(), middle, 3.0, 0.0, StripSize::Count(2)),
        Err(CutError::NoGround)
    );
}
