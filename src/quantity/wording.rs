//! How figures are written for people: as many digits as they are worth, thin spaces in thousands, unit beside them.
//!
//! The only place that decides digits. Takes metres, square metres and kilograms.

use super::units::{M_PER_FOOT, M_PER_YARD, UnitSystem, acres_from_m2, hectares_from_m2};

/// Between groups of three digits; never breaks a line.
const THIN_SPACE: char = '\u{2009}';

/// A number with `decimals` places and thin spaces in thousands: `12 345.6`.
pub fn decimal_text(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    let plain = format!("{value:.decimals$}");
    let (sign, digits) = match plain.strip_prefix('-') {
        Some(rest) if rest.bytes().any(|byte| (b'1'..=b'9').contains(&byte)) => ("−", rest),
        Some(rest) => ("", rest),
        None => ("", plain.as_str()),
    };
    let (whole, fraction) = digits
        .split_once('.')
        .map_or((digits, None), |(w, f)| (w, Some(f)));
    let mut text = String::from(sign);
    let length = whole.chars().count();
    for (place, digit) in whole.chars().enumerate() {
        // A group of four digits reads well unbroken; longer ones are parted from the right.
        if place > 0 && length > 4 && (length - place).is_multiple_of(3) {
            text.push(THIN_SPACE);
        }
        text.push(digit);
    }
    if let Some(fraction) = fraction {
        text.push('.');
        text.push_str(fraction);
    }
    text
}

/// A whole count with thin spaces in thousands.
pub fn count_text(count: u64) -> String {
    #[expect(
        clippy::cast_precision_loss,
        reason = "counts of head and days stay far below 2^53"
    )]
    decimal_text(count as f64, 0)
}

/// `1 day`, `3 days`.
pub fn plural_text(count: u64, one: &str, many: &str) -> String {
    format!(
        "{} {}",
        count_text(count),
        if count == 1 { one } else { many }
    )
}

/// An area for reading: square metres below 1 000 m², hectares to 1 m² below 1 ha, else to 0.01 ha.
pub fn area_text(area_m2: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Metric if area_m2.abs() < 1000.0 => format!("{} m²", decimal_text(area_m2, 0)),
        UnitSystem::Metric if area_m2.abs() < 10_000.0 => {
            format!("{} ha", decimal_text(hectares_from_m2(area_m2), 4))
        }
        UnitSystem::Metric => format!("{} ha", decimal_text(hectares_from_m2(area_m2), 2)),
        UnitSystem::Imperial if acres_from_m2(area_m2).abs() < 0.25 => {
            format!(
                "{} sq yd",
                decimal_text(area_m2 / (M_PER_YARD * M_PER_YARD), 0)
            )
        }
        UnitSystem::Imperial if acres_from_m2(area_m2).abs() < 2.5 => {
            format!("{} acre", decimal_text(acres_from_m2(area_m2), 3))
        }
        UnitSystem::Imperial => format!("{} acres", decimal_text(acres_from_m2(area_m2), 2)),
    }
}

/// An area in the person's units with the other in brackets: `0.1440 ha (0.356 acre)`.
pub fn area_both_text(area_m2: f64, units: UnitSystem) -> String {
    let other = match units {
        UnitSystem::Metric => UnitSystem::Imperial,
        UnitSystem::Imperial => UnitSystem::Metric,
    };
    format!(
        "{} ({})",
        area_text(area_m2, units),
        area_text(area_m2, other)
    )
}

/// A length for reading: to 0.1 m below 100 m, whole metres below 10 km; yards, and feet below 30 yards.
pub fn length_text(length_m: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Metric if length_m.abs() < 99.95 => format!("{} m", decimal_text(length_m, 1)),
        UnitSystem::Metric if length_m.abs() < 10_000.0 => {
            format!("{} m", decimal_text(length_m, 0))
        }
        UnitSystem::Metric => format!("{} km", decimal_text(length_m / 1000.0, 2)),
        UnitSystem::Imperial if length_m.abs() < 30.0 * M_PER_YARD => {
            format!("{} ft", decimal_text(length_m / M_PER_FOOT, 1))
        }
        UnitSystem::Imperial => format!("{} yd", decimal_text(length_m / M_PER_YARD, 0)),
    }
}

/// A length to the centimetre, or to 0.01 yard.
pub fn length_text_precise(length_m: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Metric => format!("{} m", decimal_text(length_m, 2)),
        UnitSystem::Imperial => format!("{} yd", decimal_text(length_m / M_PER_YARD, 2)),
    }
}

/// A mass: kilograms below a tonne, else tonnes to 0.1.
pub fn mass_text(mass_kg: f64) -> String {
    if mass_kg.abs() < 1000.0 {
        format!(
            "{} kg",
            decimal_text(mass_kg, if mass_kg.abs() < 10.0 { 1 } else { 0 })
        )
    } else {
        format!("{} t", decimal_text(mass_kg / 1000.0, 1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thousands_are_parted_and_minus_zero_is_zero() {
        assert_eq!(decimal_text(1_234_567.0, 0), "1\u{2009}234\u{2009}567");
        assert_eq!(decimal_text(1234.5, 1), "1234.5");
        assert_eq!(decimal_text(-0.04, 1), "0.0");
        assert_eq!(decimal_text(-12.0, 0), "−12");
        assert_eq!(decimal_text(f64::NAN, 1), "–");
    }

    #[test]
    fn areas_carry_the_digits_they_are_worth() {
        assert_eq!(area_text(150.4, UnitSystem::Metric), "150 m²");
        assert_eq!(area_text(1440.0, UnitSystem::Metric), "0.1440 ha");
        assert_eq!(area_text(94_200.0, UnitSystem::Metric), "9.42 ha");
        assert_eq!(
            area_both_text(1440.0, UnitSystem::Metric),
            "0.1440 ha (0.356 acre)"
        );
    }

    #[test]
    fn lengths_change_unit_where_people_do() {
        assert_eq!(length_text(80.04, UnitSystem::Metric), "80.0 m");
        assert_eq!(length_text(196.2, UnitSystem::Metric), "196 m");
        assert_eq!(length_text(9.144, UnitSystem::Imperial), "30.0 ft");
        assert_eq!(length_text(91.44, UnitSystem::Imperial), "100 yd");
    }
}
