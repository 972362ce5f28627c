//! The strips that a cut would make, on the map: each with its name, area and days; the side they run along, the place
//! they meet at.

use egui::{Align2, Painter, Pos2, Rect, Stroke, Vec2};

use super::GroundView;
use super::paint::{fill_shape, paint_line};
use crate::app::desk::Desk;
use crate::app::dialogs::Dialog;
use crate::app::panels::strips_form::{DrawnStrip, StripsPreview};
use crate::app::theme;
use crate::farm::Shape;
use crate::planning::days_text;
use crate::quantity::{UnitSystem, area_text};
use crate::sheets::palette::{Ink, Light};

/// Paints the strips while the question of strips is on screen.
pub(super) fn paint_strips_preview(painter: &Painter, desk: &Desk, light: Light) {
    let Some(Dialog::Strips(form)) = &desk.dialog else {
        return;
    };
    let Some((_, preview)) = form.shown() else {
        return;
    };
    let view = &desk.view;
    for (place, strip) in preview.drawn.iter().enumerate() {
        let ink = if place % 2 == 0 {
            Ink::Ley
        } else {
            Ink::LeyTall
        };
        painter.add(fill_shape(view, &strip.mesh, theme::colour(ink, light)));
    }
    let stroke = Stroke::new(1.4, theme::colour(Ink::Ink, light));
    for strip in &preview.cut.strips {
        for ring in strip.outline.rings() {
            let points = on_screen(view, &ring.corners);
            paint_line(painter, points, true, stroke, None);
        }
    }
    paint_goal(painter, desk, form.goal_shown(), preview, light);
    let mut taken: Vec<Rect> = Vec::new();
    for strip in &preview.drawn {
        if let Some(rect) = paint_name(painter, view, strip, desk.units(), light, &taken) {
            taken.push(rect);
        }
    }
}

fn on_screen(view: &GroundView, corners: &[crate::geometry::Point]) -> Vec<Pos2> {
    corners
        .iter()
        .map(|corner| view.screen_from_ground(*corner))
        .collect()
}

/// The side the cuts run along, or what every strip is to reach.
fn paint_goal(
    painter: &Painter,
    desk: &Desk,
    goal: Option<crate::farm::GroundId>,
    preview: &StripsPreview,
    light: Light,
) {
    let view = &desk.view;
    let act = theme::colour(Ink::Act, light);
    let stroke = Stroke::new(4.0, act);
    if let Some((from, to)) = preview.side {
        painter.line_segment(
            [view.screen_from_ground(from), view.screen_from_ground(to)],
            stroke,
        );
    }
    if let Some(centre) = preview.cut.meets_at {
        painter.circle(view.screen_from_ground(centre), 5.0, act, Stroke::NONE);
    }
    let Some(ground) = goal.and_then(|goal| desk.farm().ground.get(&goal)) else {
        return;
    };
    match &ground.shape {
        Shape::Place(place) => {
            painter.circle_stroke(view.screen_from_ground(*place), 10.0, Stroke::new(2.4, act));
        }
        Shape::Line(line) => paint_line(painter, on_screen(view, line), false, stroke, None),
        Shape::Area(area) => {
            for ring in area.rings() {
                paint_line(painter, on_screen(view, &ring.corners), true, stroke, None);
            }
        }
    }
}

/// Name, area and days of a strip: as much of it as covers no other; where it stands.
fn paint_name(
    painter: &Painter,
    view: &GroundView,
    strip: &DrawnStrip,
    units: UnitSystem,
    light: Light,
    taken: &[Rect],
) -> Option<Rect> {
    let at = view.screen_from_ground(strip.label?);
    let ink = theme::colour(Ink::Ink, light);
    let area = area_text(strip.area_m2, units);
    let second = match strip.days {
        Some(days) => format!("{area}\n{}", days_text(days)),
        None => area,
    };
    let tries = [
        format!("{}\n{second}", strip.name),
        second.replace('\n', " · "),
        strip.name.clone(),
    ];
    for text in tries {
        let mut job =
            egui::text::LayoutJob::simple(text, theme::sans_bold(theme::SMALL), ink, 400.0);
        job.halign = egui::Align::Center;
        let galley = painter.layout_job(job);
        let size = galley.size();
        let rect = Align2::CENTER_CENTER.anchor_size(at, size);
        let room = rect.expand(2.0);
        if taken.iter().any(|other| other.intersects(room)) || !view.screen.contains_rect(room) {
            continue;
        }
        painter.rect_filled(
            rect.expand2(Vec2::new(4.0, 1.0)),
            4.0,
            theme::colour(Ink::Panel, light).gamma_multiply(0.8),
        );
        painter.galley(rect.center_top(), galley, ink);
        return Some(room);
    }
    None
}
