//! Planning again while the season is lived: what lies before today stays as it was, the rest is planned from there.
//!
//! A past day that nobody logged is held where the plan in view has it, as long as that is legal; nothing of it is
//! stored. Reads no clock: today is given.

use std::collections::BTreeSet;

use super::contradictions::plainest_stands;
use super::farm_season::{SeasonPlan, Stand};
use super::from_farm::problem_from;
use super::live::{SeasonError, Wish, compiled, planned};
use crate::farm::{Farm, FixedPlace, GroundId, grazed_units};
use crate::quantity::Day;

/// What a season is planned again from.
#[derive(Debug, Clone, Copy)]
pub struct Replan<'a> {
    /// The plan that was in view.
    pub before: Option<&'a SeasonPlan>,
    /// Days before this one stay as they were.
    pub today: Day,
    /// Whether it is for the moment only, while something is dragged: little effort from the plan in view, and no move
    /// explained.
    pub is_preview: bool,
}

/// Plans the farm's own season again. `watch` is given each better plan and ends the search by answering `false`.
///
/// # Errors
/// Says in sentences why there is no plan.
pub fn replanned(
    farm: &Farm,
    replan: &Replan<'_>,
    watch: &mut dyn FnMut(SeasonPlan) -> bool,
) -> Result<SeasonPlan, SeasonError> {
    let days = (farm.season.first_day, farm.season.days);
    let wish = if replan.is_preview {
        Wish::quick(replan.before)
    } else {
        Wish::USUAL
    };
    let Some((before, held)) = replan
        .before
        .and_then(|before| Some((before, with_past_held(farm, before, replan.today)?)))
    else {
        return planned(farm, days, wish, watch);
    };
    match planned(&held, days, wish, watch) {
        // Figures of the past were changed so far that its stands are no longer legal: it is planned anew. Days settled
        // ahead that do not go with a legal past are refused.
        Err(SeasonError::Contradictions(_)) if contradicts_itself(&held, replan.today) => {
            planned(farm, days, wish, watch)
        }
        Err(error) => Err(error),
        Ok(plan) => Ok(with_past_reasons(plan, before, replan.today)),
    }
}

/// Whether the days before today, with what is lived, break a rule by themselves.
fn contradicts_itself(held: &Farm, today: Day) -> bool {
    let mut past = held.clone();
    past.fixed
        .retain(|(_, day), fixed| *day < today || fixed.lived);
    let season = problem_from(&past, past.season.first_day, past.season.days)
        .ok()
        .and_then(|made| compiled(&made).ok());
    season.is_none_or(|season| plainest_stands(&season).is_err())
}

/// The farm with every past day that is not settled fixed where the plan has it; nothing where there is no such day.
pub(super) fn with_past_held(farm: &Farm, before: &SeasonPlan, today: Day) -> Option<Farm> {
    let mut held = farm.clone();
    let grazed: BTreeSet<GroundId> = grazed_units(farm).iter().map(|unit| unit.id).collect();
    for (id, mob) in &farm.mobs {
        for index in 0..before.days {
            let day = before.day_at(index);
            if day >= today {
                break;
            }
            let place = match before.stand_at(*id, index) {
                Stand::Away => continue,
                Stand::Yard => None,
                Stand::On(ground) => Some(ground),
            };
            let is_grazed = place.is_none_or(|ground| grazed.contains(&ground));
            if mob.is_here(day) && is_grazed {
                let held_place = FixedPlace {
                    place,
                    lived: false,
                };
                held.fixed.entry((*id, day)).or_insert(held_place);
            }
        }
    }
    (held.fixed.len() > farm.fixed.len()).then_some(held)
}

/// The reasons of past moves are those they were made for, not that they are held.
fn with_past_reasons(mut plan: SeasonPlan, before: &SeasonPlan, today: Day) -> SeasonPlan {
    let Some(first_open) = plan.index_of(today) else {
        return plan;
    };
    if before.first_day != plan.first_day {
        return plan;
    }
    plan.why.retain(|(_, index), _| *index >= first_open);
    let past = before.why.iter();
    let past = past.filter(|((_, index), _)| *index < first_open);
    plan.why.extend(past.map(|(key, why)| (*key, why.clone())));
    plan
}
