//! Puts what the page of taped measures shows down on the map.

use egui::{Align2, Painter, Pos2, Shape, Stroke, Vec2};

use super::labels::paint_figure;
use super::paint::paint_line;
use crate::app::desk::Desk;
use crate::app::taping::{OverlayLine, Pen, overlay};
use crate::app::theme;
use crate::sheets::palette::{Ink, Light};

/// The most points of one line that are drawn: more than a screen has dots.
const MOST_DRAWN: usize = 8_000;

/// Paints lines, then marks.
pub(super) fn paint_taping(painter: &Painter, desk: &Desk, light: Light) {
    let shown = overlay(desk);
    for line in &shown.lines {
        paint_one(painter, desk, line, light);
    }
    let act = theme::colour(Ink::Act, light);
    let panel = theme::colour(Ink::Panel, light);
    for (place, mark) in &shown.marks {
        let at = desk.view.screen_from_ground(*place);
        let (radius, fill) = if mark.is_chosen {
            (5.0, act)
        } else {
            (4.0, panel)
        };
        painter.circle(at, radius, fill, Stroke::new(1.6, act));
        paint_figure(
            painter,
            at + Vec2::new(9.0, -7.0),
            Align2::LEFT_BOTTOM,
            &mark.text,
            light,
        );
    }
}

fn paint_one(painter: &Painter, desk: &Desk, line: &OverlayLine, light: Light) {
    let step = line.points.len().div_ceil(MOST_DRAWN).max(1);
    let mut points: Vec<Pos2> = line
        .points
        .iter()
        .step_by(step)
        .map(|point| desk.view.screen_from_ground(*point))
        .collect();
    match line.pen {
        Pen::Firm => {
            let stroke = Stroke::new(2.2, theme::colour(Ink::Act, light));
            paint_line(painter, points, line.is_closed, stroke, None);
        }
        Pen::Thin => {
            let stroke = Stroke::new(1.0, theme::colour(Ink::Soft, light));
            paint_line(painter, points, line.is_closed, stroke, None);
        }
        Pen::Dashed => {
            if line.is_closed {
                points.extend(points.first().copied());
            }
            let stroke = Stroke::new(1.2, theme::colour(Ink::Soft, light));
            painter.extend(Shape::dashed_line(&points, stroke, 6.0, 4.0));
        }
    }
}
