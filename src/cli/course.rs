//! `course`: the table of plots by years, what is amiss in it, and the ground under each family.

use std::fmt::Write as _;
use std::path::Path;
use std::process::ExitCode;

use serde_json::Value;

use super::Trouble;
use super::json::{Fields, print_json, print_text};
use crate::farm::{
    Cell, Farm, GroundId, Kind, Use, YearAreas, course_findings, course_grounds, course_years,
    use_words, uses_at, year_areas,
};
use crate::files::open_farm;
use crate::quantity::{decimal_text, hectares_from_m2};

/// Prints the course.
pub(super) fn course(file: &Path, json: bool) -> Result<ExitCode, Trouble> {
    let farm = open_farm(file)?;
    if json {
        print_json(&course_fields(&farm))?;
    } else {
        print_text(&course_text(&farm))?;
    }
    Ok(ExitCode::SUCCESS)
}

fn course_text(farm: &Farm) -> String {
    let grounds = course_grounds(farm);
    if grounds.is_empty() {
        return "No plot, ley or tunnel is drawn yet, so there is no course.\n".to_owned();
    }
    let mut head = vec!["plot".to_owned()];
    head.extend(course_years(farm).map(|year| year.to_string()));
    let mut rows = vec![head];
    for id in &grounds {
        rows.extend(ground_rows(farm, *id));
    }
    let mut text = format!("{}\n\n{}", farm.name, aligned(&rows));
    for course in &farm.course.courses {
        let (name, steps) = (&course.name, course.steps.len());
        let _written = write!(text, "\n{name}: {steps} steps, {}.", course.turn.words());
    }
    text.push_str("\n\nHectares under each, by year (tunnels apart):\n");
    text.push_str(&aligned(&area_rows(farm)));
    let found = course_findings(farm);
    text.push('\n');
    if found.is_empty() {
        text.push_str("\nNothing amiss in the course.\n");
    }
    for finding in found {
        let (severity, what) = (finding.severity.name(), finding.what);
        let _written = write!(text, "\n{severity}: {what} {}", finding.remedy);
    }
    text.push('\n');
    text
}

/// One row for the main crops and one for each further crop of any year.
fn ground_rows(farm: &Farm, id: GroundId) -> Vec<Vec<String>> {
    let by_year: Vec<Vec<Cell>> = course_years(farm)
        .map(|year| uses_at(&farm.course, id, year))
        .collect();
    let name = farm.ground.get(&id).map_or("", |ground| ground.name.trim());
    let most = by_year.iter().map(Vec::len).max().unwrap_or(1);
    (0..most)
        .map(|crop| {
            let first = if crop == 0 { name } else { "  then" };
            let mut row = vec![first.to_owned()];
            row.extend(by_year.iter().map(|cells| {
                let cell = cells.get(crop);
                let words = cell.map_or_else(String::new, use_words);
                let hand = cell.is_some_and(|cell| cell.is_by_hand);
                format!("{words}{}", if hand { " *" } else { "" })
            }));
            row
        })
        .collect()
}

fn area_rows(farm: &Farm) -> Vec<Vec<String>> {
    let years: Vec<(i16, YearAreas)> = year_areas(farm);
    let mut head = vec![String::new()];
    head.extend(years.iter().map(|(year, _)| year.to_string()));
    let mut rows = vec![head];
    let mut push = |name: &str, area_of: &dyn Fn(&YearAreas) -> f64| {
        let areas: Vec<f64> = years.iter().map(|(_, areas)| area_of(areas)).collect();
        if areas.iter().any(|area_m2| *area_m2 > 0.0) {
            let mut row = vec![name.to_owned()];
            row.extend(areas.iter().map(|area_m2| hectares(*area_m2)));
            rows.push(row);
        }
    };
    for family in crate::farm::Family::ALL {
        push(family.name(), &|areas| {
            areas.by_family_m2.get(&family).copied().unwrap_or(0.0)
        });
    }
    push("under crop", &YearAreas::cropped_m2);
    push("ley", &|areas| areas.ley_m2);
    push("cover and fallow", &|areas| areas.resting_m2);
    push("tunnels", &|areas| {
        areas.tunnels_by_family_m2.values().sum()
    });
    push("not said", &|areas| areas.unsaid_m2);
    rows
}

fn hectares(area_m2: f64) -> String {
    if area_m2 > 0.0 {
        decimal_text(hectares_from_m2(area_m2), 3)
    } else {
        "–".to_owned()
    }
}

/// Columns as wide as their widest word.
pub(super) fn aligned(rows: &[Vec<String>]) -> String {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let widths: Vec<usize> = (0..columns)
        .map(|column| {
            let cells = rows.iter().filter_map(|row| row.get(column));
            cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
        })
        .collect();
    let mut text = String::new();
    for row in rows {
        let cells: Vec<String> = row
            .iter()
            .zip(&widths)
            .map(|(cell, width)| format!("{cell:<width$}"))
            .collect();
        text.push_str(cells.join("  ").trim_end());
        text.push('\n');
    }
    text
}

fn course_fields(farm: &Farm) -> Value {
    let mut cells = Vec::new();
    for id in course_grounds(farm) {
        for year in course_years(farm) {
            for (crop, cell) in uses_at(&farm.course, id, year).iter().enumerate() {
                if cell.used != Use::Unsaid {
                    cells.push(cell_fields(farm, id, year, crop, cell));
                }
            }
        }
    }
    let found: Value = course_findings(farm)
        .into_iter()
        .map(|finding| {
            Fields::default()
                .put("severity", finding.severity.name())
                .put("code", finding.code.name())
                .put_some("ground", finding.ground.map(|id| name_of(farm, id)))
                .put("year", finding.year)
                .put("crop", finding.crop)
                .put("what", finding.what)
                .put("remedy", finding.remedy)
                .done()
        })
        .collect();
    let years: Value = year_areas(farm)
        .into_iter()
        .map(|(year, areas)| {
            let by_family = |map: &std::collections::BTreeMap<crate::farm::Family, f64>| {
                map.iter()
                    .fold(Fields::default(), |fields, (family, area_m2)| {
                        fields.put(family.code(), *area_m2)
                    })
                    .done()
            };
            Fields::default()
                .put("year", year)
                .put("cropped_m2", areas.cropped_m2())
                .put("by_family_m2", by_family(&areas.by_family_m2))
                .put(
                    "tunnels_by_family_m2",
                    by_family(&areas.tunnels_by_family_m2),
                )
                .put("ley_m2", areas.ley_m2)
                .put("resting_m2", areas.resting_m2)
                .put("unsaid_m2", areas.unsaid_m2)
                .done()
        })
        .collect();
    Fields::default()
        .put("cells", cells)
        .put("years", years)
        .put("findings", found)
        .done()
}

fn name_of(farm: &Farm, id: GroundId) -> String {
    farm.ground
        .get(&id)
        .map_or_else(String::new, |ground| ground.name.clone())
}

fn cell_fields(farm: &Farm, id: GroundId, year: i16, crop: usize, cell: &Cell) -> Value {
    let kind = farm
        .ground
        .get(&id)
        .map_or(Kind::Plot, |ground| ground.kind);
    Fields::default()
        .put("ground", name_of(farm, id))
        .put("kind", kind.name())
        .put("year", year)
        .put("crop", crop)
        .put("use", use_words(cell))
        .put_some("family", cell.used.family().map(crate::farm::Family::code))
        .put_some("ley_year", cell.ley_year)
        .put_some("step", cell.step.map(|step| step + 1))
        .put("by_hand", cell.is_by_hand)
        .done()
}
