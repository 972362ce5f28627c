//! On the page of the hens: stretches of a line that are too steep or too narrow, where no place is laid.
//!
//! Metres along the line from its beginning, typed in the units of the page.

use egui::Ui;

use super::buttons::word_button;
use super::change::{HouseField, Target};
use super::field::{FieldRow, rows_ui, small_ui};
use super::figures::{length_figure, length_unit};
use super::hens::choice_ui;
use super::house_press;
use crate::app::desk::Desk;
use crate::app::season_acts::Act;
use crate::farm::{GroundId, HenHouse, HenHouseId, LeftStretch, StretchTrouble};

/// Length of a stretch as it is first left out, metres.
const FIRST_LENGTH_M: f64 = 10.0;

/// The stretches left out, each with where it lies and why.
pub(super) fn stretches_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    id: HenHouseId,
    house: &HenHouse,
    act: &mut Option<Act>,
) {
    for (place, stretch) in house.handling.left_stretches.iter().enumerate() {
        stretch_ui(ui, desk, (id, place), stretch, act);
    }
    let lines: Vec<(GroundId, String, f64)> = house
        .lines
        .iter()
        .filter_map(|line| {
            let ground = desk.farm().ground.get(line)?;
            ground.line()?;
            let length_m = desk.measures(*line).length_m?;
            Some((*line, ground.name.clone(), length_m))
        })
        .collect();
    if lines.is_empty() {
        return;
    }
    ui.menu_button("Leave out a stretch", |ui| {
        for (line, name, length_m) in &lines {
            if ui.button(format!("of {name}")).clicked() {
                let stretch = LeftStretch {
                    line: *line,
                    from_m: 0.0,
                    to_m: length_m.min(FIRST_LENGTH_M),
                    why: StretchTrouble::Steep,
                };
                *act = house_press::leave_out_stretch(desk.farm(), id, stretch);
                ui.close();
            }
        }
    });
    small_ui(
        ui,
        "Where a line is too steep or too narrow; on a ley, draw a keep-out there. What can be towed on a slope is for you \
         to judge on the ground.",
    );
}

fn stretch_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    (id, place): (HenHouseId, usize),
    stretch: &LeftStretch,
    act: &mut Option<Act>,
) {
    let units = desk.units();
    let name = desk.farm().ground.get(&stretch.line).map_or_else(
        || "a line that is gone".to_owned(),
        |ground| ground.name.clone(),
    );
    ui.label(format!("Left out of {name}"));
    let number = place + 1;
    let row = |field, label: &str, at_m| {
        FieldRow::figure(
            Target::House(id, field),
            label,
            length_figure(at_m, units),
            length_unit(units),
        )
        .spoken(format!("Stretch {number}, {}", label.to_lowercase()))
    };
    let rows = [
        row(HouseField::StretchFrom(place), "From", stretch.from_m),
        row(HouseField::StretchTo(place), "To", stretch.to_m),
    ];
    rows_ui(ui, desk, &rows);
    let choices = StretchTrouble::ALL.map(|why| (why, why.words()));
    if let Some(why) = choice_ui(ui, "Why", stretch.why, &choices) {
        *act = house_press::set_stretch_trouble(desk.farm(), id, place, why);
    }
    let take = format!("Use stretch {number} again");
    if word_button(ui, &take, "Undo leaves it out again") {
        *act = house_press::use_stretch(desk.farm(), id, place);
    }
    ui.add_space(4.0);
}
