//! How volumes and the lengths of made things are written for people. Takes cubic metres and metres.

use super::units::{M_PER_FOOT, UnitSystem};
use super::wording::decimal_text;

/// Litres in one imperial gallon, exact (Weights and Measures Act 1985, United Kingdom, schedule 1; from memory).
pub const LITRES_PER_GALLON: f64 = 4.546_09;

/// Litres in one cubic metre, exact.
const LITRES_PER_M3: f64 = 1000.0;

/// A volume of air or earth: cubic metres, or cubic feet.
pub fn volume_text(volume_m3: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Metric => cubic_metres_text(volume_m3),
        UnitSystem::Imperial => {
            let cubic_feet = volume_m3 / (M_PER_FOOT * M_PER_FOOT * M_PER_FOOT);
            format!("{} cu ft", decimal_text(cubic_feet, 0))
        }
    }
}

/// Water kept: cubic metres with litres, or imperial gallons with cubic metres.
pub fn water_text(volume_m3: f64, units: UnitSystem) -> String {
    let litres = volume_m3 * LITRES_PER_M3;
    match units {
        UnitSystem::Metric => format!(
            "{} ({} litres)",
            cubic_metres_text(volume_m3),
            decimal_text(worth(litres), 0)
        ),
        UnitSystem::Imperial => format!(
            "{} gallons ({})",
            decimal_text(worth(litres / LITRES_PER_GALLON), 0),
            cubic_metres_text(volume_m3)
        ),
    }
}

/// The length of something that is made: to the centimetre, or to a tenth of a foot.
pub fn made_length_text(length_m: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Metric => format!("{} m", decimal_text(length_m, 2)),
        UnitSystem::Imperial => format!("{} ft", decimal_text(length_m / M_PER_FOOT, 1)),
    }
}

fn cubic_metres_text(volume_m3: f64) -> String {
    let decimals = usize::from(volume_m3.abs() < 1000.0);
    format!("{} m³", decimal_text(volume_m3, decimals))
}

/// To four figures: no pond is known to the litre.
fn worth(value: f64) -> f64 {
    let magnitude = value.abs().log10().floor();
    if magnitude < 4.0 || !magnitude.is_finite() {
        return value;
    }
    let step = 10f64.powf(magnitude - 3.0);
    (value / step).round() * step
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn water_is_told_in_what_it_is_carried_in() {
        assert_eq!(
            water_text(183.0, UnitSystem::Metric),
            "183.0 m³ (183\u{2009}000 litres)"
        );
        assert_eq!(
            water_text(183.0, UnitSystem::Imperial),
            "40\u{2009}250 gallons (183.0 m³)"
        );
        assert_eq!(water_text(0.85, UnitSystem::Metric), "0.8 m³ (850 litres)");
    }

    #[test]
    fn air_is_told_in_cubic_metres_or_feet() {
        assert_eq!(volume_text(1234.56, UnitSystem::Metric), "1235 m³");
        assert_eq!(
            volume_text(28.316_846_592, UnitSystem::Imperial),
            "1000 cu ft"
        );
    }

    #[test]
    fn made_things_are_told_to_the_centimetre() {
        assert_eq!(made_length_text(8.2988, UnitSystem::Metric), "8.30 m");
        assert_eq!(made_length_text(3.048, UnitSystem::Imperial), "10.0 ft");
    }
}
