//! Splits ground along a drawn line.
//!
//! Works on what is selected, else on the area the line begins or ends in or crosses first.

use super::draw::preview_of;
use super::{MapEvent, Preview, Scene, ToolReply};
use crate::farm::{Edit, Ground, GroundId, Kind, Shape};
use crate::geometry::Point;
use crate::geometry::cut::split_by_line;

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
        let Some((id, ground, pieces)) = covering(scene, &line) else {
            return ToolReply::Tell(
                "The line does not cut anything in two: begin and end it outside the ground to be cut.".to_owned(),
            );
        };
        let mut edits = Vec::new();
        let mut select = std::collections::BTreeSet::new();
        let mut next = scene.farm.next_id;
        for (count, piece) in pieces.into_iter().enumerate() {
            if count == 0 {
                let mut kept = ground.clone();
                kept.shape = Shape::Area(piece);
                edits.push(Edit::change_ground(id, ground, kept));
                select.insert(id);
            } else {
                let mut fresh = ground.clone();
                fresh.name = free_name_after(scene, &ground.name, count);
                fresh.shape = Shape::Area(piece);
                let fresh_id = GroundId(next);
                next += 1;
                edits.push(Edit::add_ground(fresh_id, fresh));
                select.insert(fresh_id);
            }
        }
        ToolReply::Commit {
            label: format!("Split {}", ground.name),
            edits,
            select,
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

/// The first area that the line cuts in two, selected ones first, with the pieces, the largest first.
fn covering<'a>(
    scene: Scene<'a>,
    line: &[Point],
) -> Option<(GroundId, &'a Ground, Vec<crate::geometry::Outline>)> {
    let selected = scene
        .farm
        .ground
        .iter()
        .filter(|(id, _)| scene.selected.contains(id));
    // A ley that is already cut into strips is cut strip by strip.
    let others = scene.farm.ground.iter().filter(|(id, ground)| {
        !scene.selected.contains(id)
            && matches!(
                ground.kind,
                Kind::Plot | Kind::Ley | Kind::Strip | Kind::Wood | Kind::KeepOut
            )
            && scene.farm.strips_of(**id).next().is_none()
    });
    selected.chain(others).find_map(|(id, ground)| {
        let mut pieces = split_by_line(ground.outline()?, line).ok()?;
        pieces.sort_by(|a, b| b.area_m2().total_cmp(&a.area_m2()));
        Some((*id, ground, pieces))
    })
}

fn free_name_after(scene: Scene<'_>, name: &str, count: usize) -> String {
    let taken = |wanted: &str| {
        scene
            .farm
            .ground
            .values()
            .any(|ground| ground.name == wanted)
    };
    let letters = ["b", "c", "d", "e", "f", "g", "h"];
    letters
        .iter()
        .skip(count - 1)
        .map(|letter| format!("{name} {letter}"))
        .find(|wanted| !taken(wanted))
        .unwrap_or_else(|| scene.farm.free_name(name))
}
