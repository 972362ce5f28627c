//! The net of old sides and new ones, and its faces.
//!
//! Every old run of boundary is walked once, with the ground to its left; every new stretch is walked both ways. At a
//! node the walk takes the leftmost way on, so that it goes round one piece of ground.

use std::collections::BTreeMap;

use super::super::place_key::PlaceKey;
use super::super::{Point, Ring};
use super::leftmost_turn;

/// A run of the cut line inside the ground, from boundary to boundary.
pub(super) type Stretch = Vec<Point>;

/// A way from node to node.
struct Way {
    places: Vec<Point>,
    /// The stretch it walks, where it is a new side.
    stretch: Option<usize>,
}

/// Boundary runs and stretches between the nodes.
pub(super) struct Net {
    ways: Vec<Way>,
    stretches: Vec<Stretch>,
    untouched: Vec<Vec<Point>>,
}

impl Net {
    /// A net of rings, the places on them as (ring, side, share of the side, place), and stretches between these.
    pub(super) fn new(
        rings: &[Ring],
        contacts: &[(usize, usize, f64, Point)],
        stretches: Vec<Stretch>,
    ) -> Self {
        let mut net = Self {
            ways: Vec::new(),
            stretches,
            untouched: Vec::new(),
        };
        for (index, ring) in rings.iter().enumerate() {
            let mut on_ring: Vec<(usize, f64, Point)> = contacts
                .iter()
                .filter(|(ring, ..)| *ring == index)
                .map(|(_, side, share, place)| (*side, *share, *place))
                .collect();
            on_ring.sort_by(|one, two| one.0.cmp(&two.0).then(one.1.total_cmp(&two.1)));
            if on_ring.is_empty() {
                net.untouched.push(ring.corners.clone());
            } else {
                net.add_ring(ring, &on_ring);
            }
        }
        net
    }

    fn add_ring(&mut self, ring: &Ring, contacts: &[(usize, f64, Point)]) {
        // All places round the ring, nodes marked.
        let mut places: Vec<(Point, bool)> = Vec::new();
        for (side, corner) in ring.corners.iter().enumerate() {
            places.push((*corner, false));
            let here = contacts.iter().filter(|contact| contact.0 == side);
            places.extend(here.map(|contact| (contact.2, true)));
        }
        let nodes: Vec<PlaceKey> = contacts.iter().map(|contact| PlaceKey(contact.2)).collect();
        for (place, is_node) in &mut places {
            *is_node = *is_node || nodes.contains(&PlaceKey(*place));
        }
        places.dedup_by(|later, earlier| later.0 == earlier.0);
        if places.len() > 1
            && places.first().map(|first| first.0) == places.last().map(|last| last.0)
        {
            places.pop();
        }
        let start = places.iter().position(|(_, is_node)| *is_node).unwrap_or(0);
        places.rotate_left(start);
        places.extend(places.first().copied());
        let mut run: Vec<Point> = Vec::new();
        for (place, is_node) in places {
            run.push(place);
            if is_node && run.len() > 1 {
                let places = std::mem::replace(&mut run, vec![place]);
                self.ways.push(Way {
                    places,
                    stretch: None,
                });
            }
        }
    }

    /// The rings round the faces, and the rings no stretch came near; none where no stretch cuts.
    pub(super) fn faces(self) -> Option<(Vec<Stretch>, Vec<Stretch>)> {
        let mut kept: Vec<usize> = (0..self.stretches.len()).collect();
        loop {
            if kept.is_empty() {
                return None;
            }
            let (faces, idle) = self.trace(&kept);
            if idle.is_empty() {
                return Some((faces, self.untouched));
            }
            kept.retain(|stretch| !idle.contains(stretch));
        }
    }

    /// The faces with some stretches, and which of these have the same face on both sides and so cut nothing.
    fn trace(&self, kept: &[usize]) -> (Vec<Stretch>, Vec<usize>) {
        let new_ways = self.ways_of_stretches(kept);
        let ways: Vec<&Way> = self.ways.iter().chain(&new_ways).collect();
        let mut from_node: BTreeMap<PlaceKey, Vec<usize>> = BTreeMap::new();
        for (index, way) in ways.iter().enumerate() {
            if let Some(first) = way.places.first() {
                from_node.entry(PlaceKey(*first)).or_default().push(index);
            }
        }
        let mut face_of: Vec<Option<usize>> = vec![None; ways.len()];
        let mut faces: Vec<Stretch> = Vec::new();
        for start in 0..ways.len() {
            let mut ring: Vec<Point> = Vec::new();
            let mut at = Some(start);
            while let Some(index) = at {
                let (Some(face @ None), Some(way)) = (face_of.get_mut(index), ways.get(index))
                else {
                    break;
                };
                *face = Some(faces.len());
                ring.extend(
                    way.places
                        .split_last()
                        .map_or(&[][..], |(_, before)| before),
                );
                at = leftmost(&way.places, &from_node, &ways);
            }
            if !ring.is_empty() {
                faces.push(ring);
            }
        }
        let idle = idle_stretches(&ways, &face_of);
        (faces, idle)
    }

    fn ways_of_stretches(&self, kept: &[usize]) -> Vec<Way> {
        let mut ways = Vec::new();
        for index in kept {
            let Some(stretch) = self.stretches.get(*index) else {
                continue;
            };
            let mut back = stretch.clone();
            back.reverse();
            for places in [stretch.clone(), back] {
                ways.push(Way {
                    places,
                    stretch: Some(*index),
                });
            }
        }
        ways
    }
}

/// Stretches whose two ways go round the same face.
fn idle_stretches(ways: &[&Way], face_of: &[Option<usize>]) -> Vec<usize> {
    let mut faces_of: BTreeMap<usize, Vec<Option<usize>>> = BTreeMap::new();
    for (way, face) in ways.iter().zip(face_of) {
        if let Some(stretch) = way.stretch {
            faces_of.entry(stretch).or_default().push(*face);
        }
    }
    faces_of
        .into_iter()
        .filter(|(_, faces)| faces.first() == faces.last())
        .map(|(stretch, _)| stretch)
        .collect()
}

/// The way on from the end of a run of places that turns farthest to the left.
fn leftmost(
    places: &[Point],
    from_node: &BTreeMap<PlaceKey, Vec<usize>>,
    ways: &[&Way],
) -> Option<usize> {
    let node = *places.last()?;
    let came_from = *places.get(places.len().checked_sub(2)?)?;
    let choices = from_node.get(&PlaceKey(node))?;
    let turn = |index: &usize| {
        let next = ways.get(*index).and_then(|way| way.places.get(1));
        leftmost_turn(came_from, node, next.copied().unwrap_or(came_from))
    };
    choices
        .iter()
        .copied()
        .min_by(|one, two| turn(one).total_cmp(&turn(two)))
}
