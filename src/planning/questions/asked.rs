//! The farm from a day on, everything before it taken as planned; and the plans that a question makes of copies of it.

use std::collections::BTreeSet;

use thiserror::Error;

use super::super::farm_season::{SeasonPlan, Stand};
use super::super::from_farm::FarmProblem;
use super::super::live::{SeasonError, Wish, planned_with};
use crate::farm::{
    Closed, Farm, FixedPlace, Grazing, GroundId, Mob, MobId, Reading, Visit, grazed_units,
};
use crate::quantity::Day;

/// What a kilogram short weighs where feed comes first, against what it weighs in a season's plan.
const FEED_FIRST: f64 = 100.0;

/// Why a question has no answer.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum QuestionError {
    /// The season cannot be planned.
    #[error(transparent)]
    NoPlan(#[from] SeasonError),
    /// It was called off.
    #[error("called off")]
    CalledOff,
    /// What was asked makes no sense on this farm.
    #[error("{0}")]
    Senseless(String),
}

/// A question under way: the farm as it stands on a day, and how far the answering is.
pub struct Asked<'a> {
    /// The farm with everything before `from` lived as planned, and covers of that morning read.
    pub(super) farm: Farm,
    /// First day that is planned.
    pub(super) from: Day,
    /// Last day that is planned.
    pub(super) to: Day,
    /// Whether feed comes before all else: a walk is never spared at the price of a short day.
    pub(super) is_feed_first: bool,
    watch: &'a mut dyn FnMut(f64) -> bool,
    plans_made: f64,
    plans_expected: f64,
}

impl<'a> Asked<'a> {
    /// A question about the days from `from` to `to`, on a farm whose season is planned so. `watch` is given the share
    /// that is done, and calls the question off by answering `false`.
    ///
    /// # Errors
    /// Where no day is asked about.
    pub fn new(
        farm: &Farm,
        plan: &SeasonPlan,
        (from, to): (Day, Day),
        watch: &'a mut dyn FnMut(f64) -> bool,
    ) -> Result<Self, QuestionError> {
        if to < from {
            return Err(QuestionError::Senseless(format!(
                "{} comes before {}: ask about a day or more",
                to.short_text(),
                from.short_text()
            )));
        }
        Ok(Self {
            farm: standing_on(farm, plan, from),
            from,
            to,
            is_feed_first: false,
            watch,
            plans_made: 0.0,
            plans_expected: 20.0,
        })
    }

    /// Plans a changed copy with little effort, to feel the way.
    pub(super) fn felt(&mut self, farm: &Farm, to: Day) -> Result<SeasonPlan, QuestionError> {
        self.planned_by(farm, to, Wish::quick(None), &|_| ())
    }

    /// Plans a changed copy in full.
    pub(super) fn planned(&mut self, farm: &Farm, to: Day) -> Result<SeasonPlan, QuestionError> {
        let wish = Wish {
            explains: false,
            ..Wish::USUAL
        };
        self.planned_by(farm, to, wish, &|_| ())
    }

    /// Plans a copy whose problem is changed, in full, from an earlier plan on.
    pub(super) fn planned_with(
        &mut self,
        farm: &Farm,
        start: &SeasonPlan,
        change: &dyn Fn(&mut FarmProblem),
    ) -> Result<SeasonPlan, QuestionError> {
        let wish = Wish {
            explains: false,
            start: Some(start),
            ..Wish::USUAL
        };
        self.planned_by(farm, self.to, wish, change)
    }

    fn planned_by(
        &mut self,
        farm: &Farm,
        to: Day,
        wish: Wish<'_>,
        change: &dyn Fn(&mut FarmProblem),
    ) -> Result<SeasonPlan, QuestionError> {
        let days = u32::try_from(to.days_since(self.from) + 1).unwrap_or(0);
        // How many plans a search takes is not known beforehand: the share nears the end and never reaches it.
        let share = self.plans_made / (self.plans_made + self.plans_expected);
        if !(self.watch)(share) {
            return Err(QuestionError::CalledOff);
        }
        let mut goes_on = true;
        let (watch, is_feed_first) = (&mut self.watch, self.is_feed_first);
        let change = |made: &mut FarmProblem| {
            if is_feed_first {
                made.problem.weights.short *= FEED_FIRST;
            }
            change(made);
        };
        let plan = planned_with(farm, (self.from, days), wish, &change, &mut |_| {
            goes_on &= watch(share);
            goes_on
        })?;
        if !goes_on {
            return Err(QuestionError::CalledOff);
        }
        self.plans_made += 1.0;
        self.plans_expected = (self.plans_expected - 1.0).max(2.0);
        Ok(plan)
    }

    /// The mob, with its number.
    pub(super) fn mob(&self, id: MobId) -> Result<Mob, QuestionError> {
        let mob = self.farm.mobs.get(&id).cloned();
        mob.ok_or_else(|| QuestionError::Senseless("There is no such flock.".to_owned()))
    }

    /// The farm with one mob alone, here from the first day to `to`, on these pieces and no other. Days decided by hand
    /// are left out: the question is about the ground.
    pub(super) fn alone(&self, id: MobId, mob: Mob, ground: &BTreeSet<GroundId>, to: Day) -> Farm {
        let mut farm = self.farm.clone();
        let visit = Visit {
            from: self.from,
            to,
        };
        farm.mobs.clear();
        farm.mobs.insert(
            id,
            Mob {
                visits: vec![visit],
                ..mob
            },
        );
        farm.fixed.retain(|(_, day), _| *day < self.from);
        farm.hen_houses.clear();
        let others: Vec<GroundId> = grazed_units(&self.farm)
            .iter()
            .map(|unit| unit.id)
            .filter(|unit| !is_asked(&self.farm, ground, *unit))
            .collect();
        for other in others {
            close(&mut farm, other, self.from, to);
        }
        farm
    }
}

/// Whether a grazed piece is among those asked about, by itself or by its ley; none named means all.
pub(super) fn is_asked(farm: &Farm, ground: &BTreeSet<GroundId>, unit: GroundId) -> bool {
    let within = farm.ground.get(&unit).and_then(|piece| piece.within);
    ground.is_empty() || ground.contains(&unit) || within.is_some_and(|ley| ground.contains(&ley))
}

fn close(farm: &mut Farm, id: GroundId, from: Day, to: Day) {
    if let Some(ground) = farm.ground.get_mut(&id) {
        let grazing = ground.grazing.get_or_insert_with(Grazing::default);
        grazing.closed.push(Closed {
            from,
            to,
            why: String::new(),
        });
    }
}

/// The farm as it stands on a morning: the days before lived as planned, and the covers that the plan has read.
fn standing_on(farm: &Farm, plan: &SeasonPlan, morning: Day) -> Farm {
    let mut standing = farm.clone();
    if plan.index_of(morning).is_none() || morning <= plan.first_day {
        return standing;
    }
    for id in farm.mobs.keys() {
        let before = (0..plan.days).take_while(|index| plan.day_at(*index) < morning);
        for index in before {
            let place = match plan.stand_at(*id, index) {
                Stand::Away => continue,
                Stand::Yard => None,
                Stand::On(ground) => Some(ground),
            };
            let lived = FixedPlace { place, lived: true };
            standing.fixed.insert((*id, plan.day_at(index)), lived);
        }
    }
    for id in plan.cover.keys() {
        let (Some(cover), Some(ground)) =
            (plan.cover_on(*id, morning), standing.ground.get_mut(id))
        else {
            continue;
        };
        let grazing = ground.grazing.get_or_insert_with(Grazing::default);
        grazing.readings.retain(|reading| reading.day < morning);
        grazing.readings.push(Reading {
            day: morning,
            cover_kg_per_ha: cover,
        });
    }
    standing
}
