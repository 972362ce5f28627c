//! A rectangle by three clicks: two ends of one side, then how wide.
//!
//! Corners lie on whole millimetres.

use super::draw::new_ground;
use super::{MapEvent, Preview, Scene, ToolReply};
use crate::farm::{Kind, Shape};
use crate::geometry::construct::rectangle_by_three_points;
use crate::geometry::{Outline, Point};

/// Draws a rectangle.
#[derive(Debug, Clone, Default)]
pub struct DrawSquare {
    side: Vec<Point>,
    pointer: Option<Point>,
    /// What it becomes; the kind drawn last where absent.
    kind: Option<Kind>,
}

impl DrawSquare {
    /// A rectangle that becomes this kind.
    pub fn of_kind(kind: Kind) -> Self {
        Self {
            kind: Some(kind),
            ..Self::default()
        }
    }

    /// What it becomes, where that is settled.
    pub fn kind(&self) -> Option<Kind> {
        self.kind
    }

    pub(super) fn handle(&mut self, event: MapEvent, scene: Scene<'_>) -> ToolReply {
        match event {
            MapEvent::Moved(at) | MapEvent::Dragged(at) => self.pointer = Some(at),
            MapEvent::Clicked { at, .. }
            | MapEvent::DragEnded(at)
            | MapEvent::DoubleClicked(at) => {
                return self.put(at, scene);
            }
            MapEvent::Back => {
                self.side.pop();
            }
            MapEvent::Escape => self.side.clear(),
            MapEvent::DragStarted(_) | MapEvent::BoxStarted(_) | MapEvent::Finish => {}
        }
        ToolReply::Nothing
    }

    fn put(&mut self, at: Point, scene: Scene<'_>) -> ToolReply {
        if let [from, to] = self.side.as_slice() {
            let corners = rectangle(*from, *to, at);
            let width_m = corners
                .get(1)
                .zip(corners.get(2))
                .map_or(0.0, |(a, b)| a.distance_m(*b));
            if width_m < 0.01 {
                return ToolReply::Tell(
                    "It has no width yet: click to one side of the line.".to_owned(),
                );
            }
            self.side.clear();
            return new_ground(
                scene,
                self.kind.unwrap_or(scene.area_kind),
                Shape::Area(Outline::simple(corners)),
            );
        }
        let corner = at.on_whole_mm();
        if self.side.last() != Some(&corner) {
            self.side.push(corner);
        }
        ToolReply::Nothing
    }

    /// The ends of the first side so far.
    pub fn side(&self) -> &[Point] {
        &self.side
    }

    pub(super) fn preview(&self) -> Preview {
        match (self.side.as_slice(), self.pointer) {
            ([from, to], Some(pointer)) => Preview {
                line: rectangle(*from, *to, pointer),
                is_closed: true,
                shows_measures: true,
                ..Preview::default()
            },
            ([from], Some(pointer)) => Preview {
                line: vec![*from, pointer],
                shows_measures: true,
                ..Preview::default()
            },
            (side, _) => Preview {
                line: side.to_vec(),
                ..Preview::default()
            },
        }
    }

    pub(super) fn hint(&self) -> &'static str {
        match self.side.len() {
            0 => "Click one end of a side.",
            1 => "Click the other end of that side.",
            _ => "Click how wide it is.",
        }
    }
}

/// The corners of the rectangle on the side `from`–`to` that reaches as far across as `reach`, on whole millimetres.
fn rectangle(from: Point, to: Point, reach: Point) -> Vec<Point> {
    let made = rectangle_by_three_points(from, to, reach);
    let ring = made
        .and_then(|outline| outline.parts.into_iter().next())
        .map(|part| part.outer.corners);
    ring.map_or_else(
        || vec![from, to],
        |corners| corners.into_iter().map(Point::on_whole_mm).collect(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_third_click_sets_the_width_only() {
        let corners = rectangle(
            Point::new(0.0, 0.0),
            Point::new(80.0, 0.0),
            Point::new(13.0, 50.0),
        );
        assert_eq!(corners.get(2), Some(&Point::new(80.0, 50.0)));
        assert_eq!(corners.get(3), Some(&Point::new(0.0, 50.0)));
        assert!((Outline::simple(corners).area_m2() - 4000.0).abs() < 1e-9);
    }
}
