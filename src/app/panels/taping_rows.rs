//! A table of two figures in a row: numbered, an empty row always ready at the end, Enter goes on to the next figure.

use egui::{Key, Rect, TextEdit, Ui, Vec2};

use super::taping_page::{GAP, ROW, field_id, small_ui, take_focus};
use crate::app::taping::{Focus, with_empty_row};
use crate::app::theme;
use crate::sheets::palette::Ink;

/// What was done in the table.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Entered {
    /// Whether the cursor stands in it.
    pub(super) has_focus: bool,
    /// Whether Enter was pressed in the empty row at the end: nothing more is to come.
    pub(super) is_done: bool,
}

/// Room of the row's number.
const NUMBER: f32 = 22.0;

/// The table; `heads` name the columns, `hints` stand in empty fields.
pub(super) fn rows_ui(
    ui: &mut Ui,
    rows: &mut Vec<[String; 2]>,
    heads: [&str; 2],
    hints: [&str; 2],
    focus: &mut Option<Focus>,
) -> Entered {
    let mut entered = Entered::default();
    with_empty_row(rows);
    ui.add_space(4.0);
    let width = (ui.available_width() - NUMBER - ROW - 3.0 * GAP) / 2.0;
    heads_ui(ui, heads, hints, width);
    let mut removed = None;
    let last = rows.len().saturating_sub(1);
    for (number, row) in rows.iter_mut().enumerate() {
        let (whole, _) =
            ui.allocate_exact_size(Vec2::new(ui.available_width(), ROW), egui::Sense::hover());
        ui.painter().text(
            whole.left_center() + Vec2::new(NUMBER - 4.0, 0.0),
            egui::Align2::RIGHT_CENTER,
            format!("{}", number + 1),
            theme::sans(theme::SMALL),
            theme::ink(ui, Ink::Soft),
        );
        let mut left = whole.left() + NUMBER + GAP;
        let is_empty = row.iter().all(|text| text.trim().is_empty());
        for (column, (text, head)) in row.iter_mut().zip(heads).enumerate() {
            let place = Rect::from_min_size(egui::pos2(left, whole.top()), Vec2::new(width, ROW));
            left = place.right() + GAP;
            let own = Focus::Row(number, column);
            let field = TextEdit::singleline(text)
                .id(field_id(own))
                .desired_width(width - 16.0)
                .min_size(place.size())
                .margin(egui::Margin::symmetric(8, 3))
                .align(egui::Align2::RIGHT_CENTER);
            let field = ui.put(place, field);
            let spoken = format!("{head} of row {}", number + 1);
            field.widget_info(|| {
                egui::WidgetInfo::labeled(egui::Role::TextInput, true, spoken.clone())
            });
            take_focus(ui, &field, text, own, focus);
            entered.has_focus |= field.has_focus();
            if field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter)) {
                if number == last && is_empty {
                    entered.is_done = true;
                } else {
                    *focus = Some(Focus::Row(number + column, 1 - column));
                }
            }
        }
        if number < last {
            let square = Rect::from_min_size(
                egui::pos2(whole.right() - ROW, whole.top()),
                Vec2::splat(ROW),
            );
            let button = ui.put(square, egui::Button::new("×").frame(false));
            let spoken = format!("Remove row {}", number + 1);
            button.widget_info(|| {
                egui::WidgetInfo::labeled(egui::Role::Button, true, spoken.clone())
            });
            if button.on_hover_text("Remove this row").clicked() {
                removed = Some(number);
            }
        }
    }
    if let Some(number) = removed {
        rows.remove(number);
    }
    entered
}

fn heads_ui(ui: &mut Ui, heads: [&str; 2], hints: [&str; 2], width: f32) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        ui.add_space(NUMBER + GAP);
        for (head, hint) in heads.into_iter().zip(hints) {
            ui.allocate_ui_with_layout(
                Vec2::new(width + GAP, 16.0),
                egui::Layout::left_to_right(egui::Align::Center),
                |ui| {
                    ui.set_width(width + GAP);
                    small_ui(ui, &format!("{head} ({hint})"));
                },
            );
        }
    });
}
