//! How large a strip must be for a mob and some days, how long one lasts, and what rest a number of strips gives.
//!
//! Says each sum with its figures, for window and command line alike. Cover kg DM/ha from ground level, demand kg DM a
//! day, areas square metres.

use super::grazing_sums::{
    area_for_days_ha, days_lasting, feed_kg, paddocks_needed, rest_reached_days,
};
use crate::farm::Mob;
use crate::quantity::{
    M2_PER_HECTARE, UnitSystem, area_text, count_text, decimal_text, hectares_from_m2, plural_text,
};

/// What a mob takes and what stands for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StripFeed {
    /// What the mob eats a day, kg DM.
    pub demand_kg: f64,
    /// What stands, kg DM/ha.
    pub cover_kg_per_ha: f64,
    /// What is left, kg DM/ha.
    pub leave_kg_per_ha: f64,
}

/// Where the sum of paddocks and rest is published.
pub const REST_SUM_SOURCE: &str =
    "Four steps to rotational grazing, Pennsylvania State University, Agronomy Facts 43, step 3";

impl StripFeed {
    /// Area that lasts a mob so many days, no growth counted; `None` where nothing may be eaten or nothing eats.
    pub fn area_m2(&self, days: f64) -> Option<f64> {
        // Above a residual that is really left, all is eaten.
        area_for_days_ha(
            self.demand_kg,
            days,
            self.cover_kg_per_ha - self.leave_kg_per_ha,
            1.0,
        )
        .map(|area_ha| area_ha * M2_PER_HECTARE)
        .filter(|area_m2| *area_m2 > 0.0)
    }

    /// Days that an area lasts, no growth counted.
    pub fn days_on(&self, area_m2: f64) -> Option<f64> {
        let feed = feed_kg(
            hectares_from_m2(area_m2),
            self.cover_kg_per_ha,
            self.leave_kg_per_ha,
        )?;
        days_lasting(feed, self.demand_kg)
    }

    /// The sum in a sentence: "40 ewes eat 88 kg DM a day; 1,900 − 1,500 = 400 kg DM/ha may be eaten: 0.22 ha a day."
    pub fn told(&self, mob: &Mob, units: UnitSystem) -> String {
        let whole = |figure: f64| decimal_text(figure, 0);
        let spare = self.cover_kg_per_ha - self.leave_kg_per_ha;
        let eats = format!(
            "{} {} eat {} kg DM a day; {} − {} = {} kg DM/ha may be eaten",
            count_text(u64::from(mob.head)),
            mob.class.name(),
            whole(self.demand_kg),
            whole(self.cover_kg_per_ha),
            whole(self.leave_kg_per_ha),
            whole(spare),
        );
        match self.area_m2(1.0) {
            Some(area_m2) => format!("{eats}: {} a day.", area_text(area_m2, units)),
            None => format!("{eats}: nothing."),
        }
    }
}

/// Days in words, whole where they are.
pub fn days_text(days: f64) -> String {
    let tenths = (days * 10.0).round() / 10.0;
    if (tenths - tenths.round()).abs() < 0.05 {
        let word = if (tenths - 1.0).abs() < 0.05 {
            "day"
        } else {
            "days"
        };
        format!("{} {word}", decimal_text(tenths, 0))
    } else {
        format!("{} days", decimal_text(tenths, 1))
    }
}

/// The rest that a number of strips gives at a stay, against what is wanted, in a sentence.
///
/// Each strip rests while all the others are grazed in turn. Whole days only: sheep are moved once a day at most.
pub fn rest_told(strips: usize, stay_days: u32, month: &str, wanted_days: u32) -> String {
    let strips = u32::try_from(strips).unwrap_or(u32::MAX);
    let rest = rest_reached_days(strips, stay_days);
    let days = |count: u32| plural_text(u64::from(count), "day", "days");
    let sum = format!(
        "{} × {}: each rests {} × {} = {}; wanted in {month}: {wanted_days}.",
        plural_text(u64::from(strips), "strip", "strips"),
        days(stay_days),
        strips.saturating_sub(1),
        stay_days,
        days(rest),
    );
    match paddocks_needed(wanted_days, stay_days) {
        Some(needed) if rest < wanted_days => format!(
            "{sum} That asks for {}.",
            plural_text(u64::from(needed), "strip", "strips")
        ),
        _ => sum,
    }
}
