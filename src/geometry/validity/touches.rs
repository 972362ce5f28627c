//! Places where boundaries touch at a corner: whether they cross there, touch themselves, or cut the ground apart.

use std::collections::{BTreeMap, BTreeSet};

use super::super::Point;
use super::super::place_key::PlaceKey;
use super::super::sides::{Turn, turn};
use super::side_meetings::Found;
use super::{CheckedRing, FaultKind, ShapeFault};

/// How rings lie to each other at their touches.
pub(super) struct Contacts {
    /// Pairs of rings, lower first, that cross or share a stretch, so that neither is inside the other.
    pub(super) entangled: BTreeSet<(usize, usize)>,
}

/// A ring running through a place: where it comes from and where it goes.
struct Pass {
    ring: usize,
    corner: usize,
    from: Point,
    to: Point,
}

/// Tells crossings at corners from touches, and finds touching rings that cut the ground apart.
pub(super) fn sort_out(
    rings: &[CheckedRing],
    found: Found,
    faults: &mut Vec<ShapeFault>,
) -> Contacts {
    let mut sides_at: BTreeMap<PlaceKey, BTreeSet<(usize, usize)>> = BTreeMap::new();
    for (ring, side, place) in found.touches {
        sides_at
            .entry(PlaceKey(place))
            .or_default()
            .insert((ring, side));
    }
    let mut entangled = found.entangled;
    let mut touching: Vec<(usize, usize)> = Vec::new();
    for (index, (key, sides)) in sides_at.iter().enumerate() {
        let passes = passes_at(rings, key.0, sides);
        for (at, one) in passes.iter().enumerate() {
            for two in passes.iter().skip(at + 1) {
                judge(rings, key.0, one, two, &mut entangled, faults);
            }
        }
        let through: BTreeSet<usize> = passes.iter().map(|pass| pass.ring).collect();
        touching.extend(through.into_iter().map(|ring| (ring, index)));
    }
    find_cut_apart(rings, &touching, &sides_at, &entangled, faults);
    Contacts { entangled }
}

/// The runs of rings through a place, each once.
fn passes_at(rings: &[CheckedRing], place: Point, sides: &BTreeSet<(usize, usize)>) -> Vec<Pass> {
    let mut seen = BTreeSet::new();
    let mut passes = Vec::new();
    for &(ring, side) in sides {
        let Some(checked) = rings.get(ring) else {
            continue;
        };
        let count = checked.corners.len();
        let (Some(from), Some(to)) = (checked.corner(side), checked.corner(side + 1)) else {
            continue;
        };
        let corner = if place == from {
            Some(side)
        } else if place == to {
            Some((side + 1) % count)
        } else {
            None
        };
        let (from, to, id) = match corner {
            None => (Some(from), Some(to), (ring, side, true)),
            Some(corner) => (
                checked.corner(corner + count - 1),
                checked.corner(corner + 1),
                (ring, corner, false),
            ),
        };
        if let (Some(from), Some(to), true) = (from, to, seen.insert(id)) {
            let corner = corner.unwrap_or(side);
            passes.push(Pass {
                ring,
                corner,
                from,
                to,
            });
        }
    }
    passes
}

fn judge(
    rings: &[CheckedRing],
    place: Point,
    one: &Pass,
    two: &Pass,
    entangled: &mut BTreeSet<(usize, usize)>,
    faults: &mut Vec<ShapeFault>,
) {
    let (Some(ring), Some(other)) = (rings.get(one.ring), rings.get(two.ring)) else {
        return;
    };
    if cross_at(place, one, two) {
        faults.push(other.fault(ring.fault_kind_with(other, false), two.corner, place));
        if one.ring != two.ring {
            entangled.insert((one.ring.min(two.ring), one.ring.max(two.ring)));
        }
    } else if one.ring == two.ring {
        faults.push(ring.fault(FaultKind::TouchesItself, two.corner, place));
    }
}

/// Whether two runs through a place cross there: exactly one end of the second lies in the wedge of the first.
/// Runs that leave the place along the same ray do not; that is a common stretch and told elsewhere.
fn cross_at(place: Point, one: &Pass, two: &Pass) -> bool {
    let shares_ray = [one.from, one.to].iter().any(|mine| {
        [two.from, two.to]
            .iter()
            .any(|other| same_ray(place, *mine, *other))
    });
    if shares_ray {
        return false;
    }
    in_wedge(place, one.from, one.to, two.from) != in_wedge(place, one.from, one.to, two.to)
}

fn same_ray(place: Point, one: Point, two: Point) -> bool {
    let dot = (one.east_m - place.east_m) * (two.east_m - place.east_m)
        + (one.north_m - place.north_m) * (two.north_m - place.north_m);
    turn(place, one, two) == Turn::Straight && dot > 0.0
}

/// Whether the ray to `to` lies in the wedge swept anticlockwise from the ray to `first` to the ray to `last`.
fn in_wedge(place: Point, first: Point, last: Point, to: Point) -> bool {
    let left_of_first = turn(place, first, to) == Turn::Left;
    match turn(place, first, last) {
        Turn::Left => left_of_first && turn(place, last, to) == Turn::Right,
        Turn::Right => left_of_first || turn(place, last, to) == Turn::Right,
        Turn::Straight => left_of_first,
    }
}

/// Rings of one part and the places where they touch form a web; where it closes, the ground inside is cut off.
/// A part whose rings cross or share a stretch is left out: that fault says enough.
fn find_cut_apart(
    rings: &[CheckedRing],
    touching: &[(usize, usize)],
    sides_at: &BTreeMap<PlaceKey, BTreeSet<(usize, usize)>>,
    entangled: &BTreeSet<(usize, usize)>,
    faults: &mut Vec<ShapeFault>,
) {
    let places: Vec<Point> = sides_at.keys().map(|key| key.0).collect();
    let part_of = |ring: usize| rings.get(ring).map(|checked| checked.part);
    let mut parts: BTreeSet<usize> = rings.iter().map(|ring| ring.part).collect();
    for (one, two) in entangled {
        if let (Some(part), true) = (part_of(*one), part_of(*one) == part_of(*two)) {
            parts.remove(&part);
        }
    }
    for part in parts {
        let mut web = Web::new(rings.len() + places.len());
        for &(ring, place) in touching {
            let Some(checked) = rings.get(ring).filter(|checked| checked.part == part) else {
                continue;
            };
            if !web.join(ring, rings.len() + place) {
                let place = places.get(place).copied().unwrap_or_default();
                faults.push(checked.fault(FaultKind::CutApart, 0, place));
            }
        }
    }
}

/// Which things hang together (union and find).
struct Web {
    above: Vec<usize>,
}

impl Web {
    fn new(count: usize) -> Self {
        Self {
            above: (0..count).collect(),
        }
    }

    fn top(&self, mut node: usize) -> usize {
        while let Some(&above) = self.above.get(node).filter(|above| **above != node) {
            node = above;
        }
        node
    }

    /// Joins two; false where they hung together already.
    fn join(&mut self, one: usize, two: usize) -> bool {
        let (one, two) = (self.top(one), self.top(two));
        if let Some(above) = self.above.get_mut(two) {
            *above = one;
        }
        one != two
    }
}
