//! A table of words: heads, rows, the last column over the room that is left.

use egui::{Grid, RichText, Ui};

use crate::app::theme;

/// One row of words; the first row is the head. The last column wraps.
pub(super) fn words_table_ui(ui: &mut Ui, id: &str, rows: &[Vec<String>]) {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let room = ui.available_width();
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
                    if column > 0 && column + 1 == columns {
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
