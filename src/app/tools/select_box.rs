//! A box drawn over the map that selects everything lying wholly in it.

use std::collections::BTreeSet;

use super::{Preview, Scene};
use crate::farm::{Ground, GroundId};
use crate::geometry::Point;

/// A box from the corner where the drag began to where the pointer is.
#[derive(Debug, Clone, Copy)]
pub(super) struct SelectBox {
    from: Point,
    to: Point,
}

impl SelectBox {
    /// A box that begins here.
    pub(super) fn at(from: Point) -> Self {
        Self { from, to: from }
    }

    /// Its other corner moves here.
    pub(super) fn stretch(&mut self, to: Point) {
        self.to = to;
    }

    /// What was selected before and all that now lies in the box; what is hidden stays out.
    pub(super) fn selection(&self, scene: Scene<'_>) -> BTreeSet<GroundId> {
        let inside = |ground: &Ground| {
            let corners = ground.shape.corners();
            !corners.is_empty() && corners.into_iter().all(|corner| self.holds(corner))
        };
        let found = scene
            .farm
            .ground
            .iter()
            .filter(|(_, ground)| !scene.hidden.contains(&ground.kind) && inside(ground));
        scene
            .selected
            .iter()
            .copied()
            .chain(found.map(|(id, _)| *id))
            .collect()
    }

    /// The box as a closed line.
    pub(super) fn preview(&self) -> Preview {
        let (from, to) = (self.from, self.to);
        Preview {
            line: vec![
                from,
                Point::new(to.east_m, from.north_m),
                to,
                Point::new(from.east_m, to.north_m),
            ],
            is_closed: true,
            ..Preview::default()
        }
    }

    fn holds(&self, place: Point) -> bool {
        let within =
            |value: f64, one: f64, two: f64| value >= one.min(two) && value <= one.max(two);
        within(place.east_m, self.from.east_m, self.to.east_m)
            && within(place.north_m, self.from.north_m, self.to.north_m)
    }
}
