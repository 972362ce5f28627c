//! Layout 1 of a saved farm: what each field is called and how it is written.
//!
//! Only form: `to_farm` checks and converts, `from_farm` lays out. Metres, kilograms and days as in the document.
//! Names here are for ever: a later layout gets a file of its own.

mod from_farm;
mod once_map;
mod saved_built;
mod saved_course;
mod saved_day;
mod saved_hens;
mod to_farm;

use ron::Options;
use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};

use self::once_map::OnceMap;
use self::saved_built::{SavedBasin, SavedBeds, SavedFrame, SavedPosts, SavedTrees};
use self::saved_course::SavedCourses;
use self::saved_day::SavedDay;
use super::ron_words;
use crate::farm::Farm;
use crate::files::FileError;

const HEAD: &str = "\
// A farm drawn with Foldcourse. Corners are metres east and north of the origin; days are year-month-day.
";

/// Metres east and north.
type SavedPoint = (f64, f64);

/// First and last day, both included.
type SavedSpan = (SavedDay, SavedDay);

/// The whole file.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SavedFarm {
    foldcourse: u32,
    name: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    note: String,
    origin: SavedOrigin,
    next_id: u32,
    season: SavedSeason,
    sward: SavedSward,
    #[serde(default, skip_serializing_if = "OnceMap::is_empty")]
    ground: OnceMap<u32, SavedGround>,
    #[serde(default, skip_serializing_if = "OnceMap::is_empty")]
    mobs: OnceMap<u32, SavedMob>,
    #[serde(default, skip_serializing_if = "OnceMap::is_empty")]
    hen_houses: OnceMap<u32, SavedHenHouse>,
    #[serde(default, skip_serializing_if = "OnceMap::is_empty")]
    settled: OnceMap<u32, OnceMap<SavedDay, SavedPlace>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    course: Option<SavedCourses>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SavedOrigin {
    lon_deg: f64,
    lat_deg: f64,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SavedSeason {
    first_day: SavedDay,
    days: u32,
    seed: u64,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SavedSward {
    growth_by_month: [f64; 12],
    rest_days_by_month: [u32; 12],
    #[serde(default, skip_serializing_if = "Option::is_none")]
    lamb_rest_days: Option<u32>,
    leave_kg_per_ha: f64,
    enter_kg_per_ha: f64,
    ceiling_kg_per_ha: f64,
    #[serde(default, skip_serializing_if = "is_false")]
    is_logistic: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    season_factor: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    season_factor_from: Option<SavedDay>,
    longest_stay_days: u32,
    source: String,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SavedGround {
    name: String,
    kind: SavedKind,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    within: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    width_m: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    height_m: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    trees: Option<SavedTrees>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    frame: Option<SavedFrame>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    beds: Option<SavedBeds>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    posts: Option<SavedPosts>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    basin: Option<SavedBasin>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    crop: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    note: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    grazing: Option<SavedGrazing>,
    #[serde(default, skip_serializing_if = "is_false")]
    is_locked: bool,
    #[serde(default, skip_serializing_if = "is_false")]
    shows_lengths: bool,
    #[serde(default, skip_serializing_if = "is_nought")]
    raised: i32,
    shape: SavedShape,
}

#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum SavedKind {
    Plot,
    Ley,
    Strip,
    Tunnel,
    TreeLine,
    Hedge,
    Fence,
    Gate,
    Track,
    Water,
    Trough,
    Building,
    Wood,
    KeepOut,
    Note,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum SavedShape {
    Area(Vec<SavedPart>),
    Line(Vec<SavedPoint>),
    Place(f64, f64),
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SavedPart {
    outer: Vec<SavedPoint>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    holes: Vec<Vec<SavedPoint>>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SavedGrazing {
    growth_factor: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    leave_kg_per_ha: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    enter_kg_per_ha: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    ceiling_kg_per_ha: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    end_cover_kg_per_ha: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    last_grazed: Option<SavedDay>,
    /// Day and kg DM/ha.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    readings: Vec<(SavedDay, f64)>,
    /// First day, last day and why.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    closed: Vec<(SavedDay, SavedDay, String)>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SavedMob {
    name: String,
    class: SavedClass,
    head: u32,
    liveweight_kg: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    eats_kg_per_head: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    gain_g_per_day: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    lambed_on: Option<SavedDay>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    changes: Vec<SavedMobChange>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    yard: Option<SavedPoint>,
    /// Mob in front, and days after it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    follows: Option<(u32, u32)>,
    visits: Vec<SavedSpan>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SavedMobChange {
    from: SavedDay,
    class: SavedClass,
    head: u32,
    liveweight_kg: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    gain_g_per_day: Option<f64>,
}

#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum SavedClass {
    DryEwes,
    EwesInLamb,
    EwesWithLambs,
    Lambs,
    Rams,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SavedHenHouse {
    name: String,
    hens: u32,
    length_m: f64,
    width_m: f64,
    gap_m: f64,
    lines: Vec<u32>,
    side: SavedSide,
    offset_m: f64,
    first_day: SavedDay,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    last_day: Option<SavedDay>,
    days_per_place: u32,
    rest_days_wanted: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    handling: Option<saved_hens::SavedHandling>,
}

#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum SavedSide {
    Left,
    Right,
    Both,
}

/// Where a mob stands on a settled day: lived already or fixed to come, on ground of this number or in the yard.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum SavedPlace {
    Lived(u32),
    LivedInYard,
    Fixed(u32),
    FixedInYard,
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the shape that the serializer asks for"
)]
fn is_false(value: &bool) -> bool {
    !value
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the shape that the serializer asks for"
)]
fn is_nought(value: &i32) -> bool {
    *value == 0
}

/// Reads a text whose header says layout 1.
pub(super) fn read(text: &str, name: &str) -> Result<Farm, FileError> {
    let saved: SavedFarm = form()
        .from_str(text)
        .map_err(|fault| ron_words::file_error(&fault, text, name))?;
    to_farm::farm(saved).map_err(|fault| fault.file_error(text, name))
}

/// The text of a farm.
pub(super) fn write(farm: &Farm) -> String {
    let pretty = PrettyConfig::new()
        .new_line("\n")
        .indentor("  ")
        .separate_tuple_members(false);
    let body = form().to_string_pretty(&from_farm::saved(farm), pretty);
    // Plain data into a string cannot fail; were it ever to, nothing is written over a good file with it, for a save
    // reads its text back first.
    format!("{HEAD}{}\n", body.unwrap_or_default())
}

/// What may be left out is written without `Some(…)`.
fn form() -> Options {
    Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}
