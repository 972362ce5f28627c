//! Clean ground: every crop of the year with the last day for animals, the rule that is followed, fruit beside hens.

use egui::{RichText, ScrollArea, Ui};

use super::plain_table::words_table_ui;
use crate::app::desk::Desk;
use crate::app::forms::change::{CourseField, Target};
use crate::app::forms::field::{FieldRow, heading_ui, rows_ui, small_ui};
use crate::app::theme;
use crate::farm::{Courses, Edit, Farm, GroundId, HarvestRule, RULES_DEFER, course_years};
use crate::planning::{
    SeasonPlan, clean_crops, fruit_lines, hens_on_clean, rule_of, settled_on_clean,
};
use crate::quantity::Day;
use crate::sheets::palette::Ink;

/// The table of the year in view.
pub(super) fn clean_ui(ui: &mut Ui, desk: &mut Desk) {
    let years = course_years(desk.farm());
    let year = desk.forms.course.year.clamp(*years.start(), *years.end());
    ScrollArea::both()
        .id_salt("clean table")
        .auto_shrink(false)
        .show(ui, |ui| {
            let facts = rule_of(desk.farm());
            let words = format!("Animals and crops in {year}");
            ui.label(RichText::new(words).font(theme::serif_bold(theme::HEADING)));
            small_ui(
                ui,
                &format!("By {} ({}). {RULES_DEFER}", facts.name, facts.source),
            );
            let rows = crop_rows(desk.farm(), year);
            if rows.len() > 1 {
                words_table_ui(ui, "clean crops", &rows);
            } else {
                ui.label("No crop of the course closes any ground in this year.");
            }
            let plan = desk.plan.clone();
            if let Some(plan) = plan {
                fruit_ui(ui, desk.farm(), &plan);
                conflicts_ui(ui, desk.farm(), &plan);
            }
        });
}

fn crop_rows(farm: &Farm, year: i16) -> Vec<Vec<String>> {
    let mut rows = vec![
        [
            "ground",
            "crop",
            "last animals",
            "because of",
            "goes in",
            "picked",
        ]
        .map(str::to_owned)
        .to_vec(),
    ];
    let (Some(first), Some(last)) = (Day::new(year, 1, 1), Day::new(year, 12, 31)) else {
        return rows;
    };
    rows.extend(clean_crops(farm, first, last).iter().map(|crop| {
        vec![
            name_of(farm, crop.ground),
            crop.name.clone(),
            dated(crop.last_animals().1),
            crop.why_in_short(farm),
            dated(crop.planted),
            format!(
                "{} to {}",
                dated(crop.first_harvest),
                dated(crop.last_harvest)
            ),
        ]
    }));
    rows
}

/// `9 Jun 2027`.
fn dated(day: Day) -> String {
    let month: String = day.month_name().chars().take(3).collect();
    format!("{} {month} {}", day.day_of_month(), day.year())
}

fn name_of(farm: &Farm, id: GroundId) -> String {
    farm.ground
        .get(&id)
        .map_or_else(String::new, |ground| ground.name.trim().to_owned())
}

/// Tree fruit and windfalls of the lines that the hens walk along, each with its own day.
fn fruit_ui(ui: &mut Ui, farm: &Farm, plan: &SeasonPlan) {
    let lines = fruit_lines(farm, &plan.hens);
    if lines.is_empty() {
        return;
    }
    heading_ui(ui, "Fruit beside the hens");
    let mut rows = vec![
        ["line", "last hens", "from the tree", "windfalls"]
            .map(str::to_owned)
            .to_vec(),
    ];
    rows.extend(lines.iter().map(|line| {
        vec![
            name_of(farm, line.line),
            dated(line.last_hens),
            dated(line.tree_fruit_from),
            dated(line.windfalls_from),
        ]
    }));
    words_table_ui(ui, "fruit beside hens", &rows);
}

/// Settled days and hens on ground that should be clear.
fn conflicts_ui(ui: &mut Ui, farm: &Farm, plan: &SeasonPlan) {
    let mut sentences: Vec<String> = settled_on_clean(farm, &plan.clean)
        .into_iter()
        .map(|(ground, day, why)| {
            format!(
                "{} is settled on {} all the same: {why}.",
                name_of(farm, ground),
                dated(day)
            )
        })
        .collect();
    sentences.extend(
        hens_on_clean(farm, &plan.hens, &plan.clean)
            .into_iter()
            .map(|hens| {
                let (from, to) = hens.days;
                format!(
                    "Hens stand on {} from {} to {}: {}.",
                    name_of(farm, hens.ground),
                    dated(from),
                    dated(to),
                    hens.why
                )
            }),
    );
    if sentences.is_empty() {
        return;
    }
    heading_ui(ui, "Look at these");
    for sentence in sentences {
        let words = RichText::new(sentence).color(theme::ink(ui, Ink::Act));
        ui.add(egui::Label::new(words).wrap());
    }
}

/// Every rule with its waits, none hidden; the chosen one is followed by the planner.
pub(super) fn rules_ui(ui: &mut Ui, desk: &mut Desk) {
    ui.label(RichText::new("The rule you follow").font(theme::serif_bold(theme::HEADING)));
    small_ui(ui, RULES_DEFER);
    let courses = desk.farm().course.clone();
    let mut chosen = None;
    for rule in HarvestRule::ALL {
        let facts = rule.facts(courses.own_wait);
        let is_chosen = courses.harvest_rule == rule;
        if ui.radio(is_chosen, facts.name).clicked() && !is_chosen {
            chosen = Some((rule, facts.name));
        }
        let planting = match facts.planting {
            crate::farm::HarvestWait::None => String::new(),
            wait => format!(", {} before planting", wait.words()),
        };
        small_ui(
            ui,
            &format!(
                "Touching the soil {}, clear of it {}{planting}. {}. {}",
                facts.touching.words(),
                facts.clear.words(),
                facts.source,
                facts.remark
            ),
        );
    }
    if let Some((rule, name)) = chosen {
        let new = Courses {
            harvest_rule: rule,
            ..courses.clone()
        };
        let label = format!("Follow {name}");
        desk.commit(&label, vec![Edit::change_course(&courses, new)]);
    }
    heading_ui(ui, "My own days");
    let own = courses.own_wait;
    let day_row = |place: u8, label: &str, days: u16, spoken: &str| {
        let target = Target::Course(CourseField::OwnWait(place));
        FieldRow::figure(target, label, days.to_string(), "days").spoken(spoken)
    };
    let rows = [
        day_row(
            0,
            "Touching soil",
            own.touching_days,
            "My days to harvest, touching soil",
        ),
        day_row(
            1,
            "Clear of it",
            own.clear_days,
            "My days to harvest, clear of soil",
        ),
        day_row(2, "To planting", own.planting_days, "My days to planting"),
    ];
    rows_ui(ui, desk, &rows);
    heading_ui(ui, "Clearing the ground");
    let clear = courses
        .clear_days
        .map_or_else(String::new, |days| days.to_string());
    let clear = FieldRow::figure(
        Target::Course(CourseField::ClearDays),
        "Before sowing",
        clear,
        "days",
    )
    .hinted(Courses::USUAL_CLEAR_DAYS.to_string())
    .spoken("Days to clear ground before sowing");
    rows_ui(ui, desk, &[clear]);
    small_ui(
        ui,
        "From the last animals to sowing, to break the sward or clear the bed (common practice, no source).",
    );
}
