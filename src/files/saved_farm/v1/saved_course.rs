//! Layout 1 of the course of crops.
//!
//! Only form. Ground by its number, crops of a year from 0, days of the year as `"05-15"`, metres, kg/m².

use serde::{Deserialize, Serialize};

use super::once_map::OnceMap;

#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SavedCourses {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) first_year: Option<i16>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) years: Option<u8>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) ley_years_wanted: Option<u8>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) clear_days: Option<u16>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) harvest_rule: Option<SavedRule>,
    /// Days to the harvest of what touches the soil, of what hangs clear, and to planting.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) own_wait: Option<(u16, u16, u16)>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) courses: Vec<SavedCourse>,
    /// Ground, year, crop of the year.
    #[serde(default, skip_serializing_if = "OnceMap::is_empty")]
    pub(super) by_hand: OnceMap<u32, OnceMap<i16, OnceMap<u8, SavedUse>>>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) own_intervals: Vec<(SavedFamily, u8)>,
    #[serde(default, skip_serializing_if = "OnceMap::is_empty")]
    pub(super) soil_ph: OnceMap<u32, f64>,
    #[serde(default, skip_serializing_if = "OnceMap::is_empty")]
    pub(super) own_crops: OnceMap<String, SavedCrop>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SavedCourse {
    pub(super) name: String,
    pub(super) first_year: i16,
    pub(super) turn: SavedTurn,
    #[serde(default)]
    pub(super) one_each: bool,
    pub(super) steps: Vec<Vec<SavedUse>>,
    pub(super) starts: OnceMap<u32, u8>,
}

#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum SavedTurn {
    NextStep,
    CropsMoveOn,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum SavedUse {
    Unsaid,
    Crop(String, SavedFamily),
    Ley,
    LeyYear(u8),
    Fallow,
    Cover(String),
}

#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum SavedFamily {
    Cabbage,
    Carrot,
    Onion,
    Daisy,
    Beet,
    Nightshade,
    Gourd,
    Pea,
    Grass,
    Other,
}

#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum SavedRule {
    UsOrganic,
    UsProduceSafety,
    LeafyGreens,
    UkStockInField,
    UkFreshManure,
    UkTreatedManure,
    UkReadyToEat,
    Own,
}

#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum SavedContact {
    TouchesSoil,
    OffSoil,
    NotFood,
}

#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum SavedRaised {
    Seed,
    Plugs,
    Sets,
}

#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SavedCrop {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) family: Option<SavedFamily>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) contact: Option<SavedContact>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) row_m: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) plant_m: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) raised: Option<SavedRaised>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) planted: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) first_harvest: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) last_harvest: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) spare_percent: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) yield_kg_per_m2: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) yield_kg_per_plant: Option<f64>,
}
