//! Planting sums: plants, seed, yield and days of every crop of a year, by plot and by week.
//!
//! Metres, square metres, kilograms. Spacing and yield are the grower's own where given, else the table's.

use std::collections::BTreeMap;

use super::crop_days;
use crate::farm::{
    Beds, CropFigures, Family, Farm, GroundId, Raised, Use, course_grounds, crop_figures,
    measure_ground, plants_on, uses_at,
};
use crate::quantity::Day;

/// One crop on one piece of ground in a year.
#[derive(Debug, Clone, PartialEq)]
pub struct PlantingRow {
    /// The plot, ley or tunnel.
    pub ground: GroundId,
    /// Its place in the year, 0 the main crop.
    pub crop: u8,
    /// The crop.
    pub name: String,
    /// Its family.
    pub family: Family,
    /// Ground under plants: the beds where beds are said, else all of it, m².
    pub planted_m2: f64,
    /// Metres of bed; `None` where no beds are said.
    pub bed_m: Option<f64>,
    /// Metres from row to row and from plant to plant.
    pub spacing_m: (f64, f64),
    /// What it is raised from.
    pub raised: Raised,
    /// Plants that stand.
    pub plants: u64,
    /// Plants, seeds or sets to raise or buy, with what is to spare.
    pub with_spare: u64,
    /// Sown or planted out.
    pub planted: Day,
    /// First and last picked.
    pub harvest: (Day, Day),
    /// Expected by the grower's own figure, kg.
    pub own_yield_kg: Option<f64>,
    /// Expected by the table, least and most, kg.
    pub usual_yield_kg: Option<(f64, f64)>,
    /// Whether the table knows the crop.
    pub is_known: bool,
}

/// The sum of a crop in a week of planting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlantingTotal {
    /// What it is raised from.
    pub raised: Raised,
    /// Plants that stand.
    pub plants: u64,
    /// With what is to spare.
    pub with_spare: u64,
    /// Ground under plants, m².
    pub planted_m2: f64,
}

/// Every crop first picked in `year`, by ground and place in the year.
pub fn planting_rows(farm: &Farm, year: i16) -> Vec<PlantingRow> {
    let mut rows = Vec::new();
    for ground in course_grounds(farm) {
        for (cell, crop) in uses_at(&farm.course, ground, year).into_iter().zip(0_u8..) {
            if let Use::Crop { name, family } = cell.used {
                rows.extend(planting_row(farm, (ground, year, crop), name, family));
            }
        }
    }
    rows
}

fn planting_row(
    farm: &Farm,
    (id, year, crop): (GroundId, i16, u8),
    name: String,
    family: Family,
) -> Option<PlantingRow> {
    let ground = farm.ground.get(&id)?;
    let area_m2 = measure_ground(farm, ground).area_m2?;
    let is_south = farm.frame.origin().lat_deg < 0.0;
    let figures = crop_figures(&farm.course, &name, is_south);
    let bed_m = ground.beds.and_then(|beds| bed_length_m(area_m2, beds));
    let planted_m2 = match (bed_m, ground.beds) {
        (Some(bed_m), Some(beds)) => bed_m * beds.bed_width_m,
        _ => area_m2,
    };
    let plants = plants_on(planted_m2, figures.row_m, figures.plant_m);
    let (planted, first, last) = crop_days(&figures, year);
    Some(PlantingRow {
        ground: id,
        crop,
        name,
        family,
        planted_m2,
        bed_m,
        spacing_m: (figures.row_m, figures.plant_m),
        raised: figures.raised,
        plants,
        with_spare: with_spare(plants, figures.spare_percent),
        planted,
        harvest: (first, last),
        own_yield_kg: own_yield_kg(&figures, planted_m2, plants),
        usual_yield_kg: figures
            .usual_yield_kg_per_m2
            .map(|(least, most)| (least * planted_m2, most * planted_m2)),
        is_known: figures.is_known,
    })
}

/// By the square metre where the grower gave it so, else by the plant.
fn own_yield_kg(figures: &CropFigures, planted_m2: f64, plants: u64) -> Option<f64> {
    #[expect(
        clippy::cast_precision_loss,
        reason = "counts of plants stay far below 2^53"
    )]
    let plants = plants as f64;
    let by_area = figures.own_yield_kg_per_m2.map(|each| each * planted_m2);
    by_area.or_else(|| figures.own_yield_kg_per_plant.map(|each| each * plants))
}

/// Metres of bed that lie on an area, beds and paths side by side; `None` where a width is not above 0.
pub fn bed_length_m(area_m2: f64, beds: Beds) -> Option<f64> {
    let pitch_m = beds.bed_width_m + beds.path_width_m;
    (pitch_m > 0.0 && beds.bed_width_m > 0.0).then(|| area_m2 / pitch_m)
}

/// Plants with so many in 100 to spare, rounded up.
pub fn with_spare(plants: u64, spare_percent: f64) -> u64 {
    #[expect(
        clippy::cast_precision_loss,
        reason = "counts of plants stay far below 2^53"
    )]
    let wanted = plants as f64 * (1.0 + spare_percent.max(0.0) / 100.0);
    whole((wanted - 1e-6).ceil())
}

fn whole(count: f64) -> u64 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held between nothing and far below 2^53"
    )]
    let whole = count.clamp(0.0, 1e15) as u64;
    whole
}

/// Sums by crop and week of planting: the Monday of the week, then the crop.
pub fn planting_totals(rows: &[PlantingRow]) -> BTreeMap<(Day, String), PlantingTotal> {
    let mut totals: BTreeMap<(Day, String), PlantingTotal> = BTreeMap::new();
    for row in rows {
        let total = totals
            .entry((row.planted.monday(), row.name.clone()))
            .or_insert(PlantingTotal {
                raised: row.raised,
                plants: 0,
                with_spare: 0,
                planted_m2: 0.0,
            });
        total.plants += row.plants;
        total.with_spare += row.with_spare;
        total.planted_m2 += row.planted_m2;
    }
    totals
}
