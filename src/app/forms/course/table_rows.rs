//! The table of plots by years as plain rows: words, family, marks, and what a reader of the screen hears.

use crate::farm::{
    Cell, CourseFinding, Farm, GroundId, Severity, course_grounds, course_years, use_words,
    uses_at, year_areas,
};
use crate::quantity::{UnitSystem, area_text};

/// One plot, ley or tunnel through the years.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct TableRow {
    pub(super) ground: GroundId,
    pub(super) name: String,
    pub(super) kind: &'static str,
    /// One for each year.
    pub(super) years: Vec<TableYear>,
}

/// One year of one piece of ground.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct TableYear {
    pub(super) year: i16,
    /// The main crop first.
    pub(super) cells: Vec<Cell>,
    /// The gravest finding, where there is one.
    pub(super) trouble: Option<Severity>,
    /// What is heard of it.
    pub(super) spoken: String,
}

impl TableYear {
    pub(super) fn is_by_hand(&self) -> bool {
        self.cells.iter().any(|cell| cell.is_by_hand)
    }
}

/// The rows, in the order of the ground's numbers.
pub(super) fn table_rows(farm: &Farm, found: &[CourseFinding]) -> Vec<TableRow> {
    course_grounds(farm)
        .into_iter()
        .filter_map(|id| {
            let ground = farm.ground.get(&id)?;
            let years = course_years(farm)
                .map(|year| table_year(farm, id, ground.name.trim(), year, found))
                .collect();
            Some(TableRow {
                ground: id,
                name: ground.name.trim().to_owned(),
                kind: ground.kind.name(),
                years,
            })
        })
        .collect()
}

fn table_year(
    farm: &Farm,
    id: GroundId,
    name: &str,
    year: i16,
    found: &[CourseFinding],
) -> TableYear {
    let cells = uses_at(&farm.course, id, year);
    let here: Vec<&CourseFinding> = found
        .iter()
        .filter(|finding| finding.ground == Some(id) && finding.year == year)
        .collect();
    let trouble = here.iter().map(|finding| finding.severity).max();
    let mut heard: Vec<String> = cells
        .iter()
        .filter(|cell| cell.used != crate::farm::Use::Unsaid)
        .map(|cell| match cell.used.family() {
            Some(family) => format!("{}, {}", use_words(cell), family.name()),
            None => use_words(cell),
        })
        .collect();
    if heard.is_empty() {
        heard.push("nothing said".to_owned());
    }
    let mut spoken = format!("{name}, {year}: {}", heard.join(", then "));
    if cells.iter().any(|cell| cell.is_by_hand) {
        spoken.push_str(", by hand");
    }
    if !here.is_empty() {
        spoken.push_str(", something to know");
    }
    TableYear {
        year,
        cells,
        trouble,
        spoken,
    }
}

/// Sums under the table: a name and a text for each year.
pub(super) fn sum_rows(farm: &Farm, units: UnitSystem) -> Vec<(&'static str, Vec<String>)> {
    let areas: Vec<_> = year_areas(farm)
        .into_iter()
        .map(|(_, areas)| areas)
        .collect();
    let text = |area_m2: f64| {
        if area_m2 > 0.0 {
            area_text(area_m2, units)
        } else {
            "–".to_owned()
        }
    };
    let mut rows = vec![
        (
            "under crop",
            areas.iter().map(|areas| text(areas.cropped_m2())).collect(),
        ),
        (
            "ley",
            areas.iter().map(|areas| text(areas.ley_m2)).collect(),
        ),
    ];
    for family in crate::farm::Family::ALL {
        let by_year: Vec<f64> = areas
            .iter()
            .map(|areas| areas.by_family_m2.get(&family).copied().unwrap_or(0.0))
            .collect();
        if by_year.iter().any(|area_m2| *area_m2 > 0.0) {
            rows.push((family.name(), by_year.into_iter().map(text).collect()));
        }
    }
    rows
}
