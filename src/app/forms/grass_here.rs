//! The grass of the strip or ley that is selected: covers read, closed days, figures of its own.
//!
//! On a ley that is cut into strips a change goes to all its strips in one step. Rows first, as plain data.

use egui::Ui;

use super::buttons::{sign_button, word_button};
use super::change::{GrassField, Target};
use super::field::{FieldRow, ROW, days_ui, heading_ui, row_ui, rows_ui, small_ui};
use super::figures::{day_text, figure_or_empty, figure_text};
use super::grass_change::{self, closed_alike, pieces};
use super::season_change::COVER_UNIT;
use crate::app::desk::Desk;
use crate::app::season_acts::Act;
use crate::farm::{Farm, Grazing, GroundId, Reading};
use crate::quantity::Day;

/// Grey text of a field in which the strips of a ley do not agree.
const DIFFER: &str = "differ";
/// Readings shown, the latest first.
const MOST_READINGS: usize = 6;

/// Everything the column says of the grass here.
#[derive(Debug, Clone, PartialEq)]
struct GrassRows {
    cover: FieldRow,
    readings: Vec<Reading>,
    is_unread: bool,
    closed: Vec<[FieldRow; 3]>,
    own: Vec<FieldRow>,
    has_own: bool,
    strips: usize,
}

/// The rows; nothing for ground that is not grazed.
pub fn grass_here_ui(ui: &mut Ui, desk: &mut Desk, id: GroundId) {
    let is_grazed = desk
        .farm()
        .ground
        .get(&id)
        .is_some_and(|ground| ground.kind.is_grazed() && ground.outline().is_some());
    if !is_grazed {
        return;
    }
    let rows = grass_rows(desk.farm(), id, desk.day);
    let mut act = None;
    heading_ui(ui, "Grass here");
    if rows.strips > 1 {
        small_ui(
            ui,
            &format!("Set for all its {} strips in one step.", rows.strips),
        );
    }
    if rows.is_unread {
        ui.label("No cover is read here yet.");
    }
    row_ui(ui, desk, &rows.cover);
    readings_ui(ui, desk, id, &rows, &mut act);
    closed_ui(ui, desk, id, &rows, &mut act);
    ui.add_space(4.0);
    egui::CollapsingHeader::new("Figures of its own")
        .id_salt(("own figures", id.0))
        .default_open(rows.has_own)
        .show_unindented(ui, |ui| {
            rows_ui(ui, desk, &rows.own);
            small_ui(ui, "Left empty, the farm's figures hold, shown in grey.");
        });
    if let Some((label, edits)) = act {
        desk.commit(&label, edits);
    }
}

fn grass_rows(farm: &Farm, id: GroundId, day: Day) -> GrassRows {
    let grazings: Vec<Grazing> = pieces(farm, id)
        .into_iter()
        .map(|(_, ground)| ground.grazing.clone().unwrap_or_default())
        .collect();
    let read_on = |grazing: &Grazing| {
        grazing
            .readings
            .iter()
            .rev()
            .find(|reading| reading.day == day)
            .map(|reading| reading.cover_kg_per_ha)
    };
    let (cover, differs) = alike(&grazings, read_on);
    let cover = FieldRow::figure(
        Target::Grass(id, GrassField::Cover(day)),
        &format!("Cover {}", day.short_text()),
        cover,
        COVER_UNIT,
    )
    .hinted(if differs { DIFFER } else { "" })
    .spoken(format!("Cover read on {}", day.short_text()));
    let mut readings: Vec<Reading> = match grazings.as_slice() {
        [only] => only.readings.clone(),
        _ => Vec::new(),
    };
    readings.sort_by_key(|reading| std::cmp::Reverse(reading.day));
    GrassRows {
        cover,
        readings,
        is_unread: grazings.iter().all(|grazing| grazing.readings.is_empty()),
        closed: closed_rows(farm, id),
        own: own_rows(farm, id, &grazings),
        has_own: grazings.iter().any(has_own),
        strips: grazings.len(),
    }
}

/// The figure that all pieces have alike, and whether they differ.
fn alike(grazings: &[Grazing], pick: impl Fn(&Grazing) -> Option<f64>) -> (String, bool) {
    let mut figures = grazings
        .iter()
        .map(|grazing| pick(grazing).map(f64::to_bits));
    let first = figures.next().flatten();
    if figures.all(|figure| figure == first) {
        (figure_or_empty(first.map(f64::from_bits)), false)
    } else {
        (String::new(), true)
    }
}

fn has_own(grazing: &Grazing) -> bool {
    let plain = Grazing {
        readings: grazing.readings.clone(),
        closed: grazing.closed.clone(),
        ..Grazing::default()
    };
    *grazing != plain
}

fn own_rows(farm: &Farm, id: GroundId, grazings: &[Grazing]) -> Vec<FieldRow> {
    let sward = &farm.sward;
    let figure =
        |field, label: &str, unit: &str, hint: String, pick: fn(&Grazing) -> Option<f64>| {
            let (text, differs) = alike(grazings, pick);
            let hint = if differs { DIFFER.to_owned() } else { hint };
            FieldRow::figure(Target::Grass(id, field), label, text, unit).hinted(hint)
        };
    let growth = figure(
        GrassField::GrowthFactor,
        "Grows",
        "× farm's",
        "1".to_owned(),
        |grazing| ((grazing.growth_factor - 1.0).abs() > 1e-9).then_some(grazing.growth_factor),
    )
    .spoken("Growth against the farm's");
    let farms = figure_text;
    let mut rows = vec![
        growth,
        figure(
            GrassField::Leave,
            "Leave",
            COVER_UNIT,
            farms(sward.leave_kg_per_ha),
            |grazing| grazing.leave_kg_per_ha,
        ),
        figure(
            GrassField::Enter,
            "Enter at",
            COVER_UNIT,
            farms(sward.enter_kg_per_ha),
            |grazing| grazing.enter_kg_per_ha,
        ),
        figure(
            GrassField::Ceiling,
            "Growth stops",
            COVER_UNIT,
            farms(sward.ceiling_kg_per_ha),
            |grazing| grazing.ceiling_kg_per_ha,
        )
        .spoken("Growth stops at"),
        figure(
            GrassField::EndCover,
            "Wanted at end",
            COVER_UNIT,
            "any".to_owned(),
            |grazing| grazing.end_cover_kg_per_ha,
        )
        .spoken("Cover wanted at the season's end"),
    ];
    rows.push(last_grazed_row(id, grazings));
    rows
}

fn last_grazed_row(id: GroundId, grazings: &[Grazing]) -> FieldRow {
    let first = grazings.first().and_then(|grazing| grazing.last_grazed);
    let is_alike = grazings.iter().all(|grazing| grazing.last_grazed == first);
    let text = first.filter(|_| is_alike).map(day_text).unwrap_or_default();
    FieldRow::words(
        Target::Grass(id, GrassField::LastGrazed),
        "Last grazed",
        text,
    )
    .hinted(if is_alike { "not known" } else { DIFFER })
    .spoken("Last grazed before the season")
}

fn closed_rows(farm: &Farm, id: GroundId) -> Vec<[FieldRow; 3]> {
    closed_alike(farm, id)
        .into_iter()
        .enumerate()
        .map(|(place, span)| {
            let row = |field, label: &str, text: String, spoken: &str| {
                FieldRow::words(Target::Grass(id, field), label, text)
                    .spoken(format!("Closed span {}, {spoken}", place + 1))
            };
            [
                row(
                    GrassField::ClosedFrom(place),
                    "",
                    day_text(span.from),
                    "first day",
                ),
                row(
                    GrassField::ClosedTo(place),
                    "",
                    day_text(span.to),
                    "last day",
                ),
                row(GrassField::ClosedWhy(place), "Why", span.why, "why")
                    .hinted("hay, nest, wet …"),
            ]
        })
        .collect()
}

fn readings_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    id: GroundId,
    rows: &GrassRows,
    act: &mut Option<Act>,
) {
    let earlier = rows
        .readings
        .iter()
        .filter(|reading| reading.day != desk.day);
    for reading in earlier.clone().take(MOST_READINGS) {
        let day = day_text(reading.day);
        let (rect, _) =
            ui.allocate_exact_size(egui::vec2(ui.available_width(), ROW), egui::Sense::hover());
        let square = egui::Rect::from_min_max(egui::pos2(rect.right() - ROW, rect.top()), rect.max);
        let words =
            egui::Rect::from_min_max(rect.min, egui::pos2(square.left() - 8.0, rect.bottom()));
        let layout = egui::Layout::left_to_right(egui::Align::Center);
        ui.scope_builder(
            egui::UiBuilder::new().max_rect(words).layout(layout),
            |ui| {
                ui.label(egui::RichText::new(format!("Read {day}")).weak());
                ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                    let text = format!("{} {COVER_UNIT}", figure_text(reading.cover_kg_per_ha));
                    ui.label(text);
                });
            },
        );
        if sign_button(ui, square, "×", &format!("Take the reading of {day} away")) {
            *act = grass_change::remove_reading(desk.farm(), id, reading.day);
        }
    }
    let more = earlier.count().saturating_sub(MOST_READINGS);
    if more > 0 {
        small_ui(ui, &format!("and {more} earlier"));
    }
}

fn closed_ui(ui: &mut Ui, desk: &mut Desk, id: GroundId, rows: &GrassRows, act: &mut Option<Act>) {
    for (place, [from, to, why]) in rows.closed.iter().enumerate() {
        ui.label(egui::RichText::new("Closed").weak());
        let remove = format!("Open it again, span {}", place + 1);
        if days_ui(ui, desk, from, to, &remove) {
            *act = grass_change::remove_closed(desk.farm(), id, place);
        }
        row_ui(ui, desk, why);
    }
    ui.add_space(2.0);
    if word_button(
        ui,
        "Close it for some days",
        "No animal stands here then: hay, a nest, wet ground, a crop",
    ) {
        *act = grass_change::add_closed(desk.farm(), id, desk.day);
    }
}
