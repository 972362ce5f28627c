//! What an act would make of the ground, drawn over the map before it is done: new outlines, chosen sides, figures.

use egui::{Align2, Painter, Stroke};

use super::labels::paint_figure;
use super::paint::{paint_line, paint_marks};
use crate::app::desk::Desk;
use crate::app::theme;
use crate::app::tools::Preview;
use crate::farm::{Ground, Shape};
use crate::geometry::Point;
use crate::sheets::estate_map::{GroundLook, MapScale, ground_marks};
use crate::sheets::palette::{Ink, Light};

/// Dashes of an outline that is only looked at, points on and off.
const DASHES: (f64, f64) = (7.0, 4.0);

/// Ground that would be new, as it would be drawn.
pub(super) fn paint_added(painter: &Painter, desk: &Desk, preview: &Preview, light: Light) {
    let scale = MapScale {
        m_per_point: desk.view.m_per_point,
    };
    for ground in &preview.added {
        let look = GroundLook {
            tallness: None,
            is_under_strips: false,
            in_year: None,
        };
        paint_marks(
            painter,
            &desk.view,
            light,
            &ground_marks(ground, look, scale),
        );
    }
}

/// Outlines, marked lines and figures of an act that is looked at.
pub(super) fn paint_proposal(painter: &Painter, desk: &Desk, preview: &Preview, light: Light) {
    if preview.figures.is_empty() && preview.strokes.is_empty() && preview.added.is_empty() {
        return;
    }
    let act = theme::colour(Ink::Act, light);
    let changed = preview.changed.iter().map(|(_, ground)| ground);
    for ground in changed.chain(&preview.added) {
        paint_outline(painter, desk, ground, Stroke::new(2.0, act));
    }
    for line in &preview.strokes {
        paint_line(
            painter,
            on_screen(desk, line),
            false,
            Stroke::new(4.0, act),
            None,
        );
    }
    let mut taken: Vec<egui::Pos2> = Vec::new();
    for (place, text) in &preview.figures {
        let mut at = desk.view.screen_from_ground(*place);
        // Figures of a thin piece and of the one beside it would lie on each other.
        while taken
            .iter()
            .any(|other| (other.y - at.y).abs() < 19.0 && (other.x - at.x).abs() < 130.0)
        {
            at.y += 20.0;
        }
        taken.push(at);
        paint_figure(painter, at, Align2::CENTER_CENTER, text, light);
    }
}

fn paint_outline(painter: &Painter, desk: &Desk, ground: &Ground, stroke: Stroke) {
    match &ground.shape {
        Shape::Area(outline) => {
            for ring in outline.rings() {
                paint_line(
                    painter,
                    on_screen(desk, &ring.corners),
                    true,
                    stroke,
                    Some(DASHES),
                );
            }
        }
        Shape::Line(line) => {
            paint_line(painter, on_screen(desk, line), false, stroke, Some(DASHES));
        }
        Shape::Place(place) => {
            painter.circle_stroke(desk.view.screen_from_ground(*place), 8.0, stroke);
        }
    }
}

fn on_screen(desk: &Desk, line: &[Point]) -> Vec<egui::Pos2> {
    line.iter()
        .map(|place| desk.view.screen_from_ground(*place))
        .collect()
}
