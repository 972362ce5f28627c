//! A mob through the days: it grows, lambs, is parted and joined, and what it eats follows.
//!
//! Knows nothing of plans. Head, kg, kg DM a day.

use super::{Mob, StockClass};
use crate::quantity::Day;

/// What a mob is from a day on, until its next change.
#[derive(Debug, Clone, PartialEq)]
pub struct MobChange {
    /// The first day on which it holds.
    pub from: Day,
    /// What they are.
    pub class: StockClass,
    /// Grown head; lambs at foot are not counted.
    pub head: u32,
    /// Mean liveweight of one head on that day, kg.
    pub liveweight_kg: f64,
    /// What one head gains a day from then on, g; below 0 where it loses.
    pub gain_g_per_day: f64,
}

/// From lambing until ewes eat as in mid lactation, days: six to eight weeks (Nutrient Requirements of Sheep, US National
/// Research Council, 6th edition, 1985, lactation rows; the weeks are from memory).
pub const EARLY_LACTATION_DAYS: i64 = 56;
/// Share of liveweight eaten in mid to late lactation (All grass wintering of sheep, EBLEX/AHDB and SAC, intake table as
/// printed by Farmers Weekly).
const LATE_LACTATION_SHARE: f64 = 0.025;
/// Lightest and heaviest that a weight is let grow to, kg: beyond it a gain was typed wrong, or left on for years.
const WEIGHT_KG: (f64, f64) = (1.0, 300.0);

impl Mob {
    /// The mob as it is on a day: class, head, weight and what one eats.
    #[must_use]
    pub fn as_on(&self, day: Day) -> Self {
        let mut mob = self.clone();
        let changes = self.changes.iter().filter(|change| change.from <= day);
        let mut since = self.visits.iter().map(|visit| visit.from).min();
        if let Some(change) = changes.max_by_key(|change| change.from) {
            mob.class = change.class;
            mob.head = change.head;
            mob.liveweight_kg = change.liveweight_kg;
            mob.gain_g_per_day = change.gain_g_per_day;
            since = Some(change.from);
        }
        mob.liveweight_kg = grown_kg(&mob, since, day);
        if mob.eats_kg_per_head.is_none() && self.is_late_in_milk(mob.class, day) {
            mob.eats_kg_per_head = Some(mob.liveweight_kg * LATE_LACTATION_SHARE);
        }
        mob
    }

    /// Whether ewes with lambs eat less again than in the first weeks.
    fn is_late_in_milk(&self, class: StockClass, day: Day) -> bool {
        let lambed = self
            .lambed_on
            .filter(|_| class == StockClass::EwesWithLambs);
        lambed.is_some_and(|lambed| day.days_since(lambed) >= EARLY_LACTATION_DAYS)
    }

    /// Whether what it eats may differ from day to day.
    pub fn is_changing(&self) -> bool {
        self.gain_g_per_day.abs() > 0.0 || !self.changes.is_empty() || self.lambed_on.is_some()
    }
}

/// The weight on a day of a mob weighed on `since`. By whole weeks: nobody knows a weight to the day.
fn grown_kg(mob: &Mob, since: Option<Day>, day: Day) -> f64 {
    let weeks = since.map_or(0, |since| day.days_since(since).max(0) / 7);
    if weeks == 0 || mob.gain_g_per_day.abs() <= 0.0 {
        return mob.liveweight_kg;
    }
    #[expect(clippy::cast_precision_loss, reason = "weeks of a season")]
    let gained_kg = mob.gain_g_per_day * 7.0 * weeks as f64 / 1000.0;
    (mob.liveweight_kg + gained_kg).clamp(WEIGHT_KG.0, WEIGHT_KG.1)
}
