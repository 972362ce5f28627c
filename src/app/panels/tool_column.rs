//! The tools, in a column over the map's left edge, each with its sign, its name and its key.

use egui::{Align2, Color32, Painter, Pos2, Rect, Response, Sense, Shape, Stroke, Ui, Vec2};

use super::top_bar::key_text;
use crate::app::command::Command;
use crate::app::desk::Desk;
use crate::app::dispatch::do_command;
use crate::app::theme;
use crate::farm::{Form, Kind};
use crate::sheets::palette::Ink;

const TOOLS: [Command; 10] = [
    Command::Pick,
    Command::Outline,
    Command::Line,
    Command::Square,
    Command::Place,
    Command::Split,
    Command::Strips,
    Command::Trees,
    Command::Tunnel,
    Command::Ruler,
];

/// The column.
pub fn tool_column_ui(ui: &mut Ui, desk: &mut Desk) {
    let ctx = ui.ctx().clone();
    ui.spacing_mut().item_spacing = Vec2::new(0.0, 2.0);
    // On a low window the names give way to the signs; the tips still tell them.
    let is_low = ui.available_height() < 46.0 * 10.0 + 70.0;
    for command in TOOLS {
        let is_held = desk.tool.name() == command.facts().text;
        if tool_ui(ui, desk, command, is_held, is_low).clicked() {
            do_command(desk, command, &ctx);
        }
    }
    drawn_as_ui(ui, desk);
}

fn tool_ui(ui: &mut Ui, desk: &Desk, command: Command, is_held: bool, is_low: bool) -> Response {
    let (rect, response) = ui.allocate_exact_size(
        Vec2::new(52.0, if is_low { 29.0 } else { 44.0 }),
        Sense::click(),
    );
    let facts = command.facts();
    let is_available = command.is_available(desk);
    response.widget_info(|| {
        egui::WidgetInfo::selected(
            egui::Role::Button,
            true,
            is_held,
            format!("{} tool", facts.text),
        )
    });
    let ink = theme::ink(
        ui,
        if is_held {
            Ink::Act
        } else if is_available {
            Ink::Ink
        } else {
            Ink::Soft
        },
    );
    if is_held || response.hovered() || response.has_focus() {
        ui.painter()
            .rect_filled(rect, 5.0, theme::ink(ui, Ink::ActTint));
    }
    if response.has_focus() {
        ui.painter().rect_stroke(
            rect,
            5.0,
            Stroke::new(1.6, theme::ink(ui, Ink::Act)),
            egui::StrokeKind::Inside,
        );
    }
    paint_sign(
        ui.painter(),
        rect.center_top() + Vec2::new(0.0, 15.0),
        command,
        ink,
    );
    let font = if is_held {
        theme::sans_bold(12.0)
    } else {
        theme::sans(12.5)
    };
    if !is_low {
        ui.painter().text(
            rect.center_bottom() - Vec2::new(0.0, 3.0),
            Align2::CENTER_BOTTOM,
            facts.text,
            font,
            ink,
        );
    }
    response.on_hover_text(format!("{} ({})", facts.tip, key_text(ui.ctx(), command)))
}

/// What is drawn next becomes this kind.
fn drawn_as_ui(ui: &mut Ui, desk: &mut Desk) {
    let form = match desk.tool.name() {
        "Outline" | "Square" => Form::Area,
        "Line" => Form::Line,
        "Place" => Form::Place,
        _ => return,
    };
    let current = match &desk.tool {
        crate::app::tools::Tool::Place(place) => place.kind,
        _ if form == Form::Line => desk.line_kind,
        _ => desk.area_kind,
    };
    ui.add_space(4.0);
    let mut chosen = None;
    // The column is as wide as a sign; a longer word runs over the map rather than break in two.
    ui.style_mut().wrap_mode = Some(egui::TextWrapMode::Extend);
    ui.menu_button(current.name(), |ui| {
        for kind in Kind::ALL.into_iter().filter(|kind| kind.allows(form)) {
            if ui.selectable_label(kind == current, kind.name()).clicked() {
                chosen = Some(kind);
                ui.close();
            }
        }
    })
    .response
    .on_hover_text("What is drawn next");
    if let Some(kind) = chosen {
        match (&mut desk.tool, form) {
            (crate::app::tools::Tool::Place(place), _) => place.kind = kind,
            (_, Form::Line) => desk.line_kind = kind,
            _ => desk.area_kind = kind,
        }
    }
}

/// A field seen from above.
const BOX: [(f32, f32); 5] = [
    (-7.0, -6.0),
    (7.0, -6.0),
    (7.0, 6.0),
    (-7.0, 6.0),
    (-7.0, -6.0),
];

/// The bow of a tunnel seen from its end.
fn bow() -> Vec<(f32, f32)> {
    let turns = (0..=10u8).map(|step| std::f32::consts::PI * f32::from(step) / 10.0);
    turns
        .map(|turn| (-8.0 * turn.cos(), 5.0 - 11.0 * turn.sin()))
        .collect()
}

/// The sign of a tool, 18 points wide about `at`.
fn paint_sign(painter: &Painter, at: Pos2, command: Command, ink: Color32) {
    let stroke = Stroke::new(1.6, ink);
    let place = |x: f32, y: f32| at + Vec2::new(x, y);
    let line = |points: &[(f32, f32)]| {
        painter.add(Shape::line(
            points.iter().map(|(x, y)| place(*x, *y)).collect(),
            stroke,
        ));
    };
    match command {
        Command::Pick => {
            let arrow = [(-4.0, -7.0), (6.0, 2.0), (1.0, 2.5), (-4.0, 6.5)];
            let points = arrow.iter().map(|(x, y)| place(*x, *y)).collect();
            painter.add(Shape::convex_polygon(points, ink, Stroke::NONE));
        }
        Command::Outline => {
            let corners = [
                (-7.0, 5.0),
                (-4.0, -6.0),
                (7.0, -4.0),
                (6.0, 6.0),
                (-7.0, 5.0),
            ];
            line(&corners);
        }
        Command::Line => line(&[(-8.0, 4.0), (-2.0, -5.0), (3.0, 3.0), (8.0, -3.0)]),
        Command::Square => {
            painter.rect_stroke(
                Rect::from_center_size(at, Vec2::new(16.0, 11.0)),
                0.0,
                stroke,
                egui::StrokeKind::Middle,
            );
        }
        Command::Place => {
            painter.circle_stroke(place(0.0, -2.0), 5.0, stroke);
            line(&[(0.0, 3.0), (0.0, 7.0)]);
        }
        Command::Split => {
            line(&BOX);
            line(&[(-9.0, 8.0), (9.0, -8.0)]);
        }
        Command::Strips => {
            line(&BOX);
            line(&[(-7.0, -2.0), (7.0, -2.0)]);
            line(&[(-7.0, 2.0), (7.0, 2.0)]);
        }
        Command::Trees => {
            for x in [-7.0, 0.0, 7.0] {
                painter.circle_stroke(place(x, 0.0), 3.6, stroke);
            }
        }
        Command::Tunnel => {
            line(&bow());
            line(&[(-8.0, 5.0), (8.0, 5.0)]);
            line(&[(0.0, -6.0), (0.0, 5.0)]);
        }
        Command::Ruler => {
            line(&[
                (-8.0, 4.0),
                (5.0, -7.0),
                (8.0, -3.5),
                (-5.0, 7.5),
                (-8.0, 4.0),
            ]);
            line(&[(-3.5, 0.2), (-2.0, 2.0)]);
            line(&[(0.7, -3.4), (2.2, -1.6)]);
        }
        _ => {}
    }
}
