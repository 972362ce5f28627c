//! Ways round ground: never nearer than the width, never shorter than straight, and the shortest where it is known.

use foldcourse::geometry::oblong::{lies_within, overlap, shares_ground};
use foldcourse::geometry::way_round::WayFinder;
use foldcourse::geometry::{Outline, Point};
use proptest::prelude::*;

fn rectangle(east_m: f64, north_m: f64, width_m: f64, height_m: f64) -> Outline {
    Outline::simple(corners(east_m, north_m, width_m, height_m).to_vec())
}

fn corners(east_m: f64, north_m: f64, width_m: f64, height_m: f64) -> [Point; 4] {
    [
        Point::new(east_m, north_m),
        Point::new(east_m + width_m, north_m),
        Point::new(east_m + width_m, north_m + height_m),
        Point::new(east_m, north_m + height_m),
    ]
}

/// Distance of a place from an axis-parallel rectangle, 0 inside.
fn off_m(place: Point, (east_m, north_m, width_m, height_m): (f64, f64, f64, f64)) -> f64 {
    let east = (east_m - place.east_m)
        .max(place.east_m - east_m - width_m)
        .max(0.0);
    let north = (north_m - place.north_m)
        .max(place.north_m - north_m - height_m)
        .max(0.0);
    east.hypot(north)
}

fn way(finder: &WayFinder, from: Point, to: Point) -> Option<(Vec<Point>, f64)> {
    let found = finder.way(&finder.station(from), &finder.station(to))?;
    Some((found.corners, found.length_m))
}

#[test]
fn a_wall_is_passed_at_its_nearer_end() {
    let wall = rectangle(-1.0, -30.0, 2.0, 40.0);
    let finder = WayFinder::new([&wall], 2.0);
    let (from, to) = (Point::new(-20.0, 0.0), Point::new(20.0, 0.0));
    let (corners, length_m) = way(&finder, from, to).unwrap();
    // Tight round the north end, 10 m up: two tangents and the arc of 2 m about each corner. Chords make it a little longer.
    let tight_m = 2.0 * (19.0_f64.hypot(10.0)) + 2.0;
    assert!(
        length_m >= tight_m - 0.2 && length_m < tight_m * 1.08,
        "{length_m} against {tight_m}"
    );
    assert!(
        corners.iter().all(|corner| corner.north_m > -1.0),
        "{corners:?}"
    );
}

#[test]
fn a_closed_ring_has_no_way_in_and_a_gap_wide_enough_has() {
    let ring = |gap_m: f64| {
        vec![
            rectangle(-10.0, -10.0, 1.0, 20.0),
            rectangle(9.0, -10.0, 1.0, 20.0),
            rectangle(-10.0, -10.0, 20.0, 1.0),
            rectangle(-10.0, 9.0, 10.0 - gap_m / 2.0, 1.0),
            rectangle(gap_m / 2.0, 9.0, 10.0 - gap_m / 2.0, 1.0),
        ]
    };
    let (from, to) = (Point::new(0.0, 0.0), Point::new(0.0, -40.0));
    for (gap_m, is_open) in [(0.0, false), (1.9, false), (2.4, true)] {
        let walls = ring(gap_m);
        let finder = WayFinder::new(&walls, 1.0);
        assert_eq!(way(&finder, from, to).is_some(), is_open, "{gap_m}");
    }
}

#[test]
fn oblongs_that_touch_are_apart_and_a_pond_inside_one_is_not() {
    let one = corners(0.0, 0.0, 4.0, 2.0);
    assert!(!overlap(&one, &corners(4.0, 0.0, 4.0, 2.0)));
    assert!(overlap(&one, &corners(3.9, 1.9, 4.0, 2.0)));
    assert!(
        shares_ground(&one, &rectangle(1.0, 0.5, 0.5, 0.5)),
        "a pond within"
    );
    assert!(
        shares_ground(&one, &rectangle(-9.0, -9.0, 30.0, 30.0)),
        "within a pond"
    );
    assert!(
        !shares_ground(&one, &rectangle(4.0, 0.0, 3.0, 2.0)),
        "beside it"
    );
    assert!(lies_within(&one, &rectangle(0.0, 0.0, 4.0, 2.0)));
    assert!(!lies_within(&one, &rectangle(0.0, 0.0, 3.9, 2.0)));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn every_way_keeps_off_all_ground(
        boxes in prop::collection::vec((-50.0..50.0_f64, -50.0..50.0_f64, 1.0..30.0_f64, 1.0..30.0_f64), 0..8),
        ends in ((-70.0..70.0_f64, -70.0..70.0_f64), (-70.0..70.0_f64, -70.0..70.0_f64)),
        width_m in 0.4..3.0_f64,
    ) {
        let outlines: Vec<Outline> = boxes.iter().map(|(e, n, w, h)| rectangle(*e, *n, *w, *h)).collect();
        let finder = WayFinder::new(&outlines, width_m);
        let (from, to) = (Point::new(ends.0.0, ends.0.1), Point::new(ends.1.0, ends.1.1));
        let is_free = |place: Point| boxes.iter().all(|one| off_m(place, *one) > width_m * 1.01);
        prop_assume!(is_free(from) && is_free(to));
        let Some((corners, length_m)) = way(&finder, from, to) else {
            return Ok(());
        };
        prop_assert_eq!((corners[0], corners[corners.len() - 1]), (from, to));
        let walked: f64 = corners.windows(2).map(|pair| pair[0].distance_m(pair[1])).sum();
        prop_assert!((walked - length_m).abs() < 1e-6);
        prop_assert!(length_m >= from.distance_m(to) - 1e-9);
        for pair in corners.windows(2) {
            for step in 0..=60 {
                let place = pair[0].between(pair[1], f64::from(step) / 60.0);
                for one in &boxes {
                    prop_assert!(off_m(place, *one) > width_m * 0.994, "{} from {:?}", off_m(place, *one), one);
                }
            }
        }
        let back = way(&finder, to, from).map(|(_, back_m)| back_m);
        prop_assert!(back.is_some_and(|back_m| (back_m - length_m).abs() < 1e-6));
    }
}
