//! The handling of a hen house as it is written; what says nothing is left out.
//!
//! Metres, degrees, days in quotes.

use serde::{Deserialize, Serialize};

use super::SavedSide;
use super::once_map::OnceMap;
use super::saved_day::SavedDay;

#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct SavedHandling {
    #[serde(skip_serializing_if = "is_false")]
    pub(super) order_is_chosen: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) house_length_m: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) house_width_m: Option<f64>,
    #[serde(skip_serializing_if = "is_false")]
    pub(super) towed_from_one_end: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) turn_radius_m: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) lane_bearing_deg: Option<f64>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) stops: Vec<SavedStop>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) left_stretches: Vec<SavedStretch>,
    /// The last day with hens along a line.
    #[serde(skip_serializing_if = "OnceMap::is_empty")]
    pub(super) left_on: OnceMap<u32, SavedDay>,
    /// Mob, and days after it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) follows: Option<(u32, u32)>,
    /// First day, birds, m² for each.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) flock_steps: Vec<(SavedDay, u32, f64)>,
    #[serde(skip_serializing_if = "OnceMap::is_empty")]
    pub(super) settled: OnceMap<SavedDay, SavedMark>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SavedStop {
    pub(super) from: SavedDay,
    pub(super) to: SavedDay,
    pub(super) kind: SavedStopKind,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub(super) why: String,
}

/// Metres along a line, from its beginning.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SavedStretch {
    pub(super) line: u32,
    pub(super) from_m: f64,
    pub(super) to_m: f64,
    pub(super) why: SavedTrouble,
}

#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum SavedTrouble {
    Steep,
    Narrow,
    Other,
}

#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum SavedStopKind {
    Housed,
    NoTowing,
    KeepOff(u32),
}

/// Line, side and number of the place.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum SavedMark {
    Lived(u32, SavedSide, u32),
    Fixed(u32, SavedSide, u32),
    Late,
    Skipped,
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the shape that the serializer asks for"
)]
fn is_false(value: &bool) -> bool {
    !value
}
