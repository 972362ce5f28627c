//! Splitting ground along drawn lines: nothing lost, however the line meets the boundary.

use foldcourse::geometry::cut::{CutError, split_by_line};
use foldcourse::geometry::{Outline, Point, Polygon, Ring, validity};

use super::shapes::{Chance, cells, moved, square, star_with_holes, turned};

fn areas(pieces: &[Outline]) -> Vec<f64> {
    let mut areas: Vec<f64> = pieces.iter().map(Outline::area_m2).collect();
    areas.sort_by(f64::total_cmp);
    areas
}

fn line(points: &[(f64, f64)]) -> Vec<Point> {
    points
        .iter()
        .map(|(east, north)| Point::new(*east, *north))
        .collect()
}

/// The points of a line, and the areas it leaves.
type SplitCase = (&'static [(f64, f64)], &'static [f64]);

#[test]
fn a_drawn_line_splits_ground_however_it_meets_the_boundary() {
    let field = Outline::simple(square(0.0, 0.0, 100.0));
    let cases: [SplitCase; 8] = [
        // Over both boundaries.
        (&[(30.0, -5.0), (30.0, 105.0)], &[3000.0, 7000.0]),
        // From corner to corner, snapped.
        (&[(0.0, 0.0), (100.0, 100.0)], &[5000.0, 5000.0]),
        // From a side to a corner, a hair short of it.
        (&[(50.0, 0.0), (99.9995, 99.9996)], &[2500.0, 7500.0]),
        // With a bend in the middle.
        (
            &[(0.0, 50.0), (50.0, 20.0), (100.0, 50.0)],
            &[3500.0, 6500.0],
        ),
        // Across and back: three pieces.
        (
            &[(-5.0, 20.0), (105.0, 20.0), (105.0, 60.0), (-5.0, 60.0)],
            &[2000.0, 4000.0, 4000.0],
        ),
        // A notch out of one side.
        (
            &[(40.0, 0.0), (40.0, 10.0), (60.0, 10.0), (60.0, 0.0)],
            &[200.0, 9800.0],
        ),
        // Along a side for a while, then across.
        (&[(0.0, 0.0), (0.0, 40.0), (100.0, 40.0)], &[4000.0, 6000.0]),
        // A tail that ends within the ground is left off.
        (
            &[
                (50.0, -10.0),
                (50.0, 110.0),
                (120.0, 110.0),
                (120.0, 50.0),
                (80.0, 50.0),
            ],
            &[5000.0, 5000.0],
        ),
    ];
    for (points, expected) in cases {
        let pieces = split_by_line(&field, &line(points)).expect("a cut");
        let areas = areas(&pieces);
        assert_eq!(areas.len(), expected.len(), "{points:?} {areas:?}");
        for (area_m2, expected_m2) in areas.iter().zip(expected) {
            assert!((area_m2 - expected_m2).abs() < 0.1, "{points:?} {areas:?}");
        }
        assert!(
            (areas.iter().sum::<f64>() - 10_000.0).abs() < 1e-8,
            "{points:?}"
        );
        for piece in &pieces {
            assert!(
                validity::is_sound(piece),
                "{points:?} {:?}",
                validity::faults(piece)
            );
        }
    }
}

#[test]
fn a_line_through_a_hole_cuts_and_one_into_a_hole_does_not() {
    let field = Outline {
        parts: vec![Polygon {
            outer: Ring::new(square(0.0, 0.0, 100.0)),
            holes: vec![
                Ring::new(square(40.0, 40.0, 20.0)),
                Ring::new(square(5.0, 5.0, 10.0)),
            ],
        }],
    };
    let through = split_by_line(&field, &line(&[(50.0, -1.0), (50.0, 101.0)])).expect("a cut");
    assert_eq!(areas(&through), [4700.0, 4800.0]);
    assert_eq!(
        through
            .iter()
            .map(|piece| piece.parts[0].holes.len())
            .sum::<usize>(),
        1
    );
    let into = split_by_line(&field, &line(&[(50.0, -1.0), (50.0, 50.0)]));
    assert_eq!(into, Err(CutError::LineDoesNotCross));
    // Round the hole: into it from the south, out of it to the east.
    let corner =
        split_by_line(&field, &line(&[(50.0, -1.0), (50.0, 50.0), (101.0, 50.0)])).expect("a cut");
    assert_eq!(areas(&corner), [2400.0, 7100.0]);
}

#[test]
fn a_line_that_does_not_cross_is_refused() {
    let field = Outline::simple(square(0.0, 0.0, 100.0));
    for points in [
        &[(200.0, 0.0), (200.0, 100.0)][..],
        &[(50.0, 50.0), (50.0, 150.0)],
        &[(20.0, 20.0), (80.0, 80.0)],
        &[(0.0, 0.0), (100.0, 0.0)],
        &[(-5.0, 50.0), (0.0, 50.0)],
    ] {
        assert_eq!(
            split_by_line(&field, &line(points)),
            Err(CutError::LineDoesNotCross),
            "{points:?}"
        );
    }
    assert_eq!(
        split_by_line(&field, &line(&[(1.0, 1.0), (1.0, 1.0)])),
        Err(CutError::LineTooShort)
    );
    let knot = line(&[(-10.0, 10.0), (90.0, 10.0), (90.0, 90.0), (10.0, -10.0)]);
    assert_eq!(
        split_by_line(&field, &knot),
        Err(CutError::LineCrossesItself)
    );
}

#[test]
fn random_lines_across_random_ground_lose_nothing() {
    let mut chance = Chance(16);
    let mut cuts = 0;
    for round in 0..300 {
        let outline = star_with_holes(&mut chance, Point::default(), 100.0);
        let bearing_deg = chance.between(0.0, 360.0);
        let middle = Point::new(chance.between(-30.0, 30.0), chance.between(-30.0, 30.0));
        let drawn = [
            middle.towards(bearing_deg, 150.0),
            middle.moved(chance.between(-8.0, 8.0), chance.between(-8.0, 8.0)),
            middle.towards(bearing_deg + 180.0, 150.0),
        ];
        let pieces = split_by_line(&outline, &drawn).expect("a line right across cuts");
        let sum_m2: f64 = pieces.iter().map(Outline::area_m2).sum();
        assert!(
            (sum_m2 / outline.area_m2() - 1.0).abs() < 1e-12,
            "round {round}"
        );
        for piece in &pieces {
            assert!(
                validity::is_sound(piece),
                "round {round}: {:?}",
                validity::faults(piece)
            );
        }
        cuts += pieces.len() - 1;
    }
    eprintln!("{cuts} cuts");
}

#[test]
fn lines_from_corner_to_corner_of_ground_of_cells_lose_nothing() {
    let mut chance = Chance(18);
    let (mut cut, mut refused) = (0, 0);
    for round in 0..1500 {
        let columns = chance.count(3, 9);
        let outline = cells(&mut chance, columns);
        let outline = match round % 3 {
            0 => outline,
            1 => turned(&outline, chance.between(0.0, 360.0)),
            _ => moved(&turned(&outline, chance.between(0.0, 360.0)), 5e3, -7e3),
        };
        let corners: Vec<Point> = outline
            .rings()
            .flat_map(|ring| ring.corners.clone())
            .collect();
        let mut any = || {
            let corner = corners[chance.count(0, corners.len() - 1)];
            let other = corners[chance.count(0, corners.len() - 1)];
            corner.between(other, [0.0, 0.5, 1.3][chance.count(0, 2)])
        };
        let drawn = [any(), any(), any()];
        match split_by_line(&outline, &drawn) {
            Ok(pieces) => {
                let sum_m2: f64 = pieces.iter().map(Outline::area_m2).sum();
                assert!(
                    (sum_m2 / outline.area_m2() - 1.0).abs() < 1e-9,
                    "round {round}: {sum_m2} of {} {drawn:?}",
                    outline.area_m2()
                );
                for piece in &pieces {
                    let faults = validity::faults(piece);
                    assert!(faults.is_empty(), "round {round}: {faults:?} {drawn:?}");
                }
                cut += 1;
            }
            Err(
                CutError::LineDoesNotCross | CutError::LineCrossesItself | CutError::LineTooShort,
            ) => refused += 1,
            Err(other) => panic!("round {round}: {other}"),
        }
    }
    eprintln!("{cut} cut, {refused} refused");
    assert!(cut > 300 && refused > 100);
}

/// A line out over the boundary and back in within a millimetre of where it left.
#[test]
fn a_line_that_comes_back_beside_where_it_left_still_cuts_truly() {
    let field = Outline::simple(line(&[(0.0, 0.0), (70.0, 0.0), (70.0, 60.0), (0.0, 60.0)]));
    let drawn = line(&[(32.5, 70.0), (17.0, -0.5), (32.7, 70.0)]);
    let pieces = split_by_line(&field, &drawn).expect("a cut");
    assert_eq!(pieces.len(), 3);
    assert!((areas(&pieces).iter().sum::<f64>() - 4200.0).abs() < 1e-9);
}
