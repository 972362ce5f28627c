//! Cutting ground: equal to parts in a billion, nothing lost, whatever the shape.

use std::collections::BTreeMap;

use foldcourse::geometry::cut::{
    CutError, StripPiece, bearing_along_side, split_by_line, strips_of_area, strips_of_equal_area,
    strips_of_width,
};
use foldcourse::geometry::{Outline, Point, Polygon, Ring, Whereabouts, validity};

use super::shapes::{Chance, cells, comb, moved, square, star_ring, star_with_holes, turned};

fn total_m2(strips: &[StripPiece]) -> f64 {
    strips.iter().map(|strip| strip.outline.area_m2()).sum()
}

/// Shares off: the worst strip against its due, and the sum against the whole.
fn shares_off(outline: &Outline, strips: &[StripPiece]) -> (f64, f64) {
    let whole_m2 = outline.area_m2();
    let due_m2 = whole_m2 / strips.len() as f64;
    let off = |strip: &StripPiece| (strip.outline.area_m2() / due_m2 - 1.0).abs();
    let worst = strips.iter().map(off).fold(0.0, f64::max);
    (worst, (total_m2(strips) / whole_m2 - 1.0).abs())
}

/// Every corner of a strip that is no corner of the whole must be a corner of a neighbouring strip too, bit for bit.
fn assert_corners_are_shared(outline: &Outline, strips: &[StripPiece]) {
    let key = |corner: &Point| (corner.east_m.to_bits(), corner.north_m.to_bits());
    let corners = |outline: &Outline| -> Vec<(u64, u64)> {
        outline
            .rings()
            .flat_map(|ring| ring.corners.iter().map(key).collect::<Vec<_>>())
            .collect()
    };
    let mut owners: BTreeMap<(u64, u64), Vec<usize>> = BTreeMap::new();
    for (index, strip) in strips.iter().enumerate() {
        for corner in corners(&strip.outline) {
            owners.entry(corner).or_default().push(index);
        }
    }
    let old = corners(outline);
    for (corner, mut owners) in owners {
        owners.dedup();
        assert!(
            owners.len() > 1 || old.contains(&corner),
            "a corner of strip {owners:?} alone"
        );
    }
}

#[test]
fn strips_of_random_shapes_are_equal_to_parts_in_a_billion_and_lose_nothing() {
    let mut chance = Chance(11);
    let (mut worst, mut worst_sum) = (0.0_f64, 0.0_f64);
    for round in 0..400 {
        let size_m = 10.0_f64.powf(chance.between(0.0, 4.0));
        let far_m = size_m * 10.0_f64.powf(chance.between(0.0, 1.0));
        let centre = Point::new(chance.between(-far_m, far_m), chance.between(-far_m, far_m));
        let outline = match round % 3 {
            0 => star_with_holes(&mut chance, centre, size_m),
            1 => {
                let teeth = chance.count(1, 25);
                comb(&mut chance, centre, teeth, size_m, size_m * 0.7)
            }
            _ => Outline::simple(star_ring(&mut chance, centre, 90, size_m * 0.1, size_m).corners),
        };
        let outline = turned(
            &outline,
            if round % 2 == 0 {
                0.0
            } else {
                chance.between(0.0, 360.0)
            },
        );
        let bearing_deg = match round % 5 {
            0 => 90.0 * chance.count(0, 3) as f64,
            _ => chance.between(-400.0, 400.0),
        };
        let count = [1, 2, 3, 7, 24, 100][round % 6];
        let strips = strips_of_equal_area(&outline, bearing_deg, count).expect("ground");
        assert_eq!(strips.len(), count);
        let (off, sum_off) = shares_off(&outline, &strips);
        assert!(off < 1e-9, "round {round}: {off:e}");
        assert!(sum_off < 1e-12, "round {round}: {sum_off:e}");
        (worst, worst_sum) = (worst.max(off), worst_sum.max(sum_off));
        assert_corners_are_shared(&outline, &strips);
        assert!(
            strips
                .iter()
                .all(|strip| strip.pieces == strip.outline.parts.len())
        );
    }
    eprintln!("largest share off: a strip {worst:.1e}, the sum {worst_sum:.1e}");
}

#[test]
fn far_from_the_origin_strips_stay_equal_as_far_as_the_figures_can_say() {
    let mut chance = Chance(12);
    for _ in 0..50 {
        let outline = moved(
            &star_with_holes(&mut chance, Point::default(), 120.0),
            4.0e5,
            -6.0e5,
        );
        let strips =
            strips_of_equal_area(&outline, chance.between(0.0, 360.0), 30).expect("ground");
        let (off, sum_off) = shares_off(&outline, &strips);
        // A corner 7e5 m out is rounded to 1e-10 m; over a strip some 4 m wide that is a share of a few 1e-11.
        assert!(off < 1e-9 && sum_off < 1e-12, "{off:e} {sum_off:e}");
    }
}

#[test]
fn every_place_of_the_ground_lies_in_exactly_one_strip_and_strips_are_sound() {
    let mut chance = Chance(13);
    for round in 0..60 {
        let outline = match round % 2 {
            0 => star_with_holes(&mut chance, Point::default(), 100.0),
            _ => comb(&mut chance, Point::new(-50.0, -30.0), 9, 100.0, 60.0),
        };
        let bearing_deg = chance.between(0.0, 360.0);
        let strips = strips_of_equal_area(&outline, bearing_deg, 13).expect("ground");
        for strip in &strips {
            assert!(
                validity::is_sound(&strip.outline),
                "{:?}",
                validity::faults(&strip.outline)
            );
        }
        for _ in 0..300 {
            let place = Point::new(chance.between(-100.0, 100.0), chance.between(-100.0, 100.0));
            let inside = strips
                .iter()
                .filter(|strip| strip.outline.whereabouts(place) == Whereabouts::Inside);
            let expected = usize::from(outline.whereabouts(place) == Whereabouts::Inside);
            assert_eq!(inside.count(), expected, "round {round}, {place:?}");
        }
    }
}

#[test]
fn strips_lie_from_left_to_right_of_the_bearing_and_cut_lines_run_along_it() {
    let field = Outline::simple(square(0.0, 0.0, 120.0));
    let northward = strips_of_equal_area(&field, 0.0, 4).expect("ground");
    for (index, strip) in northward.iter().enumerate() {
        let bounds = strip.outline.bounds().expect("corners");
        assert!((bounds.least.east_m - 30.0 * index as f64).abs() < 1e-9);
        assert!((bounds.width_m() - 30.0).abs() < 1e-9 && (bounds.height_m() - 120.0).abs() < 1e-9);
    }
    let eastward = strips_of_equal_area(&field, 90.0, 2).expect("ground");
    assert!(eastward[0].outline.contains(Point::new(60.0, 100.0)));
    // A slanting cut of a square through its middle halves it at the middle.
    let slanting = strips_of_equal_area(&field, 45.0, 2).expect("ground");
    assert_eq!(slanting[0].outline.parts[0].outer.corners.len(), 3);
}

#[test]
fn turning_ground_and_bearing_together_changes_no_strip() {
    let mut chance = Chance(14);
    for _ in 0..40 {
        let outline = star_with_holes(&mut chance, Point::default(), 100.0);
        let (bearing_deg, by_deg) = (chance.between(0.0, 360.0), chance.between(0.0, 360.0));
        let here = strips_of_area(&outline, bearing_deg, 900.0).expect("ground");
        let there =
            strips_of_area(&turned(&outline, by_deg), bearing_deg + by_deg, 900.0).expect("ground");
        assert_eq!(here.len(), there.len());
        for (one, two) in here.iter().zip(&there) {
            assert_eq!(one.pieces, two.pieces);
            for (ring, other) in turned(&one.outline, by_deg)
                .rings()
                .zip(two.outline.rings())
            {
                assert!((ring.area_m2() - other.area_m2()).abs() < 1e-7);
                assert!((ring.perimeter_m() - other.perimeter_m()).abs() < 1e-7);
            }
        }
    }
}

#[test]
fn strips_of_a_given_area_leave_the_rest_last() {
    let field = Outline::simple(square(0.0, 0.0, 100.0));
    let strips = strips_of_area(&field, 30.0, 1500.0).expect("ground");
    assert_eq!(strips.len(), 7);
    for strip in &strips[..6] {
        assert!((strip.outline.area_m2() - 1500.0).abs() < 1e-6);
    }
    assert!((strips[6].outline.area_m2() - 1000.0).abs() < 1e-6);
    // A whole number of strips leaves no sliver.
    assert_eq!(
        strips_of_area(&field, 30.0, 2500.0).expect("ground").len(),
        4
    );
    assert_eq!(strips_of_area(&field, 30.0, 1e9).expect("ground").len(), 1);
}

#[test]
fn strips_of_a_width_are_that_wide() {
    let field = Outline::simple(square(0.0, 0.0, 100.0));
    let strips = strips_of_width(&field, 0.0, 12.0).expect("ground");
    let widths: Vec<f64> = strips
        .iter()
        .map(|strip| strip.outline.bounds().expect("corners").width_m())
        .collect();
    assert_eq!(widths.len(), 9);
    assert!(
        widths[..8]
            .iter()
            .all(|width_m| (width_m - 12.0).abs() < 1e-9),
        "{widths:?}"
    );
    assert!((widths[8] - 4.0).abs() < 1e-9);
    let apart = Outline {
        parts: vec![
            Polygon::simple(square(0.0, 0.0, 10.0)),
            Polygon::simple(square(95.0, 0.0, 10.0)),
        ],
    };
    assert_eq!(strips_of_width(&apart, 0.0, 10.0).expect("ground").len(), 3);
}

#[test]
fn a_strip_that_falls_in_two_says_so() {
    // A horseshoe open to the north, cut across its legs: all strips but the first hold a piece of each leg.
    let corners = [
        (0.0, 0.0),
        (50.0, 0.0),
        (50.0, 60.0),
        (40.0, 60.0),
        (40.0, 10.0),
        (10.0, 10.0),
        (10.0, 60.0),
        (0.0, 60.0),
    ];
    let shoe = Outline::simple(
        corners
            .iter()
            .map(|(east, north)| Point::new(*east, *north))
            .collect(),
    );
    let strips = strips_of_equal_area(&shoe, 270.0, 3).expect("ground");
    let pieces: Vec<usize> = strips.iter().map(|strip| strip.pieces).collect();
    assert_eq!(pieces, [1, 2, 2]);
}

#[test]
fn a_cut_beginning_along_a_side_begins_at_that_side_for_either_winding() {
    let corners = vec![
        Point::new(0.0, 0.0),
        Point::new(80.0, 10.0),
        Point::new(70.0, 90.0),
        Point::new(-10.0, 60.0),
    ];
    for reverse in [false, true] {
        let mut corners = corners.clone();
        if reverse {
            corners.reverse();
        }
        let field = Outline::simple(corners);
        for side in 0..4 {
            let bearing_deg = bearing_along_side(&field, 0, side).expect("a side");
            let strips = strips_of_equal_area(&field, bearing_deg, 10).expect("ground");
            let (from, to) = field.parts[0].outer.sides().nth(side).expect("a side");
            let first = &strips[0].outline;
            assert!(
                first.distance_m(from.between(to, 0.5)) < 1e-9,
                "side {side}"
            );
            assert!(strips[9].outline.distance_m(from.between(to, 0.5)) > 10.0);
        }
        assert_eq!(bearing_along_side(&field, 0, 4), None);
        assert_eq!(bearing_along_side(&field, 1, 0), None);
    }
}

#[test]
fn cut_lines_through_corners_and_along_sides_leave_clean_pieces() {
    // The second cut line runs along both inner sides of the cross, the others through nothing.
    let cross = [
        (20.0, 0.0),
        (40.0, 0.0),
        (40.0, 20.0),
        (60.0, 20.0),
        (60.0, 40.0),
        (40.0, 40.0),
        (40.0, 60.0),
        (20.0, 60.0),
        (20.0, 40.0),
        (0.0, 40.0),
        (0.0, 20.0),
        (20.0, 20.0),
    ];
    let cross = Outline::simple(
        cross
            .iter()
            .map(|(east, north)| Point::new(*east, *north))
            .collect(),
    );
    for round in 0..40 {
        let by_deg = 90.0 * f64::from(round % 4)
            + if round < 4 {
                0.0
            } else {
                0.37 * f64::from(round)
            };
        let strips = strips_of_width(&turned(&cross, by_deg), by_deg, 20.0).expect("ground");
        let corners: Vec<usize> = strips
            .iter()
            .map(|strip| strip.outline.parts[0].outer.corners.len())
            .collect();
        assert_eq!(strips.len(), 3);
        assert!(strips.iter().all(|strip| strip.pieces == 1), "{strips:?}");
        assert_eq!((corners[0], corners[2]), (4, 4), "{by_deg}");
        assert!(
            strips
                .iter()
                .all(|strip| validity::is_sound(&strip.outline)),
            "{by_deg}"
        );
    }
    // A diamond hole whose tips lie on cut lines.
    let diamond = [(50.0, 25.0), (75.0, 50.0), (50.0, 75.0), (25.0, 50.0)];
    let field = Outline {
        parts: vec![Polygon {
            outer: Ring::new(square(0.0, 0.0, 100.0)),
            holes: vec![Ring::new(
                diamond
                    .iter()
                    .map(|(east, north)| Point::new(*east, *north))
                    .collect(),
            )],
        }],
    };
    let strips = strips_of_width(&field, 0.0, 25.0).expect("ground");
    for strip in &strips {
        assert!(
            validity::is_sound(&strip.outline),
            "{:?}",
            validity::faults(&strip.outline)
        );
    }
    assert!((total_m2(&strips) - 8750.0).abs() < 1e-9);
}

#[test]
fn ground_of_cells_is_cut_cleanly_along_and_across_at_any_turn() {
    let mut chance = Chance(17);
    for round in 0..400 {
        let columns = chance.count(3, 9);
        let mut outline = cells(&mut chance, columns);
        let by_deg = if round % 4 == 0 {
            0.0
        } else {
            chance.between(0.0, 360.0)
        };
        let by_m = if round % 3 == 0 {
            0.0
        } else {
            chance.between(-9e3, 9e3)
        };
        outline = moved(&turned(&outline, by_deg), by_m, -by_m);
        assert!(validity::is_sound(&outline));
        let bearing_deg = by_deg + 90.0 * chance.count(0, 3) as f64;
        let cut = [
            strips_of_width(&outline, bearing_deg, 10.0),
            strips_of_width(&outline, bearing_deg, 5.0),
            strips_of_equal_area(&outline, bearing_deg, 4),
            strips_of_area(&outline, bearing_deg, 100.0),
        ];
        for strips in cut {
            let strips = strips.expect("ground");
            assert!(
                (total_m2(&strips) / outline.area_m2() - 1.0).abs() < 1e-12,
                "round {round}"
            );
            assert_corners_are_shared(&outline, &strips);
            for strip in &strips {
                let faults = validity::faults(&strip.outline);
                assert!(faults.is_empty(), "round {round}: {faults:?} {strip:?}");
            }
        }
    }
}

#[test]
fn a_thousand_strips_of_ground_of_a_thousand_corners_are_quick() {
    let mut chance = Chance(15);
    let ring = star_ring(&mut chance, Point::new(300.0, -200.0), 1000, 150.0, 400.0);
    let outline = Outline::simple(ring.corners);
    let begun = std::time::Instant::now();
    let strips = strips_of_equal_area(&outline, 33.0, 1000).expect("ground");
    eprintln!("1000 strips of 1000 corners in {:?}", begun.elapsed());
    let (off, sum_off) = shares_off(&outline, &strips);
    eprintln!("share off {off:.1e}, sum {sum_off:.1e}");
    assert!(off < 1e-9 && sum_off < 1e-12);
    assert!(begun.elapsed().as_secs_f64() < 2.0);
}

#[test]
fn what_cannot_be_cut_is_refused_with_the_cause() {
    let field = Outline::simple(square(0.0, 0.0, 10.0));
    let nothing = Outline::default();
    let flat = Outline::simple(vec![
        Point::new(0.0, 0.0),
        Point::new(5.0, 0.0),
        Point::new(9.0, 0.0),
    ]);
    let broken = Outline::simple(vec![
        Point::new(0.0, f64::NAN),
        Point::new(5.0, 0.0),
        Point::new(9.0, 9.0),
    ]);
    for outline in [&nothing, &flat, &broken] {
        assert_eq!(
            strips_of_equal_area(outline, 0.0, 3),
            Err(CutError::NoGround)
        );
        let line = [Point::new(-1.0, 5.0), Point::new(11.0, 5.0)];
        assert_eq!(split_by_line(outline, &line), Err(CutError::NoGround));
    }
    assert_eq!(
        strips_of_equal_area(&field, 0.0, 0),
        Err(CutError::NoStrips)
    );
    assert_eq!(
        strips_of_equal_area(&field, f64::NAN, 2),
        Err(CutError::NotABearing)
    );
    assert_eq!(
        strips_of_equal_area(&field, 0.0, 10_001),
        Err(CutError::TooManyStrips { count: 10_001 })
    );
    assert_eq!(strips_of_area(&field, 0.0, 0.0), Err(CutError::NoSize));
    assert_eq!(strips_of_area(&field, 0.0, f64::NAN), Err(CutError::NoSize));
    assert!(matches!(
        strips_of_area(&field, 0.0, 1e-9),
        Err(CutError::TooManyStrips { .. })
    ));
    assert_eq!(strips_of_width(&field, 0.0, -1.0), Err(CutError::NoSize));
}
