//! Checks of each ring by itself: numbers, count of corners, repeats, ground enclosed.

use super::super::sides::{Turn, turn};
use super::super::{Outline, Point, Ring};
use super::{CheckedRing, FaultKind, ShapeFault};

/// The rings whose sides can be compared; what is wrong with the others, and repeats, goes to `faults`.
pub(super) fn sound_rings(outline: &Outline, faults: &mut Vec<ShapeFault>) -> Vec<CheckedRing> {
    let mut rings = Vec::new();
    for (part, polygon) in outline.parts.iter().enumerate() {
        for (index, ring) in polygon.rings().enumerate() {
            rings.extend(sound_ring(part, index, ring, faults));
        }
    }
    rings
}

fn sound_ring(
    part: usize,
    ring_index: usize,
    ring: &Ring,
    faults: &mut Vec<ShapeFault>,
) -> Option<CheckedRing> {
    let mut checked = CheckedRing {
        part,
        ring: ring_index,
        corners: Vec::with_capacity(ring.corners.len()),
        drawn_corners: (0..ring.corners.len()).collect(),
    };
    if let Some(corner) = ring.corners.iter().position(|place| !place.is_finite()) {
        let place = Point::new(f64::NAN, f64::NAN);
        faults.push(checked.fault(FaultKind::NotFinite, corner, place));
        return None;
    }
    let repeats = leave_out_repeats(ring, &mut checked);
    faults.extend(repeats);
    let first = checked.corners.first().copied().unwrap_or_default();
    if checked.corners.len() < 3 {
        faults.push(checked.fault(FaultKind::TooFewCorners, 0, first));
        return None;
    }
    if on_one_line(&checked.corners) {
        faults.push(checked.fault(FaultKind::NoArea, 0, first));
        return None;
    }
    Some(checked)
}

/// Takes over the ring's corners but those that repeat the one before; a fault for each of these.
fn leave_out_repeats(ring: &Ring, checked: &mut CheckedRing) -> Vec<ShapeFault> {
    let mut repeats = Vec::new();
    let mut kept = Vec::with_capacity(ring.corners.len());
    for (corner, place) in ring.corners.iter().enumerate() {
        if checked.corners.last() == Some(place) {
            repeats.push(checked.fault(FaultKind::RepeatedCorner, corner, *place));
        } else {
            checked.corners.push(*place);
            kept.push(corner);
        }
    }
    while checked.corners.len() > 1 && checked.corners.first() == checked.corners.last() {
        if let (Some(place), Some(corner)) = (checked.corners.pop(), kept.pop()) {
            repeats.push(checked.fault(FaultKind::RepeatedCorner, corner, place));
        }
    }
    checked.drawn_corners = kept;
    repeats
}

fn on_one_line(corners: &[Point]) -> bool {
    let Some((first, rest)) = corners.split_first() else {
        return true;
    };
    let Some((second, rest)) = rest.split_first() else {
        return true;
    };
    rest.iter()
        .all(|corner| turn(*first, *second, *corner) == Turn::Straight)
}
