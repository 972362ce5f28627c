//! Which ground lies near a place: boxes in a tree, kept up to date piece by piece. Metres.

use std::collections::BTreeMap;

use rstar::{AABB, RTree, RTreeObject};

use super::{Farm, Ground, GroundId, Shape};
use crate::geometry::Bounds;

/// The box of every piece of ground, by place.
#[derive(Debug, Clone, Default)]
pub(super) struct GroundIndex {
    tree: RTree<Placed>,
    boxes: BTreeMap<GroundId, Bounds>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Placed {
    id: GroundId,
    bounds: Bounds,
}

impl RTreeObject for Placed {
    type Envelope = AABB<[f64; 2]>;

    fn envelope(&self) -> Self::Envelope {
        envelope_of(self.bounds)
    }
}

fn envelope_of(bounds: Bounds) -> AABB<[f64; 2]> {
    AABB::from_corners(
        [bounds.least.east_m, bounds.least.north_m],
        [bounds.most.east_m, bounds.most.north_m],
    )
}

impl GroundIndex {
    /// The index of all ground of a farm.
    pub(super) fn of(farm: &Farm) -> Self {
        let boxes: BTreeMap<GroundId, Bounds> = farm
            .ground
            .iter()
            .filter_map(|(id, ground)| Some((*id, bounds_of(ground)?)))
            .collect();
        let placed = boxes
            .iter()
            .map(|(id, bounds)| Placed {
                id: *id,
                bounds: *bounds,
            })
            .collect();
        Self {
            tree: RTree::bulk_load(placed),
            boxes,
        }
    }

    /// Takes in that a piece of ground is as it now stands on the farm; its box before and after.
    pub(super) fn renew(&mut self, farm: &Farm, id: GroundId) -> [Option<Bounds>; 2] {
        let old = self.boxes.remove(&id);
        if let Some(bounds) = old {
            self.tree.remove(&Placed { id, bounds });
        }
        let new = farm.ground.get(&id).and_then(bounds_of);
        if let Some(bounds) = new {
            self.tree.insert(Placed { id, bounds });
            self.boxes.insert(id, bounds);
        }
        [old, new]
    }

    /// Ground whose box meets this one, in the order of its numbers.
    pub(super) fn near(&self, bounds: Bounds) -> Vec<GroundId> {
        let mut found: Vec<GroundId> = self
            .tree
            .locate_in_envelope_intersecting(envelope_of(bounds))
            .map(|placed| placed.id)
            .collect();
        found.sort_unstable();
        found
    }

    /// The box of a piece of ground.
    pub(super) fn bounds(&self, id: GroundId) -> Option<Bounds> {
        self.boxes.get(&id).copied()
    }
}

/// The box of a piece of ground with its width; none where it has no place.
pub(super) fn bounds_of(ground: &Ground) -> Option<Bounds> {
    let corners = ground.shape.corners();
    if !corners.iter().all(|corner| corner.is_finite()) {
        return None;
    }
    let bounds = Bounds::of_points(corners)?;
    Some(match ground.shape {
        Shape::Line(_) => bounds.grown(ground.drawn_width_m().max(0.0) / 2.0),
        Shape::Area(_) | Shape::Place(_) => bounds,
    })
}
