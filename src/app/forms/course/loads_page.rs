//! Loads: nitrogen by plot and year, head and room against the limits, cautions for hens and sheep together.

use egui::{RichText, ScrollArea, Ui};

use super::plain_table::words_table_ui;
use crate::app::desk::Desk;
use crate::app::forms::field::{heading_ui, small_ui};
use crate::app::theme;
use crate::farm::Farm;
use crate::planning::{
    LIMIT_SOURCE, Load, NitrogenSet, SeasonPlan, load_checks, loads, mixed_stock_cautions,
};
use crate::quantity::decimal_text;
use crate::sheets::palette::Ink;

/// The tables of the planned season.
pub(super) fn loads_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(plan) = desk.plan.clone() else {
        ui.label("No season is planned yet: loads are reckoned from its days.");
        return;
    };
    let farm = desk.farm();
    let set = desk.forms.course.nitrogen;
    ScrollArea::both()
        .id_salt("loads table")
        .auto_shrink(false)
        .show(ui, |ui| {
            let sums = loads(farm, &plan, set);
            ui.label(RichText::new("Nitrogen by plot").font(theme::serif_bold(theme::HEADING)));
            let mut rows = vec![
                ["ground", "year", "sheep, kg N", "hens, kg N", "kg N/ha"]
                    .map(str::to_owned)
                    .to_vec(),
            ];
            for ((year, ground), load) in &sums.by_ground {
                let name = ground.and_then(|id| farm.ground.get(&id)).map_or_else(
                    || "yard, lines and elsewhere".to_owned(),
                    |ground| ground.name.trim().to_owned(),
                );
                rows.push(load_row(name, *year, load));
            }
            for (year, load) in &sums.holding {
                rows.push(load_row("the whole holding".to_owned(), *year, load));
            }
            words_table_ui(ui, "loads by plot", &rows);
            checks_ui(ui, farm, &plan, &sums);
            cautions_ui(ui, farm, &plan);
        });
}

fn load_row(name: String, year: i16, load: &Load) -> Vec<String> {
    let kg = |kg: f64| {
        if kg > 0.0 {
            decimal_text(kg, 1)
        } else {
            "–".to_owned()
        }
    };
    vec![
        name,
        year.to_string(),
        kg(load.sheep_kg),
        kg(load.hens_kg),
        load.kg_per_ha().map_or_else(|| "–".to_owned(), kg),
    ]
}

fn checks_ui(ui: &mut Ui, farm: &Farm, plan: &SeasonPlan, sums: &crate::planning::Loads) {
    heading_ui(ui, "Against the limits");
    for check in load_checks(farm, plan, sums) {
        let (word, ink) = if check.is_kept {
            ("kept", Ink::Ink)
        } else {
            ("not kept", Ink::Act)
        };
        let words = format!("{}: {}; {}: {word}.", check.what, check.figure, check.limit);
        ui.add(egui::Label::new(RichText::new(words).color(theme::ink(ui, ink))).wrap());
        small_ui(ui, check.source);
    }
}

fn cautions_ui(ui: &mut Ui, farm: &Farm, plan: &SeasonPlan) {
    let cautions = mixed_stock_cautions(farm, plan);
    if cautions.is_empty() {
        return;
    }
    heading_ui(ui, "Look out");
    for caution in cautions {
        ui.add(egui::Label::new(caution.what).wrap());
        small_ui(ui, caution.source);
    }
}

/// The sets of figures, none hidden.
pub(super) fn sets_ui(ui: &mut Ui, desk: &mut Desk) {
    ui.label(RichText::new("Figures of nitrogen").font(theme::serif_bold(theme::HEADING)));
    for set in NitrogenSet::ALL {
        let is_chosen = desk.forms.course.nitrogen == set;
        if ui.radio(is_chosen, set.name()).clicked() {
            desk.forms.course.nitrogen = set;
        }
        small_ui(ui, set.source());
    }
    heading_ui(ui, "The limit");
    small_ui(
        ui,
        &format!(
            "170 kg N/ha and year over the whole farmed area ({LIMIT_SOURCE}). Only the days of the planned season are in \
             the sum: a flock that is here at other times comes on top. Local law decides."
        ),
    );
}
