//! On the page of the hens: what stops a house, the sheep it follows, and birds that grow.

use egui::Ui;

use super::buttons::word_button;
use super::change::{HouseField, Target};
use super::field::{FieldRow, days_ui, heading_ui, labelled_ui, row_ui, rows_ui, small_ui};
use super::figures::{day_text, figure_text};
use super::house_press;
use super::mob_choice::{MobChoice, mob_choice_ui};
use crate::app::desk::Desk;
use crate::app::season_acts::Act;
use crate::farm::{Farm, HenHouse, HenHouseId, HenStop, MobId, StopKind};

/// What stops it: housing orders, frost and wet, windfalls and harvest.
pub(super) fn stops_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    id: HenHouseId,
    house: &HenHouse,
    act: &mut Option<Act>,
) {
    heading_ui(ui, "What stops it");
    for (place, stop) in house.handling.stops.iter().enumerate() {
        let row = |field, text: String, spoken: &str| {
            FieldRow::words(Target::House(id, field), "", text)
                .spoken(format!("Stop {}, {spoken}", place + 1))
        };
        let from = row(
            HouseField::StopFrom(place),
            day_text(stop.from),
            "first day",
        );
        let to = row(HouseField::StopTo(place), day_text(stop.to), "last day");
        if days_ui(
            ui,
            desk,
            &from,
            &to,
            &format!("Take stop {} away", place + 1),
        ) {
            *act = house_press::remove_stop(desk.farm(), id, place);
        }
        kind_ui(ui, desk, (id, place), house, stop, act);
        let mut why = row(HouseField::StopWhy(place), stop.why.clone(), "why")
            .hinted("windfalls, frost, an order …");
        "Why".clone_into(&mut why.label);
        row_ui(ui, desk, &why);
        ui.add_space(4.0);
    }
    if word_button(
        ui,
        "Add a stop",
        "Days without towing, shut in, or off a line",
    ) {
        *act = house_press::add_stop(desk.farm(), id, desk.day);
    }
}

/// A choice of what a stop forbids, with its words.
fn kinds(farm: &Farm, house: &HenHouse) -> Vec<(StopKind, String)> {
    let mut kinds = vec![
        (StopKind::NoTowing, words_of(farm, StopKind::NoTowing)),
        (StopKind::Housed, words_of(farm, StopKind::Housed)),
    ];
    kinds.extend(house.lines.iter().map(|line| {
        let kind = StopKind::KeepOff(*line);
        (kind, words_of(farm, kind))
    }));
    kinds
}

fn words_of(farm: &Farm, kind: StopKind) -> String {
    match kind {
        StopKind::NoTowing => "not towed".to_owned(),
        StopKind::Housed => "hens shut in".to_owned(),
        StopKind::KeepOff(line) => farm.ground.get(&line).map_or_else(
            || "off a line that is gone".to_owned(),
            |ground| format!("off {}", ground.name),
        ),
    }
}

fn kind_ui(
    ui: &mut Ui,
    desk: &Desk,
    (id, place): (HenHouseId, usize),
    house: &HenHouse,
    stop: &HenStop,
    act: &mut Option<Act>,
) {
    let farm = desk.farm();
    labelled_ui(ui, "Then", |ui| {
        ui.spacing_mut().combo_width = ui.available_width();
        let combo =
            egui::ComboBox::from_id_salt(("stop", place)).selected_text(words_of(farm, stop.kind));
        let shown = combo.show_ui(ui, |ui| {
            for (kind, words) in kinds(farm, house) {
                let is_it = kind == stop.kind;
                if ui.selectable_label(is_it, words).clicked() && !is_it {
                    *act = house_press::set_stop_kind(farm, id, place, kind);
                }
            }
        });
        let spoken = format!("Stop {}, what it forbids", place + 1);
        shown
            .response
            .widget_info(|| egui::WidgetInfo::labeled(egui::Role::ComboBox, true, &spoken));
    });
}

/// Its own lines, or a mob to follow.
pub(super) fn follows_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    id: HenHouseId,
    house: &HenHouse,
    act: &mut Option<Act>,
) {
    if desk.farm().mobs.is_empty() && house.handling.follows.is_none() {
        return;
    }
    let follows = house.handling.follows;
    let mobs: Vec<MobId> = desk.farm().mobs.keys().copied().collect();
    let choice = MobChoice {
        label: "It walks after",
        own: "its own lines",
        mobs: &mobs,
        now: follows.map(|follows| follows.mob),
    };
    let mob = mob_choice_ui(ui, desk.farm(), &choice);
    if mob != choice.now {
        *act = house_press::set_follows(desk.farm(), id, mob);
    }
    if let Some(follows) = follows {
        let row = FieldRow::figure(
            Target::House(id, HouseField::FollowDays),
            "So much later",
            follows.days_after.to_string(),
            "days",
        );
        row_ui(ui, desk, &row);
        small_ui(
            ui,
            "Hens 3 to 4 days behind cattle is common pasture practice; behind sheep it is weaker advice, no source.",
        );
    }
}

/// Birds that grow into their run.
pub(super) fn growing_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    id: HenHouseId,
    house: &HenHouse,
    act: &mut Option<Act>,
) {
    heading_ui(ui, "Chicks and pullets that grow");
    for (place, step) in house.handling.flock_steps.iter().enumerate() {
        let named = |spoken: &str| format!("Step {}, {spoken}", place + 1);
        let rows = [
            FieldRow::words(
                Target::House(id, HouseField::StepFrom(place)),
                "From",
                day_text(step.from),
            )
            .spoken(named("from")),
            FieldRow::figure(
                Target::House(id, HouseField::StepBirds(place)),
                "Birds",
                step.birds.to_string(),
                "",
            )
            .spoken(named("birds")),
            FieldRow::figure(
                Target::House(id, HouseField::StepRoom(place)),
                "Each wants",
                figure_text(step.m2_each),
                "m² a day",
            )
            .spoken(named("each wants")),
        ];
        rows_ui(ui, desk, &rows);
        if word_button(
            ui,
            &format!("Take step {} away", place + 1),
            "Undo brings it back",
        ) {
            *act = house_press::remove_step(desk.farm(), id, place);
        }
        ui.add_space(4.0);
    }
    if word_button(
        ui,
        "Birds and room from this day",
        "From the day in view on: how many birds, and how much ground each wants",
    ) {
        *act = house_press::add_step(desk.farm(), id, desk.day);
    }
}
