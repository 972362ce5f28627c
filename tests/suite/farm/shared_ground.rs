//! How much ground two outlines share, by another way than the program's own. Square metres on the plane.
//!
//! The plane is cut into level bands at every corner and every crossing of sides. Inside a band all sides run straight
//! and in one order, so the width that both cover changes evenly and its value at half height is its mean: the sum over
//! bands is exact but for rounding, for any shape, holes and parts included (a ring that crosses itself is taken by
//! odd and even).

use foldcourse::geometry::{Outline, Point, Ring, overlay};
use proptest::prelude::*;

/// A side as it is met from south to north.
#[derive(Clone, Copy)]
struct Side {
    south: Point,
    north: Point,
}

/// Ground that lies in both outlines.
fn shared_m2(one: &Outline, other: &Outline) -> f64 {
    let (one, two) = (sides_of(one), sides_of(other));
    let levels = levels_of(&one, &two);
    levels
        .iter()
        .zip(levels.iter().skip(1))
        .map(|(south_m, north_m)| {
            let half_m = f64::midpoint(*south_m, *north_m);
            (north_m - south_m) * shared_width_m(&spans_at(&one, half_m), &spans_at(&two, half_m))
        })
        .sum()
}

/// Every side that is not level, from its southern end.
fn sides_of(outline: &Outline) -> Vec<Side> {
    outline
        .rings()
        .flat_map(Ring::sides)
        .filter_map(|(a, b)| match a.north_m.total_cmp(&b.north_m) {
            std::cmp::Ordering::Less => Some(Side { south: a, north: b }),
            std::cmp::Ordering::Greater => Some(Side { south: b, north: a }),
            std::cmp::Ordering::Equal => None,
        })
        .collect()
}

/// The norths of all corners and of all places where sides cross, in order.
fn levels_of(one: &[Side], two: &[Side]) -> Vec<f64> {
    let all: Vec<Side> = one.iter().chain(two).copied().collect();
    let mut levels: Vec<f64> = all
        .iter()
        .flat_map(|side| [side.south.north_m, side.north.north_m])
        .collect();
    for (place, side) in all.iter().enumerate() {
        levels.extend(
            all.iter()
                .skip(place + 1)
                .filter_map(|other| crossing_north_m(*side, *other)),
        );
    }
    levels.sort_by(f64::total_cmp);
    levels.dedup_by(|a, b| a.total_cmp(b).is_eq());
    levels
}

/// Where two sides cross, if they do between their ends.
fn crossing_north_m(one: Side, two: Side) -> Option<f64> {
    let south_m = one.south.north_m.max(two.south.north_m);
    let north_m = one.north.north_m.min(two.north.north_m);
    if south_m >= north_m {
        return None;
    }
    let gap_south_m = one.east_at_m(south_m) - two.east_at_m(south_m);
    let gap_north_m = one.east_at_m(north_m) - two.east_at_m(north_m);
    let changes_side = (gap_south_m < 0.0) != (gap_north_m < 0.0);
    changes_side.then(|| {
        let share = gap_south_m / (gap_south_m - gap_north_m);
        (north_m - south_m)
            .mul_add(share, south_m)
            .clamp(south_m, north_m)
    })
}

impl Side {
    fn east_at_m(self, north_m: f64) -> f64 {
        let share = (north_m - self.south.north_m) / (self.north.north_m - self.south.north_m);
        self.south.between(self.north, share).east_m
    }
}

/// The stretches that lie inside at one level, from west to east.
fn spans_at(sides: &[Side], north_m: f64) -> Vec<(f64, f64)> {
    let mut easts: Vec<f64> = sides
        .iter()
        .filter(|side| side.south.north_m <= north_m && north_m < side.north.north_m)
        .map(|side| side.east_at_m(north_m))
        .collect();
    easts.sort_by(f64::total_cmp);
    let west = easts.iter().copied().step_by(2);
    let east = easts.iter().copied().skip(1).step_by(2);
    west.zip(east).collect()
}

fn shared_width_m(one: &[(f64, f64)], two: &[(f64, f64)]) -> f64 {
    one.iter()
        .flat_map(|(west, east)| {
            two.iter()
                .map(move |(other_west, other_east)| east.min(*other_east) - west.max(*other_west))
        })
        .filter(|width_m| *width_m > 0.0)
        .sum()
}

/// A star-shaped outline about a middle, so that it never crosses itself.
fn star(middle: Point, reaches_m: &[f64]) -> Outline {
    let count = f64::from(u32::try_from(reaches_m.len()).unwrap());
    let corners = (0_u32..)
        .zip(reaches_m)
        .map(|(place, reach_m)| middle.towards(360.0 * f64::from(place) / count, *reach_m));
    Outline::simple(corners.collect())
}

/// Two squares of side 2 about one middle, one turned by 45 degrees, share a regular octagon of
/// 8 (sqrt 2 - 1) = 3.3137 square metres: the judge itself is right.
#[test]
fn the_judge_finds_the_octagon_of_two_squares() {
    let square = star(Point::default(), &[2.0_f64.sqrt(); 4]);
    let corners = [45.0, 135.0, 225.0, 315.0]
        .map(|bearing| Point::default().towards(bearing, 2.0_f64.sqrt()));
    let turned = Outline::simple(corners.to_vec());
    let found = shared_m2(&square, &turned);
    assert!(
        (found - 8.0 * (2.0_f64.sqrt() - 1.0)).abs() < 1e-9,
        "{found}"
    );
}

proptest! {
    #[test]
    fn ground_in_common_measures_the_same_by_bands(
        one in prop::collection::vec(5.0..60.0_f64, 3..14), two in prop::collection::vec(5.0..60.0_f64, 3..14),
        east_m in -80.0..80.0_f64, north_m in -80.0..80.0_f64,
    ) {
        let (one, two) = (star(Point::default(), &one), star(Point::new(east_m, north_m), &two));
        let expected = shared_m2(&one, &two);
        let found = overlay::in_both(&one, &two).area_m2();
        prop_assert!((found - expected).abs() < 0.01, "{found} {expected}");
    }
}
