//! The planning problem of a farm: what is drawn, counted, read and lived, as the planner wants it.
//!
//! Everything that had to be assumed or left out is said in words. Areas are hectares on the earth itself, covers
//! kg DM/ha from ground level, places metres on the farm's plane.

mod cover;
mod ley_cover;
mod mobs;
mod names;
mod strips;

pub use ley_cover::{CoverSource, LeyCover, ley_cover};

use std::collections::BTreeMap;

use thiserror::Error;

use super::clean_ground::{CleanSpan, clean_spans, settled_on_clean};
use super::{MOST_DAYS, Problem, Step, Weights};
use crate::farm::{Farm, GroundId, MobId};
use crate::quantity::Day;

/// A problem, and what its names stand for on the farm.
#[derive(Debug, Clone, PartialEq)]
pub struct FarmProblem {
    /// The problem.
    pub problem: Problem,
    /// The ground of each strip, by the strip's name in the problem.
    pub ground_of: BTreeMap<String, GroundId>,
    /// The mob of each mob's name in the problem.
    pub mob_of: BTreeMap<String, MobId>,
    /// Ground that is closed for a crop of the course inside the problem's days, and why.
    pub clean: Vec<CleanSpan>,
    /// What was taken for granted or left out, in sentences.
    pub assumptions: Vec<String>,
}

/// Why a farm has nothing to plan.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum FarmProblemError {
    /// No ley and no strip with an area.
    #[error("there is nothing to graze: draw a ley or strip first")]
    NothingToGraze,
    /// No mob at all.
    #[error("there are no sheep on the farm: add a mob with its head and the days it is here")]
    NoMobs,
    /// No mob on the days asked for.
    #[error(
        "no sheep are here from {first} to {last}: lengthen a mob's visit or choose other days"
    )]
    NobodyHere {
        /// First day asked for.
        first: Day,
        /// Last day asked for.
        last: Day,
    },
    /// No day, or more than are planned at a time.
    #[error("{days} days cannot be planned: ask for 1 to {MOST_DAYS}")]
    Days {
        /// The days asked for.
        days: u32,
    },
}

/// The days that are planned.
#[derive(Debug, Clone, Copy)]
struct Window {
    first: Day,
    last: Day,
}

impl Window {
    fn contains(self, day: Day) -> bool {
        (self.first..=self.last).contains(&day)
    }

    /// The part of a span inside the window; `None` where there is none.
    fn cut(self, from: Day, to: Day) -> Option<super::DaySpan> {
        let (first, last) = (from.max(self.first), to.min(self.last));
        (first <= last).then_some(super::DaySpan { first, last })
    }
}

/// The problem of `days` days from `from`.
///
/// Strips are the grazed pieces in the order of their numbers. Where a cover was read on or before `from`, it is grown
/// forward by the model's capped growth with the lived days' grazing taken off; where none was, the strip is taken to
/// have stood midway between the cover to leave and that to enter at, on the season's first day (on `from`, if that
/// is earlier), and this is said.
///
/// # Errors
/// See [`FarmProblemError`]. Figures that make no sense are left to [`super::Season::compile`], which names them.
pub fn problem_from(farm: &Farm, from: Day, days: u32) -> Result<FarmProblem, FarmProblemError> {
    if days == 0 || days > MOST_DAYS {
        return Err(FarmProblemError::Days { days });
    }
    let window = Window {
        first: from,
        last: from.plus_days(i64::from(days) - 1),
    };
    if farm.mobs.is_empty() {
        return Err(FarmProblemError::NoMobs);
    }
    let mut assumptions = Vec::new();
    let clean = clean_spans(farm, window.first, window.last);
    let (strips, ground_of) = strips::strips_of(farm, window, &clean, &mut assumptions);
    if strips.is_empty() {
        return Err(FarmProblemError::NothingToGraze);
    }
    let name_of: BTreeMap<GroundId, String> = ground_of
        .iter()
        .map(|(name, id)| (*id, name.clone()))
        .collect();
    let (mobs, mob_of) = mobs::mobs_of(farm, window, &name_of, &mut assumptions);
    if mobs.is_empty() {
        let Window { first, last } = window;
        return Err(FarmProblemError::NobodyHere { first, last });
    }
    let fixed = mobs::fixed_of(farm, window, &name_of, &mob_of, &mut assumptions);
    assumptions.extend(settled_sentences(farm, &clean));
    let sward = &farm.sward;
    let problem = Problem {
        first_day: from,
        days,
        growth: changing_steps(window, |day| sward.growth_on(day)),
        growth_shape: sward.growth_shape,
        rest_days: changing_steps(window, |day| f64::from(farm.rest_days_on(day))),
        longest_stay_days: sward.longest_stay_days,
        strips,
        mobs,
        fixed,
        weights: Weights::default(),
    };
    Ok(FarmProblem {
        problem,
        ground_of,
        mob_of,
        clean,
        assumptions,
    })
}

/// Settled days on ground that should be clear for a crop: they are kept, and this is said.
fn settled_sentences(farm: &Farm, clean: &[CleanSpan]) -> Vec<String> {
    let mut by_why: BTreeMap<(GroundId, String), Vec<Day>> = BTreeMap::new();
    for (ground, day, why) in settled_on_clean(farm, clean) {
        by_why.entry((ground, why)).or_default().push(day);
    }
    by_why
        .into_iter()
        .map(|((ground, why), days)| {
            let name = farm.ground.get(&ground).map_or("", |ground| ground.name.trim());
            let days: Vec<String> = days.iter().map(|day| day.short_text()).collect();
            format!(
                "{name} is settled on {} although it should be clear then: {why}. Look to the days of harvest.",
                days.join(", ")
            )
        })
        .collect()
}

/// A step on the first day and on each day on which the value changes.
fn changing_steps(window: Window, value_on: impl Fn(Day) -> f64) -> Vec<Step> {
    let mut steps: Vec<Step> = Vec::new();
    for step in 0..=window.last.days_since(window.first) {
        let from = window.first.plus_days(step);
        let value = value_on(from);
        let is_same = |last: &Step| last.value.to_bits() == value.to_bits();
        if !steps.last().is_some_and(is_same) {
            steps.push(Step { from, value });
        }
    }
    steps
}
