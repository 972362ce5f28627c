//! How far ground is from a line or from other ground: whether a strip reaches what it was cut for. Metres.

use super::super::line::stretches;
use super::super::sides::{Meeting, meeting};
use super::super::{Outline, Point};

/// Distance from ground to a line, 0 where they meet; infinite where either is nothing.
pub fn gap_to_line_m(outline: &Outline, line: &[Point]) -> f64 {
    let ends = line
        .iter()
        .map(|point| outline.distance_m(*point))
        .fold(f64::INFINITY, f64::min);
    if ends <= 0.0 {
        return 0.0;
    }
    let mut gap_m = ends;
    for (from, to) in stretches(line).filter(|(from, to)| from != to) {
        for (corner, next) in outline.rings().flat_map(super::super::Ring::sides) {
            if corner != next && meeting(from, to, corner, next) != Meeting::Apart {
                return 0.0;
            }
            gap_m = gap_m.min(corner.distance_m(corner.nearest_on_side(from, to)));
        }
    }
    gap_m
}

/// Distance from ground to other ground, 0 where they meet.
pub fn gap_to_outline_m(outline: &Outline, other: &Outline) -> f64 {
    let first = |outline: &Outline| {
        outline
            .rings()
            .next()
            .and_then(|ring| ring.corners.first().copied())
    };
    // One within the other meets none of its sides.
    let is_within = first(outline).is_some_and(|place| other.contains(place))
        || first(other).is_some_and(|place| outline.contains(place));
    if is_within {
        return 0.0;
    }
    let gaps = other.rings().map(|ring| {
        let mut round = ring.corners.clone();
        round.extend(ring.corners.first().copied());
        gap_to_line_m(outline, &round)
    });
    gaps.fold(f64::INFINITY, f64::min)
}
