//! Area under each family, ley, cover and fallow in a year.
//!
//! Square metres on the earth; the main crop of the year counts, so that no ground counts twice.

use std::collections::BTreeMap;

use super::{Family, Use, cell_at, course_grounds};
use crate::farm::{Farm, Kind, measure_ground};

/// The areas of one year, square metres; tunnels stand apart from open ground.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct YearAreas {
    /// Open ground under each family.
    pub by_family_m2: BTreeMap<Family, f64>,
    /// Tunnels under each family.
    pub tunnels_by_family_m2: BTreeMap<Family, f64>,
    /// Under ley.
    pub ley_m2: f64,
    /// Under cover crops and fallow.
    pub resting_m2: f64,
    /// Of which nothing was said.
    pub unsaid_m2: f64,
}

impl YearAreas {
    /// Open ground under crop.
    pub fn cropped_m2(&self) -> f64 {
        self.by_family_m2.values().sum()
    }
}

/// The areas of a year.
pub fn year_areas(farm: &Farm, year: i16) -> YearAreas {
    let mut areas = YearAreas::default();
    for id in course_grounds(farm) {
        let Some(ground) = farm.ground.get(&id) else {
            continue;
        };
        let area_m2 = measure_ground(farm, ground).area_m2.unwrap_or(0.0);
        match cell_at(&farm.course, id, year, 0).used {
            Use::Crop { family, .. } if ground.kind == Kind::Tunnel => {
                *areas.tunnels_by_family_m2.entry(family).or_default() += area_m2;
            }
            Use::Crop { family, .. } => {
                *areas.by_family_m2.entry(family).or_default() += area_m2;
            }
            Use::Ley { .. } => areas.ley_m2 += area_m2,
            Use::Fallow | Use::Cover(_) => areas.resting_m2 += area_m2,
            Use::Unsaid => areas.unsaid_m2 += area_m2,
        }
    }
    areas
}
