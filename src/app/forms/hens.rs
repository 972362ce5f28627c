//! The page of the hens: a list of houses, everything about the one in view, and what its walk comes to.
//!
//! Rows first, as plain data; the page only paints them.

use egui::Ui;

use super::buttons::{list_row, sign_button, word_button};
use super::change::{HouseField, Target};
use super::field::{FieldRow, ROW, fact_ui, heading_ui, row_ui, rows_ui, small_ui};
use super::figures::{day_text, figure_or_empty, length_figure, length_unit};
use super::hens_day::day_ui;
use super::hens_stops::{follows_ui, growing_ui, stops_ui};
use super::hens_stretches::stretches_ui;
use super::hens_walk::walk_facts;
use super::house_press;
use crate::app::desk::Desk;
use crate::app::dialogs::main_button;
use crate::app::season_acts::Act;
use crate::app::theme;
use crate::farm::{Farm, GroundId, HenHouse, HenHouseId, LineOrder, LineSide, TowSide};
use crate::quantity::{UnitSystem, length_text, plural_text};
use crate::sheets::palette::Ink;

/// The page.
pub(super) fn hens_ui(ui: &mut Ui, desk: &mut Desk) {
    if desk.farm().hen_houses.is_empty() {
        ui.label("No hen house yet. Put one in and say which lines it walks along.");
        ui.add_space(4.0);
        if main_button(ui, "Add a hen house").clicked() {
            add(desk);
        }
        return;
    }
    let in_view = house_in_view(desk);
    let houses: Vec<(HenHouseId, String, u32)> = desk
        .farm()
        .hen_houses
        .iter()
        .map(|(id, house)| (*id, house.name.clone(), house.hens))
        .collect();
    for (id, name, hens) in houses {
        let more = plural_text(u64::from(hens), "hen", "hens");
        if list_row(ui, &name, &more, in_view == Some(id)).clicked() {
            desk.forms.house = Some(id);
        }
    }
    if word_button(
        ui,
        "Add a hen house",
        "Another house, with lines of its own",
    ) {
        add(desk);
    }
    let Some(id) = in_view else { return };
    let Some(house) = desk.farm().hen_houses.get(&id).cloned() else {
        return;
    };
    let mut act = None;
    house_ui(ui, desk, id, &house, &mut act);
    if let Some((label, edits)) = act {
        desk.commit(&label, edits);
    }
}

/// The house that was chosen; the first where that one is gone.
fn house_in_view(desk: &Desk) -> Option<HenHouseId> {
    let houses = &desk.farm().hen_houses;
    desk.forms
        .house
        .filter(|id| houses.contains_key(id))
        .or_else(|| houses.keys().next().copied())
}

fn add(desk: &mut Desk) {
    let (id, (label, edits)) = house_press::add(desk.farm());
    desk.commit(&label, edits);
    desk.forms.house = Some(id);
}

fn house_ui(ui: &mut Ui, desk: &mut Desk, id: HenHouseId, house: &HenHouse, act: &mut Option<Act>) {
    let units = desk.units();
    heading_ui(ui, "House and run");
    rows_ui(ui, desk, &size_rows(id, house, units));
    side_ui(ui, desk, id, house, act);
    tow_ui(ui, desk, id, house, act);
    heading_ui(ui, "Where it walks");
    follows_ui(ui, desk, id, house, act);
    if house.handling.follows.is_none() {
        lines_ui(ui, desk, id, house, act);
        stretches_ui(ui, desk, id, house, act);
    }
    lanes_ui(ui, desk, id, house);
    heading_ui(ui, "Days");
    rows_ui(ui, desk, &day_rows(desk.farm(), id, house));
    walk_ui(ui, desk, id);
    day_ui(ui, desk, id, house, act);
    stops_ui(ui, desk, id, house, act);
    growing_ui(ui, desk, id, house, act);
    ui.add_space(12.0);
    let words = format!("Remove {}", house.name);
    if word_button(ui, &words, "Undo brings it back") {
        *act = house_press::remove(desk.farm(), id);
    }
}

fn walk_ui(ui: &mut Ui, desk: &mut Desk, id: HenHouseId) {
    heading_ui(ui, "The walk");
    let facts = match walk_facts(desk, id) {
        Ok(facts) => facts,
        Err(why) => {
            ui.label(egui::RichText::new(why).color(theme::ink(ui, Ink::Act)));
            return;
        }
    };
    for (label, figure) in &facts.rows {
        fact_ui(ui, label, figure);
    }
    for (what, remedy) in &facts.troubles {
        ui.label(egui::RichText::new(what).color(theme::ink(ui, Ink::Act)));
        small_ui(ui, remedy);
    }
    if facts.legs.len() > 1 {
        ui.label(egui::RichText::new("In this order").weak());
    }
    for leg in facts.legs.iter().filter(|_| facts.legs.len() > 1) {
        ui.label(leg);
    }
    for words in facts.order.iter().chain(&facts.notes) {
        small_ui(ui, words);
    }
    for source in &facts.sources {
        small_ui(ui, source);
    }
    small_ui(
        ui,
        "No text gives one figure for rest after hens; three to six weeks for regrowth is common practice, longer against worms.",
    );
}

/// The way of the lanes, where grass is walked.
fn lanes_ui(ui: &mut Ui, desk: &mut Desk, id: HenHouseId, house: &HenHouse) {
    let is_grass = |line| {
        desk.farm()
            .ground
            .get(line)
            .is_some_and(|ground| ground.kind.is_grazed())
    };
    if house.handling.follows.is_none() && !house.lines.iter().any(is_grass) {
        return;
    }
    let row = FieldRow::figure(
        Target::House(id, HouseField::LaneBearing),
        "Lanes run",
        figure_or_empty(house.handling.lane_bearing_deg),
        "degrees",
    )
    .hinted("longest side");
    row_ui(ui, desk, &row);
}

/// Two or more words side by side under a name, one of them chosen; which was pressed. They share the whole column:
/// beside the name there is no room for more than a short word each.
pub(super) fn choice_ui<T: Copy + PartialEq>(
    ui: &mut Ui,
    label: &str,
    now: T,
    choices: &[(T, &str)],
) -> Option<T> {
    let mut pressed = None;
    ui.label(egui::RichText::new(label).weak());
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        let count = u8::try_from(choices.len()).map_or(1.0, f32::from);
        let width = ((ui.available_width() - 4.0 * (count - 1.0)) / count).floor();
        for (choice, word) in choices {
            let button = egui::Button::selectable(now == *choice, *word)
                .frame_when_inactive(true)
                .min_size(egui::vec2(width, ROW));
            if ui.add(button).clicked() && now != *choice {
                pressed = Some(*choice);
            }
        }
    });
    pressed
}

fn tow_ui(ui: &mut Ui, desk: &mut Desk, id: HenHouseId, house: &HenHouse, act: &mut Option<Act>) {
    let choices = [
        (TowSide::BothEnds, "both ends"),
        (TowSide::OneEnd, "one end"),
    ];
    let now = house.handling.tow_side;
    if let Some(side) = choice_ui(ui, "Towed from", now, &choices) {
        *act = house_press::set_tow_side(desk.farm(), id, side);
    }
    if now == TowSide::OneEnd {
        let units = desk.units();
        let radius_m = house.handling.turn_radius_m;
        let text = radius_m.map_or_else(String::new, |radius_m| length_figure(radius_m, units));
        let target = Target::House(id, HouseField::TurnRadius);
        let row = FieldRow::figure(target, "Radius of its turn", text, length_unit(units));
        let its_length = length_figure(house.towed_length_m(), units);
        rows_ui(ui, desk, &[row.hinted(its_length)]);
    }
}

fn size_rows(id: HenHouseId, house: &HenHouse, units: UnitSystem) -> Vec<FieldRow> {
    let target = |field| Target::House(id, field);
    let length = |field, label: &str, length_m| {
        FieldRow::figure(
            target(field),
            label,
            length_figure(length_m, units),
            length_unit(units),
        )
    };
    let handling = &house.handling;
    let alone = |field, label: &str, length_m: Option<f64>| {
        let text = length_m.map_or_else(String::new, |length_m| length_figure(length_m, units));
        FieldRow::figure(target(field), label, text, length_unit(units)).hinted("with run")
    };
    vec![
        FieldRow::words(target(HouseField::Name), "Name", house.name.clone()),
        FieldRow::figure(target(HouseField::Hens), "Hens", house.hens.to_string(), ""),
        length(HouseField::Length, "Length with run", house.length_m),
        length(HouseField::Width, "Width with run", house.width_m),
        alone(
            HouseField::HouseLength,
            "House alone, long",
            handling.house_length_m,
        ),
        alone(
            HouseField::HouseWidth,
            "House alone, wide",
            handling.house_width_m,
        ),
        length(HouseField::Gap, "Gap between places", house.gap_m),
        length(HouseField::Offset, "Line to its middle", house.offset_m),
    ]
}

fn day_rows(farm: &Farm, id: HenHouseId, house: &HenHouse) -> Vec<FieldRow> {
    let target = |field| Target::House(id, field);
    let last = house.last_day.map(day_text).unwrap_or_default();
    vec![
        FieldRow::words(
            target(HouseField::FirstDay),
            "First day out",
            day_text(house.first_day),
        ),
        FieldRow::words(target(HouseField::LastDay), "Last day out", last)
            .hinted(day_text(farm.season.last_day())),
        FieldRow::figure(
            target(HouseField::DaysPerPlace),
            "On one place",
            house.days_per_place.to_string(),
            "days",
        ),
        FieldRow::figure(
            target(HouseField::RestWanted),
            "Rest wanted",
            house.rest_days_wanted.to_string(),
            "days",
        ),
    ]
}

fn side_ui(ui: &mut Ui, desk: &Desk, id: HenHouseId, house: &HenHouse, act: &mut Option<Act>) {
    let choices = [
        (LineSide::Left, "left"),
        (LineSide::Right, "right"),
        (LineSide::Both, "both"),
    ];
    if let Some(side) = choice_ui(ui, "Side of a line", house.side, &choices) {
        *act = house_press::set_side(desk.farm(), id, side);
    }
}

fn lines_ui(ui: &mut Ui, desk: &mut Desk, id: HenHouseId, house: &HenHouse, act: &mut Option<Act>) {
    if house.lines.is_empty() {
        ui.label("No line yet: choose a tree line, hedge, fence or ley.");
    }
    for (place, line) in house.lines.iter().enumerate() {
        let (name, more) = match desk.farm().ground.get(line) {
            Some(ground) => (
                ground.name.clone(),
                desk.measures(*line)
                    .length_m
                    .map_or_else(String::new, |length_m| length_text(length_m, desk.units())),
            ),
            None => ("a line that is gone".to_owned(), String::new()),
        };
        let pressed = line_row(ui, place, &name, &more);
        match pressed {
            Some(LinePress::Sooner) => *act = house_press::line_sooner(desk.farm(), id, place),
            Some(LinePress::Remove) => *act = house_press::remove_line(desk.farm(), id, place),
            None => {}
        }
        left_on_ui(ui, desk, id, house, (*line, &name));
    }
    if house.lines.len() > 1 {
        let choices = [
            (LineOrder::Chosen, "the program"),
            (LineOrder::AsListed, "as listed"),
        ];
        if let Some(order) = choice_ui(ui, "Order by", house.handling.line_order, &choices) {
            *act = house_press::set_order(desk.farm(), id, order);
        }
    }
    let farm = desk.farm();
    let left = house_press::lines_left(farm, house);
    if left.is_empty() {
        return;
    }
    ui.menu_button("Add a line", |ui| {
        egui::ScrollArea::vertical()
            .max_height(300.0)
            .show(ui, |ui| {
                for line in &left {
                    let words = format!("{}  –  {}", line.name, line.kind.name());
                    if ui.button(words).clicked() {
                        *act = house_press::add_line(farm, id, line.id);
                        ui.close();
                    }
                }
            });
    });
}

/// The last hens along a line before this walk: told where a round has not yet begun, or was said before.
fn left_on_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    id: HenHouseId,
    house: &HenHouse,
    (line, name): (GroundId, &str),
) {
    let left = house.handling.left_on.get(&line).copied();
    let row = FieldRow::words(
        Target::House(id, HouseField::LeftOn(line)),
        "  Hens before, until",
        left.map(day_text).unwrap_or_default(),
    )
    .hinted("none known")
    .spoken(format!("Last hens along {name} before this walk"));
    row_ui(ui, desk, &row);
}

/// What was pressed beside a line.
#[derive(Debug, Clone, Copy)]
enum LinePress {
    Sooner,
    Remove,
}

fn line_row(ui: &mut Ui, place: usize, name: &str, more: &str) -> Option<LinePress> {
    let (rect, _) =
        ui.allocate_exact_size(egui::vec2(ui.available_width(), ROW), egui::Sense::hover());
    let square = |from_right: f32| {
        egui::Rect::from_min_size(
            egui::pos2(rect.right() - from_right, rect.top()),
            egui::vec2(ROW, ROW),
        )
    };
    let words = egui::Rect::from_min_max(
        rect.min,
        egui::pos2(rect.right() - 2.0 * ROW - 12.0, rect.bottom()),
    );
    ui.scope_builder(
        egui::UiBuilder::new()
            .max_rect(words)
            .layout(egui::Layout::left_to_right(egui::Align::Center)),
        |ui| {
            let text = format!("{}  {name}", place + 1);
            ui.add(egui::Label::new(text).truncate());
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                ui.label(egui::RichText::new(more).weak());
            });
        },
    );
    let mut pressed = None;
    if place > 0
        && sign_button(
            ui,
            square(2.0 * ROW + 4.0),
            "↑",
            &format!("Walk {name} sooner"),
        )
    {
        pressed = Some(LinePress::Sooner);
    }
    if sign_button(
        ui,
        square(ROW),
        "×",
        &format!("Take {name} out of the walk"),
    ) {
        pressed = Some(LinePress::Remove);
    }
    pressed
}
