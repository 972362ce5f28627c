//! Splits ground along a drawn line.
//!
//! Works on what is selected, else on the area the line begins or ends in or crosses first.

use super::corners::preview_of;
use super::reshape::unlocked;
use super::{MapEvent, Preview, Scene, ToolReply};
use crate::farm::{Kind, Reshaped, split_along, with_shared_corners};
use crate::geometry::Point;

/// Cuts along a line.
#[derive(Debug, Clone, Default)]
pub struct Split {
    corners: Vec<Point>,
    pointer: Option<Point>,
}

impl Split {
    pub(super) fn handle(&mut self, event: MapEvent, scene: Scene<'_>) -> ToolReply {
        match event {
            MapEvent::Moved(at) | MapEvent::Dragged(at) => self.pointer = Some(at),
            MapEvent::DragStarted(at) | MapEvent::BoxStarted(at) => {
                if self.corners.is_empty() {
                    self.corners.push(at);
                }
            }
            MapEvent::Clicked { at, .. } => {
                self.corners.push(at);
                if self.corners.len() >= 2 && covering(scene, &self.corners).is_some() {
                    return self.cut(scene);
                }
            }
            MapEvent::DragEnded(at) | MapEvent::DoubleClicked(at) => {
                if self.corners.last() != Some(&at) {
                    self.corners.push(at);
                }
                return self.cut(scene);
            }
            MapEvent::Finish => return self.cut(scene),
            MapEvent::Back => {
                self.corners.pop();
            }
            MapEvent::Escape => self.corners.clear(),
        }
        ToolReply::Nothing
    }

    fn cut(&mut self, scene: Scene<'_>) -> ToolReply {
        let line = std::mem::take(&mut self.corners);
        let Some(split) = covering(scene, &line) else {
            return ToolReply::Tell(
                "The line does not cut anything in two: begin and end it outside the ground to be cut.".to_owned(),
            );
        };
        let split = match unlocked(split) {
            Ok(split) => split,
            Err(why) => return ToolReply::Tell(why),
        };
        let edits = if scene.holds_apart {
            split.edits
        } else {
            with_shared_corners(scene.farm, split.edits)
        };
        ToolReply::Commit {
            label: split.label,
            edits,
            select: split.select,
        }
    }

    /// The corners so far.
    pub fn corners(&self) -> &[Point] {
        &self.corners
    }

    pub(super) fn preview(&self) -> Preview {
        preview_of(&self.corners, self.pointer, false)
    }

    pub(super) fn hint(&self) -> &'static str {
        if self.corners.is_empty() {
            "Click outside the ground to be cut, on the line of the cut."
        } else {
            "Click on the far side; more clicks bend the cut."
        }
    }
}

/// The first area that the line cuts in two, selected ones first, as the act that splits it.
fn covering(scene: Scene<'_>, line: &[Point]) -> Option<Reshaped> {
    let selected = scene
        .farm
        .ground
        .keys()
        .filter(|id| scene.selected.contains(id));
    // A ley that is already cut into strips is cut strip by strip.
    let others = scene.farm.ground.iter().filter(|(id, ground)| {
        !scene.selected.contains(id)
            && matches!(
                ground.kind,
                Kind::Plot | Kind::Ley | Kind::Strip | Kind::Wood | Kind::KeepOut
            )
            && scene.farm.strips_of(**id).next().is_none()
    });
    selected
        .chain(others.map(|(id, _)| id))
        .find_map(|id| split_along(scene.farm, *id, line))
}
