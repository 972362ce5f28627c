//! How far a season's plan can be from the best possible: its score against a proven lower bound.
//!
//! The only caller of the bound for a farm. Never says more than is proven. Scores kg DM and what counts as much.

use super::bound::{BoundOptions, lower_bound};
use super::farm_season::SeasonPlan;
use super::from_farm::problem_from;
use super::live::compiled;
use super::replan::with_past_held;
use super::season::Season;
use crate::farm::Farm;
use crate::quantity::{Day, decimal_text};

/// A plan's score and what no plan can come below.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nearness {
    /// Score of the plan.
    pub score: f64,
    /// Proven: no plan of the same season scores less.
    pub bound: f64,
    /// Whether the plan leads a mob behind another, which the plans that it is held against need not do.
    pub is_led: bool,
}

impl Nearness {
    /// Of a season whose plan scores this; nothing once `goes_on`, asked every few milliseconds, says no.
    pub fn of_season(season: &Season, score: f64, goes_on: &dyn Fn() -> bool) -> Option<Self> {
        let bound = lower_bound(season, score, &bound_options(season), goes_on)?;
        Some(Self {
            score,
            // A bound above a score that was reached can only come from rounding.
            bound: bound.min(score),
            is_led: false,
        })
    }

    /// Of a farm's plan from `today` on, all days before being as the plan has them; nothing where no sheep are planned,
    /// or once `goes_on`, asked every few milliseconds, says no.
    pub fn of_farm(
        farm: &Farm,
        plan: &SeasonPlan,
        today: Day,
        goes_on: &dyn Fn() -> bool,
    ) -> Option<Self> {
        let held = with_past_held(farm, plan, today);
        let farm = held.as_ref().unwrap_or(farm);
        let days = u32::try_from(plan.days).ok()?;
        let made = problem_from(farm, plan.first_day, days).ok()?;
        let season = compiled(&made).ok()?;
        let nearness = Self::of_season(&season, plan.score, goes_on)?;
        Some(Self {
            is_led: farm.mobs.values().any(|mob| mob.follows.is_some()),
            ..nearness
        })
    }

    /// By how much the best plan can be better at most, kg.
    pub fn gap_kg(&self) -> f64 {
        (self.score - self.bound).max(0.0)
    }

    /// The gap as a share of the plan's score; nothing where the score is none.
    pub fn gap_share(&self) -> Option<f64> {
        (self.score > 0.0).then(|| self.gap_kg() / self.score)
    }

    /// In a sentence; figures are rounded to the side that claims less.
    pub fn wording(&self) -> String {
        let gap_kg = self.gap_kg();
        if gap_kg < 0.5 {
            return "Proven: no plan does better by as much as a kilogram.".to_owned();
        }
        let kg = decimal_text(gap_kg.ceil(), 0);
        let share = self.gap_share().map_or_else(String::new, |share| {
            format!(
                " ({}\u{a0}%)",
                decimal_text((share * 100.0).ceil().min(100.0), 0)
            )
        });
        let plans = if self.is_led {
            "no plan, nor one in which every mob goes its own way,"
        } else {
            "no plan"
        };
        format!(
            "This plan comes to {} kg, all told; proven: {plans} can be better by more than {kg}\u{a0}kg{share}.",
            decimal_text(self.score, 0)
        )
    }
}

/// The effort of a bound, so that it comes within a second or two in a usual season, and some ten in the largest.
fn bound_options(season: &Season) -> BoundOptions {
    let (stages, last_step) = match season.strips.len() * season.n_days * season.mobs.len() {
        0..1000 => (vec![(60, 25.0), (30, 6.0)], 1.5),
        1000..8000 => (vec![(40, 50.0), (20, 12.0)], 1.5),
        _ => (vec![(20, 50.0), (10, 12.0)], 3.0),
    };
    BoundOptions { stages, last_step }
}

/// What "all told" counts.
pub const SCORE_TOLD: &str = "All told: hay to be carried, and as kilograms of it growth lost at the ceiling (1/20), walks \
                              (1 kg for 100 m), cover missing at the end (1/5).";
