//! What a plan comes to, in the figures by which two plans are set side by side. kg DM, metres, days.

use super::super::farm_season::{SeasonPlan, Stand};
use crate::quantity::{Day, decimal_text, plural_text};

/// A day is called short from this much on, kg DM over all mobs.
pub const SHORT_FROM_KG: f64 = 0.5;

/// What a plan comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outcome {
    /// First planned day.
    pub first: Day,
    /// Last planned day.
    pub last: Day,
    /// Days short of more than [`SHORT_FROM_KG`].
    pub short_days: usize,
    /// The first of them.
    pub first_short: Option<Day>,
    /// Hay to be carried, kg DM.
    pub short_kg: f64,
    /// Moves from place to place.
    pub moves: usize,
    /// Metres walked, straight, one mob after another.
    pub walk_m: f64,
    /// Mean cover on the morning after the last day, by area, kg DM/ha.
    pub end_cover_kg_per_ha: Option<f64>,
}

impl Outcome {
    /// Of a plan.
    pub fn of(plan: &SeasonPlan) -> Self {
        let is_short = |day: &usize| plan.short_on(*day) > SHORT_FROM_KG;
        let short: Vec<usize> = (0..plan.days).filter(is_short).collect();
        Self {
            first: plan.first_day,
            last: plan.day_at(plan.days.saturating_sub(1)),
            short_days: short.len(),
            first_short: short.first().map(|day| plan.day_at(*day)),
            short_kg: (0..plan.days).map(|day| plan.short_on(day)).sum(),
            moves: plan.stands.values().map(|days| moves_of(days)).sum(),
            walk_m: plan.walked_m.values().flatten().sum(),
            end_cover_kg_per_ha: mean_cover(plan, plan.days),
        }
    }

    /// Whether no day is short.
    pub const fn is_fed(&self) -> bool {
        self.short_days == 0
    }

    /// Short days in a few words.
    pub fn short_text(&self) -> String {
        match self.first_short {
            None => "no day short".to_owned(),
            Some(first) => format!(
                "{} short from {}, {} kg DM of hay",
                plural_text(u64::try_from(self.short_days).unwrap_or(0), "day", "days"),
                first.short_text(),
                decimal_text(self.short_kg, 0)
            ),
        }
    }
}

fn moves_of(days: &[Stand]) -> usize {
    let pairs = days.iter().zip(days.iter().skip(1));
    pairs
        .filter(|(before, now)| before != now && **now != Stand::Away)
        .count()
}

/// Mean cover on a morning over all grazed ground, by area.
pub(super) fn mean_cover(plan: &SeasonPlan, morning: usize) -> Option<f64> {
    let covers: Vec<(f64, f64)> = plan
        .cover
        .iter()
        .filter_map(|(id, covers)| Some((*plan.area_ha.get(id)?, *covers.get(morning)?)))
        .collect();
    super::super::grazing_sums::mean_cover_kg_per_ha(&covers)
}
