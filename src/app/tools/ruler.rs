//! A ruler: distances, bearing and area between clicks, nothing left on the farm.

use super::corners::preview_of;
use super::{MapEvent, Preview, ToolReply};
use crate::geometry::Point;

/// Measures.
#[derive(Debug, Clone, Default)]
pub struct Ruler {
    corners: Vec<Point>,
    pointer: Option<Point>,
}

impl Ruler {
    pub(super) fn handle(&mut self, event: MapEvent) -> ToolReply {
        match event {
            MapEvent::Moved(at) | MapEvent::Dragged(at) => self.pointer = Some(at),
            MapEvent::Clicked { at, .. }
            | MapEvent::DragStarted(at)
            | MapEvent::BoxStarted(at)
            | MapEvent::DragEnded(at) => {
                if self.pointer.is_none() && !self.corners.is_empty() {
                    self.corners.clear();
                }
                self.corners.push(at);
                self.pointer = Some(at);
            }
            MapEvent::DoubleClicked(_) | MapEvent::Finish => self.pointer = None,
            MapEvent::Back => {
                self.corners.pop();
            }
            MapEvent::Escape => *self = Self::default(),
        }
        ToolReply::Nothing
    }

    /// The corners so far.
    pub fn corners(&self) -> &[Point] {
        &self.corners
    }

    pub(super) fn preview(&self) -> Preview {
        Preview {
            shows_turn_and_area: true,
            ..preview_of(&self.corners, self.pointer, false)
        }
    }

    pub(super) fn hint(&self) -> &'static str {
        if self.corners.is_empty() {
            "Click where to measure from."
        } else {
            "Click on to add legs; Escape clears the ruler."
        }
    }
}
