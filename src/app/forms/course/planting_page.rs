//! Planting: plants, seed, days and yields of the year in view, by plot and by week; own figures of a crop.

use egui::{RichText, ScrollArea, Ui};

use super::plain_table::words_table_ui;
use crate::app::desk::Desk;
use crate::app::forms::buttons::{list_row, word_button};
use crate::app::forms::change::{CourseField, CropField, Target};
use crate::app::forms::course_change::{crop_number, crops_in_table};
use crate::app::forms::field::{FieldRow, heading_ui, rows_ui, small_ui};
use crate::app::forms::figures::{figure_or_empty, figure_text};
use crate::app::theme;
use crate::farm::{CROP_SOURCE, Farm, course_years, crop_figures};
use crate::planning::planting_rows;
use crate::quantity::YearDay;
use crate::sheets::planting_sheet::{
    planting_csv, planting_table, planting_totals_csv, planting_totals_table,
};

/// The tables of the year in view.
pub(super) fn planting_ui(ui: &mut Ui, desk: &mut Desk) {
    let years = course_years(desk.farm());
    let year = desk.forms.course.year.clamp(*years.start(), *years.end());
    let rows = planting_rows(desk.farm(), year);
    ScrollArea::both()
        .id_salt("planting table")
        .auto_shrink(false)
        .show(ui, |ui| {
            let words = format!("Planting for {year}");
            ui.label(RichText::new(words).font(theme::serif_bold(theme::HEADING)));
            if rows.is_empty() {
                ui.label("The course has no crop in this year.");
                return;
            }
            words_table_ui(ui, "planting rows", &planting_table(desk.farm(), &rows));
            heading_ui(ui, "By week");
            words_table_ui(ui, "planting weeks", &planting_totals_table(&rows));
            ui.add_space(6.0);
            let tip = "Comma-separated rows, to be pasted into a table or a file";
            if word_button(ui, "Copy as rows", tip) {
                let text = planting_csv(desk.farm(), &rows);
                ui.ctx().copy_text(text);
                desk.tell(format!("The planting of {year} is copied as rows."));
            }
            if word_button(ui, "Copy the weeks as rows", tip) {
                ui.ctx().copy_text(planting_totals_csv(&rows));
                desk.tell(format!("The weeks of {year} are copied as rows."));
            }
            small_ui(
                ui,
                &format!("Spacing, days and usual yields: {CROP_SOURCE}."),
            );
        });
}

/// The crops of the table; the grower's own figures of the one in view.
pub(super) fn crops_ui(ui: &mut Ui, desk: &mut Desk) {
    ui.label(RichText::new("My own figures").font(theme::serif_bold(theme::HEADING)));
    let crops = crops_in_table(desk.farm());
    if crops.is_empty() {
        small_ui(ui, "Crops of the course stand here once there are some.");
        return;
    }
    let in_view = crops
        .iter()
        .find(|crop| **crop == desk.forms.course.crop)
        .or(crops.first())
        .cloned()
        .unwrap_or_default();
    for crop in &crops {
        let own = desk.farm().course.own_crops.contains_key(crop);
        let more = if own { "own figures" } else { "usual" };
        if list_row(ui, crop, more, *crop == in_view).clicked() {
            desk.forms.course.crop.clone_from(crop);
        }
    }
    heading_ui(ui, &in_view);
    rows_ui(ui, desk, &figure_rows(desk.farm(), &in_view));
    small_ui(ui, "An emptied field goes back to the usual figure.");
}

fn figure_rows(farm: &Farm, crop: &str) -> Vec<FieldRow> {
    let own = farm.course.own_crops.get(crop).copied().unwrap_or_default();
    let is_south = farm.frame.origin().lat_deg < 0.0;
    let usual = crop_figures(&crate::farm::Courses::default(), crop, is_south);
    let number = crop_number(crop);
    let target = |field| Target::Course(CourseField::Crop(number, field));
    let figure = |field, label: &str, value: Option<f64>, hint: String, unit: &str| {
        FieldRow::figure(target(field), label, figure_or_empty(value), unit).hinted(hint)
    };
    let day = |field, label: &str, value: Option<YearDay>, hint: YearDay| {
        let text = value.map_or_else(String::new, |day| day.to_string());
        FieldRow::words(target(field), label, text).hinted(hint.to_string())
    };
    let yield_hint = usual
        .usual_yield_kg_per_m2
        .map_or_else(String::new, |(least, most)| {
            format!("{}–{}", figure_text(least), figure_text(most))
        });
    vec![
        figure(
            CropField::Row,
            "Row to row",
            own.row_m,
            figure_text(usual.row_m),
            "m",
        ),
        figure(
            CropField::Plant,
            "Plant to plant",
            own.plant_m,
            figure_text(usual.plant_m),
            "m",
        ),
        day(CropField::Planted, "Goes in", own.planted, usual.planted),
        day(
            CropField::FirstHarvest,
            "First picked",
            own.first_harvest,
            usual.first_harvest,
        ),
        day(
            CropField::LastHarvest,
            "Last picked",
            own.last_harvest,
            usual.last_harvest,
        ),
        figure(
            CropField::Spare,
            "To spare",
            own.spare_percent,
            figure_text(usual.spare_percent),
            "%",
        ),
        figure(
            CropField::Yield,
            "Yield",
            own.yield_kg_per_m2,
            yield_hint,
            "kg/m²",
        ),
        figure(
            CropField::YieldPerPlant,
            "Or of a plant",
            own.yield_kg_per_plant,
            String::new(),
            "kg",
        ),
    ]
}
