//! Which kinds the map shows: one tick a kind, with how many there are of it.
//!
//! What is hidden stays on the farm, in the list and in every sum; it is only neither drawn, picked nor snapped to.

use egui::{RichText, Ui};

use crate::app::desk::Desk;
use crate::app::dialogs::{heading, main_button};
use crate::app::theme;
use crate::farm::Kind;

/// The ticks; gives back whether the question stays.
pub fn shown_ui(ui: &mut Ui, desk: &mut Desk) -> bool {
    heading(ui, "Shown on the map");
    ui.label(
        RichText::new("What is hidden stays on the farm and in every sum.")
            .font(theme::sans(theme::SMALL))
            .weak(),
    );
    egui::Grid::new("shown")
        .num_columns(2)
        .spacing([28.0, 6.0])
        .show(ui, |ui| {
            for (place, kind) in Kind::ALL.into_iter().enumerate() {
                kind_ui(ui, desk, kind);
                if place % 2 == 1 {
                    ui.end_row();
                }
            }
        });
    let mut stays = true;
    ui.horizontal(|ui| {
        stays = !main_button(ui, "Done").clicked();
        if ui
            .add_enabled(!desk.hidden.is_empty(), egui::Button::new("Show all"))
            .clicked()
        {
            desk.hidden.clear();
            desk.snapping.forget_all();
        }
    });
    stays
}

fn kind_ui(ui: &mut Ui, desk: &mut Desk, kind: Kind) {
    let count = desk
        .farm()
        .ground
        .values()
        .filter(|ground| ground.kind == kind)
        .count();
    let mut is_shown = !desk.hidden.contains(&kind);
    let words = format!("{} ({count})", kind.name());
    if ui.checkbox(&mut is_shown, words).changed() {
        if is_shown {
            desk.hidden.remove(&kind);
        } else {
            desk.hidden.insert(kind);
        }
        desk.snapping.forget_all();
    }
}
