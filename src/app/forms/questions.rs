//! The page of questions: what is typed, one press for each question, and the answer in words.
//!
//! Questions are built from what is typed by plain functions; the page only paints. Figures kg DM, days, head.

use std::collections::BTreeSet;

use egui::{RichText, TextEdit, Ui, Vec2};

use super::field::{heading_ui, small_ui};
use super::figures;
use super::page::open_page;
use super::settle::Page;
use crate::app::asking::{Answer, Days, Question};
use crate::app::desk::Desk;
use crate::app::theme;
use crate::farm::{GroundId, MobId};
use crate::planning::questions::{Change, Remedies, SHORT_FROM_KG, USUAL_BALE_KG_DM, strip_now};
use crate::quantity::{area_text, decimal_text};
use crate::sheets::answers;
use crate::sheets::palette::Ink;

/// Which press.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Press {
    Head,
    Until,
    WhatIf,
    Stop,
    Remedies,
    CallOff,
}

/// The page.
pub(super) fn questions_ui(ui: &mut Ui, desk: &mut Desk) {
    let mut pressed = None;
    small_ui(
        ui,
        "Each answer is planned, with the days before the first one as planned so far. Nothing on the farm changes.",
    );
    // The answer stands where it is seen whichever press it was.
    answer_ui(ui, desk, &mut pressed);
    about_ui(ui, desk);
    ui.horizontal_wrapped(|ui| {
        press(ui, "How many head?", Press::Head, &mut pressed);
        press(ui, "Until what day?", Press::Until, &mut pressed);
    });
    if let Some(text) = strip_text(desk) {
        heading_ui(ui, "A strip for one day");
        ui.add(egui::Label::new(text).wrap());
    }
    heading_ui(ui, "What if");
    let typed = &mut desk.asking.typed;
    field_ui(ui, "Rest all year", "days", &mut typed.rest);
    field_ui(ui, "Head in the flock", "head", &mut typed.head);
    field_ui(ui, "Longest stay", "days", &mut typed.stay);
    field_ui(ui, "Growth", "% of it", &mut typed.growth);
    press(ui, "Set side by side", Press::WhatIf, &mut pressed);
    heading_ui(ui, "Grass for winter");
    field_ui(ui, "Keep", "kg DM/ha", &mut desk.asking.typed.keep);
    press(ui, "When must they stop?", Press::Stop, &mut pressed);
    heading_ui(ui, "Short days");
    field_ui(ui, "A bale holds", "kg DM", &mut desk.asking.typed.bale);
    press(ui, "What helps?", Press::Remedies, &mut pressed);
    match pressed {
        Some(Press::CallOff) => desk.asking.call_off(),
        Some(press) => ask(desk, press, ui.ctx()),
        None => {}
    }
}

/// Which flock, which ground, which days.
fn about_ui(ui: &mut Ui, desk: &mut Desk) {
    heading_ui(ui, "Asked about");
    let names: Vec<(MobId, String)> = desk
        .farm()
        .mobs
        .iter()
        .map(|(id, mob)| (*id, mob.name.clone()))
        .collect();
    let meant = mob_meant(desk);
    if names.len() > 1 {
        ui.horizontal_wrapped(|ui| {
            for (id, name) in &names {
                if ui.selectable_label(meant == Some(*id), name).clicked() {
                    desk.asking.typed.mob = Some(*id);
                }
            }
        });
    } else if let Some((_, name)) = names.first() {
        ui.label(name);
    }
    ui.add(egui::Label::new(ground_text(desk)).wrap());
    let season = desk.farm().season;
    let from = figures::day_text(desk.today.clamp(season.first_day, season.last_day()));
    let to = figures::day_text(season.last_day());
    let typed = &mut desk.asking.typed;
    hinted_ui(ui, "From", "", &from, &mut typed.from);
    hinted_ui(ui, "To", "", &to, &mut typed.to);
}

fn mob_meant(desk: &Desk) -> Option<MobId> {
    let mobs = &desk.farm().mobs;
    let chosen = desk.asking.typed.mob.filter(|id| mobs.contains_key(id));
    chosen.or_else(|| mobs.keys().next().copied())
}

/// Selected ground that is grazed, by itself or by its strips.
fn ground_meant(desk: &Desk) -> BTreeSet<GroundId> {
    let farm = desk.farm();
    let units = crate::farm::grazed_units(farm);
    let is_grazed = |id: &GroundId| {
        units
            .iter()
            .any(|unit| unit.id == *id || unit.ground.within == Some(*id))
    };
    desk.selected.iter().copied().filter(is_grazed).collect()
}

fn ground_text(desk: &Desk) -> String {
    let names: Vec<&str> = ground_meant(desk)
        .iter()
        .filter_map(|id| desk.farm().ground.get(id))
        .map(|ground| ground.name.as_str())
        .collect();
    if names.is_empty() {
        "On all grazed ground; select leys or strips first to ask about those alone.".to_owned()
    } else {
        format!("On {}.", names.join(", "))
    }
}

/// The area of a day on the one piece that is selected, in a sentence.
fn strip_text(desk: &Desk) -> Option<String> {
    let (id, ground) = desk.selected_one()?;
    let mob_id = mob_meant(desk)?;
    let plan = desk.plan.as_deref()?;
    let found = strip_now(desk.farm(), plan, mob_id, id, desk.day)?;
    let told = found
        .feed
        .told(desk.farm().mobs.get(&mob_id)?, desk.units());
    let days = found.piece_days.map_or_else(String::new, |days| {
        format!(
            " All of {}, {}, lasts {} days, no growth counted.",
            ground.name,
            area_text(found.piece_m2, desk.units()),
            decimal_text(days, 1)
        )
    });
    Some(format!("{}: {told}{days}", desk.day.short_text()))
}

fn press(ui: &mut Ui, words: &str, meant: Press, pressed: &mut Option<Press>) {
    if ui.button(words).clicked() {
        *pressed = Some(meant);
    }
}

fn field_ui(ui: &mut Ui, name: &str, unit: &str, text: &mut String) {
    hinted_ui(ui, name, unit, "", text);
}

/// A field that stands for itself where nothing is typed: its hint is what is taken then.
fn hinted_ui(ui: &mut Ui, name: &str, unit: &str, hint: &str, text: &mut String) {
    ui.horizontal(|ui| {
        let (room, _) = ui.allocate_exact_size(Vec2::new(118.0, 27.0), egui::Sense::hover());
        ui.painter().text(
            room.left_center(),
            egui::Align2::LEFT_CENTER,
            name,
            theme::sans(theme::BODY),
            theme::ink(ui, Ink::Soft),
        );
        let field = TextEdit::singleline(text)
            .id_salt(("question", name))
            .desired_width(if unit.is_empty() { 150.0 } else { 76.0 })
            .hint_text(hint)
            .margin(egui::Margin::symmetric(8, 4));
        let spoken = if unit.is_empty() {
            name.to_owned()
        } else {
            format!("{name}, {unit}")
        };
        ui.add(field)
            .widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, &spoken));
        ui.label(RichText::new(unit).weak());
    });
}

/// Whether a day from today on is short.
pub fn is_short_ahead(desk: &Desk) -> bool {
    desk.plan.as_deref().is_some_and(|plan| {
        (0..plan.days)
            .filter(|day| plan.day_at(*day) >= desk.today)
            .any(|day| plan.short_on(day) > SHORT_FROM_KG)
    })
}

/// Opens the page and asks what helps against the short days ahead.
pub fn ask_what_helps(desk: &mut Desk, ctx: &egui::Context) {
    desk.taping.is_open = false;
    open_page(desk, Page::Questions);
    ask(desk, Press::Remedies, ctx);
}

fn ask(desk: &mut Desk, press: Press, ctx: &egui::Context) {
    desk.asking.typed.refusal = None;
    let Some(plan) = desk.live.settled.clone() else {
        desk.asking.typed.refusal = Some("There is no plan of the season yet.".to_owned());
        return;
    };
    match question(desk, press) {
        Ok((question, days)) => {
            let farm = desk.history.farm();
            desk.asking.ask(question, days, farm, plan, ctx);
            desk.asking.wants_view = true;
        }
        Err(why) => {
            desk.asking.typed.refusal = Some(why);
            desk.asking.wants_view = true;
        }
    }
}

/// The question that is meant by a press and what is typed.
fn question(desk: &Desk, press: Press) -> Result<(Question, Days), String> {
    let typed = &desk.asking.typed;
    let season = desk.farm().season;
    let day = |text: &str, usual| {
        if text.trim().is_empty() {
            Ok(usual)
        } else {
            figures::day(text, desk.day)
        }
    };
    let today = desk.today.clamp(season.first_day, season.last_day());
    let days = (day(&typed.from, today)?, day(&typed.to, season.last_day())?);
    let mob = mob_meant(desk).ok_or("Put in a flock first.")?;
    let question = match press {
        Press::Head => Question::Head(mob, ground_meant(desk)),
        Press::Until => Question::Until(mob, ground_meant(desk)),
        Press::WhatIf => Question::WhatIf(changes(desk, mob)?),
        Press::Stop => Question::Stop(figures::decimal(&typed.keep, 0.0..=15_000.0, "kg DM/ha")?),
        Press::Remedies | Press::CallOff => {
            let bale = if typed.bale.trim().is_empty() {
                USUAL_BALE_KG_DM
            } else {
                figures::decimal(&typed.bale, 0.1..=1000.0, "kg DM")?
            };
            Question::Remedies(bale)
        }
    };
    Ok((question, days))
}

fn changes(desk: &Desk, mob: MobId) -> Result<Vec<Change>, String> {
    let typed = &desk.asking.typed;
    let mut changes = Vec::new();
    let is_typed = |text: &str| !text.trim().is_empty();
    if is_typed(&typed.rest) {
        changes.push(Change::RestDays(figures::whole(
            &typed.rest,
            0..=365,
            "days",
        )?));
    }
    if is_typed(&typed.head) {
        let head = figures::whole(&typed.head, 1..=100_000, "head")?;
        changes.push(Change::Head(mob, head));
    }
    if is_typed(&typed.stay) {
        let days = figures::whole(&typed.stay, 1..=365, "days")?;
        changes.push(Change::LongestStayDays(days));
    }
    if is_typed(&typed.growth) {
        let share = figures::decimal(&typed.growth, 0.0..=1000.0, "%")?;
        changes.push(Change::GrowthTimes(share / 100.0));
    }
    if changes.is_empty() {
        return Err("Type a figure to be changed first, in one field or more.".to_owned());
    }
    Ok(changes)
}

fn answer_ui(ui: &mut Ui, desk: &mut Desk, pressed: &mut Option<Press>) {
    if let Some(why) = desk.asking.typed.refusal.clone() {
        let shown = ui.add(egui::Label::new(RichText::new(why)).wrap());
        see(desk, &shown);
    }
    if let Some(share) = desk.asking.share() {
        heading_ui(ui, "Answer");
        #[expect(clippy::cast_possible_truncation, reason = "a share")]
        let bar = egui::ProgressBar::new(share as f32).desired_height(8.0);
        let shown = ui.add(bar);
        see(desk, &shown);
        press(ui, "Call it off", Press::CallOff, pressed);
        return;
    }
    let Some((question, days, answer)) = desk.asking.answer.clone() else {
        return;
    };
    heading_ui(ui, "Answer");
    let text = match (&answer, &question) {
        (Answer::Head(found), _) => answers::head_text(found, days),
        (Answer::Until(found), Question::Until(mob, _)) => {
            let who = desk
                .farm()
                .mobs
                .get(mob)
                .map_or("", |mob| mob.name.as_str());
            answers::until_text(found, who, days)
        }
        (Answer::Stop(found), Question::Stop(keep)) => answers::stop_text(found, *keep, days),
        (Answer::WhatIf(found), _) => {
            side_by_side_ui(ui, &answers::comparison_rows(found));
            return;
        }
        (Answer::Remedies(found), _) => {
            remedies_ui(ui, desk, found);
            return;
        }
        (Answer::None(why), _) => why.clone(),
        _ => return,
    };
    for (row, line) in text.lines().enumerate() {
        if row == 0 {
            ui.add(egui::Label::new(line).wrap());
        } else {
            small_ui(ui, line);
        }
    }
}

/// Brings what a press led to into view, once.
fn see(desk: &mut Desk, shown: &egui::Response) {
    if std::mem::take(&mut desk.asking.wants_view) {
        shown.scroll_to_me(None);
    }
}

fn side_by_side_ui(ui: &mut Ui, rows: &[[String; 4]]) {
    egui::Grid::new("side by side")
        .num_columns(4)
        .spacing(Vec2::new(10.0, 4.0))
        .show(ui, |ui| {
            for head in ["", "as it is", "changed", "difference"] {
                ui.label(RichText::new(head).weak());
            }
            ui.end_row();
            for row in rows {
                for cell in row {
                    ui.label(cell);
                }
                ui.end_row();
            }
        });
}

/// What helps, each with a press that puts it into force.
fn remedies_ui(ui: &mut Ui, desk: &mut Desk, found: &Remedies) {
    if found.as_is.is_fed() {
        ui.label("No day is short.");
        return;
    }
    ui.add(egui::Label::new(format!("As it is: {}.", found.as_is.short_text())).wrap());
    let mut done = None;
    for remedy in &found.remedies {
        ui.add_space(6.0);
        ui.label(RichText::new(&remedy.words).font(theme::sans_bold(theme::BODY)));
        ui.add(egui::Label::new(format!("then {}", remedy.with_it.short_text())).wrap());
        let edits = remedy.edits(desk.farm());
        if !edits.is_empty()
            && ui
                .button("Do it")
                .on_hover_text("One step of the farm's history; undo takes it back")
                .clicked()
        {
            done = Some((remedy.words.clone(), edits));
        }
    }
    small_ui(ui, answers::REMEDIES_TOLD);
    if let Some((label, edits)) = done {
        desk.commit(&label, edits);
        desk.tell(label);
    }
}
