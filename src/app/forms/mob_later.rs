//! What becomes of a flock later: growing, lambing, changes from a day on, parting and joining.
//!
//! Rows first, as plain data; the column only paints them.

use egui::{Sense, Ui, Vec2};

use super::buttons::{sign_button, word_button};
use super::change::{MobField, Target};
use super::field::{FieldRow, ROW, heading_ui, labelled_ui, rows_ui, small_ui};
use super::figures::{day_text, figure_text};
use super::mob_press;
use crate::app::desk::Desk;
use crate::app::season_acts::Act;
use crate::farm::{EARLY_LACTATION_DAYS, Farm, Mob, MobChange, MobId, STOCK_CLASSES, StockClass};
use crate::quantity::{Day, mass_text};

/// Everything about the flock's later days.
#[derive(Debug, Clone, PartialEq)]
struct LaterRows {
    growing: Vec<FieldRow>,
    changes: Vec<(StockClass, Vec<FieldRow>)>,
    /// What it is on the day in view, in words.
    now: Option<String>,
    /// The flocks it can join on the day in view.
    hosts: Vec<(MobId, String)>,
}

/// Paints the rows; an act is given back, with the flock to look at afterwards.
pub(super) fn later_ui(ui: &mut Ui, desk: &mut Desk, id: MobId, mob: &Mob, act: &mut Option<Act>) {
    let day = desk.day;
    let rows = later_rows(desk.farm(), id, mob, day);
    heading_ui(ui, "As the season goes on");
    rows_ui(ui, desk, &rows.growing);
    if mob.class == StockClass::EwesWithLambs {
        small_ui(
            ui,
            &format!(
                "From {EARLY_LACTATION_DAYS} days after lambing each ewe eats 2.5 % of her weight instead of 3 %; lambs \
                 count when they are weaned, as a change or a flock of their own."
            ),
        );
    }
    for (place, (class, fields)) in rows.changes.iter().enumerate() {
        ui.add_space(6.0);
        class_ui(ui, desk, id, place, *class, act);
        rows_ui(ui, desk, fields);
    }
    if let Some(now) = &rows.now {
        small_ui(ui, now);
    }
    presses_ui(ui, desk, id, &rows, day, act);
}

fn later_rows(farm: &Farm, id: MobId, mob: &Mob, day: Day) -> LaterRows {
    let target = |field| Target::Mob(id, field);
    let mut growing = vec![
        FieldRow::figure(
            target(MobField::Gain),
            "One gains a day",
            figure_text(mob.gain_g_per_day),
            "g",
        )
        .spoken("What one head gains a day"),
    ];
    if mob.class == StockClass::EwesWithLambs {
        let lambed = mob.lambed_on.map_or_else(String::new, day_text);
        growing.push(
            FieldRow::words(target(MobField::LambedOn), "Lambed about", lambed).hinted("not said"),
        );
    }
    let changes = mob.changes.iter().enumerate();
    let others = farm.mobs.iter().filter(|(other, _)| **other != id);
    let is_here = mob.is_here(day);
    LaterRows {
        growing,
        changes: changes
            .map(|(place, change)| (change.class, change_rows(id, place, change)))
            .collect(),
        now: (mob.is_changing() && is_here).then(|| now_text(mob, day)),
        hosts: others
            .filter(|(_, host)| is_here && host.is_here(day))
            .map(|(other, host)| (*other, host.name.clone()))
            .collect(),
    }
}

fn change_rows(id: MobId, place: usize, change: &MobChange) -> Vec<FieldRow> {
    let target = |field| Target::Mob(id, field);
    let spoken = |what: &str| format!("Change {}, {what}", place + 1);
    vec![
        FieldRow::words(
            target(MobField::LaterFrom(place)),
            "From",
            day_text(change.from),
        )
        .spoken(spoken("first day")),
        FieldRow::figure(
            target(MobField::LaterHead(place)),
            "Head",
            change.head.to_string(),
            "grown",
        )
        .spoken(spoken("head")),
        FieldRow::figure(
            target(MobField::LaterWeight(place)),
            "Liveweight of one",
            figure_text(change.liveweight_kg),
            "kg",
        )
        .spoken(spoken("liveweight of one")),
        FieldRow::figure(
            target(MobField::LaterGain(place)),
            "One gains a day",
            figure_text(change.gain_g_per_day),
            "g",
        )
        .spoken(spoken("what one head gains a day")),
    ]
}

fn now_text(mob: &Mob, day: Day) -> String {
    let now = mob.as_on(day);
    format!(
        "On {}: {} {} of {} kg, eating {} DM a day together.",
        day.short_text(),
        now.head,
        now.class.name(),
        figure_text((now.liveweight_kg * 10.0).round() / 10.0),
        mass_text(now.demand_kg())
    )
}

fn class_ui(
    ui: &mut Ui,
    desk: &Desk,
    id: MobId,
    place: usize,
    class: StockClass,
    act: &mut Option<Act>,
) {
    labelled_ui(ui, "They become", |ui| {
        let remove = format!("Take change {} away", place + 1);
        ui.spacing_mut().combo_width = ui.available_width() - 40.0;
        let combo =
            egui::ComboBox::from_id_salt(("later class", place)).selected_text(class.name());
        let shown = combo.show_ui(ui, |ui| {
            for facts in &STOCK_CLASSES {
                let is_it = facts.class == class;
                if ui.selectable_label(is_it, facts.name).clicked() && !is_it {
                    *act = mob_press::set_later_class(desk.farm(), id, place, facts.class);
                }
            }
        });
        let words = || egui::WidgetInfo::labeled(egui::Role::ComboBox, true, "They become");
        shown.response.widget_info(words);
        let (rect, _) = ui.allocate_exact_size(Vec2::splat(ROW), Sense::hover());
        if sign_button(ui, rect, "×", &remove) {
            *act = mob_press::remove_change(desk.farm(), id, place);
        }
    });
}

fn presses_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    id: MobId,
    rows: &LaterRows,
    day: Day,
    act: &mut Option<Act>,
) {
    let on = day.short_text();
    if word_button(
        ui,
        &format!("A change from {on}"),
        "Weaned, sold, gone dry, put to the ram: what they are from the day in view on",
    ) {
        *act = mob_press::add_change(desk.farm(), id, day);
    }
    if word_button(
        ui,
        &format!("Part half off on {on}"),
        "They become a flock of their own from the day in view on; put its head right afterwards",
    ) && let Some((parted, (label, edits))) = mob_press::part(desk.farm(), id, day)
    {
        desk.commit(&label, edits);
        desk.forms.mob = Some(parted);
    }
    for (host, name) in &rows.hosts {
        let words = format!("Join {name} on {on}");
        if word_button(ui, &words, "They go on as one flock from the day in view") {
            *act = mob_press::join(desk.farm(), id, *host, day);
        }
    }
}
