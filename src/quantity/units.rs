//! The units that the program words and reads, and what each is worth in metres.
//!
//! Holds exact definitions only; rounding and spelling live in `wording` and `parsing`.

/// Metres in one international yard, exact (International Yard and Pound agreement, 1959).
pub const M_PER_YARD: f64 = 0.9144;

/// Metres in one international foot, a third of a yard, exact.
pub const M_PER_FOOT: f64 = 0.3048;

/// Square metres in one international acre: 4840 square yards, exact
/// (NIST Special Publication 811, 2008, appendix B.8, lists 4.046 873 E+03 for the survey acre; this is the
/// international one).
pub const M2_PER_ACRE: f64 = 4840.0 * M_PER_YARD * M_PER_YARD;

/// Square metres in one hectare, exact (The International System of Units, BIPM, 9th edition 2019, table 8).
pub const M2_PER_HECTARE: f64 = 10_000.0;

/// Which units the person reads and types.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum UnitSystem {
    /// Metres and hectares.
    #[default]
    Metric,
    /// Yards, feet and acres.
    Imperial,
}

/// Hectares in `area_m2`.
pub fn hectares_from_m2(area_m2: f64) -> f64 {
    area_m2 / M2_PER_HECTARE
}

/// International acres in `area_m2`.
pub fn acres_from_m2(area_m2: f64) -> f64 {
    area_m2 / M2_PER_ACRE
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_acre_is_4046_8564224_square_metres() {
        assert!((M2_PER_ACRE - 4_046.856_422_4).abs() < 1e-9);
    }
}
