//! On the page of the hens: the day in view, where the house stands then, and what went otherwise.

use egui::Ui;

use super::buttons::word_button;
use super::change::{HouseField, Target};
use super::field::{FieldRow, fact_ui, heading_ui, row_ui, small_ui};
use super::house_press;
use crate::app::desk::Desk;
use crate::app::season_acts::Act;
use crate::farm::{Farm, HenHouse, HenHouseId, HenMark};
use crate::planning::{HenWalk, SeasonPlan, flock_on_way_told, flocks_on_way};
use crate::quantity::{Day, UnitSystem, length_text, plural_text};

/// A house on a day as plain rows.
#[derive(Debug, Clone, PartialEq, Eq)]
struct HouseDay {
    /// Name and figure.
    rows: Vec<(&'static str, String)>,
    /// The number of its place.
    place: Option<usize>,
    /// What was settled, in words.
    settled: Option<&'static str>,
    /// What to look out for.
    cautions: Vec<String>,
}

fn house_day(
    farm: &Farm,
    plan: Option<&SeasonPlan>,
    id: HenHouseId,
    day: Day,
    units: UnitSystem,
) -> HouseDay {
    let mark = farm
        .hen_houses
        .get(&id)
        .and_then(|house| house.handling.marks.get(&day));
    let settled = mark.map(|mark| match mark {
        HenMark::At { lived: true, .. } => "lived",
        HenMark::At { lived: false, .. } => "fixed",
        HenMark::Late => "not moved",
        HenMark::Skipped => "a place left out",
    });
    let mut found = HouseDay {
        rows: Vec::new(),
        place: None,
        settled,
        cautions: Vec::new(),
    };
    let walk = plan.and_then(|plan| plan.hens.get(&id));
    let Some((walk, (stand, place))) = walk.and_then(|walk| Some((walk, walk.on(day)?))) else {
        found.rows.push(("Where", "not out".to_owned()));
        return found;
    };
    let line = farm
        .ground
        .get(&place.line)
        .map_or("", |ground| ground.name.as_str());
    found.place = Some(place.number);
    found
        .rows
        .push(("Where", format!("{line}, place {}", place.number)));
    let act = match (stand.is_housed, stand.is_waiting, stand.is_moved) {
        (true, ..) => "stays, hens shut in".to_owned(),
        (_, true, _) => "stays: no strip to follow to".to_owned(),
        (.., true) => moved_words(walk, day, units),
        _ => format!("stays, day {}", stand.day_of_stay),
    };
    found.rows.push(("The house", act));
    let rested = stand
        .rested_days
        .map_or("no hens before".to_owned(), |days| {
            plural_text(u64::from(days), "day", "days")
        });
    found.rows.push(("Ground rested", rested));
    if let Some((_, why)) = walk.closed.iter().find(|(closed, _)| *closed == day) {
        found.rows.push(("Closed", why.clone()));
    }
    if let Some((plan, tow)) = plan.zip(walk.tow_on(day)) {
        let flocks = flocks_on_way(farm, plan, &tow.way, day).into_iter();
        let told = flocks.map(|stand| format!("Look out: {}.", flock_on_way_told(farm, stand)));
        found.cautions.extend(told);
    }
    found
}

fn moved_words(walk: &HenWalk, day: Day, units: UnitSystem) -> String {
    match walk.tow_on(day) {
        Some(tow) if tow.is_blocked => "is moved: no clear way found".to_owned(),
        Some(tow) if tow.lacks_room_to_turn => "is moved: no room found to turn".to_owned(),
        Some(tow) if tow.turns => format!(
            "is moved and turned, {} to tow",
            length_text(tow.length_m, units)
        ),
        Some(tow) => format!("is moved, {} to tow", length_text(tow.length_m, units)),
        None => "is moved here".to_owned(),
    }
}

/// The day in view.
pub(super) fn day_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    id: HenHouseId,
    house: &HenHouse,
    act: &mut Option<Act>,
) {
    let day = desk.day;
    let found = house_day(desk.farm(), desk.plan.as_deref(), id, day, desk.units());
    heading_ui(ui, &day.long_text());
    for (label, figure) in &found.rows {
        fact_ui(ui, label, figure);
    }
    for caution in &found.cautions {
        ui.label(caution);
    }
    if let Some(settled) = found.settled {
        fact_ui(ui, "Settled", settled);
    }
    let text = match house.handling.marks.get(&day) {
        Some(HenMark::At { .. }) => found.place.map(|place| place.to_string()),
        _ => None,
    };
    let row = FieldRow::figure(
        Target::House(id, HouseField::PlaceOn(day)),
        "Fix at place",
        text.unwrap_or_default(),
        "",
    )
    .hinted("planned");
    row_ui(ui, desk, &row);
    let farm = desk.farm();
    ui.horizontal_wrapped(|ui| {
        if word_button(
            ui,
            "Not moved this day",
            "The walk is a day later from here on",
        ) {
            *act = house_press::set_mark(farm, id, day, Some(HenMark::Late));
        }
        if house.handling.follows.is_none()
            && word_button(
                ui,
                "Leave this place out",
                "It goes on to the next place instead",
            )
        {
            *act = house_press::set_mark(farm, id, day, Some(HenMark::Skipped));
        }
        if found.settled.is_some()
            && word_button(ui, "Free this day of the hens", "As the walk has it again")
        {
            *act = house_press::set_mark(farm, id, day, None);
        }
    });
    small_ui(
        ui,
        "Log as done, among the season's acts, keeps every day up to this one as lived. Days that were lived are not planned anew.",
    );
}
