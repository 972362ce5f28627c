//! Reading what is written in a notebook in the field: taped lengths, offsets to the left or right, compass bearings,
//! and places in degrees as a phone shows them.
//!
//! Knows nothing of what they are for. Gives metres and degrees.

use super::parsing::{FigureError, number_and_unit, parse_length_m};
use super::units::{M_PER_FOOT, UnitSystem};

/// Reads a taped length: as [`parse_length_m`], and nothing, and feet with inches (`12 ft 6 in`, `12' 6"`).
///
/// # Errors
/// Says what was not understood, and what would be.
pub fn parse_tape_m(text: &str, units: UnitSystem) -> Result<f64, FigureError> {
    if let Some(length_m) = feet_and_inches_m(text) {
        return Ok(length_m);
    }
    if let Ok((value, unit)) = number_and_unit(text, "0")
        && value.abs() < f64::MIN_POSITIVE
        && unit.is_empty()
    {
        return Ok(0.0);
    }
    parse_length_m(text, units)
}

/// Reads how far along a line: as [`parse_tape_m`]; below 0 lies before its first end.
///
/// # Errors
/// Says what was not understood, and what would be.
pub fn parse_along_m(text: &str, units: UnitSystem) -> Result<f64, FigureError> {
    let trimmed = text.trim();
    match trimmed.strip_prefix(['-', '−']) {
        Some(rest) => parse_tape_m(rest, units).map(|length_m| -length_m),
        None => parse_tape_m(trimmed, units),
    }
}

/// Reads how far aside of a line, metres to its right: `3.2 right`, `3.2 r`, `left 3.2`, `-3.2`; bare is right.
///
/// # Errors
/// Says what was not understood, and what would be.
pub fn parse_aside_m(text: &str, units: UnitSystem) -> Result<f64, FigureError> {
    let lower = text.trim().to_lowercase();
    for (hand, sign) in [("right", 1.0), ("left", -1.0), ("r", 1.0), ("l", -1.0)] {
        // A hand stands apart: the last letter of "meter" is none.
        let before = lower
            .strip_suffix(hand)
            .filter(|rest| !rest.ends_with(char::is_alphabetic));
        let behind = lower
            .strip_prefix(hand)
            .filter(|rest| !rest.starts_with(char::is_alphabetic));
        if let Some(rest) = before.or(behind) {
            return parse_tape_m(rest, units).map(|length_m| sign * length_m);
        }
    }
    parse_along_m(&lower, units)
}

/// Reads a bearing by compass: `75`, `75.5°`, `75° 30'`, `75-30-15`, `N 45 E`, `S 12° 30' W`.
///
/// Bearings within a quarter, from north or south towards east or west, are as in C. D. Ghilani and P. R. Wolf,
/// *Elementary Surveying*, chapter 7 (angles, azimuths and bearings; from memory).
///
/// # Errors
/// Says what was not understood, and what would be.
pub fn parse_compass_deg(text: &str) -> Result<f64, FigureError> {
    let lower = text.trim().to_lowercase();
    let not_a_bearing = || FigureError::NotANumber {
        text: text.trim().to_owned(),
        example: "75, 75° 30' or N 45 E",
    };
    let beyond = |range| FigureError::OutOfRange {
        text: text.trim().to_owned(),
        range,
    };
    let first = lower.chars().next().ok_or_else(not_a_bearing)?;
    if matches!(first, 'n' | 's') {
        let rest = lower.get(1..).unwrap_or_default();
        let rest = rest
            .strip_prefix("orth")
            .or_else(|| rest.strip_prefix("outh"))
            .unwrap_or(rest);
        let rest = rest
            .trim_end_matches("ast")
            .trim_end_matches("est")
            .trim_end();
        let last = rest.chars().last().ok_or_else(not_a_bearing)?;
        let degrees = rest.strip_suffix(['e', 'w']).ok_or_else(not_a_bearing)?;
        let within_deg = degrees_minutes_seconds(degrees).ok_or_else(not_a_bearing)?;
        if !(0.0..=90.0).contains(&within_deg) {
            return Err(beyond("within a quarter, from 0 to 90 degrees"));
        }
        let bearing_deg = match (first, last) {
            ('n', 'e') => within_deg,
            ('s', 'e') => 180.0 - within_deg,
            ('s', _) => 180.0 + within_deg,
            _ => 360.0 - within_deg,
        };
        return Ok(bearing_deg.rem_euclid(360.0));
    }
    let bearing_deg = degrees_minutes_seconds(&lower).ok_or_else(not_a_bearing)?;
    if !(-360.0..=360.0).contains(&bearing_deg) {
        return Err(beyond("a bearing from 0 to 360 degrees"));
    }
    Ok(bearing_deg.rem_euclid(360.0))
}

/// A place on the earth as typed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TypedPlace {
    /// Degrees north, south below 0.
    pub lat_deg: f64,
    /// Degrees east, west below 0.
    pub lon_deg: f64,
}

/// Reads a place: north then east, as phones show it (`52.1234, -1.2345`), or either way round with its letters
/// (`52° 7' 24" N 1° 14' 4" W`).
///
/// # Errors
/// Says what was not understood, and what would be.
pub fn parse_place(text: &str) -> Result<TypedPlace, FigureError> {
    let not_a_place = || FigureError::NotANumber {
        text: text.trim().chars().take(60).collect(),
        example: "52.1234, -1.2345: degrees north, then degrees east",
    };
    let (first, second) = two_halves(text.trim()).ok_or_else(not_a_place)?;
    let (first, second) = (
        degrees_with_letter(&first).ok_or_else(not_a_place)?,
        degrees_with_letter(&second).ok_or_else(not_a_place)?,
    );
    let (lat_deg, lon_deg) = match (first, second) {
        ((east, Some(false)), (north, Some(true))) => (north, east),
        ((north, None | Some(true)), (east, None | Some(false))) => (north, east),
        _ => return Err(not_a_place()),
    };
    if lat_deg.abs() > 90.0 || lon_deg.abs() > 180.0 {
        return Err(FigureError::OutOfRange {
            text: text.trim().chars().take(60).collect(),
            range: "north up to 90 degrees, then east up to 180",
        });
    }
    Ok(TypedPlace { lat_deg, lon_deg })
}

/// The two figures of a place as texts: parted by a mark, behind the first letter of a quarter, or by a space.
fn two_halves(text: &str) -> Option<(String, String)> {
    for mark in [';', '\t'] {
        if let Some((first, second)) = text.split_once(mark) {
            return Some((first.to_owned(), second.to_owned()));
        }
    }
    // Decimal commas make three; the one with a space behind it parts.
    let parting = if text.matches(',').count() == 1 {
        ","
    } else {
        ", "
    };
    if let Some((first, second)) = text.split_once(parting) {
        return Some((first.to_owned(), second.to_owned()));
    }
    let is_letter = |c: char| matches!(c.to_ascii_uppercase(), 'N' | 'S' | 'E' | 'W');
    let letters: Vec<usize> = text
        .char_indices()
        .filter(|(_, c)| is_letter(*c))
        .map(|(at, _)| at)
        .collect();
    if let [first, second] = letters.as_slice() {
        let at = if *first == 0 { *second } else { first + 1 };
        let (first, second) = text.split_at_checked(at)?;
        return Some((first.to_owned(), second.to_owned()));
    }
    let mut words = text.split_whitespace();
    match (words.next(), words.next(), words.next()) {
        (Some(first), Some(second), None) => Some((first.to_owned(), second.to_owned())),
        _ => None,
    }
}

/// Degrees, and whether the letter says that they run north and south; below 0 for south and west.
fn degrees_with_letter(text: &str) -> Option<(f64, Option<bool>)> {
    let text = text.trim().to_lowercase();
    let letter = ['n', 's', 'e', 'w']
        .into_iter()
        .find(|letter| text.starts_with(*letter) || text.ends_with(*letter));
    let figures = letter.map_or(text.as_str(), |letter| {
        text.trim_start_matches(letter).trim_end_matches(letter)
    });
    let degrees = degrees_minutes_seconds(figures)?;
    let sign = if matches!(letter, Some('s' | 'w')) {
        -1.0
    } else {
        1.0
    };
    let runs_north = letter.map(|letter| matches!(letter, 'n' | 's'));
    (letter.is_none() || degrees >= 0.0).then_some((sign * degrees, runs_north))
}

/// One to three figures parted by signs or spaces: degrees, minutes below 60, seconds below 60.
fn degrees_minutes_seconds(text: &str) -> Option<f64> {
    let text = text.trim().replace(',', ".").replace(['−', '–'], "-");
    let (sign, text) = match text.strip_prefix('-') {
        Some(rest) => (-1.0, rest),
        None => (1.0, text.strip_prefix('+').unwrap_or(&text)),
    };
    let text = text.replace("degrees", "°").replace("deg", "°");
    let is_sign = |c: char| {
        c.is_whitespace()
            || matches!(
                c,
                '°' | 'º' | '\'' | '′' | '’' | '"' | '″' | '”' | '-' | ':'
            )
    };
    let mut figures = Vec::new();
    for word in text.split(is_sign).filter(|word| !word.is_empty()) {
        if !word.chars().all(|c| c.is_ascii_digit() || c == '.') {
            return None;
        }
        figures.push(word.parse::<f64>().ok()?);
    }
    let whole = |figure: f64| figure.fract().abs() < f64::MIN_POSITIVE;
    let degrees = match figures.as_slice() {
        [degrees] => *degrees,
        [degrees, minutes] if whole(*degrees) && *minutes < 60.0 => degrees + minutes / 60.0,
        [degrees, minutes, seconds]
            if whole(*degrees) && whole(*minutes) && *minutes < 60.0 && *seconds < 60.0 =>
        {
            degrees + minutes / 60.0 + seconds / 3600.0
        }
        _ => return None,
    };
    degrees.is_finite().then_some(sign * degrees)
}

/// `12 ft 6 in` or `12' 6"`.
fn feet_and_inches_m(text: &str) -> Option<f64> {
    let lower = text.trim().to_lowercase();
    let (feet, rest) = ["feet", "foot", "ft", "'", "′"]
        .iter()
        .find_map(|unit| lower.split_once(unit))?;
    let inches = ["inches", "inch", "in", "\"", "″"]
        .iter()
        .find_map(|unit| rest.trim().strip_suffix(unit))?;
    let feet: f64 = feet.trim().parse().ok()?;
    let inches: f64 = inches.trim().replace(',', ".").parse().ok()?;
    let sound = (0.0..1e6).contains(&feet) && (0.0..12.0).contains(&inches);
    sound.then_some((feet + inches / 12.0) * M_PER_FOOT)
}
