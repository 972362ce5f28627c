//! Ground along chosen sides of an outline: what a headland or set-back takes. Metres.
//!
//! Along a side the ground reaches as far in as the width, up to the neighbouring sides; round a corner that points
//! inwards it is rounded, as every place within the width belongs to it.

use std::collections::BTreeSet;

use super::buffer::{LineEnds, drawn_in, line_with_width};
use super::neighbours::share_corner;
use super::overlay::{joined, without};
use super::sides::{Turn, turn};
use super::{Outline, Point, Ring};

/// How far beyond the end of its side a set-back reaches at a blunt corner, as a multiple of its width.
const FARTHEST: f64 = 4.0;

/// The ground that is left once every place within `width_m` of the chosen sides is taken off, and the ground taken.
/// Sides are counted over all rings in order, by the corner they start from; none chosen means all of them.
pub fn set_back(outline: &Outline, width_m: f64, sides: &BTreeSet<usize>) -> (Outline, Outline) {
    let left = if sides.is_empty() {
        drawn_in(outline, width_m)
    } else {
        without(outline, &bands(outline, width_m, sides))
    };
    // With the corners of what is left on its sides, the ground is parted along very same sides and no slivers remain.
    let mut whole = [outline.clone()];
    for corner in left.rings().flat_map(|ring| ring.corners.iter()) {
        share_corner(&mut whole, *corner);
    }
    let [whole] = &whole;
    let taken = without(whole, &left);
    (left, taken)
}

/// The strips of twice the width about the chosen sides.
fn bands(outline: &Outline, width_m: f64, sides: &BTreeSet<usize>) -> Outline {
    let mut all = Outline::default();
    let mut base = 0;
    for part in &outline.parts {
        for (place, ring) in part.rings().enumerate() {
            let is_hole = place > 0;
            // Ground lies to the left of an outer ring that runs anticlockwise, to the right of a hole that does.
            let ground_is_left = (ring.signed_area_m2() > 0.0) != is_hole;
            let count = ring.corners.len();
            let chosen: Vec<bool> = (base..base + count)
                .map(|side| sides.contains(&side))
                .collect();
            for chain in chains(&chosen) {
                let line = chain_line(ring, &chain, width_m, ground_is_left);
                all = joined(&all, &line_with_width(&line, width_m * 2.0, LineEnds::Flat));
            }
            base += count;
        }
    }
    all
}

/// Runs of chosen sides round a ring, each as the indices of its sides.
fn chains(chosen: &[bool]) -> Vec<Vec<usize>> {
    let count = chosen.len();
    let is_chosen = |side: usize| chosen.get(side % count.max(1)).copied().unwrap_or(false);
    let start = (0..count)
        .find(|side| !is_chosen(*side))
        .map_or(0, |side| side + 1);
    let mut chains: Vec<Vec<usize>> = Vec::new();
    let mut goes_on = false;
    for side in (start..start + count).map(|side| side % count) {
        if !is_chosen(side) {
            goes_on = false;
            continue;
        }
        match chains.last_mut().filter(|_| goes_on) {
            Some(chain) => chain.push(side),
            None => chains.push(vec![side]),
        }
        goes_on = true;
    }
    chains
}

/// The corners of a run of sides, drawn out at blunt ends so that the set-back meets the next side squarely.
fn chain_line(ring: &Ring, chain: &[usize], width_m: f64, ground_is_left: bool) -> Vec<Point> {
    let count = ring.corners.len();
    let corner = |place: usize| ring.corners.get(place % count).copied().unwrap_or_default();
    let (Some(first), Some(last)) = (chain.first(), chain.last()) else {
        return Vec::new();
    };
    let mut line: Vec<Point> = chain.iter().map(|side| corner(*side)).collect();
    line.push(corner(last + 1));
    if chain.len() == count {
        // All round: past its beginning, so that no notch is left there.
        line.push(corner(first + 1));
        return line;
    }
    let before_m = beyond_m(
        [corner(first + count - 1), corner(*first), corner(first + 1)],
        width_m,
        ground_is_left,
    );
    let after_m = beyond_m(
        [corner(*last), corner(last + 1), corner(last + 2)],
        width_m,
        ground_is_left,
    );
    if let [head, next, ..] = line.as_mut_slice() {
        *head = head.towards(next.bearing_deg(*head), before_m);
    }
    if let [.., next, tail] = line.as_mut_slice() {
        *tail = tail.towards(next.bearing_deg(*tail), after_m);
    }
    line
}

/// How far past a corner the set-back along one of its sides must reach to meet the other side; 0 at sharp corners,
/// and at those that point inwards.
fn beyond_m([before, at, after]: [Point; 3], width_m: f64, ground_is_left: bool) -> f64 {
    let points_out = match turn(before, at, after) {
        Turn::Left => ground_is_left,
        Turn::Right => !ground_is_left,
        Turn::Straight => return 0.0,
    };
    let turned_deg =
        (at.bearing_deg(after) - before.bearing_deg(at) + 180.0).rem_euclid(360.0) - 180.0;
    let inner_deg = 180.0 - turned_deg.abs();
    if !points_out || inner_deg <= 90.0 {
        return 0.0;
    }
    width_m * (inner_deg - 90.0).to_radians().tan().min(FARTHEST)
}
