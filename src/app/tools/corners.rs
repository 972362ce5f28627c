//! Corners put down one by one, as every tool does that draws an outline, a line or a hole.
//!
//! They lie on whole millimetres. A click on the first corner of a ring, a double click or Enter ends; Backspace takes
//! the last corner back.

use super::{MapEvent, Preview};
use crate::geometry::Point;

/// The corners so far, and where the pointer is.
#[derive(Debug, Clone, Default)]
pub(super) struct Corners {
    put: Vec<Point>,
    pointer: Option<Point>,
}

/// What an event leads to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Step {
    /// More corners may follow.
    GoOn,
    /// The person is done.
    End,
}

impl Corners {
    /// Grows by an event; a ring `closes` at its first corner.
    pub(super) fn follow(&mut self, event: MapEvent, reach_m: f64, closes: bool) -> Step {
        match event {
            MapEvent::Moved(at) | MapEvent::Dragged(at) => self.pointer = Some(at),
            MapEvent::Clicked { at, .. } | MapEvent::DragEnded(at) => {
                let first = self.put.first().filter(|_| closes && self.put.len() >= 3);
                if first.is_some_and(|first| first.distance_m(at) <= reach_m) {
                    return Step::End;
                }
                let corner = at.on_whole_mm();
                if self.put.last() != Some(&corner) {
                    self.put.push(corner);
                }
            }
            MapEvent::DoubleClicked(_) | MapEvent::Finish if !self.put.is_empty() => {
                return Step::End;
            }
            MapEvent::Back => {
                self.put.pop();
            }
            MapEvent::Escape => self.put.clear(),
            MapEvent::DragStarted(_)
            | MapEvent::BoxStarted(_)
            | MapEvent::DoubleClicked(_)
            | MapEvent::Finish => {}
        }
        Step::GoOn
    }

    /// The corners so far.
    pub(super) fn list(&self) -> &[Point] {
        &self.put
    }

    /// Takes them away, for what they have become.
    pub(super) fn take(&mut self) -> Vec<Point> {
        std::mem::take(&mut self.put)
    }

    /// What to show of them.
    pub(super) fn preview(&self, is_closed: bool) -> Preview {
        preview_of(&self.put, self.pointer, is_closed)
    }
}

/// Corners with the pointer's place last, and their measures.
pub(super) fn preview_of(corners: &[Point], pointer: Option<Point>, is_closed: bool) -> Preview {
    if corners.is_empty() {
        return Preview::default();
    }
    let mut line = corners.to_vec();
    line.extend(pointer);
    Preview {
        line,
        is_closed,
        shows_measures: true,
        ..Preview::default()
    }
}
