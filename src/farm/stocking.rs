//! Densities: how heavily ground is stocked on a day and over a season.
//!
//! Stocking density is animals on the land now; sheep days per hectare add up over stated days
//! (An international terminology for grazing lands and grazing animals, Allen et al., Grass and Forage Science 66,
//! 2011; the words from memory). Head per hectare, livestock units per hectare, kg liveweight per hectare.

use super::{LivestockUnitSet, Mob};
use crate::quantity::hectares_from_m2;

/// How heavily a piece of ground is stocked on a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Density {
    /// Grown head per hectare.
    pub head_per_ha: f64,
    /// Livestock units per hectare in the set asked for.
    pub livestock_units_per_ha: f64,
    /// Liveweight per hectare, kg.
    pub liveweight_kg_per_ha: f64,
}

/// The density of a mob on `area_m2`; `None` where there is no area.
pub fn density_on(mob: &Mob, area_m2: f64, set: LivestockUnitSet) -> Option<Density> {
    density_of([(mob, 1.0)], area_m2, set)
}

/// The density of mobs on `area_m2`, each counted by a share: 1 for a day, the share of its days for a season.
pub fn density_of<'a>(
    stands: impl IntoIterator<Item = (&'a Mob, f64)>,
    area_m2: f64,
    set: LivestockUnitSet,
) -> Option<Density> {
    let area_ha = hectares_from_m2(area_m2);
    if area_ha <= 0.0 {
        return None;
    }
    let mut sum = Density {
        head_per_ha: 0.0,
        livestock_units_per_ha: 0.0,
        liveweight_kg_per_ha: 0.0,
    };
    for (mob, share) in stands {
        let head_per_ha = f64::from(mob.head) * share / area_ha;
        sum.head_per_ha += head_per_ha;
        sum.livestock_units_per_ha += head_per_ha * mob.class.livestock_units(set);
        sum.liveweight_kg_per_ha += head_per_ha * mob.liveweight_kg;
    }
    Some(sum)
}

/// Sheep days per hectare: head times days stood, over the area; `None` where there is no area.
pub fn sheep_days_per_ha(
    stands: impl IntoIterator<Item = (u32, u32)>,
    area_m2: f64,
) -> Option<f64> {
    let area_ha = hectares_from_m2(area_m2);
    let sheep_days: f64 = stands
        .into_iter()
        .map(|(head, days)| f64::from(head) * f64::from(days))
        .sum();
    (area_ha > 0.0).then(|| sheep_days / area_ha)
}
