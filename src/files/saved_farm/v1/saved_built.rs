//! Layout 1 of what is built or planted on a piece of ground: trees, tunnel frame, beds, posts, basin.
//!
//! Only form; metres.

use serde::{Deserialize, Serialize};

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SavedTrees {
    pub(super) spacing_m: f64,
    pub(super) first_m: f64,
    pub(super) crown_m: f64,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) varieties: Vec<String>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SavedFrame {
    pub(super) ends: SavedEnds,
    pub(super) straight_side_m: f64,
    pub(super) skirt_m: f64,
    pub(super) hoop_spacing_m: f64,
}

#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum SavedEnds {
    Covered,
    Boarded,
    Open,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SavedBeds {
    pub(super) bed_width_m: f64,
    pub(super) path_width_m: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) bearing_deg: Option<f64>,
    pub(super) rows: u32,
    pub(super) plant_spacing_m: f64,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SavedPosts {
    pub(super) spacing_m: f64,
    pub(super) roll_m: f64,
    pub(super) strands: u32,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SavedBasin {
    pub(super) depth_m: f64,
    pub(super) side_run: f64,
}
