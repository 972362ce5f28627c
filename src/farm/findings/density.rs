//! Density above which dung and urine no longer spread evenly over the strip. Head per hectare.

use super::{about_ground, called};
use crate::farm::{
    Farm, Finding, FindingCode, LivestockUnitSet, Severity, density_on, grazed_units,
    measure_ground,
};
use crate::quantity::decimal_text;

/// Sheep to the hectare on a strip up to which an even spread of dung and urine is a fair picture (L. W. Bell and
/// others, Agriculture 2, 2012, page 282 on).
const EVEN_UP_TO_HEAD_PER_HA: f64 = 1200.0;

pub(super) fn look(farm: &Farm, found: &mut Vec<Finding>) {
    if farm.mobs.values().all(|mob| mob.visits.is_empty()) {
        return;
    }
    for unit in grazed_units(farm) {
        let Some(area_m2) = measure_ground(farm, unit.ground).area_m2 else {
            continue;
        };
        let heaviest = farm
            .mobs
            .values()
            .filter(|mob| !mob.visits.is_empty())
            .filter_map(|mob| {
                density_on(mob, area_m2, LivestockUnitSet::England2023)
                    .map(|density| (mob, density))
            })
            .max_by(|a, b| a.1.head_per_ha.total_cmp(&b.1.head_per_ha));
        let Some((mob, density)) = heaviest else {
            continue;
        };
        if density.head_per_ha > EVEN_UP_TO_HEAD_PER_HA {
            let what = format!(
                "{} would carry {} sheep to the hectare with \"{}\" on it: above {} their dung and urine fall in patches.",
                called(unit.ground),
                decimal_text(density.head_per_ha, 0),
                mob.name.trim(),
                decimal_text(EVEN_UP_TO_HEAD_PER_HA, 0)
            );
            found.push(about_ground(
                (unit.id, unit.ground),
                Severity::Warning,
                FindingCode::DensityHigh,
                what,
                "Give this mob a larger strip, or split the mob.",
            ));
        }
    }
}
