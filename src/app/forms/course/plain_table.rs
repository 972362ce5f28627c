//! A table of words: heads, rows, the last column over the room that is left.

use egui::{Align, Grid, Layout, RichText, Ui};

use crate::app::theme;

/// One row of words; the first row is the head. The last column wraps.
pub(in crate::app::forms) fn words_table_ui(ui: &mut Ui, id: &str, rows: &[Vec<String>]) {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let room = ui.available_width();
    let figures: Vec<Option<f32>> = (0..columns)
        .map(|column| figures_width(ui, rows, column))
        .collect();
    Grid::new(id)
        .striped(true)
        .spacing(egui::vec2(14.0, 5.0))
        .show(ui, |ui| {
            ui.spacing_mut().interact_size.y = 20.0;
            for (place, row) in rows.iter().enumerate() {
                for (column, words) in row.iter().enumerate() {
                    let text = if place == 0 {
                        RichText::new(words).font(theme::sans_bold(theme::SMALL))
                    } else {
                        RichText::new(words).font(theme::sans(theme::BODY))
                    };
                    if let Some(width) = figures.get(column).copied().flatten() {
                        let layout = Layout::right_to_left(Align::Center);
                        ui.allocate_ui_with_layout(egui::vec2(width, 20.0), layout, |ui| {
                            ui.add(egui::Label::new(text).extend());
                        });
                    } else if column > 0 && column + 1 == columns {
                        ui.scope(|ui| {
                            ui.set_max_width((room * 0.42).max(120.0));
                            ui.add(egui::Label::new(text).wrap());
                        });
                    } else {
                        ui.add(egui::Label::new(text).extend());
                    }
                }
                ui.end_row();
            }
        });
}

/// How wide a column is that holds figures alone, so that they stand under each other; `None` for one of words.
fn figures_width(ui: &Ui, rows: &[Vec<String>], column: usize) -> Option<f32> {
    let (head, body) = rows.split_first()?;
    let cells = || body.iter().filter_map(|row| row.get(column));
    let is_figure = |cell: &String| {
        cell.chars().all(|c| {
            c.is_ascii_digit() || matches!(c, '.' | ',' | '–' | '−' | ' ' | '\u{2009}' | '\u{a0}')
        })
    };
    if !cells().all(is_figure) || !cells().any(|cell| cell.contains(|c: char| c.is_ascii_digit())) {
        return None;
    }
    let width = |text: &str, font: egui::FontId| {
        let galley = ui
            .painter()
            .layout_no_wrap(text.to_owned(), font, egui::Color32::BLACK);
        galley.size().x
    };
    let widest = cells()
        .map(|cell| width(cell, theme::sans(theme::BODY)))
        .fold(0.0, f32::max);
    let head = head
        .get(column)
        .map_or(0.0, |head| width(head, theme::sans_bold(theme::SMALL)));
    Some(widest.max(head).ceil())
}
