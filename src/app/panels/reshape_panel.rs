//! The column beside the map while an act of reshaping is looked at: what is asked for, what it changes, do it or not.

use egui::{RichText, ScrollArea, Ui};

use super::reshape_asked::asked_ui;
use crate::app::desk::Desk;
use crate::app::dialogs::{heading, main_button, trouble_ui};
use crate::app::map::feed;
use crate::app::tools::{MapEvent, Reshape, ReshapeAct, Tool, signed_area_text};
use crate::farm::AreaChange;
use crate::quantity::{UnitSystem, area_text};

/// The column, where an act is in hand; whether it was shown.
pub fn reshape_ui(ui: &mut Ui, desk: &mut Desk) -> bool {
    if !matches!(desk.tool, Tool::Reshape(_)) {
        return false;
    }
    let Tool::Reshape(mut reshape) = std::mem::take(&mut desk.tool) else {
        return false;
    };
    let mut wanted = None;
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 6.0;
        let (title, act) = words(&reshape.act);
        heading(ui, title);
        let entered = asked_ui(ui, desk, &mut reshape);
        reshape.renew(desk.farm(), desk.history.steps_done(), desk.units());
        outcome_ui(ui, desk, &reshape);
        ui.add_space(6.0);
        ui.horizontal(|ui| {
            let can = reshape.outcome().is_ok();
            ui.add_enabled_ui(can, |ui| {
                if main_button(ui, act).clicked() {
                    wanted = Some(MapEvent::Finish);
                }
            });
            if ui.button("Cancel").clicked() {
                wanted = Some(MapEvent::Escape);
            }
        });
        if entered && reshape.outcome().is_ok() {
            wanted = Some(MapEvent::Finish);
        }
    });
    desk.tool = Tool::Reshape(reshape);
    if let Some(event) = wanted {
        feed(desk, event);
    }
    true
}

/// The heading, and the words of the press that does it.
const fn words(act: &ReshapeAct) -> (&'static str, &'static str) {
    match act {
        ReshapeAct::Mend { .. } => ("Neighbours that do not fit", "Mend"),
        ReshapeAct::Join { .. } => ("Join into one", "Join"),
        ReshapeAct::Headland { .. } => ("Headland or set-back", "Set out"),
        ReshapeAct::KeepClear { .. } => ("Keep ground clear round it", "Keep clear"),
        ReshapeAct::CutOut { .. } => ("Take out of the ground under it", "Take out"),
        ReshapeAct::FillHole { .. } => ("Fill a hole", "Fill"),
        ReshapeAct::Mirror { .. } => ("Mirror what is selected", "Mirror"),
        ReshapeAct::Turn { .. } => ("Turn what is selected", "Turn"),
    }
}

/// What would change, or why it cannot be done.
fn outcome_ui(ui: &mut Ui, desk: &Desk, reshape: &Reshape) {
    match reshape.outcome() {
        Err("") => {}
        Err(why) => trouble_ui(ui, Some(why)),
        Ok(done) => {
            ui.add_space(4.0);
            let changes = done.area_changes(desk.farm());
            egui::Grid::new("changes")
                .num_columns(3)
                .spacing([12.0, 3.0])
                .show(ui, |ui| {
                    for change in changes.iter().take(14) {
                        change_ui(ui, change, desk.units());
                    }
                });
            if changes.len() > 14 {
                ui.label(RichText::new(format!("and {} more", changes.len() - 14)).weak());
            }
        }
    }
}

fn change_ui(ui: &mut Ui, change: &AreaChange, units: UnitSystem) {
    let (now, by) = match (change.before_m2, change.after_m2) {
        (Some(before_m2), Some(after_m2)) => (
            area_text(after_m2, units),
            signed_area_text(after_m2 - before_m2, units),
        ),
        (None, Some(after_m2)) => (area_text(after_m2, units), "new".to_owned()),
        _ => (String::new(), "goes".to_owned()),
    };
    ui.label(RichText::new(&change.name).weak());
    ui.label(now);
    ui.label(by);
    ui.end_row();
}
