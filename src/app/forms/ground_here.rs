//! What can be typed about the ground that is selected: width, height, trees, note.
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
    if matches!(
        ground.kind,
        Kind::Hedge | Kind::Wood | Kind::Building | Kind::Tunnel
    ) {
        rows.push(length(GroundField::Height, "Height", ground.height_m).hinted("not known"));
    }
    if ground.kind == Kind::TreeLine {
        let trees = ground.trees.as_ref();
        rows.push(
            length(
                GroundField::TreeSpacing,
                "Stem to stem",
                trees.map(|row| row.spacing_m),
            )
            .hinted("no trees"),
        );
        if let Some(trees) = trees {
            rows.push(length(
                GroundField::TreeFirst,
                "First stem at",
                Some(trees.first_m),
            ));
            rows.push(length(
                GroundField::TreeCrown,
                "Crown, grown",
                Some(trees.crown_m),
            ));
        }
    }
    rows.push(FieldRow::lines(
        Target::Ground(id, GroundField::Note),
        "Note",
        ground.note.clone(),
    ));
    rows
}
