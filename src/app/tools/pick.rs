//! Selecting, moving and reshaping: the tool that is in hand when no other is.
//!
//! Handles belong to the one thing that is selected. A drag is a preview until it ends.

use std::collections::BTreeSet;

use super::select_box::SelectBox;
use super::shared_corner::{corner_added, corner_moved};
use super::{MapEvent, Preview, Scene, ToolReply, only};
use crate::farm::{Edit, Ground, GroundId, Shape};
use crate::geometry::{Bounds, Point};

/// Selects, moves and reshapes.
#[derive(Debug, Clone, Default)]
pub struct Pick {
    drag: Option<Drag>,
    boxed: Option<SelectBox>,
}

#[derive(Debug, Clone)]
struct Drag {
    grip: Grip,
    from: Point,
    changed: Vec<(GroundId, Ground)>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Grip {
    /// One corner of one thing.
    Corner(GroundId, usize),
    /// A new corner in the middle of a side.
    Side(GroundId, usize),
    /// Everything selected.
    Whole,
}

impl Pick {
    pub(super) fn handle(&mut self, event: MapEvent, scene: Scene<'_>) -> ToolReply {
        match event {
            MapEvent::Clicked { at, adds } => click(at, adds, scene),
            MapEvent::DoubleClicked(at) => add_corner(at, scene),
            MapEvent::BoxStarted(at) => {
                self.boxed = Some(SelectBox::at(at));
                ToolReply::Nothing
            }
            MapEvent::DragStarted(at) => {
                if let Some(name) = locked_at(at, scene) {
                    return ToolReply::Tell(format!("{name} is locked: let it go first."));
                }
                self.drag = grip_at(at, scene).map(|grip| Drag {
                    grip,
                    from: at,
                    changed: Vec::new(),
                });
                ToolReply::Nothing
            }
            MapEvent::Dragged(at) => {
                if let Some(boxed) = &mut self.boxed {
                    boxed.stretch(at);
                } else if let Some(drag) = &mut self.drag {
                    drag.changed = dragged(drag.grip, drag.from, at, scene);
                }
                ToolReply::Nothing
            }
            MapEvent::DragEnded(_) => match (self.boxed.take(), self.drag.take()) {
                (Some(boxed), _) => ToolReply::Select(boxed.selection(scene)),
                (None, Some(drag)) => commit(drag, scene),
                (None, None) => ToolReply::Nothing,
            },
            MapEvent::Escape => {
                let was_dragging = self.drag.take().is_some() | self.boxed.take().is_some();
                if was_dragging {
                    ToolReply::Nothing
                } else {
                    ToolReply::Select(BTreeSet::new())
                }
            }
            MapEvent::Back => remove(scene),
            MapEvent::Moved(_) | MapEvent::Finish => ToolReply::Nothing,
        }
    }

    /// Whether the drag under way moves ground (else the map is panned).
    pub fn is_dragging(&self) -> bool {
        self.drag.is_some() || self.boxed.is_some()
    }

    /// Whether a drag from here would move or reshape something.
    pub fn would_grip(&self, at: Point, scene: Scene<'_>) -> bool {
        grip_at(at, scene).is_some()
    }

    /// The pieces that are being dragged, as they lie in the hand.
    pub fn in_hand(&self) -> &[(GroundId, Ground)] {
        self.drag.as_ref().map_or(&[], |drag| &drag.changed)
    }

    pub(super) fn preview(&self) -> Preview {
        if let Some(boxed) = &self.boxed {
            return boxed.preview();
        }
        Preview {
            changed: self.in_hand().to_vec(),
            ..Preview::default()
        }
    }

    /// While a corner is dragged: the pieces that move with it; nothing else snaps.
    pub(super) fn reshaped(&self) -> Option<BTreeSet<GroundId>> {
        let drag = self.drag.as_ref()?;
        match drag.grip {
            Grip::Whole => None,
            Grip::Corner(id, _) | Grip::Side(id, _) => Some(
                drag.changed
                    .iter()
                    .map(|(changed, _)| *changed)
                    .chain([id])
                    .collect(),
            ),
        }
    }

    pub(super) fn hint(&self) -> &'static str {
        match self.drag.as_ref().map(|drag| drag.grip) {
            None if self.boxed.is_some() => "Let go to select what lies in the box.",
            None => "Click to select. Drag the paper to pan, the wheel to zoom.",
            Some(Grip::Whole) => "Let go to put it down; Escape leaves it where it was.",
            Some(_) => "Let go to set the corner; Escape leaves it where it was.",
        }
    }
}

/// A single place is gripped from so many times further than a line: its sign is wider than it.
const PLACE_REACH: f64 = 1.5;

/// What lies under a place, the smallest on top.
pub fn ground_at(at: Point, scene: Scene<'_>) -> Option<GroundId> {
    let mut best: Option<(f64, GroundId)> = None;
    let here = Bounds {
        least: at,
        most: at,
    };
    let shown = scene
        .ground_near(here, scene.reach_m * PLACE_REACH)
        .filter(|(_, ground)| !scene.hidden.contains(&ground.kind));
    for (id, ground) in shown {
        let size = match &ground.shape {
            Shape::Place(place) if place.distance_m(at) <= scene.reach_m * PLACE_REACH => 0.0,
            Shape::Line(line)
                if line_reach_m(line, at) <= scene.reach_m.max(ground.drawn_width_m() / 2.0) =>
            {
                1.0
            }
            Shape::Area(outline) if outline.contains(at) => 2.0 + outline.area_m2(),
            _ => continue,
        };
        if best.is_none_or(|(least, _)| size < least) {
            best = Some((size, id));
        }
    }
    best.map(|(_, id)| id)
}

fn line_reach_m(line: &[Point], at: Point) -> f64 {
    line.iter()
        .zip(line.iter().skip(1))
        .map(|(from, to)| at.nearest_on_side(*from, *to).distance_m(at))
        .fold(f64::INFINITY, f64::min)
}

fn click(at: Point, adds: bool, scene: Scene<'_>) -> ToolReply {
    let found = ground_at(at, scene);
    // The first half of a double click on a side may fall just outside; it must not lose the piece.
    let keeps = found.is_none() && is_on_handled_line(at, scene);
    let mut selected = if adds || keeps {
        scene.selected.clone()
    } else {
        BTreeSet::new()
    };
    if let Some(id) = found
        && !(adds && selected.remove(&id))
    {
        selected.insert(id);
    }
    ToolReply::Select(selected)
}

/// Whether a place lies on a side or corner of the one thing that has handles.
fn is_on_handled_line(at: Point, scene: Scene<'_>) -> bool {
    handled(scene).is_some_and(|(_, ground)| {
        let corners = ground.shape.corners();
        ground.shape.sides().into_iter().any(|(start, end)| {
            corners
                .get(start)
                .zip(corners.get(end))
                .is_some_and(|(from, to)| {
                    at.nearest_on_side(*from, *to).distance_m(at) <= scene.reach_m
                })
        })
    })
}

/// The one thing that has handles.
fn handled(scene: Scene<'_>) -> Option<(GroundId, &Ground)> {
    let id = *scene.selected.first()?;
    if scene.selected.len() > 1 {
        return None;
    }
    scene.farm.ground.get(&id).map(|ground| (id, ground))
}

/// The name of the locked thing that a drag from here would have moved.
fn locked_at(at: Point, scene: Scene<'_>) -> Option<String> {
    grip_at(at, scene)?;
    let locked = scene
        .selected
        .iter()
        .filter_map(|id| scene.farm.ground.get(id))
        .find(|ground| ground.is_locked)?;
    Some(locked.name.clone())
}

fn grip_at(at: Point, scene: Scene<'_>) -> Option<Grip> {
    if let Some((id, ground)) = handled(scene).filter(|(_, ground)| !ground.is_locked) {
        let corners = ground.shape.corners();
        let nearest = corners
            .iter()
            .enumerate()
            .map(|(place, corner)| (corner.distance_m(at), place))
            .min_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((distance_m, place)) = nearest
            && distance_m <= scene.reach_m
        {
            return Some(Grip::Corner(id, place));
        }
        for (start, end) in ground.shape.sides() {
            let (Some(from), Some(to)) = (corners.get(start), corners.get(end)) else {
                continue;
            };
            if from.distance_m(*to) > scene.reach_m * 4.0
                && from.between(*to, 0.5).distance_m(at) <= scene.reach_m
            {
                return Some(Grip::Side(id, start));
            }
        }
    }
    // What is selected is gripped even under something smaller: a ley lies under its strips.
    let is_on_selected = ground_at(at, scene).is_some_and(|id| scene.selected.contains(&id))
        || scene
            .selected
            .iter()
            .filter_map(|id| scene.farm.ground.get(id)?.outline())
            .any(|outline| outline.contains(at));
    is_on_selected.then_some(Grip::Whole)
}

fn dragged(grip: Grip, from: Point, to: Point, scene: Scene<'_>) -> Vec<(GroundId, Ground)> {
    let (east_m, north_m) = (to.east_m - from.east_m, to.north_m - from.north_m);
    match grip {
        Grip::Whole => scene
            .selected
            .iter()
            .flat_map(|id| {
                std::iter::once(*id).chain(scene.farm.strips_of(*id).map(|(strip, _)| strip))
            })
            .collect::<BTreeSet<_>>()
            .into_iter()
            .filter_map(|id| scene.farm.ground.get(&id).map(|ground| (id, ground)))
            .map(|(id, ground)| {
                let mut moved = ground.clone();
                moved.shape = ground
                    .shape
                    .map_corners(|corner| corner.moved(east_m, north_m).on_whole_mm());
                (id, moved)
            })
            .collect(),
        Grip::Corner(id, place) => corner_moved(scene, id, place, to.on_whole_mm()),
        Grip::Side(id, start) => corner_added(scene, id, start, to.on_whole_mm()),
    }
}

fn commit(drag: Drag, scene: Scene<'_>) -> ToolReply {
    let name = drag
        .changed
        .first()
        .map_or("", |(_, ground)| ground.name.as_str());
    let label = match drag.grip {
        Grip::Whole => format!("Move {name}"),
        Grip::Corner(..) => format!("Move a corner of {name}"),
        Grip::Side(..) => format!("Add a corner to {name}"),
    };
    commit_changes(drag.changed, label, scene)
}

fn commit_changes(changed: Vec<(GroundId, Ground)>, label: String, scene: Scene<'_>) -> ToolReply {
    let edits: Vec<Edit> = changed
        .into_iter()
        .filter_map(|(id, new)| {
            scene
                .farm
                .ground
                .get(&id)
                .map(|old| Edit::change_ground(id, old, new))
        })
        .collect();
    if edits.is_empty() {
        return ToolReply::Nothing;
    }
    ToolReply::Commit {
        label,
        edits,
        select: scene.selected.clone(),
    }
}

/// A double click on a side puts a corner there; on a corner it takes the corner away.
fn add_corner(at: Point, scene: Scene<'_>) -> ToolReply {
    let Some((id, ground)) = handled(scene) else {
        return ToolReply::Nothing;
    };
    if ground.is_locked {
        return ToolReply::Tell(format!("{} is locked: let it go first.", ground.name));
    }
    let corners = ground.shape.corners();
    if let Some(place) = corners
        .iter()
        .position(|corner| corner.distance_m(at) <= scene.reach_m)
    {
        let Some(shape) = ground.shape.without_corner(place) else {
            return ToolReply::Tell(
                "An outline keeps three corners at least, a line two.".to_owned(),
            );
        };
        return one_change(
            id,
            ground,
            shape,
            format!("Delete a corner of {}", ground.name),
        );
    }
    for (start, end) in ground.shape.sides() {
        let (Some(from), Some(to)) = (corners.get(start), corners.get(end)) else {
            continue;
        };
        let place = at.nearest_on_side(*from, *to);
        if place.distance_m(at) <= scene.reach_m {
            return commit_changes(
                corner_added(scene, id, start, place.on_whole_mm()),
                format!("Add a corner to {}", ground.name),
                scene,
            );
        }
    }
    ToolReply::Nothing
}

fn one_change(id: GroundId, ground: &Ground, shape: Shape, label: String) -> ToolReply {
    let new = Ground {
        shape,
        ..ground.clone()
    };
    ToolReply::Commit {
        label,
        edits: vec![Edit::change_ground(id, ground, new)],
        select: only(id),
    }
}

/// Removes what is selected, with the strips of a ley that goes.
fn remove(scene: Scene<'_>) -> ToolReply {
    let chosen = scene
        .selected
        .iter()
        .filter_map(|id| scene.farm.ground.get(id));
    if let Some(locked) = chosen.clone().find(|ground| ground.is_locked) {
        return ToolReply::Tell(format!("{} is locked: let it go first.", locked.name));
    }
    let gone: BTreeSet<GroundId> = scene
        .selected
        .iter()
        .flat_map(|id| {
            std::iter::once(*id).chain(scene.farm.strips_of(*id).map(|(strip, _)| strip))
        })
        .collect();
    let edits: Vec<Edit> = gone
        .iter()
        .filter_map(|id| {
            scene
                .farm
                .ground
                .get(id)
                .map(|ground| Edit::remove_ground(*id, ground))
        })
        .collect();
    let label = match (
        edits.len(),
        scene
            .selected
            .first()
            .and_then(|id| scene.farm.ground.get(id)),
    ) {
        (0, _) | (_, None) => return ToolReply::Nothing,
        (1, Some(ground)) => format!("Delete {}", ground.name),
        (count, _) => format!("Delete {count} things"),
    };
    ToolReply::Commit {
        label,
        edits,
        select: BTreeSet::new(),
    }
}
