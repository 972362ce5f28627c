//! How the growth of a day hangs on the cover that stands: steady up to a ceiling, or fastest at half of it.
//!
//! Knows nothing of plans. Covers kg DM/ha, growth kg DM/ha.

use crate::quantity::decay;

/// The shape of regrowth.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum GrowthShape {
    /// All of a day's growth is kept until the ceiling is reached.
    #[default]
    Capped,
    /// Regrowth follows the logistic curve: slow from a bare sward, fastest at half the ceiling (where it is the month's
    /// growth), slow again near the ceiling.
    ///
    /// The growth term `r M (1 - M / K)` with `r = 4 G / K` (I. Noy-Meir, "Stability of grazing systems: an application
    /// of predator-prey graphs", Journal of Ecology 63, 1975, p. 459; the equation is from memory).
    Logistic,
}

impl GrowthShape {
    /// The cover after some days on which nobody grazes, whose growth comes to `growth`. Never falls; a cover at the ceiling
    /// or above stays as it is.
    pub fn grown(self, cover: f64, growth: f64, ceiling: f64) -> f64 {
        match self {
            Self::Capped => cover + growth.min(ceiling - cover).max(0.0),
            Self::Logistic => {
                if cover <= 0.0 || cover >= ceiling {
                    return cover;
                }
                // The curve's own solution, so that two days after each other come to the same as both at once.
                let left = (ceiling - cover) * decay(4.0 * growth.max(0.0) / ceiling);
                (ceiling * cover / (cover + left)).clamp(cover, ceiling)
            }
        }
    }

    /// The part of `growth` that is lost because the sward is full. The logistic curve loses none: what does not grow there
    /// was never on offer.
    pub fn lost(self, cover: f64, growth: f64, ceiling: f64) -> f64 {
        match self {
            Self::Capped => growth - growth.min(ceiling - cover).max(0.0),
            Self::Logistic => 0.0,
        }
    }

    /// Name for people.
    pub fn name(self) -> &'static str {
        match self {
            Self::Capped => "steady up to the ceiling",
            Self::Logistic => "slow when bare and when tall",
        }
    }
}
