//! Reading and writing the figures of a form: counts, kilograms, lengths, days.
//!
//! Every refusal is a sentence that says what would be taken. Knows nothing of what the figure is for.

use std::ops::RangeInclusive;

use crate::quantity::{Day, M_PER_FOOT, M_PER_YARD, UnitSystem, decimal_text};

/// A whole number within bounds.
pub(super) fn whole(typed: &str, bounds: RangeInclusive<u32>, unit: &str) -> Result<u32, String> {
    let (least, most) = (f64::from(*bounds.start()), f64::from(*bounds.end()));
    let value = decimal(typed, least..=most, unit)?;
    if value.fract().abs() > 1e-9 {
        return Err(format!(
            "\"{}\" is not a whole number: leave out the part after the point.",
            typed.trim()
        ));
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held within bounds that are whole numbers"
    )]
    let whole = value.round() as u32;
    Ok(whole)
}

/// A number within bounds; the unit may be typed behind it.
pub(super) fn decimal(typed: &str, bounds: RangeInclusive<f64>, unit: &str) -> Result<f64, String> {
    let (figure, typed_unit) = parted(typed);
    let value = number(&figure)
        .ok_or_else(|| format!("\"{}\" is not a number: write it like 12.5.", typed.trim()))?;
    let is_known = typed_unit.is_empty() || unit.to_lowercase().starts_with(&typed_unit);
    if !is_known {
        return Err(format!(
            "\"{typed_unit}\" is not understood here: write it in {unit}."
        ));
    }
    if bounds.contains(&value) {
        return Ok(value);
    }
    let space = if unit.is_empty() { "" } else { " " };
    Err(format!(
        "{} cannot be: write {} to {}{space}{unit}.",
        figure_text(value),
        figure_text(*bounds.start()),
        figure_text(*bounds.end())
    ))
}

/// A length of 0 or more in metres, typed in metres or yards, or with its unit.
pub(super) fn length_m(
    typed: &str,
    units: UnitSystem,
    bounds_m: RangeInclusive<f64>,
) -> Result<f64, String> {
    let (figure, unit) = parted(typed);
    let value = number(&figure)
        .ok_or_else(|| format!("\"{}\" is not a length: write it like 4.5.", typed.trim()))?;
    let each_m = match (unit.as_str(), units) {
        ("", UnitSystem::Metric) | ("m" | "metre" | "metres", _) => 1.0,
        ("", UnitSystem::Imperial) | ("yd" | "yard" | "yards", _) => M_PER_YARD,
        ("ft" | "foot" | "feet", _) => M_PER_FOOT,
        ("cm", _) => 0.01,
        _ => return Err(format!("\"{unit}\" is not a length: use m, cm, yd or ft.")),
    };
    let length_m = value * each_m;
    if bounds_m.contains(&length_m) {
        return Ok(length_m);
    }
    Err(format!(
        "{} cannot be: write {} to {}.",
        typed.trim(),
        length_with_unit(*bounds_m.start(), units),
        length_with_unit(*bounds_m.end(), units)
    ))
}

/// A day; the year of `near` where none is typed.
pub(super) fn day(typed: &str, near: Day) -> Result<Day, String> {
    Day::parse_typed(typed, near).ok_or_else(|| {
        format!(
            "\"{}\" is not a day: write it like 7 may or 7 may 2027.",
            typed.trim()
        )
    })
}

/// `None` for an empty field, else what `read` makes of it.
pub(super) fn unless_empty<T>(
    typed: &str,
    read: impl FnOnce(&str) -> Result<T, String>,
) -> Result<Option<T>, String> {
    if typed.trim().is_empty() {
        Ok(None)
    } else {
        read(typed).map(Some)
    }
}

/// A name that is not empty.
pub(super) fn name(typed: &str) -> Result<String, String> {
    let name = typed.trim();
    if name.is_empty() {
        return Err("A name is needed, so that lists and sheets can say it.".to_owned());
    }
    Ok(name.to_owned())
}

/// A figure as it stands in a field: at most three places, none for nothing.
pub(super) fn figure_text(value: f64) -> String {
    let text = format!("{value:.3}");
    match text.split_once('.') {
        Some(_) => text.trim_end_matches('0').trim_end_matches('.').to_owned(),
        None => text,
    }
}

/// A figure that may be absent.
pub(super) fn figure_or_empty(value: Option<f64>) -> String {
    value.map(figure_text).unwrap_or_default()
}

/// A length as it stands in a field, in the unit that [`length_unit`] names.
pub(super) fn length_figure(length_m: f64, units: UnitSystem) -> String {
    let value = match units {
        UnitSystem::Metric => length_m,
        UnitSystem::Imperial => length_m / M_PER_YARD,
    };
    let text = decimal_text(value, 2);
    match text.split_once('.') {
        Some(_) => text.trim_end_matches('0').trim_end_matches('.').to_owned(),
        None => text,
    }
}

/// The unit of lengths in fields.
pub(super) const fn length_unit(units: UnitSystem) -> &'static str {
    match units {
        UnitSystem::Metric => "m",
        UnitSystem::Imperial => "yd",
    }
}

fn length_with_unit(length_m: f64, units: UnitSystem) -> String {
    format!("{} {}", length_figure(length_m, units), length_unit(units))
}

/// A day as it stands in a field: `7 May 2027`.
pub(super) fn day_text(day: Day) -> String {
    let month: String = day.month_name().chars().take(3).collect();
    format!("{} {month} {}", day.day_of_month(), day.year())
}

/// Figure and unit, the unit in small letters.
fn parted(typed: &str) -> (String, String) {
    let trimmed = typed.trim();
    let is_figure = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '−' | '+');
    let end = trimmed
        .find(|c: char| !is_figure(c) && !c.is_whitespace())
        .unwrap_or(trimmed.len());
    let (figure, unit) = trimmed.split_at(end);
    let figure = figure
        .chars()
        .filter(|c| !c.is_whitespace())
        .map(|c| if c == '−' { '-' } else { c })
        .collect();
    (figure, unit.trim().to_lowercase())
}

/// A number with a decimal point or comma. A comma before three last digits parts thousands: nobody who types 2,650
/// means less than three.
fn number(figure: &str) -> Option<f64> {
    let parts_thousands = figure.split_once(',').is_some_and(|(before, after)| {
        let is_group = (1..=3).contains(&before.len()) && !before.starts_with('0');
        is_group && after.len() == 3 && after.bytes().all(|byte| byte.is_ascii_digit())
    });
    let plain = if parts_thousands {
        figure.replace(',', "")
    } else {
        figure.replace(',', ".")
    };
    plain.parse::<f64>().ok().filter(|value| value.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_comma_parts_thousands_or_the_fraction() {
        assert_eq!(decimal("2,650", 0.0..=9000.0, "kg"), Ok(2650.0));
        assert_eq!(decimal("2 650 kg", 0.0..=9000.0, "kg DM/ha"), Ok(2650.0));
        assert_eq!(decimal("2,65", 0.0..=9.0, "kg"), Ok(2.65));
        assert_eq!(decimal("0,250", 0.0..=9.0, "kg"), Ok(0.25));
    }

    #[test]
    fn a_foreign_unit_is_refused_and_named() {
        let refused = decimal("154 lb", 1.0..=300.0, "kg");
        assert!(refused.is_err_and(|why| why.contains("lb") && why.contains("kg")));
    }

    #[test]
    fn a_count_is_whole_and_within_bounds() {
        assert_eq!(whole("54", 0..=9999, "head"), Ok(54));
        for typed in ["5.5", "-1", "10000", "", "many", "1e9", "nan"] {
            assert!(whole(typed, 0..=9999, "head").is_err(), "{typed}");
        }
    }

    #[test]
    fn a_length_is_read_in_the_units_in_use() {
        let bounds = 0.0..=100.0;
        assert_eq!(length_m("4,5", UnitSystem::Metric, bounds.clone()), Ok(4.5));
        assert_eq!(
            length_m("10", UnitSystem::Imperial, bounds.clone()),
            Ok(9.144)
        );
        assert_eq!(
            length_m("50 cm", UnitSystem::Imperial, bounds.clone()),
            Ok(0.5)
        );
        assert!(length_m("-1", UnitSystem::Metric, bounds).is_err());
    }

    #[test]
    fn a_day_in_a_field_is_read_back_as_itself() {
        let day_in = Day::new(2027, 9, 1).unwrap_or(Day::EARLIEST);
        assert_eq!(day(&day_text(day_in), Day::EARLIEST), Ok(day_in));
        assert!(day("31 feb", day_in).is_err());
    }
}
