//! How much ground two outlines share. Square metres on the plane.
//!
//! The plane is cut into level bands at every corner and every crossing of sides. Inside a band all sides run straight
//! and in one order, so the width that both cover changes evenly and its value at half height is its mean: the sum over
//! bands is exact but for rounding, for any shape, holes and parts included (a ring that crosses itself is taken by
//! odd and even).

use super::{Outline, Point};

/// A side as it is met from south to north.
#[derive(Clone, Copy)]
struct Side {
    south: Point,
    north: Point,
}

impl Outline {
    /// Ground that lies in both outlines, square metres on the plane.
    pub fn shared_m2(&self, other: &Self) -> f64 {
        let boxes_meet = match (self.bounds(), other.bounds()) {
            (Some(one), Some(two)) => one.meets(two),
            _ => false,
        };
        let is_finite = [self, other].iter().all(|outline| {
            outline
                .rings()
                .flat_map(|ring| &ring.corners)
                .all(|corner| corner.is_finite())
        });
        if !boxes_meet || !is_finite {
            return 0.0;
        }
        let (one, two) = (sides_of(self), sides_of(other));
        let levels = levels_of(&one, &two);
        levels
            .iter()
            .zip(levels.iter().skip(1))
            .map(|(south_m, north_m)| {
                let half_m = f64::midpoint(*south_m, *north_m);
                (north_m - south_m)
                    * shared_width_m(&spans_at(&one, half_m), &spans_at(&two, half_m))
            })
            .sum()
    }
}

/// Every side that is not level, from its southern end.
fn sides_of(outline: &Outline) -> Vec<Side> {
    outline
        .rings()
        .flat_map(super::Ring::sides)
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

#[cfg(test)]
mod tests {
    use super::super::{Polygon, Ring};
    use super::*;

    fn outline(corners: &[(f64, f64)]) -> Outline {
        Outline::simple(
            corners
                .iter()
                .map(|(east, north)| Point::new(*east, *north))
                .collect(),
        )
    }

    #[track_caller]
    fn check(one: &Outline, two: &Outline, expected_m2: f64) {
        for (a, b) in [(one, two), (two, one)] {
            let found = a.shared_m2(b);
            assert!(
                (found - expected_m2).abs() < 1e-9,
                "{found} is not {expected_m2}"
            );
        }
    }

    #[test]
    fn squares_share_their_common_corner_and_neighbours_share_nothing() {
        let square = outline(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]);
        check(&square, &square, 100.0);
        check(
            &square,
            &outline(&[(7.0, 6.0), (20.0, 6.0), (20.0, 20.0), (7.0, 20.0)]),
            12.0,
        );
        check(
            &square,
            &outline(&[(10.0, 0.0), (20.0, 0.0), (20.0, 10.0), (10.0, 10.0)]),
            0.0,
        );
        check(
            &square,
            &outline(&[(50.0, 0.0), (60.0, 0.0), (60.0, 10.0)]),
            0.0,
        );
        check(
            &square,
            &outline(&[(f64::NAN, 0.0), (20.0, 0.0), (20.0, 10.0)]),
            0.0,
        );
    }

    /// Two squares of side 2 about one middle, one turned by 45 degrees, share a regular octagon of
    /// 8 (sqrt 2 - 1) = 3.3137 square metres.
    #[test]
    fn a_square_and_its_turned_twin_share_an_octagon() {
        let square = outline(&[(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]);
        let tip = 2.0_f64.sqrt();
        let turned = outline(&[(tip, 0.0), (0.0, tip), (-tip, 0.0), (0.0, -tip)]);
        check(&square, &turned, 8.0 * (2.0_f64.sqrt() - 1.0));
    }

    #[test]
    fn ground_in_a_hole_is_not_shared() {
        let ring = |from: f64, to: f64| {
            Ring::new(
                [(from, from), (to, from), (to, to), (from, to)]
                    .map(|(e, n)| Point::new(e, n))
                    .to_vec(),
            )
        };
        let with_hole = Outline {
            parts: vec![Polygon {
                outer: ring(0.0, 10.0),
                holes: vec![ring(4.0, 6.0)],
            }],
        };
        check(
            &with_hole,
            &outline(&[(0.0, 0.0), (5.0, 0.0), (5.0, 10.0), (0.0, 10.0)]),
            48.0,
        );
    }
}
