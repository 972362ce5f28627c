//! Offsets from a base line: rows of how far along and how far aside, each a corner.

use super::{KnownCorner, Wanting, filled_rows};
use crate::farm::Shape;
use crate::geometry::tape::place_from_base_line;
use crate::geometry::{Outline, Point};
use crate::quantity::{UnitSystem, parse_along_m, parse_aside_m};

/// What is typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BaseLine {
    /// How far along and how far aside, a row for each corner; the last row is empty.
    pub rows: Vec<[String; 2]>,
    /// Whether the corners become a line rather than an outline.
    pub is_line: bool,
}

impl Default for BaseLine {
    fn default() -> Self {
        Self {
            rows: vec![[String::new(), String::new()]],
            is_line: false,
        }
    }
}

impl BaseLine {
    /// The corners up to the first row that does not give one, and what is to be said of that row.
    pub fn corners(
        &self,
        ends: Result<[&KnownCorner; 2], Wanting>,
        units: UnitSystem,
    ) -> (Vec<Point>, Option<Wanting>) {
        let [first, second] = match ends {
            Ok(ends) => ends,
            Err(wanting) => return (Vec::new(), Some(wanting)),
        };
        let mut corners = Vec::new();
        for (number, [along, aside]) in filled_rows(&self.rows) {
            let corner = read_row(number, along, aside, units).and_then(|(along_m, aside_m)| {
                place_from_base_line(first.place, second.place, along_m, aside_m).ok_or_else(|| {
                    Wanting::wrong("Both ends of the base line are the same place: choose another.")
                })
            });
            match corner {
                Ok(corner) => corners.push(corner.on_whole_mm()),
                Err(wanting) => return (corners, Some(wanting)),
            }
        }
        (corners, None)
    }

    /// What the corners come to.
    ///
    /// # Errors
    /// What is missing or wrong, with its row.
    pub fn shape(
        &self,
        ends: Result<[&KnownCorner; 2], Wanting>,
        units: UnitSystem,
    ) -> Result<Shape, Wanting> {
        let (corners, wanting) = self.corners(ends, units);
        if let Some(wanting) = wanting {
            return Err(wanting);
        }
        let least = if self.is_line { 2 } else { 3 };
        if corners.len() < least {
            let what = if self.is_line { "A line" } else { "An outline" };
            return Err(Wanting::missing(format!(
                "{what} needs {least} rows at least; {} so far.",
                corners.len()
            )));
        }
        Ok(if self.is_line {
            Shape::Line(corners)
        } else {
            Shape::Area(Outline::simple(corners))
        })
    }
}

fn read_row(
    number: usize,
    along: &str,
    aside: &str,
    units: UnitSystem,
) -> Result<(f64, f64), Wanting> {
    match (along.trim().is_empty(), aside.trim().is_empty()) {
        (true, true) => return Err(Wanting::wrong(format!("Row {number} is empty."))),
        (true, false) => {
            return Err(Wanting::missing(format!("Row {number}: how far along?")));
        }
        (false, true) => {
            return Err(Wanting::missing(format!(
                "Row {number}: how far aside, left or right?"
            )));
        }
        (false, false) => {}
    }
    let wrong = |error| Wanting::wrong(format!("Row {number}: {error}."));
    Ok((
        parse_along_m(along, units).map_err(wrong)?,
        parse_aside_m(aside, units).map_err(wrong)?,
    ))
}
