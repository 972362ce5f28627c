//! The planting sums as a table for people and as comma-separated rows.
//!
//! Rows end in CRLF and are quoted where they must be (RFC 4180, section 2). Metres, m², kg.

use crate::farm::Farm;
use crate::planning::{PlantingRow, planting_totals};
use crate::quantity::{Day, decimal_text, mass_text};

/// The head of the comma-separated rows.
const HEAD: [&str; 16] = [
    "ground",
    "crop",
    "family",
    "planted_m2",
    "bed_m",
    "row_m",
    "plant_m",
    "raised_from",
    "plants",
    "with_spare",
    "planted",
    "first_harvest",
    "last_harvest",
    "own_yield_kg",
    "usual_yield_least_kg",
    "usual_yield_most_kg",
];

/// The rows of every crop as comma-separated text, head first.
pub fn planting_csv(farm: &Farm, rows: &[PlantingRow]) -> String {
    let mut text = csv_row(&HEAD.map(str::to_owned));
    for row in rows {
        let maybe = |value: Option<f64>| value.map_or_else(String::new, plain);
        let name = farm
            .ground
            .get(&row.ground)
            .map_or_else(String::new, |ground| ground.name.clone());
        text.push_str(&csv_row(&[
            name,
            row.name.clone(),
            row.family.name().to_owned(),
            plain(row.planted_m2),
            maybe(row.bed_m),
            plain(row.spacing_m.0),
            plain(row.spacing_m.1),
            row.raised.words().1.to_owned(),
            row.plants.to_string(),
            row.with_spare.to_string(),
            row.planted.to_string(),
            row.harvest.0.to_string(),
            row.harvest.1.to_string(),
            maybe(row.own_yield_kg),
            maybe(row.usual_yield_kg.map(|range| range.0)),
            maybe(row.usual_yield_kg.map(|range| range.1)),
        ]));
    }
    text
}

/// A figure without groups of thousands, to two places.
fn plain(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn csv_row(fields: &[String]) -> String {
    let quoted: Vec<String> = fields.iter().map(|field| csv_field(field)).collect();
    format!("{}\r\n", quoted.join(","))
}

fn csv_field(field: &str) -> String {
    if field.contains(['"', ',', '\r', '\n']) {
        format!("\"{}\"", field.replace('"', "\"\""))
    } else {
        field.to_owned()
    }
}

/// The rows as cells of a table, head first.
pub fn planting_table(farm: &Farm, rows: &[PlantingRow]) -> Vec<Vec<String>> {
    let mut table = vec![
        [
            "ground", "crop", "m²", "spacing", "stand", "to raise", "go in", "picked", "expected",
        ]
        .map(str::to_owned)
        .to_vec(),
    ];
    for row in rows {
        let name = farm
            .ground
            .get(&row.ground)
            .map_or_else(String::new, |ground| ground.name.trim().to_owned());
        table.push(vec![
            name,
            row.name.clone(),
            decimal_text(row.planted_m2, 0),
            spacing_text(row),
            count_text(row.plants),
            format!("{} {}", count_text(row.with_spare), row.raised.words().1),
            format!("{}, week {}", in_short(row.planted), row.planted.week()),
            format!("{} to {}", in_short(row.harvest.0), in_short(row.harvest.1)),
            yield_text(row),
        ]);
    }
    table
}

/// The sums by week and crop as cells of a table, head first.
pub fn planting_totals_table(rows: &[PlantingRow]) -> Vec<Vec<String>> {
    let mut table = vec![
        ["week of", "crop", "stand", "to raise", "m²"]
            .map(str::to_owned)
            .to_vec(),
    ];
    for ((monday, name), total) in planting_totals(rows) {
        table.push(vec![
            format!("{} (week {})", monday.row_text(), monday.week()),
            name,
            count_text(total.plants),
            format!(
                "{} {}",
                count_text(total.with_spare),
                total.raised.words().1
            ),
            decimal_text(total.planted_m2, 0),
        ]);
    }
    table
}

/// The sums by week and crop as comma-separated text, head first.
pub fn planting_totals_csv(rows: &[PlantingRow]) -> String {
    let head = [
        "week_of",
        "week",
        "crop",
        "plants",
        "with_spare",
        "raised_from",
        "planted_m2",
    ];
    let mut text = csv_row(&head.map(str::to_owned));
    for ((monday, name), total) in planting_totals(rows) {
        text.push_str(&csv_row(&[
            monday.to_string(),
            monday.week().to_string(),
            name,
            total.plants.to_string(),
            total.with_spare.to_string(),
            total.raised.words().1.to_owned(),
            plain(total.planted_m2),
        ]));
    }
    text
}

/// `10 Jun`.
fn in_short(day: Day) -> String {
    let month: String = day.month_name().chars().take(3).collect();
    format!("{} {month}", day.day_of_month())
}

fn count_text(count: u64) -> String {
    crate::quantity::count_text(count)
}

/// `0.45 × 0.45 m`.
pub fn spacing_text(row: &PlantingRow) -> String {
    format!("{} × {} m", plain(row.spacing_m.0), plain(row.spacing_m.1))
}

/// The grower's own figure first, the usual range beside it.
pub fn yield_text(row: &PlantingRow) -> String {
    let usual = row
        .usual_yield_kg
        .map(|(least, most)| format!("{} to {} usual", mass_text(least), mass_text(most)));
    match (row.own_yield_kg, usual) {
        (Some(own), Some(usual)) => format!("{} ({usual})", mass_text(own)),
        (Some(own), None) => mass_text(own),
        (None, Some(usual)) => usual,
        (None, None) => "–".to_owned(),
    }
}
