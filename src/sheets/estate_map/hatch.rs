//! Rows across an outline: the ground of every pattern.
//!
//! Knows geometry only. Metres; a row is a straight piece inside the outline, holes left out.

use crate::geometry::{Outline, Point};

/// More rows than this are not drawn: the pattern would be a solid tint.
const MOST_ROWS: f64 = 600.0;

/// Pieces of parallel lines inside `outline`, `spacing_m` apart, running along `bearing_deg`.
/// Rows lie on a grid fixed to the plane, so neighbours' rows do not depend on each other.
pub(super) fn rows_across(
    outline: &Outline,
    bearing_deg: f64,
    spacing_m: f64,
) -> Vec<(Point, Point)> {
    let (sine, cosine) = bearing_deg.to_radians().sin_cos();
    let along = |point: Point| point.east_m * sine + point.north_m * cosine;
    let across = |point: Point| point.east_m * cosine - point.north_m * sine;
    let back = |along_m: f64, across_m: f64| {
        Point::new(
            along_m * sine + across_m * cosine,
            along_m * cosine - across_m * sine,
        )
    };
    let sides: Vec<(f64, f64, f64, f64)> = outline
        .rings()
        .flat_map(crate::geometry::Ring::sides)
        .map(|(a, b)| (across(a), along(a), across(b), along(b)))
        .collect();
    let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
    for side in &sides {
        least = least.min(side.0);
        most = most.max(side.0);
    }
    if spacing_m <= 0.0 || !least.is_finite() || (most - least) / spacing_m > MOST_ROWS {
        return Vec::new();
    }
    let mut rows = Vec::new();
    let mut row = (least / spacing_m).ceil();
    while row * spacing_m < most {
        // Off the grid by a hair, so that a row never runs along a corner.
        let at_m = row * spacing_m + spacing_m * 1e-7;
        let mut cuts: Vec<f64> = sides
            .iter()
            .filter(|(a, _, b, _)| (*a <= at_m) != (*b <= at_m))
            .map(|(a_across, a_along, b_across, b_along)| {
                a_along + (b_along - a_along) * (at_m - a_across) / (b_across - a_across)
            })
            .collect();
        cuts.sort_by(f64::total_cmp);
        for pair in cuts.chunks_exact(2) {
            if let [from, to] = pair {
                rows.push((back(*from, at_m), back(*to, at_m)));
            }
        }
        row += 1.0;
    }
    rows
}

/// The bearing of the longest side of the first outer ring, degrees; 0 where there is none.
pub(super) fn longest_side_bearing_deg(outline: &Outline) -> f64 {
    let Some(part) = outline.parts.first() else {
        return 0.0;
    };
    part.outer
        .sides()
        .max_by(|(a, b), (c, d)| a.distance_m(*b).total_cmp(&c.distance_m(*d)))
        .map_or(0.0, |(a, b)| a.bearing_deg(b).rem_euclid(180.0))
}

/// Places inside `outline` on a loose grid, each moved a little from its row, the same at every call.
pub(super) fn scattered(outline: &Outline, spacing_m: f64) -> Vec<Point> {
    let mut places = Vec::new();
    for (row, (from, to)) in rows_across(outline, 90.0, spacing_m)
        .into_iter()
        .enumerate()
    {
        let length_m = from.distance_m(to);
        let mut step = (from.east_m / spacing_m).floor();
        while step * spacing_m < to.east_m {
            let shift = wobble(step, row_number(from.north_m, spacing_m));
            let east_m = (step + 0.5 + 0.7 * (shift.0 - 0.5)) * spacing_m;
            let share = if length_m > 0.0 {
                (east_m - from.east_m) / length_m
            } else {
                0.5
            };
            // A margin of a sixth of the spacing keeps blades off the outline.
            let margin = spacing_m / 6.0 / length_m.max(1e-9);
            if share > margin && share < 1.0 - margin {
                let place = from.between(to, share);
                places.push(place.moved(0.0, (shift.1 - 0.5) * 0.4 * spacing_m));
            }
            step += 1.0;
        }
        if row > 400 || places.len() > 6000 {
            break;
        }
    }
    places
}

fn row_number(north_m: f64, spacing_m: f64) -> f64 {
    (north_m / spacing_m).round()
}

/// Two figures from 0 to 1 that look unordered but follow from the cell alone.
pub(super) fn wobble(column: f64, row: f64) -> (f64, f64) {
    let bits = |value: f64| value.to_bits().wrapping_mul(0x9E37_79B9_7F4A_7C15);
    let mut mixed = bits(column) ^ bits(row).rotate_left(29);
    mixed ^= mixed >> 31;
    mixed = mixed.wrapping_mul(0xBF58_476D_1CE4_E5B9);
    mixed ^= mixed >> 27;
    mixed = mixed.wrapping_mul(0x94D0_49BB_1331_11EB);
    mixed ^= mixed >> 32;
    let share = |half: u32| f64::from(half) / f64::from(u32::MAX);
    #[expect(
        clippy::cast_possible_truncation,
        reason = "both halves of 64 bits are meant"
    )]
    let halves = ((mixed >> 32) as u32, mixed as u32);
    (share(halves.0), share(halves.1))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Polygon, Ring};

    fn square(side_m: f64) -> Ring {
        Ring::new(
            [(0.0, 0.0), (side_m, 0.0), (side_m, side_m), (0.0, side_m)]
                .map(|(e, n)| Point::new(e, n))
                .to_vec(),
        )
    }

    #[test]
    fn rows_cover_the_outline_but_not_its_hole() {
        let mut hole = square(40.0);
        for corner in &mut hole.corners {
            *corner = corner.moved(30.0, 30.0);
        }
        let outline = Outline {
            parts: vec![Polygon {
                outer: square(100.0),
                holes: vec![hole],
            }],
        };
        for bearing_deg in [0.0, 90.0, 37.0] {
            let spacing_m = 0.5;
            let length_m: f64 = rows_across(&outline, bearing_deg, spacing_m)
                .iter()
                .map(|(a, b)| a.distance_m(*b))
                .sum();
            let share = length_m * spacing_m / (100.0 * 100.0 - 40.0 * 40.0);
            assert!((share - 1.0).abs() < 0.01, "{bearing_deg}: {share}");
        }
    }

    #[test]
    fn too_fine_a_pattern_is_left_out() {
        assert!(rows_across(&Outline::simple(square(100.0).corners), 0.0, 0.01).is_empty());
    }
}
