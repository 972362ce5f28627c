//! Buttons of the forms: small square signs with spoken names, rows of a list, choices side by side.

use egui::{Align2, Button, Rect, Response, RichText, Role, Sense, Stroke, Ui, Vec2, WidgetInfo};

use super::field::ROW;
use crate::app::theme;
use crate::sheets::palette::Ink;

/// A square button with one sign on it; whether it was pressed.
pub(super) fn sign_button(ui: &mut Ui, rect: Rect, sign: &str, spoken: &str) -> bool {
    let button = Button::new(RichText::new(sign)).min_size(rect.size());
    let response = ui.put(rect, button);
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, spoken));
    response.on_hover_text(spoken).clicked()
}

/// One row of a list of things: name at the left, more about it at the right.
pub(super) fn list_row(ui: &mut Ui, name: &str, more: &str, is_selected: bool) -> Response {
    let width = ui.available_width();
    let (rect, response) = ui.allocate_exact_size(Vec2::new(width, ROW), Sense::click());
    let spoken = format!("{name}, {more}");
    response.widget_info(|| {
        WidgetInfo::selected(Role::ListBoxOption, true, is_selected, spoken.clone())
    });
    let painter = ui.painter();
    if is_selected || response.hovered() || response.has_focus() {
        let tint = theme::ink(ui, Ink::ActTint);
        let strength = if is_selected { 1.0 } else { 0.5 };
        let ground = rect.expand2(Vec2::new(8.0, 0.0));
        painter.rect_filled(ground, 5.0, tint.gamma_multiply(strength));
        if response.has_focus() {
            let stroke = Stroke::new(1.4, theme::ink(ui, Ink::Act));
            painter.rect_stroke(ground.shrink(1.0), 5.0, stroke, egui::StrokeKind::Inside);
        }
    }
    let soft = theme::ink(ui, Ink::Soft);
    let more_drawn = painter.text(
        rect.right_center(),
        Align2::RIGHT_CENTER,
        more,
        theme::sans(theme::SMALL),
        soft,
    );
    let font = if is_selected {
        theme::sans_bold(theme::BODY)
    } else {
        theme::sans(theme::BODY)
    };
    let ink = theme::ink(ui, Ink::Ink);
    let mut job = egui::text::LayoutJob::simple_singleline(name.to_owned(), font, ink);
    let room = (more_drawn.left() - 8.0 - rect.left()).max(20.0);
    job.wrap = egui::text::TextWrapping::truncate_at_width(room);
    let drawn = painter.layout_job(job);
    let at = egui::pos2(rect.left(), rect.center().y - drawn.size().y / 2.0);
    painter.galley(at, drawn, ink);
    response
}

/// A button as wide as its words, with a spoken name where the words alone do not tell it apart.
pub(super) fn word_button(ui: &mut Ui, words: &str, tip: &str) -> bool {
    ui.button(words).on_hover_text(tip).clicked()
}
