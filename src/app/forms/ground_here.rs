//! What can be typed about the ground that is selected: width, height, note.
//!
//! Only what its kind has is asked for. Rows first, as plain data.

use egui::Ui;

use super::change::{GroundField, Target};
use super::field::{FieldRow, heading_ui, rows_ui};
use super::figures::{length_figure, length_unit};
use crate::app::desk::Desk;
use crate::farm::{Form, Ground, GroundId, Kind};
use crate::quantity::UnitSystem;

/// The rows under a heading of their own.
pub fn ground_here_ui(ui: &mut Ui, desk: &mut Desk, id: GroundId) {
    let Some(ground) = desk.farm().ground.get(&id) else {
        return;
    };
    let rows = ground_rows(id, ground, desk.units());
    heading_ui(ui, "About it");
    rows_ui(ui, desk, &rows);
}

fn ground_rows(id: GroundId, ground: &Ground, units: UnitSystem) -> Vec<FieldRow> {
    let length = |field, label: &str, length_m: Option<f64>| {
        let text = length_m.map_or_else(String::new, |length_m| length_figure(length_m, units));
        FieldRow::figure(Target::Ground(id, field), label, text, length_unit(units))
    };
    let mut rows = Vec::new();
    if ground.shape.form() == Form::Line && ground.kind != Kind::Note {
        let usual_m = ground.kind.usual_width_m();
        let hint = if usual_m > 0.0 {
            length_figure(usual_m, units)
        } else {
            String::new()
        };
        rows.push(length(GroundField::Width, "Width", ground.width_m).hinted(hint));
    }
    // The ridge of a tunnel is asked for with its hoops.
    if matches!(ground.kind, Kind::Hedge | Kind::Wood | Kind::Building) {
        rows.push(length(GroundField::Height, "Height", ground.height_m).hinted("not known"));
    }
    rows.push(FieldRow::lines(
        Target::Ground(id, GroundField::Note),
        "Note",
        ground.note.clone(),
    ));
    rows
}
