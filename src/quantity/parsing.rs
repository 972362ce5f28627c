//! Reading figures that a person types: lengths, areas and bearings with or without a unit.
//!
//! Knows nothing of what the figure is for. Gives metres, square metres and degrees.

use thiserror::Error;

use super::units::{M_PER_FOOT, M_PER_YARD, M2_PER_ACRE, M2_PER_HECTARE, UnitSystem};

/// Why a typed figure was not taken.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum FigureError {
    /// No number at the front.
    #[error("\"{text}\" is not a number: write it like {example}")]
    NotANumber {
        /// What was typed.
        text: String,
        /// A figure that would be taken.
        example: &'static str,
    },
    /// A unit that is not one of those understood.
    #[error("\"{unit}\" is not a unit known here: use {known}")]
    UnknownUnit {
        /// The unit that was typed.
        unit: String,
        /// The units that would be taken.
        known: &'static str,
    },
    /// Not above 0, or larger than any farm.
    #[error("{text} is out of range: {range}")]
    OutOfRange {
        /// What was typed.
        text: String,
        /// What would be taken.
        range: &'static str,
    },
}

const LARGEST_LENGTH_M: f64 = 1.0e6;
const LARGEST_AREA_M2: f64 = 1.0e10;

/// Reads a length such as `12.5`, `12,5 m`, `40 yd`, `30 ft`; without a unit it is metres, or yards.
///
/// # Errors
/// Says what was not understood, and what would be.
pub fn parse_length_m(text: &str, units: UnitSystem) -> Result<f64, FigureError> {
    let (value, unit) = number_and_unit(text, "12.5 or 40 yd")?;
    let metres_each = match (unit.as_str(), units) {
        ("", UnitSystem::Metric) | ("m" | "metre" | "metres" | "meter" | "meters", _) => 1.0,
        ("", UnitSystem::Imperial) | ("yd" | "yds" | "yard" | "yards", _) => M_PER_YARD,
        ("ft" | "foot" | "feet" | "'", _) => M_PER_FOOT,
        ("cm", _) => 0.01,
        ("km", _) => 1000.0,
        _ => {
            return Err(FigureError::UnknownUnit {
                unit,
                known: "m, cm, km, yd or ft",
            });
        }
    };
    in_range(
        text,
        value * metres_each,
        LARGEST_LENGTH_M,
        "a length above 0 and up to 1000 km",
    )
}

/// Reads an area such as `0.4`, `0.4 ha`, `1200 m2`, `1 acre`; without a unit it is hectares, or acres.
///
/// # Errors
/// Says what was not understood, and what would be.
pub fn parse_area_m2(text: &str, units: UnitSystem) -> Result<f64, FigureError> {
    let (value, unit) = number_and_unit(text, "0.4 ha or 1200 m2")?;
    let m2_each = match (unit.as_str(), units) {
        ("", UnitSystem::Metric) | ("ha" | "hectare" | "hectares", _) => M2_PER_HECTARE,
        ("", UnitSystem::Imperial) | ("ac" | "acre" | "acres", _) => M2_PER_ACRE,
        ("m2" | "m²" | "sqm" | "sq m", _) => 1.0,
        ("sq yd" | "yd2" | "yd²", _) => M_PER_YARD * M_PER_YARD,
        ("sq ft" | "ft2" | "ft²", _) => M_PER_FOOT * M_PER_FOOT,
        _ => {
            return Err(FigureError::UnknownUnit {
                unit,
                known: "ha, m2, acre or sq yd",
            });
        }
    };
    in_range(
        text,
        value * m2_each,
        LARGEST_AREA_M2,
        "an area above 0 and up to a million hectares",
    )
}

/// Reads a bearing in degrees clockwise from north, held in 0 to 360.
///
/// # Errors
/// Says what was not understood, and what would be.
pub fn parse_bearing_deg(text: &str) -> Result<f64, FigureError> {
    let (value, unit) = number_and_unit(text, "75 or 75°")?;
    if !matches!(unit.as_str(), "" | "°" | "deg" | "degrees") {
        return Err(FigureError::UnknownUnit {
            unit,
            known: "degrees",
        });
    }
    if !(-360.0..=720.0).contains(&value) {
        let text = text.trim().to_owned();
        return Err(FigureError::OutOfRange {
            text,
            range: "a bearing from 0 to 360 degrees",
        });
    }
    Ok(value.rem_euclid(360.0))
}

fn in_range(text: &str, value: f64, largest: f64, range: &'static str) -> Result<f64, FigureError> {
    if value > 0.0 && value <= largest {
        Ok(value)
    } else {
        Err(FigureError::OutOfRange {
            text: text.trim().to_owned(),
            range,
        })
    }
}

/// Splits `12,5 m` into 12.5 and `m`; a comma is a decimal comma, spaces part thousands.
pub(super) fn number_and_unit(
    text: &str,
    example: &'static str,
) -> Result<(f64, String), FigureError> {
    let trimmed = text.trim();
    let is_figure = |c: char| {
        c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | ' ' | '\u{2009}' | '\u{a0}')
    };
    let end = trimmed
        .find(|c: char| !is_figure(c))
        .unwrap_or(trimmed.len());
    let (figure, unit) = trimmed.split_at(end);
    let digits: String = figure
        .chars()
        .filter(|c| !c.is_whitespace())
        .map(|c| if c == ',' { '.' } else { c })
        .collect();
    let value: f64 = digits.parse().map_err(|_| FigureError::NotANumber {
        text: trimmed.to_owned(),
        example,
    })?;
    Ok((value, unit.trim().to_lowercase()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bare_figure_is_in_the_units_in_use() {
        assert_eq!(parse_length_m("12,5", UnitSystem::Metric), Ok(12.5));
        assert_eq!(parse_length_m("10", UnitSystem::Imperial), Ok(9.144));
        assert_eq!(parse_area_m2("0.4", UnitSystem::Metric), Ok(4000.0));
        assert_eq!(parse_area_m2("1", UnitSystem::Imperial), Ok(M2_PER_ACRE));
    }

    #[test]
    fn a_unit_typed_wins_over_the_units_in_use() {
        assert_eq!(parse_length_m("40 yd", UnitSystem::Metric), Ok(36.576));
        assert_eq!(parse_area_m2("1200 m2", UnitSystem::Imperial), Ok(1200.0));
        assert_eq!(parse_bearing_deg("-15°"), Ok(345.0));
    }

    #[test]
    fn what_is_no_figure_is_refused_in_words() {
        for text in [
            "",
            "wide",
            "1.2.3 m",
            "-4 m",
            "0",
            "1e999",
            "nan",
            "12 furlongs",
            "9999999999 km",
        ] {
            assert!(parse_length_m(text, UnitSystem::Metric).is_err(), "{text}");
        }
    }
}
