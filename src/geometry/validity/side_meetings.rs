//! Where sides meet: crossings and common stretches become faults, touches are handed on.
//!
//! Sides are found by a tree of their boxes, so that a ring of many thousand corners is quick.

use std::collections::BTreeSet;

use rstar::{AABB, RTree, RTreeObject};

use super::super::Point;
use super::super::sides::{Meeting, meeting};
use super::{CheckedRing, FaultKind, ShapeFault};

/// What was found beside the faults.
#[derive(Default)]
pub(super) struct Found {
    /// Places at a corner where rings touch: ring, side of that ring, place.
    pub(super) touches: Vec<(usize, usize, Point)>,
    /// Pairs of rings, lower first, that cross or share a stretch.
    pub(super) entangled: BTreeSet<(usize, usize)>,
}

struct Side {
    ring: usize,
    index: usize,
    from: Point,
    to: Point,
}

impl RTreeObject for Side {
    type Envelope = AABB<[f64; 2]>;

    fn envelope(&self) -> Self::Envelope {
        AABB::from_corners(
            [self.from.east_m, self.from.north_m],
            [self.to.east_m, self.to.north_m],
        )
    }
}

/// Compares every side with those whose boxes it meets.
pub(super) fn find(rings: &[CheckedRing], faults: &mut Vec<ShapeFault>) -> Found {
    let tree = RTree::bulk_load(rings.iter().enumerate().flat_map(sides_of).collect());
    let mut found = Found::default();
    for (index, ring) in rings.iter().enumerate() {
        for side in sides_of((index, ring)) {
            for other in tree.locate_in_envelope_intersecting(side.envelope()) {
                if (side.ring, side.index) < (other.ring, other.index) {
                    compare(rings, &side, other, &mut found, faults);
                }
            }
        }
    }
    found
}

fn sides_of((ring, checked): (usize, &CheckedRing)) -> Vec<Side> {
    let next = checked.corners.iter().cycle().skip(1);
    let sides = checked.corners.iter().zip(next).enumerate();
    sides
        .map(|(index, (from, to))| Side {
            ring,
            index,
            from: *from,
            to: *to,
        })
        .collect()
}

fn compare(
    rings: &[CheckedRing],
    one: &Side,
    two: &Side,
    found: &mut Found,
    faults: &mut Vec<ShapeFault>,
) {
    let (Some(ring), Some(other)) = (rings.get(one.ring), rings.get(two.ring)) else {
        return;
    };
    let common_corner = common_corner(ring, one, two);
    let meeting = meeting(one.from, one.to, two.from, two.to);
    let (kind, place) = match (meeting, common_corner) {
        (Meeting::Apart, _) | (Meeting::Touch(_), Some(_)) => return,
        (Meeting::Touch(place), None) => {
            found.add_touch(one, two, place);
            return;
        }
        (Meeting::Cross(place), _) => (ring.fault_kind_with(other, false), place),
        (Meeting::Along(_, _), Some(turns_back)) => (FaultKind::Spike, turns_back),
        (Meeting::Along(from, to), None) => {
            // The ends of the stretch are corners too, where the rings may go on to cross.
            found.add_touch(one, two, from);
            found.add_touch(one, two, to);
            (ring.fault_kind_with(other, true), from.between(to, 0.5))
        }
    };
    if one.ring == two.ring {
        faults.push(ring.fault(kind, one.index, place));
    } else {
        // A fault with the outer ring is told of the hole, one between parts of the later part.
        found.entangled.insert((one.ring, two.ring));
        faults.push(other.fault(kind, two.index, place));
    }
}

/// The corner between two sides of one ring that follow each other; `one` comes first in the ring's order.
fn common_corner(ring: &CheckedRing, one: &Side, two: &Side) -> Option<Point> {
    if one.ring != two.ring {
        return None;
    }
    if one.index + 1 == two.index {
        Some(one.to)
    } else {
        (one.index == 0 && two.index + 1 == ring.corners.len()).then_some(one.from)
    }
}

impl Found {
    fn add_touch(&mut self, one: &Side, two: &Side, place: Point) {
        self.touches.push((one.ring, one.index, place));
        self.touches.push((two.ring, two.index, place));
    }
}
