//! Fence to put up for a strip: netting in rolls, and what a long strip costs against a square one. Metres.

/// Length of a roll of electric netting (common practice, no source; 25 m rolls are made too).
pub const LENGTH_OF_ROLL_M: f64 = 50.0;

/// Fence that a strip needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RollsNeeded {
    /// Metres to put up.
    pub fence_m: f64,
    /// Rolls, rounded up.
    pub rolls: u32,
    /// Metres left over of the last roll.
    pub spare_m: f64,
}

/// Netting for a perimeter of which some stands already: permanent fence, hedge or wall that holds stock.
/// A millimetre over a full roll is forgiven. `None` where a figure is not one, or below 0.
pub fn rolls_needed(perimeter_m: f64, standing_m: f64, roll_m: f64) -> Option<RollsNeeded> {
    let is_sound = perimeter_m >= 0.0 && standing_m >= 0.0 && roll_m > 0.0;
    let fence_m = (perimeter_m - standing_m).max(0.0);
    let rolls = ((fence_m - 0.001) / roll_m).ceil().max(0.0);
    if !is_sound || !fence_m.is_finite() || rolls > 1.0e6 {
        return None;
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held between 0 and a million"
    )]
    let count = rolls as u32;
    Some(RollsNeeded {
        fence_m,
        rolls: count,
        spare_m: (rolls * roll_m - fence_m).max(0.0),
    })
}

/// The long side of a rectangle of an area whose sides are as `ratio` to 1, metres.
pub fn long_side_m(area_m2: f64, ratio: f64) -> Option<f64> {
    let is_sound = area_m2 >= 0.0 && ratio > 0.0;
    let side_m = (area_m2 * ratio).sqrt();
    (is_sound && side_m.is_finite()).then_some(side_m)
}

/// Area that a fence holds as a rectangle of sides as `ratio` to 1, as a share of the square it could hold.
pub fn square_share_of_fence(ratio: f64) -> Option<f64> {
    let share = 4.0 * ratio / (ratio + 1.0).powi(2);
    (ratio > 0.0 && share.is_finite()).then_some(share)
}
