//! Worked figures that others have printed, put through this project's own functions.
//!
//! Each row names its source and is forgiven what the source rounded off, no more. Examples whose own figures do not
//! add up are not here.

#![expect(clippy::unwrap_used, reason = "a test may stop the run, and says why")]

mod grazing;
mod ground;
mod planting;
mod regrowth;
mod rotation;
mod stock;
mod strips;
mod units;
mod volumes;
mod water;

use std::collections::BTreeSet;

/// A printed answer and the way to find it.
struct Row {
    /// What is worked out, from which figures.
    name: String,
    /// Title, body, year, section.
    source: &'static str,
    /// The answer of this project.
    find: Box<dyn Fn() -> f64>,
    /// The printed answer.
    printed: f64,
    /// Half of the last printed digit, or what the source says it rounded.
    rounding: f64,
}

fn row(
    name: &str,
    source: &'static str,
    find: impl Fn() -> f64 + 'static,
    printed: f64,
    rounding: f64,
) -> Row {
    Row {
        name: name.to_owned(),
        source,
        find: Box::new(find),
        printed,
        rounding,
    }
}

impl Row {
    fn is_met_by(&self, found: f64) -> bool {
        // What lies on the edge of the rounding is within it; a figure that is no number is not.
        (found - self.printed).abs() <= self.rounding + 4.0 * f64::EPSILON * self.printed.abs()
    }
}

fn all_rows() -> Vec<Row> {
    let mut rows = ground::rows();
    rows.extend(units::rows());
    rows.extend(stock::rows());
    rows.extend(grazing::rows());
    rows.extend(water::rows());
    rows.extend(volumes::rows());
    rows.extend(planting::rows());
    rows
}

#[test]
fn printed_answers_are_found_again() {
    let misses: Vec<String> = all_rows()
        .iter()
        .map(|row| (row, (row.find)()))
        .filter(|(row, found)| !row.is_met_by(*found))
        .map(|(row, found)| {
            format!(
                "{}: found {found}, printed {} ({})",
                row.name, row.printed, row.source
            )
        })
        .collect();
    assert!(misses.is_empty(), "\n{}\n", misses.join("\n"));
}

#[test]
fn every_row_has_a_source_and_can_fail() {
    let rows = all_rows();
    assert!(rows.len() >= 30, "{} rows", rows.len());
    let names: BTreeSet<&str> = rows.iter().map(|row| row.name.as_str()).collect();
    assert_eq!(names.len(), rows.len(), "every row has its own name");
    for row in &rows {
        assert!(row.source.len() > 20, "{}: source", row.name);
        assert!(
            row.rounding <= row.printed.abs() * 0.1,
            "{}: a tenth is no rounding",
            row.name
        );
        let found = (row.find)();
        for wrong in [f64::NAN, 0.0, found * 1.25, found / 1.25] {
            assert!(!row.is_met_by(wrong), "{}: {wrong} would pass", row.name);
        }
    }
}
