//! Ways that bend no more than a circle: their ends, their directions, their bends, and lengths that can be reckoned.

use std::f64::consts::PI;

use foldcourse::geometry::Point;
use foldcourse::geometry::bent_way::{BentWay, Headed, bent_ways};
use foldcourse::geometry::line::length_m;
use proptest::prelude::*;

fn headed(east_m: f64, north_m: f64, bearing_deg: f64) -> Headed {
    Headed {
        at: Point::new(east_m, north_m),
        bearing_deg,
    }
}

fn apart_deg(one_deg: f64, other_deg: f64) -> f64 {
    let apart_deg = (one_deg - other_deg).rem_euclid(360.0);
    apart_deg.min(360.0 - apart_deg)
}

#[test]
fn shortest_ways_have_the_lengths_that_circles_give() {
    let shortest_m = |from, to, radius_m| bent_ways(from, to, radius_m)[0].length_m();
    let from = headed(0.0, 0.0, 0.0);
    // Straight on.
    assert!((shortest_m(from, headed(0.0, 30.0, 0.0), 5.0) - 30.0).abs() < 1e-9);
    // Half a circle to either side.
    for east_m in [-10.0, 10.0] {
        let back = headed(east_m, 0.0, 180.0);
        assert!((shortest_m(from, back, 5.0) - 5.0 * PI).abs() < 1e-9);
    }
    // A quarter, 20 m straight, and another quarter.
    let back = headed(30.0, 0.0, 180.0);
    assert!((shortest_m(from, back, 5.0) - (5.0 * PI + 20.0)).abs() < 1e-9);
    // To a place beside that is nearer than the circle is wide: three circles whose middles are 10, 10 and 14 m apart.
    let beside = headed(4.0, 0.0, 180.0);
    let swing_rad = (7.0_f64 / 10.0).acos();
    let three_m = 5.0 * (swing_rad + (PI + 2.0 * swing_rad) + swing_rad);
    assert!(
        (shortest_m(from, beside, 5.0) - three_m).abs() < 1e-9,
        "{} {three_m}",
        shortest_m(from, beside, 5.0)
    );
}

proptest! {
    #[test]
    fn every_way_keeps_its_ends_its_directions_and_its_circle(
        east_m in -40.0_f64..40.0,
        north_m in -40.0_f64..40.0,
        leaves_deg in 0.0_f64..360.0,
        comes_deg in 0.0_f64..360.0,
        radius_m in 0.5_f64..8.0,
    ) {
        let (from, to) = (headed(1.0, 2.0, leaves_deg), headed(east_m, north_m, comes_deg));
        let ways = bent_ways(from, to, radius_m);
        prop_assert!(ways.len() >= 36 * 4, "four of the six kinds are always there: {}", ways.len());
        let lengths: Vec<f64> = ways.iter().map(BentWay::length_m).collect();
        prop_assert!(lengths.is_sorted());
        prop_assert!(lengths[0] >= from.at.distance_m(to.at) - 1e-9);
        for way in ways.iter().step_by(17) {
            let corners = way.corners();
            prop_assert!(corners[0].distance_m(from.at) < 1e-6);
            prop_assert!(corners[corners.len() - 1].distance_m(to.at) < 1e-6);
            let along_m = length_m(&corners);
            prop_assert!(along_m <= way.length_m() + 1e-6 && along_m > way.length_m() * 0.997);
            // Chords of at most 15 degrees: the first one is half that off, and so are all bends.
            let legs: Vec<(f64, f64)> = corners
                .windows(2)
                .map(|leg| (leg[0].bearing_deg(leg[1]), leg[0].distance_m(leg[1])))
                .filter(|(_, leg_m)| *leg_m > 1e-3)
                .collect();
            prop_assert!(apart_deg(legs[0].0, leaves_deg) < 7.6);
            prop_assert!(apart_deg(legs[legs.len() - 1].0, comes_deg) < 7.6);
            for pair in legs.windows(2) {
                prop_assert!(apart_deg(pair[0].0, pair[1].0) < 15.1, "{pair:?}");
                // Corners on the circle bend by their chords over its radius.
                let most_deg = (f64::midpoint(pair[0].1, pair[1].1) / radius_m).to_degrees();
                prop_assert!(apart_deg(pair[0].0, pair[1].0) < most_deg * 1.02 + 0.1, "{pair:?}");
            }
        }
    }
}
