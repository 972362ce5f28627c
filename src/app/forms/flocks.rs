//! The page of the flocks: a list of mobs, and everything about the one in view.
//!
//! Rows first, as plain data; the page only paints them.

use egui::{RichText, Ui};

use super::buttons::{list_row, word_button};
use super::change::{MobField, Target};
use super::field::{
    FieldRow, days_ui, fact_ui, heading_ui, labelled_ui, row_ui, rows_ui, small_ui,
};
use super::figures::{day_text, figure_or_empty, figure_text};
use super::mob_behind::behind_ui;
use super::mob_later::later_ui;
use super::mob_press;
use crate::app::desk::Desk;
use crate::app::dialogs::main_button;
use crate::app::season_acts::Act;
use crate::app::theme;
use crate::app::tools::{PutYard, Tool};
use crate::farm::{Farm, LivestockUnitSet, Mob, MobId, STOCK_CLASSES, StockClass};
use crate::quantity::{decimal_text, mass_text, plural_text};

/// Everything the page says of one mob.
#[derive(Debug, Clone, PartialEq)]
struct MobRows {
    about: Vec<FieldRow>,
    sums: Vec<(&'static str, String)>,
    visits: Vec<(FieldRow, FieldRow)>,
    yard: FieldRow,
    notes: Vec<String>,
    sources: Vec<String>,
}

/// The page.
pub(super) fn flocks_ui(ui: &mut Ui, desk: &mut Desk) {
    let mut act = None;
    let in_view = mob_in_view(desk);
    if desk.farm().mobs.is_empty() {
        ui.label("No flock yet. Put one in and say when it is here; the moves follow.");
        ui.add_space(4.0);
        if main_button(ui, "Add a flock").clicked() {
            add(desk);
        }
        return;
    }
    let mobs: Vec<(MobId, Mob)> = desk
        .farm()
        .mobs
        .iter()
        .map(|(id, mob)| (*id, mob.clone()))
        .collect();
    for (id, mob) in &mobs {
        let more = plural_text(u64::from(mob.head), "head", "head");
        if list_row(ui, &mob.name, &more, in_view == Some(*id)).clicked() {
            desk.forms.mob = Some(*id);
        }
    }
    if word_button(ui, "Add a flock", "Another mob, with days of its own") {
        add(desk);
    }
    let Some(id) = in_view else { return };
    let Some(mob) = desk.farm().mobs.get(&id).cloned() else {
        return;
    };
    let rows = mob_rows(desk.farm(), id, &mob);
    about_ui(ui, desk, &rows, id, &mob, &mut act);
    later_ui(ui, desk, id, &mob, &mut act);
    visits_ui(ui, desk, &rows, id, &mut act);
    behind_ui(ui, desk, id, &mob, &mut act);
    yard_ui(ui, desk, &rows, id, &mob, &mut act);
    heading_ui(ui, "Where the figures come from");
    for source in &rows.sources {
        small_ui(ui, source);
    }
    ui.add_space(12.0);
    let words = format!("Remove {}", mob.name);
    if word_button(
        ui,
        &words,
        "With its visits and its fixed and logged days; undo brings it back",
    ) {
        act = mob_press::remove(desk.farm(), id);
    }
    if let Some((label, edits)) = act {
        desk.commit(&label, edits);
    }
}

/// The mob that was chosen; the first where that one is gone.
fn mob_in_view(desk: &Desk) -> Option<MobId> {
    let mobs = &desk.farm().mobs;
    desk.forms
        .mob
        .filter(|id| mobs.contains_key(id))
        .or_else(|| mobs.keys().next().copied())
}

fn add(desk: &mut Desk) {
    let (id, (label, edits)) = mob_press::add(desk.farm());
    desk.commit(&label, edits);
    desk.forms.mob = Some(id);
}

fn mob_rows(farm: &Farm, id: MobId, mob: &Mob) -> MobRows {
    let target = |field| Target::Mob(id, field);
    let facts = mob.class.facts();
    let share_kg = mob.liveweight_kg * facts.intake_share.value;
    let share = format!("{} %", figure_text(facts.intake_share.value * 100.0));
    let about = vec![
        FieldRow::words(target(MobField::Name), "Name", mob.name.clone()),
        FieldRow::figure(
            target(MobField::Head),
            "Head",
            mob.head.to_string(),
            "grown",
        ),
        FieldRow::figure(
            target(MobField::Liveweight),
            "Liveweight of one",
            figure_text(mob.liveweight_kg),
            "kg",
        ),
        FieldRow::figure(
            target(MobField::Eats),
            "One eats a day",
            figure_or_empty(mob.eats_kg_per_head),
            "kg DM",
        )
        .hinted(decimal_text(share_kg, 2)),
    ];
    let set = LivestockUnitSet::England2023;
    let units = f64::from(mob.head) * mob.class.livestock_units(set);
    let sums = vec![
        (
            "All eat a day",
            format!("{} DM", mass_text(mob.demand_kg())),
        ),
        (
            "All weigh",
            mass_text(mob.liveweight_kg * f64::from(mob.head)),
        ),
        ("Livestock units", decimal_text(units, 1)),
    ];
    let mut notes = Vec::new();
    if mob.eats_kg_per_head.is_none() {
        notes.push(format!(
            "Left empty, each eats {share} of its weight a day."
        ));
    }
    let (least, most) = facts.liveweight_kg.range;
    if !(least..=most).contains(&mob.liveweight_kg) {
        notes.push(format!(
            "{} mostly weigh {} to {} kg.",
            sentence_case(mob.class.name()),
            figure_text(least),
            figure_text(most)
        ));
    }
    MobRows {
        about,
        sums,
        visits: visit_rows(id, mob),
        yard: yard_row(farm, id, mob),
        notes,
        sources: sources_of(mob.class),
    }
}

fn visit_rows(id: MobId, mob: &Mob) -> Vec<(FieldRow, FieldRow)> {
    mob.visits
        .iter()
        .enumerate()
        .map(|(place, visit)| {
            let row = |field, end: &str, day| {
                FieldRow::words(Target::Mob(id, field), "", day_text(day))
                    .spoken(format!("Visit {}, {end} day", place + 1))
            };
            (
                row(MobField::VisitFrom(place), "first", visit.from),
                row(MobField::VisitTo(place), "last", visit.to),
            )
        })
        .collect()
}

fn yard_row(farm: &Farm, id: MobId, mob: &Mob) -> FieldRow {
    let text = mob.yard.map_or_else(String::new, |yard| {
        let place = farm.frame.lonlat_from_point(yard);
        format!("{:.5}, {:.5}", place.lat_deg, place.lon_deg)
    });
    FieldRow::words(Target::Mob(id, MobField::Yard), "Degrees N, E", text)
        .hinted("middle of the farm")
        .spoken("Yard, degrees north and east")
}

fn sources_of(class: StockClass) -> Vec<String> {
    let facts = class.facts();
    let (weight, intake, units) = (
        &facts.liveweight_kg,
        &facts.intake_share,
        &facts.livestock_units,
    );
    let percent = |share: f64| figure_text(share * 100.0);
    vec![
        format!(
            "Liveweight of {}: {} {} as a rule, {} to {}. {}.",
            facts.name,
            figure_text(weight.value),
            weight.unit,
            figure_text(weight.range.0),
            figure_text(weight.range.1),
            sentence_case(weight.source)
        ),
        format!(
            "Eaten a day: {} % of liveweight as dry matter, {} to {} %. {}.",
            percent(intake.value),
            percent(intake.range.0),
            percent(intake.range.1),
            intake.source
        ),
        format!(
            "{} {}. {}.",
            figure_text(units.value),
            units.unit,
            units.source
        ),
    ]
}

fn sentence_case(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

fn about_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    rows: &MobRows,
    id: MobId,
    mob: &Mob,
    act: &mut Option<Act>,
) {
    heading_ui(ui, "The sheep");
    let (name, figures) = rows.about.split_at(1);
    rows_ui(ui, desk, name);
    labelled_ui(ui, "They are", |ui| {
        ui.spacing_mut().combo_width = ui.available_width();
        let combo = egui::ComboBox::from_id_salt("class").selected_text(mob.class.name());
        let shown = combo.show_ui(ui, |ui| {
            for facts in &STOCK_CLASSES {
                let is_it = facts.class == mob.class;
                if ui.selectable_label(is_it, facts.name).clicked() && !is_it {
                    *act = mob_press::set_class(desk.farm(), id, facts.class);
                }
            }
        });
        shown
            .response
            .widget_info(|| egui::WidgetInfo::labeled(egui::Role::ComboBox, true, "They are"));
    });
    rows_ui(ui, desk, figures);
    for note in &rows.notes {
        small_ui(ui, note);
    }
    ui.add_space(4.0);
    for (label, figure) in &rows.sums {
        fact_ui(ui, label, figure);
    }
}

fn visits_ui(ui: &mut Ui, desk: &mut Desk, rows: &MobRows, id: MobId, act: &mut Option<Act>) {
    heading_ui(ui, "Days on the farm");
    if rows.visits.is_empty() {
        ui.label("No day yet, so nothing is planned for them.");
    }
    for (place, (from, to)) in rows.visits.iter().enumerate() {
        let remove = format!("Take visit {} away", place + 1);
        if days_ui(ui, desk, from, to, &remove) {
            *act = mob_press::remove_visit(desk.farm(), id, place);
        }
    }
    if word_button(ui, "Add a visit", "More days on which they are here") {
        *act = mob_press::add_visit(desk.farm(), id);
    }
}

fn yard_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    rows: &MobRows,
    id: MobId,
    mob: &Mob,
    act: &mut Option<Act>,
) {
    heading_ui(ui, "Yard");
    small_ui(ui, "Where they stand on a day on which no strip is ready.");
    row_ui(ui, desk, &rows.yard);
    let is_in_hand = matches!(&desk.tool, Tool::Yard(tool) if tool.mob == id);
    ui.horizontal(|ui| {
        let words = RichText::new("Put the yard where I click").font(theme::sans(theme::BODY));
        let button = egui::Button::selectable(is_in_hand, words).frame_when_inactive(true);
        if ui
            .add(button)
            .on_hover_text("Then click the place on the map")
            .clicked()
        {
            desk.tool = if is_in_hand {
                Tool::default()
            } else {
                Tool::Yard(PutYard { mob: id })
            };
        }
        if mob.yard.is_some() && word_button(ui, "No yard", "The middle of the farm's ground then")
        {
            *act = mob_press::forget_yard(desk.farm(), id);
        }
    });
}
