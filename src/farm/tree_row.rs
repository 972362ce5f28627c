//! The trees along a tree line: how far apart they stand and which they are.
//!
//! Knows the line only by its length. Metres.

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
}
