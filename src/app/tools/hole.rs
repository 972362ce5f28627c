//! A hole in a piece of ground, drawn corner by corner: a pond in a ley.
//!
//! It lies in what is selected, else in the smallest piece round it. Corners lie on whole millimetres.

use super::corners::{Corners, Step};
use super::reshape::unlocked;
use super::{MapEvent, Preview, Scene, ToolReply};
use crate::farm::hole_drawn;
use crate::geometry::Point;

/// Draws a hole.
#[derive(Debug, Clone, Default)]
pub struct DrawHole {
    corners: Corners,
}

impl DrawHole {
    pub(super) fn handle(&mut self, event: MapEvent, scene: Scene<'_>) -> ToolReply {
        match self.corners.follow(event, scene.reach_m, true) {
            Step::GoOn => ToolReply::Nothing,
            Step::End => match hole_drawn(scene.farm, scene.selected, self.corners.list().to_vec())
                .and_then(unlocked)
            {
                Ok(done) => {
                    self.corners.take();
                    ToolReply::Commit {
                        label: done.label,
                        edits: done.edits,
                        select: done.select,
                    }
                }
                // What is drawn stays, so that a corner can be taken back and set anew.
                Err(why) => ToolReply::Tell(why),
            },
        }
    }

    /// The corners so far.
    pub fn corners(&self) -> &[Point] {
        self.corners.list()
    }

    pub(super) fn preview(&self) -> Preview {
        self.corners.preview(true)
    }

    pub(super) fn hint(&self) -> &'static str {
        match self.corners.list().len() {
            0 => "Click the first corner of the hole, inside the ground.",
            1 | 2 => "Click the next corner. Backspace takes one back.",
            _ => "Click the next corner; click the first one, or press Enter, to close the hole.",
        }
    }
}
