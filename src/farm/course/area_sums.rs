//! Area under each family, ley, cover and fallow in a year.
//!
//! Square metres on the earth; the main crop of the year counts, so that no ground counts twice.

use std::collections::BTreeMap;

use super::{Family, Use, cell_at, course_grounds, course_years};
use crate::farm::{Farm, GroundId, Kind, measure_ground};

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

    fn add(&mut self, used: &Use, kind: Kind, area_m2: f64) {
        match used {
            Use::Crop { family, .. } if kind == Kind::Tunnel => {
                *self.tunnels_by_family_m2.entry(*family).or_default() += area_m2;
            }
            Use::Crop { family, .. } => {
                *self.by_family_m2.entry(*family).or_default() += area_m2;
            }
            Use::Ley { .. } => self.ley_m2 += area_m2,
            Use::Fallow | Use::Cover(_) => self.resting_m2 += area_m2,
            Use::Unsaid => self.unsaid_m2 += area_m2,
        }
    }
}

/// The areas of every year of the table; each piece is measured once.
pub fn year_areas(farm: &Farm) -> Vec<(i16, YearAreas)> {
    let measured: Vec<(GroundId, Kind, f64)> = course_grounds(farm)
        .into_iter()
        .filter_map(|id| {
            let ground = farm.ground.get(&id)?;
            let area_m2 = measure_ground(farm, ground).area_m2?;
            Some((id, ground.kind, area_m2))
        })
        .collect();
    course_years(farm)
        .map(|year| {
            let mut areas = YearAreas::default();
            for (id, kind, area_m2) in &measured {
                let used = cell_at(&farm.course, *id, year, 0).used;
                areas.add(&used, *kind, *area_m2);
            }
            (year, areas)
        })
        .collect()
}
