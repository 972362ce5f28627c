//! Corners moved and added together with those of the neighbours that share them. Metres.

use super::Scene;
use crate::farm::{Ground, GroundId};
use crate::geometry::{Bounds, Point};

/// How near two corners lie to be one boundary stone, metres.
const SAME_CORNER_M: f64 = 0.001;

/// The corner moved, and with it every neighbour's corner that lies on it, unless they are held apart.
pub(super) fn corner_moved(
    scene: Scene<'_>,
    id: GroundId,
    place: usize,
    to: Point,
) -> Vec<(GroundId, Ground)> {
    let Some(from) = scene
        .farm
        .ground
        .get(&id)
        .and_then(|ground| ground.shape.corners().get(place).copied())
    else {
        return Vec::new();
    };
    let moves = |corner: Point| corner.distance_m(from) <= SAME_CORNER_M;
    let here = Bounds {
        least: from,
        most: from,
    };
    scene
        .ground_near(here, SAME_CORNER_M)
        .filter(|(other, ground)| *other == id || !scene.holds_apart && !ground.is_locked)
        .filter(|(_, ground)| ground.shape.corners().into_iter().any(moves))
        .map(|(other, ground)| {
            let shape = ground
                .shape
                .map_corners(|corner| if moves(corner) { to } else { corner });
            (
                other,
                Ground {
                    shape,
                    ..ground.clone()
                },
            )
        })
        .collect()
}

/// A corner put into a side, and into every neighbour's side that is the same one.
pub(super) fn corner_added(
    scene: Scene<'_>,
    id: GroundId,
    start: usize,
    to: Point,
) -> Vec<(GroundId, Ground)> {
    let Some(ground) = scene.farm.ground.get(&id) else {
        return Vec::new();
    };
    let corners = ground.shape.corners();
    let side = ground
        .shape
        .sides()
        .into_iter()
        .find(|(from, _)| *from == start);
    let ends = side.and_then(|(from, end)| Some((*corners.get(from)?, *corners.get(end)?)));
    let mut changed = vec![(
        id,
        Ground {
            shape: ground.shape.with_corner_after(start, to),
            ..ground.clone()
        },
    )];
    let Some((from, end)) = ends.filter(|_| !scene.holds_apart) else {
        return changed;
    };
    let along = Bounds::of_points([from, end]).unwrap_or(Bounds {
        least: from,
        most: from,
    });
    let near = scene.ground_near(along, SAME_CORNER_M);
    for (other, neighbour) in near.filter(|(other, _)| *other != id) {
        let theirs = neighbour.shape.corners();
        let same = neighbour.shape.sides().into_iter().find(|(a, b)| {
            let (Some(a), Some(b)) = (theirs.get(*a), theirs.get(*b)) else {
                return false;
            };
            let near = |one: Point, two: Point| one.distance_m(two) <= SAME_CORNER_M;
            (near(*a, from) && near(*b, end)) || (near(*a, end) && near(*b, from))
        });
        if let Some((their_start, _)) = same {
            let shape = neighbour.shape.with_corner_after(their_start, to);
            changed.push((
                other,
                Ground {
                    shape,
                    ..neighbour.clone()
                },
            ));
        }
    }
    changed
}
