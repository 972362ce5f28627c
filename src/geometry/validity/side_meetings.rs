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
    let count = ring.corners.len();
    let follows = one.ring == two.ring
        && (one.index + 1 == two.index || (one.index == 0 && two.index + 1 == count));
    let (kind, place) = match meeting(one.from, one.to, two.from, two.to) {
        Meeting::Apart => return,
        Meeting::Touch(_) if follows => return,
        Meeting::Touch(place) => {
            found.touches.push((one.ring, one.index, place));
            found.touches.push((two.ring, two.index, place));
            return;
        }
        Meeting::Cross(place) => (ring.fault_kind_with(other, false), place),
        Meeting::Along(_, _) if follows => {
            let turns_back = if one.index + 1 == two.index {
                one.to
            } else {
                one.from
            };
            (FaultKind::Spike, turns_back)
        }
        Meeting::Along(from, to) => {
            // The ends of the stretch are corners too, where the rings may go on to cross.
            for place in [from, to] {
                found.touches.push((one.ring, one.index, place));
                found.touches.push((two.ring, two.index, place));
            }
            (ring.fault_kind_with(other, true), from.between(to, 0.5))
        }
    };
    if one.ring != two.ring {
        found.entangled.insert((one.ring, two.ring));
    }
    // A fault with the outer ring is told of the hole; one between parts of the later part.
    if two.ring > one.ring {
        faults.push(other.fault(kind, two.index, place));
    } else {
        faults.push(ring.fault(kind, one.index, place));
    }
}
