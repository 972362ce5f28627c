//! `clean` and `loads`: the days on which animals leave ground for a crop, and what they leave on it.

use std::fmt::Write as _;
use std::path::Path;
use std::process::ExitCode;

use serde_json::Value;

use super::Trouble;
use super::course::aligned;
use super::json::{Fields, print_json, print_text};
use super::moves::planned_to_show;
use crate::farm::{Farm, GroundId, HarvestRule, RULES_DEFER};
use crate::files::open_farm;
use crate::planning::{
    CleanCrop, FruitLine, LIMIT_SOURCE, Load, NitrogenSet, clean_crops, fruit_lines, hens_on_clean,
    load_checks, loads, mixed_stock_cautions, rule_of, settled_on_clean,
};
use crate::quantity::{Day, decimal_text};

/// Prints the crops of a year with the last day for animals.
pub(super) fn clean(
    file: &Path,
    year: Option<i16>,
    rule: Option<&str>,
    json: bool,
) -> Result<ExitCode, Trouble> {
    let mut farm = open_farm(file)?;
    if let Some(code) = rule {
        farm.course.harvest_rule = HarvestRule::from_code(code).ok_or_else(|| {
            let known = HarvestRule::ALL.map(|rule| rule.facts(farm.course.own_wait).code);
            Trouble(format!(
                "there is no rule \"{code}\": write one of {}",
                known.join(", ")
            ))
        })?;
    }
    let year = year.unwrap_or_else(|| farm.season.first_day.year());
    let (Some(first), Some(last)) = (Day::new(year, 1, 1), Day::new(year, 12, 31)) else {
        return Err(Trouble(format!(
            "the year {year} is too far away: years from 1900 to 2199 are understood"
        )));
    };
    let crops = clean_crops(&farm, first, last);
    let fruit = planned_to_show(&farm, None, None)
        .map(|plan| fruit_lines(&farm, &plan.hens))
        .unwrap_or_default();
    if json {
        print_json(&clean_fields(&farm, &crops, &fruit))?;
    } else {
        print_text(&clean_text(&farm, year, &crops, &fruit))?;
    }
    Ok(ExitCode::SUCCESS)
}

fn name_of(farm: &Farm, id: GroundId) -> String {
    farm.ground
        .get(&id)
        .map_or_else(String::new, |ground| ground.name.trim().to_owned())
}

fn clean_text(farm: &Farm, year: i16, crops: &[CleanCrop], fruit: &[FruitLine]) -> String {
    let facts = rule_of(farm);
    let mut text = format!(
        "{}\n\nClean ground in {year} by {} ({}).\n",
        farm.name, facts.name, facts.source
    );
    let mut rows = vec![
        ["ground", "crop", "goes in", "picked", "last animals", "why"]
            .map(str::to_owned)
            .to_vec(),
    ];
    rows.extend(crops.iter().map(|crop| {
        vec![
            name_of(farm, crop.ground),
            crop.name.clone(),
            crop.planted.to_string(),
            format!("{} to {}", crop.first_harvest, crop.last_harvest),
            crop.last_animals().1.to_string(),
            crop.why(farm),
        ]
    }));
    if crops.is_empty() {
        text.push_str("No crop of the course closes any ground.\n");
    } else {
        text.push_str(&aligned(&rows));
    }
    for line in fruit {
        let _written = writeln!(
            text,
            "{}: hens along it until {}; fruit from the tree from {}, windfalls from {}.",
            name_of(farm, line.line),
            line.last_hens,
            line.tree_fruit_from,
            line.windfalls_from
        );
    }
    let spans: Vec<_> =
        crate::planning::clean_spans(farm, farm.season.first_day, farm.season.last_day());
    for (ground, day, why) in settled_on_clean(farm, &spans) {
        let name = name_of(farm, ground);
        let _written = writeln!(text, "{name} is settled on {day} all the same: {why}.");
    }
    if let Ok(plan) = planned_to_show(farm, None, None) {
        for hens in hens_on_clean(farm, &plan.hens, &spans) {
            let (name, (from, to)) = (name_of(farm, hens.ground), hens.days);
            let _written = writeln!(text, "Hens stand on {name} {from} to {to}: {}.", hens.why);
        }
    }
    text.push_str("\nThe rules, of which one is followed:\n");
    let mut rules = vec![
        ["rule", "touching soil", "clear of it", "planting", "source"]
            .map(str::to_owned)
            .to_vec(),
    ];
    for rule in HarvestRule::ALL {
        let facts = rule.facts(farm.course.own_wait);
        let remark = if facts.remark.is_empty() {
            String::new()
        } else {
            format!(". {}", facts.remark)
        };
        rules.push(vec![
            facts.code.to_owned(),
            facts.touching.words(),
            facts.clear.words(),
            facts.planting.words(),
            format!("{}{remark}", facts.source),
        ]);
    }
    text.push_str(&aligned(&rules));
    let _written = writeln!(text, "{RULES_DEFER}");
    text
}

fn clean_fields(farm: &Farm, crops: &[CleanCrop], fruit: &[FruitLine]) -> Value {
    let facts = rule_of(farm);
    let crops: Value = crops
        .iter()
        .map(|crop| {
            let [clearing, harvest, planting] = crop.last_by;
            Fields::default()
                .put("ground", name_of(farm, crop.ground))
                .put("year", crop.year)
                .put("crop", crop.crop)
                .put("name", crop.name.clone())
                .put("planted", crop.planted.to_string())
                .put("first_harvest", crop.first_harvest.to_string())
                .put("last_harvest", crop.last_harvest.to_string())
                .put("last_animals", crop.last_animals().1.to_string())
                .put("last_by_clearing", clearing.1.to_string())
                .put("last_by_harvest", harvest.1.to_string())
                .put("last_by_planting", planting.1.to_string())
                .put("why", crop.why(farm))
                .done()
        })
        .collect();
    let fruit: Value = fruit
        .iter()
        .map(|line| {
            Fields::default()
                .put("line", name_of(farm, line.line))
                .put("last_hens", line.last_hens.to_string())
                .put("tree_fruit_from", line.tree_fruit_from.to_string())
                .put("windfalls_from", line.windfalls_from.to_string())
                .done()
        })
        .collect();
    Fields::default()
        .put("rule", facts.code)
        .put("source", facts.source)
        .put("crops", crops)
        .put("fruit", fruit)
        .done()
}

/// Prints nitrogen, head and room of the season.
pub(super) fn loads_of(file: &Path, set: Option<&str>, json: bool) -> Result<ExitCode, Trouble> {
    let farm = open_farm(file)?;
    let set = match set {
        None => NitrogenSet::default(),
        Some(code) => NitrogenSet::ALL
            .into_iter()
            .find(|set| set.code() == code)
            .ok_or_else(|| {
                let known = NitrogenSet::ALL.map(NitrogenSet::code).join(", ");
                Trouble(format!("there is no set \"{code}\": write one of {known}"))
            })?,
    };
    let plan = planned_to_show(&farm, None, None)?;
    let sums = loads(&farm, &plan, set);
    let rows: Vec<(String, i16, Load)> = sums
        .by_ground
        .iter()
        .map(|((year, ground), load)| {
            let name = ground.map_or_else(
                || "yard, lines and elsewhere".to_owned(),
                |id| name_of(&farm, id),
            );
            (name, *year, *load)
        })
        .chain(
            sums.holding
                .iter()
                .map(|(year, load)| ("the whole holding".to_owned(), *year, *load)),
        )
        .collect();
    if json {
        print_json(&rows.iter().map(load_fields).collect())?;
        return Ok(ExitCode::SUCCESS);
    }
    let mut table = vec![
        ["ground", "year", "sheep kg N", "hens kg N", "kg N/ha"]
            .map(str::to_owned)
            .to_vec(),
    ];
    table.extend(rows.iter().map(|(name, year, load)| {
        vec![
            name.clone(),
            year.to_string(),
            decimal_text(load.sheep_kg, 1),
            decimal_text(load.hens_kg, 1),
            load.kg_per_ha()
                .map_or_else(|| "–".to_owned(), |kg| decimal_text(kg, 1)),
        ]
    }));
    let mut text = format!("{}\n\n{}\n", farm.name, aligned(&table));
    for check in load_checks(&farm, &plan, &sums) {
        let kept = if check.is_kept { "kept" } else { "NOT KEPT" };
        let _written = writeln!(
            text,
            "{}: {}; {}: {kept} ({}).",
            check.what, check.figure, check.limit, check.source
        );
    }
    for caution in mixed_stock_cautions(&farm, &plan) {
        let _written = writeln!(text, "Look out: {} ({})", caution.what, caution.source);
    }
    let _written = writeln!(
        text,
        "Nitrogen by {}: {}. The limit ({LIMIT_SOURCE}) is for the whole farmed area over the year; only days of the \
         season that is planned are in the sum. Local law decides.",
        set.name(),
        set.source()
    );
    print_text(&text)?;
    Ok(ExitCode::SUCCESS)
}

fn load_fields((name, year, load): &(String, i16, Load)) -> Value {
    Fields::default()
        .put("ground", name.clone())
        .put("year", *year)
        .put("sheep_kg_n", load.sheep_kg)
        .put("hens_kg_n", load.hens_kg)
        .put("area_ha", load.area_ha)
        .put_some("kg_n_per_ha", load.kg_per_ha())
        .put_some("sheep_per_ha_over_year", load.sheep_per_ha())
        .put_some("hens_per_ha_over_year", load.hens_per_ha())
        .done()
}
