//! The cover of a strip on a morning: the last reading, grown forward, with what was grazed since taken off.
//!
//! kg DM/ha from ground level. A day goes as in the planning model: first the mobs eat in their order, then the grass
//! grows up to its ceiling.

use std::collections::BTreeMap;

use crate::farm::{Farm, Grazing, GroundId, MobId, Reading};
use crate::quantity::Day;

/// The mobs that have lived on each strip, by day, in the order in which they eat.
pub(super) type Lived = BTreeMap<GroundId, BTreeMap<Day, Vec<MobId>>>;

/// The figures of one strip's sward.
#[derive(Debug, Clone, Copy)]
pub(super) struct StripSward {
    pub(super) leave: f64,
    pub(super) enter: f64,
    pub(super) ceiling: f64,
    pub(super) growth_factor: f64,
}

/// A cover and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Morning {
    pub(super) cover: f64,
    /// The day of the reading it was grown from, or of the assumption.
    pub(super) since: Day,
    /// The cover that was assumed on that day; `None` where it was read.
    pub(super) assumed: Option<f64>,
}

/// Every day that was lived before `before`, by strip.
pub(super) fn lived_before(farm: &Farm, before: Day) -> Lived {
    let mut lived = Lived::new();
    for ((mob, day), fixed) in &farm.fixed {
        if let (true, Some(place)) = (fixed.lived && *day < before, fixed.place) {
            let days = lived.entry(place).or_default();
            days.entry(*day).or_default().push(*mob);
        }
    }
    lived
}

impl StripSward {
    /// The farm's sward with what is said of this strip laid over it.
    pub(super) fn of(farm: &Farm, grazing: Option<&Grazing>) -> Self {
        let own = |pick: fn(&Grazing) -> Option<f64>| grazing.and_then(pick);
        let sward = &farm.sward;
        Self {
            leave: own(|g| g.leave_kg_per_ha).unwrap_or(sward.leave_kg_per_ha),
            enter: own(|g| g.enter_kg_per_ha).unwrap_or(sward.enter_kg_per_ha),
            ceiling: own(|g| g.ceiling_kg_per_ha).unwrap_or(sward.ceiling_kg_per_ha),
            growth_factor: grazing.map_or(1.0, |grazing| grazing.growth_factor),
        }
    }
}

/// The cover on the morning of `on`.
pub(super) fn cover_on(
    farm: &Farm,
    grazing: Option<&Grazing>,
    area_ha: f64,
    lived: Option<&BTreeMap<Day, Vec<MobId>>>,
    on: Day,
) -> Morning {
    let sward = StripSward::of(farm, grazing);
    let read = grazing.and_then(|grazing| last_reading(grazing, on));
    let midway = f64::midpoint(sward.leave, sward.enter);
    let (mut cover, since, assumed) = match read {
        Some(reading) => (reading.cover_kg_per_ha, reading.day, None),
        None => (midway, farm.season.first_day.min(on), Some(midway)),
    };
    let mut day = since;
    while day < on {
        let mobs = lived
            .and_then(|lived| lived.get(&day))
            .into_iter()
            .flatten();
        for mob in mobs.filter_map(|id| farm.mobs.get(id)) {
            let within_reach_kg = area_ha * (cover - sward.leave).max(0.0);
            cover -= mob.as_on(day).demand_kg().min(within_reach_kg) / area_ha;
        }
        let growth = farm.sward.growth_on(day) * sward.growth_factor;
        cover = farm.sward.growth_shape.grown(cover, growth, sward.ceiling);
        day = day.plus_days(1);
    }
    Morning {
        cover,
        since,
        assumed,
    }
}

/// The latest sound reading on or before a day; of two on one day, the later in the list.
fn last_reading(grazing: &Grazing, on: Day) -> Option<&Reading> {
    grazing
        .readings
        .iter()
        .filter(|reading| reading.day <= on)
        .filter(|reading| reading.cover_kg_per_ha.is_finite() && reading.cover_kg_per_ha >= 0.0)
        .max_by_key(|reading| reading.day)
}
