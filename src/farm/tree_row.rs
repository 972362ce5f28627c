//! The trees along a tree line: how far apart they stand and which they are.
//!
//! Knows the line only by its length and whether its ends meet. Metres.

use crate::geometry::Point;

/// The trees along a tree line.
#[derive(Debug, Clone, PartialEq)]
pub struct TreeRow {
    /// Metres from stem to stem, above 0.
    pub spacing_m: f64,
    /// Metres from the line's beginning to the first stem.
    pub first_m: f64,
    /// Width of a grown crown, metres.
    pub crown_m: f64,
    /// Varieties in the order in which they are planted; the list begins again where it ends. Empty: none said.
    pub varieties: Vec<String>,
}

impl TreeRow {
    /// Stems on a line of this length: the first at `first_m`, then one each `spacing_m`; a millimetre is forgiven.
    pub fn count_on(&self, length_m: f64) -> usize {
        let room_m = length_m - self.first_m + 0.001;
        let is_spaced = self.spacing_m > 0.0;
        if room_m < 0.0 || !is_spaced || !room_m.is_finite() {
            return 0;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "held between 0 and 100 000"
        )]
        let more = (room_m / self.spacing_m).floor().clamp(0.0, 100_000.0) as usize;
        more + 1
    }

    /// The same on a line whose ends may meet: a last stem that would stand on the first is that one tree.
    pub fn count_along(&self, line: &[Point], length_m: f64) -> usize {
        let count = self.count_on(length_m);
        let is_loop = line
            .first()
            .zip(line.last())
            .is_some_and(|(from, to)| from.distance_m(*to) <= SAME_STEM_M);
        #[expect(clippy::cast_precision_loss, reason = "100 000 trees at most")]
        let round_m = count.saturating_sub(1) as f64 * self.spacing_m;
        let closes = is_loop && count > 1 && round_m >= length_m - SAME_STEM_M;
        count - usize::from(closes)
    }
}

/// Stems nearer than this to each other are one, metres.
const SAME_STEM_M: f64 = 0.001;
