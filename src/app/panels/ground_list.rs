//! The ground list: whatever can be picked on the map can be picked here, by mouse and by keyboard.

use egui::{Align2, Rect, RichText, ScrollArea, Sense, Stroke, Ui, UiBuilder, Vec2};

use super::ground_rows::{GroundRow, ground_listed, ground_row};
use crate::app::command::Command;
use crate::app::desk::Desk;
use crate::app::dispatch::do_command;
use crate::app::theme;
use crate::farm::Kind;
use crate::quantity::area_text;
use crate::sheets::palette::Ink;

/// Height of a row.
const ROW: f32 = 27.0;

/// The list.
pub fn ground_list_ui(ui: &mut Ui, desk: &mut Desk) {
    ui.horizontal(|ui| {
        ui.label(RichText::new("Ground").font(theme::serif_bold(theme::HEADING)));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            let whole_m2 = desk.reckoned().whole_area_m2();
            ui.label(RichText::new(area_text(whole_m2, desk.units())).weak())
                .on_hover_text("All areas together, strips counted within their ley");
        });
    });
    let field = egui::TextEdit::singleline(&mut desk.filter)
        .hint_text("filter by name or kind")
        .desired_width(f32::INFINITY)
        .margin(egui::Margin::symmetric(8, 4));
    let response = ui.add(field);
    response.widget_info(|| {
        egui::WidgetInfo::labeled(egui::Role::TextInput, true, "Filter by name or kind")
    });
    ui.add_space(4.0);
    let places = ground_listed(desk);
    if places.is_empty() {
        empty_ui(ui, desk);
        return;
    }
    ui.spacing_mut().item_spacing.y = 0.0;
    let room = ui.available_rect_before_wrap();
    let with_gutter = Rect::from_min_max(room.min, room.max + Vec2::new(GUTTER, 0.0));
    // A child of its own, so that the column does not grow by the gutter.
    let mut list = ui.new_child(UiBuilder::new().max_rect(with_gutter));
    let rows = |ui: &mut Ui, range: std::ops::Range<usize>| {
        for place in places.get(range).unwrap_or_default() {
            if let Some(row) = ground_row(desk, *place) {
                row_ui(ui, desk, &row);
            }
        }
    };
    let area = ScrollArea::vertical().auto_shrink(false);
    area.show_rows(&mut list, ROW, places.len(), rows);
    ui.advance_cursor_after_rect(room);
}

/// Room beside the rows, in the column's margin, in which the scroll bar lies clear of the figures.
const GUTTER: f32 = 12.0;

fn empty_ui(ui: &mut Ui, desk: &mut Desk) {
    let ctx = ui.ctx().clone();
    ui.add_space(12.0);
    if desk.farm().ground.is_empty() {
        ui.label("Nothing is drawn yet. Begin with the outline of one field.");
        ui.add_space(4.0);
        if ui.button("Draw an outline").clicked() {
            do_command(desk, Command::Outline, &ctx);
        }
    } else {
        ui.label(format!("Nothing is called \"{}\".", desk.filter));
        if ui.button("Show all").clicked() {
            desk.filter.clear();
        }
    }
}

fn row_ui(ui: &mut Ui, desk: &mut Desk, row: &GroundRow) {
    let width = ui.available_width() - GUTTER;
    let (rect, response) = ui.allocate_exact_size(Vec2::new(width, ROW), Sense::click());
    let label = format!("{}, {}, {}", row.name, row.kind_text, row.size_text);
    response.widget_info(|| {
        egui::WidgetInfo::selected(
            egui::Role::ListBoxOption,
            true,
            row.is_selected,
            label.clone(),
        )
    });
    paint_row(ui, rect, &response, row);
    if response.clicked() {
        let adds = ui.input(|input| input.modifiers.shift || input.modifiers.command);
        if adds {
            if !desk.selected.remove(&row.id) {
                desk.selected.insert(row.id);
            }
        } else {
            desk.select_only(row.id);
        }
        desk.notice = None;
    }
    if response.double_clicked() {
        let ctx = ui.ctx().clone();
        do_command(desk, Command::FitSelected, &ctx);
    }
}

fn paint_row(ui: &Ui, rect: Rect, response: &egui::Response, row: &GroundRow) {
    let painter = ui.painter();
    if row.is_selected || response.hovered() || response.has_focus() {
        let tint = theme::ink(ui, Ink::ActTint);
        let tint = if row.is_selected {
            tint
        } else {
            tint.gamma_multiply(0.5)
        };
        painter.rect_filled(rect.expand2(Vec2::new(8.0, 0.0)), 5.0, tint);
    }
    if response.has_focus() {
        let stroke = Stroke::new(1.4, theme::ink(ui, Ink::Act));
        painter.rect_stroke(
            rect.expand2(Vec2::new(7.0, -1.0)),
            5.0,
            stroke,
            egui::StrokeKind::Inside,
        );
    }
    let indent = if row.is_indented { 16.0 } else { 0.0 };
    let sign = Rect::from_center_size(
        rect.left_center() + Vec2::new(indent + 8.0, 0.0),
        Vec2::splat(11.0),
    );
    let (fill, edge) = sign_inks(row.kind);
    painter.rect(
        sign,
        2.5,
        theme::ink(ui, fill),
        Stroke::new(1.0, theme::ink(ui, edge)),
        egui::StrokeKind::Middle,
    );
    let (ink, soft) = (theme::ink(ui, Ink::Ink), theme::ink(ui, Ink::Soft));
    let size = painter.layout_no_wrap(row.size_text.clone(), theme::sans(14.0), ink);
    let size_left = rect.right() - size.size().x;
    let y = rect.center().y;
    painter.galley(egui::pos2(size_left, y - size.size().y / 2.0), size, ink);
    let kind = painter.layout_no_wrap(row.kind_text.clone(), theme::sans(theme::SMALL), soft);
    let kind_left = size_left - kind.size().x - 8.0;
    let name_left = rect.left() + indent + 22.0;
    let font = if row.is_selected {
        theme::sans_bold(theme::BODY)
    } else {
        theme::sans(theme::BODY)
    };
    let name = row.name.clone();
    // The name may take the kind's room, never the size's.
    let room = (size_left - 6.0 - name_left).max(20.0);
    let mut job = egui::text::LayoutJob::simple_singleline(name, font, ink);
    job.wrap = egui::text::TextWrapping::truncate_at_width(room);
    let name = painter.layout_job(job);
    let name_right = name_left + name.size().x;
    painter.galley(egui::pos2(name_left, y - name.size().y / 2.0), name, ink);
    if name_right + 6.0 < kind_left {
        painter.galley(egui::pos2(kind_left, y - kind.size().y / 2.0), kind, soft);
    }
    if row.has_finding {
        let at = egui::pos2(rect.left() - 9.0, y);
        painter.text(
            at,
            Align2::CENTER_CENTER,
            "!",
            theme::sans_bold(theme::BODY),
            theme::ink(ui, Ink::Act),
        );
    }
}

/// Fill and edge of the small sign before a name.
const fn sign_inks(kind: Kind) -> (Ink, Ink) {
    match kind {
        Kind::Plot => (Ink::Crop, Ink::Furrow),
        Kind::Ley | Kind::Strip => (Ink::Ley, Ink::Blade),
        Kind::Tunnel => (Ink::Tunnel, Ink::Hoop),
        Kind::TreeLine | Kind::Wood => (Ink::Tree, Ink::TreeRing),
        Kind::Hedge => (Ink::Hedge, Ink::HedgeEdge),
        Kind::Water | Kind::Trough => (Ink::Water, Ink::Ripple),
        Kind::Building => (Ink::Building, Ink::Roof),
        Kind::Track => (Ink::Track, Ink::Rule),
        Kind::Fence | Kind::Gate | Kind::KeepOut | Kind::Note => (Ink::Field, Ink::Ink),
    }
}
