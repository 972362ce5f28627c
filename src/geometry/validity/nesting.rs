//! What lies inside what: holes within their outer ring, no hole in a hole, no part in a part.
//!
//! Only rings that neither cross nor share a stretch are compared, so one place of a ring speaks for all of it.

use super::super::{Bounds, Ring, Whereabouts};
use super::touches::Contacts;
use super::{CheckedRing, FaultKind, ShapeFault};

struct Placed<'a> {
    index: usize,
    checked: &'a CheckedRing,
    ring: Ring,
    bounds: Bounds,
}

/// Adds a fault for each ring that lies where it must not.
pub(super) fn check(rings: &[CheckedRing], contacts: &Contacts, faults: &mut Vec<ShapeFault>) {
    let placed: Vec<Placed<'_>> = rings.iter().enumerate().filter_map(placed).collect();
    for (at, one) in placed.iter().enumerate() {
        for two in placed.iter().skip(at + 1) {
            if contacts.entangled.contains(&(one.index, two.index)) {
                continue;
            }
            let pair_kind = if one.checked.part == two.checked.part {
                check_hole(one, two)
            } else if one.checked.ring == 0 && two.checked.ring == 0 {
                check_parts(&placed, one, two)
            } else {
                None
            };
            if let (Some(kind), Some(place)) = (pair_kind, two.checked.corner(0)) {
                faults.push(two.checked.fault(kind, 0, place));
            }
        }
    }
}

fn placed((index, checked): (usize, &CheckedRing)) -> Option<Placed<'_>> {
    let ring = Ring {
        corners: checked.corners.clone(),
    };
    let bounds = ring.bounds()?;
    Some(Placed {
        index,
        checked,
        ring,
        bounds,
    })
}

/// Two rings of one part: the second is a hole, the first its outer ring or another hole.
fn check_hole(one: &Placed<'_>, two: &Placed<'_>) -> Option<FaultKind> {
    if one.checked.ring == 0 {
        return (!lies_inside(two, one)).then_some(FaultKind::HoleOutside);
    }
    (lies_inside(two, one) || lies_inside(one, two)).then_some(FaultKind::HolesOverlap)
}

/// Two parts: one may lie inside the other only within a hole.
fn check_parts(placed: &[Placed<'_>], one: &Placed<'_>, two: &Placed<'_>) -> Option<FaultKind> {
    let covers = |cover: &Placed<'_>, inner: &Placed<'_>| {
        let mut holes = placed
            .iter()
            .filter(|hole| hole.checked.part == cover.checked.part && hole.checked.ring > 0);
        lies_inside(inner, cover) && !holes.any(|hole| lies_inside(inner, hole))
    };
    (covers(one, two) || covers(two, one)).then_some(FaultKind::PartsOverlap)
}

/// Whether the first ring lies within the second, touching allowed.
fn lies_inside(inner: &Placed<'_>, cover: &Placed<'_>) -> bool {
    if !inner.bounds.meets(cover.bounds) {
        return false;
    }
    let corners = inner.ring.corners.iter().copied();
    let middles = inner.ring.sides().map(|(from, to)| from.between(to, 0.5));
    corners
        .chain(middles)
        .map(|place| cover.ring.whereabouts(place))
        .find(|whereabouts| *whereabouts != Whereabouts::OnBoundary)
        == Some(Whereabouts::Inside)
}
