//! Places from tapes, offsets and walks round.

use foldcourse::geometry::Point;
use foldcourse::geometry::tape::{
    MeasuredSide, TapeError, closed_walk, corners_from_two_tapes, place_from_base_line,
};

use super::shapes::Chance;

#[test]
fn two_tapes_give_both_corners_left_first() {
    let (a, b) = (Point::new(0.0, 0.0), Point::new(50.0, 0.0));
    // The triangle of sides 3, 4 and 5.
    let [left, right] = corners_from_two_tapes(a, b, 40.0, 30.0).expect("they meet");
    assert!(left.distance_m(Point::new(32.0, 24.0)) < 1e-9, "{left:?}");
    assert!(
        right.distance_m(Point::new(32.0, -24.0)) < 1e-9,
        "{right:?}"
    );
    let mut chance = Chance(71);
    for _ in 0..500 {
        let mut place = || Point::new(chance.between(-500.0, 500.0), chance.between(-500.0, 500.0));
        let (a, b, corner) = (place(), place(), place());
        let found = corners_from_two_tapes(a, b, a.distance_m(corner), b.distance_m(corner))
            .expect("they meet");
        assert!(
            found.iter().any(|found| found.distance_m(corner) < 1e-4),
            "{found:?} {corner:?}"
        );
        for found in found {
            assert!((found.distance_m(a) - corner.distance_m(a)).abs() < 1e-7);
        }
    }
}

#[test]
fn tapes_that_do_not_meet_say_by_how_much() {
    let (a, b) = (Point::new(0.0, 0.0), Point::new(50.0, 0.0));
    let Err(TapeError::TooShort { shortfall_m }) = corners_from_two_tapes(a, b, 20.0, 25.0) else {
        panic!("they cannot meet");
    };
    assert!((shortfall_m - 5.0).abs() < 1e-12);
    let Err(TapeError::TooLong { excess_m }) = corners_from_two_tapes(a, b, 90.0, 25.0) else {
        panic!("they cannot meet");
    };
    assert!((excess_m - 15.0).abs() < 1e-12);
    assert_eq!(
        corners_from_two_tapes(a, b, 20.0, 25.0)
            .expect_err("short")
            .to_string(),
        "the two tapes do not meet: together they are 5.00 m too short"
    );
    let [left, right] = corners_from_two_tapes(a, b, 20.0, 30.0).expect("they just meet");
    assert!(left.distance_m(right) < 1e-6 && left.distance_m(Point::new(20.0, 0.0)) < 1e-6);
    assert_eq!(
        corners_from_two_tapes(a, a, 1.0, 1.0),
        Err(TapeError::SamePlace)
    );
    assert_eq!(
        corners_from_two_tapes(a, b, -1.0, 60.0),
        Err(TapeError::NotALength)
    );
    assert_eq!(
        corners_from_two_tapes(a, b, f64::NAN, 60.0),
        Err(TapeError::NotALength)
    );
}

#[test]
fn offsets_from_a_base_line_lie_to_its_right() {
    let (from, to) = (Point::new(10.0, 10.0), Point::new(10.0, 110.0));
    let place = place_from_base_line(from, to, 30.0, 4.0).expect("a line");
    assert!(place.distance_m(Point::new(14.0, 40.0)) < 1e-12);
    let place = place_from_base_line(from, to, -5.0, -4.0).expect("a line");
    assert!(place.distance_m(Point::new(6.0, 5.0)) < 1e-12);
    assert_eq!(place_from_base_line(from, from, 1.0, 1.0), None);
}

fn degrees(degrees: f64, minutes: f64, seconds: f64) -> f64 {
    degrees + minutes / 60.0 + seconds / 3600.0
}

/// C. D. Ghilani and P. R. Wolf, *Elementary Surveying*, chapter 10: five sides in feet with azimuths from adjusted
/// angles, departures and latitudes to 0.001 ft, and the compass rule. Figures from memory.
#[test]
fn the_worked_example_of_a_traverse_closes_as_published() {
    let sides: Vec<MeasuredSide> = [
        (degrees(126.0, 55.0, 17.0), 647.25),
        (degrees(178.0, 18.0, 58.0), 203.03),
        (degrees(15.0, 31.0, 54.0), 720.35),
        (degrees(284.0, 35.0, 20.0), 610.24),
        (degrees(206.0, 9.0, 41.0), 285.13),
    ]
    .iter()
    .map(|(bearing_deg, length_m)| MeasuredSide {
        bearing_deg: *bearing_deg,
        length_m: *length_m,
    })
    .collect();
    let walk = closed_walk(Point::new(10_000.0, 5_000.0), &sides).expect("a walk");
    assert!((walk.length_m - 2466.0).abs() < 1e-9);
    assert!(
        (walk.misclosure_east_m - 0.026).abs() < 0.002,
        "{}",
        walk.misclosure_east_m
    );
    assert!(
        (walk.misclosure_north_m - 0.077).abs() < 0.002,
        "{}",
        walk.misclosure_north_m
    );
    assert!((walk.misclosure_m() - 0.08).abs() < 0.005);
    assert!(
        (walk.closes_one_in() - 30_000.0).abs() < 1_500.0,
        "{}",
        walk.closes_one_in()
    );
    // The balanced departure and latitude of the first side: 517.444 and −388.835.
    let (from, to) = (walk.adjusted[0], walk.adjusted[1]);
    assert!((to.east_m - from.east_m - 517.444).abs() < 0.002);
    assert!((to.north_m - from.north_m + 388.835).abs() < 0.002);
}

#[test]
fn a_walk_round_closes_after_the_misclosure_is_spread() {
    let mut chance = Chance(72);
    for _ in 0..100 {
        let start = Point::new(chance.between(-99.0, 99.0), 5.0);
        let sides: Vec<MeasuredSide> = (0..chance.count(3, 12))
            .map(|index| MeasuredSide {
                bearing_deg: 40.0 * index as f64 + chance.between(-9.0, 9.0),
                length_m: chance.between(5.0, 80.0),
            })
            .collect();
        let walk = closed_walk(start, &sides).expect("a walk");
        assert_eq!(
            (walk.measured.len(), walk.adjusted.len()),
            (sides.len() + 1, sides.len())
        );
        assert_eq!(walk.adjusted[0], start);
        // The end moved by the whole misclosure is the start.
        let end =
            walk.measured[sides.len()].moved(-walk.misclosure_east_m, -walk.misclosure_north_m);
        assert!(end.distance_m(start) < 1e-9);
        // Each side is changed in proportion to its length alone.
        for (index, side) in sides.iter().enumerate() {
            let next = walk.adjusted.get(index + 1).copied().unwrap_or(start);
            let change_m = (next.east_m - walk.adjusted[index].east_m)
                - (walk.measured[index + 1].east_m - walk.measured[index].east_m);
            let expected_m = -walk.misclosure_east_m * side.length_m / walk.length_m;
            assert!((change_m - expected_m).abs() < 1e-9);
        }
    }
    assert_eq!(
        closed_walk(Point::default(), &[]),
        Err(TapeError::TooFewSides)
    );
}
