//! Neighbours stay closed: a corner that an act puts on a shared side is put into the neighbour too. Metres.
//!
//! Only areas are closed up; a line that crosses a boundary keeps its own corners.

use std::collections::BTreeMap;

use crate::farm::{Edit, Farm, Ground, GroundId, Shape};
use crate::geometry::neighbours::{SAME_PLACE_M, share_corner};
use crate::geometry::{Bounds, Outline, Point};

/// The edits, with every new corner put into each area whose side passes it, and with the corners that neighbours
/// already have on the new sides put into these.
pub fn with_shared_corners(farm: &Farm, edits: Vec<Edit>) -> Vec<Edit> {
    let mut after = Areas::after(farm, &edits);
    let mut places: Vec<Point> = Vec::new();
    for edit in &edits {
        let Edit::Ground { old, new, .. } = edit else {
            continue;
        };
        let (had, has) = (corners_of(old.as_deref()), corners_of(new.as_deref()));
        places.extend(has.iter().filter(|place| !had.contains(place)));
    }
    let changed: Vec<GroundId> = edits.iter().filter_map(changed_id).collect();
    let boxes = changed
        .iter()
        .filter_map(|id| after.outlines.get(id)?.bounds());
    let Some(room) = boxes.reduce(Bounds::joined) else {
        return edits;
    };
    let room = room.grown(SAME_PLACE_M);
    after.keep_near(room);
    let stood = corners_in(farm, room);
    for place in &places {
        // A corner that stood there before stays where it is; the new one goes to it.
        let standing = stood
            .iter()
            .find(|corner| corner.distance_m(*place) <= SAME_PLACE_M);
        after.share(*standing.unwrap_or(place), |_| true);
    }
    let standing: Vec<Point> = after
        .outlines
        .values()
        .flat_map(|outline| outline.rings().flat_map(|ring| ring.corners.clone()))
        .filter(|place| room.contains(*place))
        .collect();
    for place in standing {
        after.share(place, |id| changed.contains(&id));
    }
    after.into_edits(farm, edits)
}

/// The neighbours of `of` whose corners lie on corners of it that an act moves, with theirs moved along. `moved` holds each
/// corner's place before and after. Ground that is locked stays.
pub fn neighbours_follow(farm: &Farm, of: GroundId, moved: &[(Point, Point)]) -> Vec<Edit> {
    let goes_to = |corner: Point| {
        let same = |(from, _): &&(Point, Point)| from.distance_m(corner) <= SAME_PLACE_M;
        moved.iter().find(same).map(|(_, to)| *to)
    };
    let follows = |ground: &Ground| {
        let shape = ground
            .shape
            .map_corners(|corner| goes_to(corner).unwrap_or(corner));
        (shape != ground.shape).then(|| Ground {
            shape,
            ..ground.clone()
        })
    };
    let others = farm.ground.iter();
    others
        .filter(|(id, ground)| **id != of && !ground.is_locked)
        .filter_map(|(id, ground)| Some(Edit::change_ground(*id, ground, follows(ground)?)))
        .collect()
}

/// Corners of all areas in a room, as they are before the edits.
fn corners_in(farm: &Farm, room: Bounds) -> Vec<Point> {
    let near = farm
        .ground
        .values()
        .filter_map(Ground::outline)
        .filter(|outline| outline.bounds().is_some_and(|bounds| bounds.meets(room)));
    near.flat_map(|outline| {
        outline
            .rings()
            .flat_map(|ring| ring.corners.iter().copied())
    })
    .filter(|place| room.contains(*place))
    .collect()
}

/// The outlines of all areas once the edits are made.
struct Areas {
    outlines: BTreeMap<GroundId, Outline>,
}

impl Areas {
    fn after(farm: &Farm, edits: &[Edit]) -> Self {
        let mut outlines: BTreeMap<GroundId, Outline> = farm
            .ground
            .iter()
            .filter_map(|(id, ground)| Some((*id, ground.outline()?.clone())))
            .collect();
        for edit in edits {
            if let Edit::Ground { id, new, .. } = edit {
                match new.as_ref().and_then(|ground| ground.outline()) {
                    Some(outline) => outlines.insert(*id, outline.clone()),
                    None => outlines.remove(id),
                };
            }
        }
        Self { outlines }
    }

    fn keep_near(&mut self, room: Bounds) {
        self.outlines
            .retain(|_, outline| outline.bounds().is_some_and(|bounds| bounds.meets(room)));
    }

    /// Puts a corner into every side that passes a place, of the areas wanted.
    fn share(&mut self, place: Point, wanted: impl Fn(GroundId) -> bool) {
        for (id, outline) in &mut self.outlines {
            let near = outline
                .bounds()
                .is_some_and(|bounds| bounds.grown(SAME_PLACE_M).contains(place));
            if near && wanted(*id) {
                share_corner(std::slice::from_mut(outline), place);
            }
        }
    }

    /// The edits with the outlines as they now are; areas that none of them named get one.
    fn into_edits(mut self, farm: &Farm, edits: Vec<Edit>) -> Vec<Edit> {
        let mut all: Vec<Edit> = edits
            .into_iter()
            .map(|edit| match edit {
                Edit::Ground {
                    id,
                    old,
                    new: Some(mut new),
                } => {
                    if let (Shape::Area(shape), Some(outline)) =
                        (&mut new.shape, self.outlines.remove(&id))
                    {
                        *shape = outline;
                    }
                    Edit::Ground {
                        id,
                        old,
                        new: Some(new),
                    }
                }
                other => other,
            })
            .collect();
        for (id, outline) in self.outlines {
            let Some(ground) = farm.ground.get(&id) else {
                continue;
            };
            if ground.outline() != Some(&outline)
                && !all.iter().any(|edit| changed_id(edit) == Some(id))
            {
                let new = Ground {
                    shape: Shape::Area(outline),
                    ..ground.clone()
                };
                all.push(Edit::change_ground(id, ground, new));
            }
        }
        all
    }
}

fn changed_id(edit: &Edit) -> Option<GroundId> {
    match edit {
        Edit::Ground { id, .. } => Some(*id),
        _ => None,
    }
}

fn corners_of(ground: Option<&Ground>) -> Vec<Point> {
    ground
        .filter(|ground| ground.outline().is_some())
        .map_or_else(Vec::new, |ground| ground.shape.corners())
}
