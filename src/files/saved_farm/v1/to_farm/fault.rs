//! A field that cannot be what it says, and the tests of single figures and days.
//!
//! Knows the path to the field; where that is in the text is found once it is needed.

use std::fmt::Display;

use crate::files::FileError;
use crate::files::saved_farm::place::{Step, path_words, place_of};
use crate::files::saved_farm::v1::{SavedDay, SavedPoint};
use crate::geometry::Point;

/// Farther from the origin than this nothing of a farm can lie, metres.
pub(super) const FARTHEST_M: f64 = 2_000_000.0;

/// No mass, height or growth is larger than this in its unit.
const LARGEST_FIGURE: f64 = 1_000_000.0;

/// Why a field was refused.
#[derive(Debug)]
pub(in crate::files::saved_farm) struct Fault {
    path: Vec<Step>,
    cause: String,
    remedy: String,
}

impl Fault {
    /// A fault of the field that is being looked at.
    pub(super) fn new(cause: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self {
            path: Vec::new(),
            cause: cause.into(),
            remedy: remedy.into(),
        }
    }

    /// The same fault, seen from the field that holds it.
    pub(super) fn within(mut self, outer: &[Step]) -> Self {
        self.path.splice(0..0, outer.iter().cloned());
        self
    }

    /// The error for the file with this text.
    pub(in crate::files::saved_farm) fn file_error(self, text: &str, name: &str) -> FileError {
        let (line, column) = place_of(text, &self.path);
        let field = path_words(&self.path);
        FileError::new(name, self.cause, self.remedy)
            .at(format!("line {line}, column {column}, {field}"))
    }
}

/// A field or entry by its name.
pub(super) fn key(name: impl Display) -> Step {
    Step::Key(name.to_string())
}

/// A figure that is a number and not absurd.
pub(super) fn figure(value: f64) -> Result<f64, Fault> {
    within(value, -LARGEST_FIGURE, LARGEST_FIGURE, "")
}

/// A figure from `least` to `most`, told with its unit.
pub(super) fn within(value: f64, least: f64, most: f64, unit: &str) -> Result<f64, Fault> {
    let space = if unit.is_empty() { "" } else { " " };
    let remedy = || format!("write a number from {least} to {most}{space}{unit}");
    if !value.is_finite() {
        return Err(Fault::new(
            "this is not a number that can be reckoned with",
            remedy(),
        ));
    }
    if !(least..=most).contains(&value) {
        return Err(Fault::new(
            format!("{value}{space}{unit} is out of bounds"),
            remedy(),
        ));
    }
    Ok(value)
}

/// A figure that may be left out.
pub(super) fn maybe(
    field: &str,
    value: Option<f64>,
    least: f64,
    most: f64,
    unit: &str,
) -> Result<Option<f64>, Fault> {
    value
        .map(|value| within(value, least, most, unit))
        .transpose()
        .map_err(|fault| fault.within(&[key(field)]))
}

/// A place on the farm's plane.
pub(super) fn point(saved: SavedPoint) -> Result<Point, Fault> {
    let point = Point::new(saved.0, saved.1);
    if !point.is_finite() {
        return Err(Fault::new(
            "this place is not a pair of numbers",
            "write metres east and north of the origin, such as (12.345, 67.89)",
        ));
    }
    if point.east_m.abs() > FARTHEST_M || point.north_m.abs() > FARTHEST_M {
        return Err(Fault::new(
            "this place lies more than 2,000 km from the farm's origin",
            "write metres east and north of the origin, not degrees or a national grid",
        ));
    }
    Ok(point)
}

/// Days of which the first must not be after the last.
pub(super) fn in_order(from: SavedDay, to: SavedDay) -> Result<(), Fault> {
    if from <= to {
        return Ok(());
    }
    Err(Fault::new(
        format!("the days are out of order: {from} comes after {to}"),
        "write the first day before the last",
    ))
}
