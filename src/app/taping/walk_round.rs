//! A walk with compass and tape: rows of length and bearing, how well they close, the gap shared out.

use super::{KnownCorner, Wanting, filled_rows};
use crate::geometry::Point;
use crate::geometry::tape::{ClosedWalk, MeasuredSide, closed_walk};
use crate::quantity::{UnitSystem, parse_compass_deg, parse_tape_m};

/// Why there is a field for the needle.
pub const NEEDLE_HELP: &str = "Degrees that the needle points east of true north, as printed on a survey map; below 0 for west";

/// What is typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WalkRound {
    /// Length and bearing of each side; the last row is empty.
    pub rows: Vec<[String; 2]>,
    /// How far the needle points east of true north, degrees.
    pub needle: String,
}

impl Default for WalkRound {
    fn default() -> Self {
        Self {
            rows: vec![[String::new(), String::new()]],
            needle: "0".to_owned(),
        }
    }
}

impl WalkRound {
    /// The sides up to the first row that does not give one, and what is to be said of that row.
    pub fn sides(&self, units: UnitSystem) -> (Vec<MeasuredSide>, Option<Wanting>) {
        let mut sides = Vec::new();
        let needle_deg = match self.needle_deg() {
            Ok(needle_deg) => needle_deg,
            Err(wanting) => return (sides, Some(wanting)),
        };
        for (number, [length, bearing]) in filled_rows(&self.rows) {
            match read_row(number, length, bearing, units) {
                Ok((length_m, bearing_deg)) => sides.push(MeasuredSide {
                    bearing_deg: bearing_deg + needle_deg,
                    length_m,
                }),
                Err(wanting) => return (sides, Some(wanting)),
            }
        }
        (sides, None)
    }

    fn needle_deg(&self) -> Result<f64, Wanting> {
        let text = self.needle.trim().replace(',', ".").replace('−', "-");
        if text.is_empty() {
            return Ok(0.0);
        }
        let degrees = text.trim_end_matches('°').parse::<f64>();
        degrees
            .ok()
            .filter(|degrees| degrees.abs() <= 180.0)
            .ok_or_else(|| {
                Wanting::wrong(format!(
                    "\"{}\" is no number of degrees for the needle: write it like -1.5.",
                    self.needle.trim()
                ))
            })
    }

    /// The corners as walked so far, the start first.
    pub fn walked_so_far(&self, start: Option<&KnownCorner>, units: UnitSystem) -> Vec<Point> {
        let Some(start) = start else {
            return Vec::new();
        };
        let mut at = start.place;
        let mut corners = vec![at];
        for side in self.sides(units).0 {
            at = at.towards(side.bearing_deg, side.length_m);
            corners.push(at);
        }
        corners
    }

    /// The walk with its gap shared out.
    ///
    /// # Errors
    /// What is missing or wrong, with its row.
    pub fn walk(
        &self,
        start: Option<&KnownCorner>,
        units: UnitSystem,
    ) -> Result<ClosedWalk, Wanting> {
        let start = start.ok_or_else(|| {
            Wanting::missing("Click on the map where the walk began, or type a corner.")
        })?;
        let (sides, wanting) = self.sides(units);
        if let Some(wanting) = wanting {
            return Err(wanting);
        }
        if sides.len() < 3 {
            return Err(Wanting::missing(format!(
                "A walk round needs three sides at least; {} so far.",
                sides.len()
            )));
        }
        closed_walk(start.place, &sides).map_err(|error| Wanting::wrong(format!("{error}.")))
    }
}

fn read_row(
    number: usize,
    length: &str,
    bearing: &str,
    units: UnitSystem,
) -> Result<(f64, f64), Wanting> {
    match (length.trim().is_empty(), bearing.trim().is_empty()) {
        (true, true) => return Err(Wanting::wrong(format!("Row {number} is empty."))),
        (true, false) => {
            return Err(Wanting::missing(format!(
                "Row {number}: how long is this side?"
            )));
        }
        (false, true) => {
            return Err(Wanting::missing(format!(
                "Row {number}: which bearing has this side?"
            )));
        }
        (false, false) => {}
    }
    let wrong = |error| Wanting::wrong(format!("Row {number}: {error}."));
    let length_m = parse_tape_m(length, units).map_err(wrong)?;
    if length_m <= 0.0 {
        return Err(Wanting::wrong(format!(
            "Row {number}: a side has some length."
        )));
    }
    Ok((length_m, parse_compass_deg(bearing).map_err(wrong)?))
}
