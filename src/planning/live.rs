//! From a farm to its planned season: the problem made, solved, and read back in the farm's own numbers.
//!
//! Derived, never stored. Reads no clock; the seed and the days come with the farm.

use std::collections::BTreeMap;
use std::ops::ControlFlow;

use thiserror::Error;

use super::clean_ground::{clean_spans, course_ground_of};
use super::farm_season::{SeasonPlan, Stand};
use super::from_farm::{FarmProblem, FarmProblemError, problem_from};
use super::hen_walk::{HenWalk, hen_findings, hen_walk, hen_walk_after};
use super::plan::Plan;
use super::reasons::{LeftBecause, MoveReason, reasons};
use super::season::{Place, Season, distance_m};
use super::solver::{SolveError, SolveOptions, solve};
use crate::farm::{Farm, Finding, HenHouseId, MobId};
use crate::quantity::Day;

/// Why a farm's season cannot be planned, in sentences.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum SeasonError {
    /// The farm does not make a problem.
    #[error(transparent)]
    NoProblem(#[from] FarmProblemError),
    /// The problem is not sound.
    #[error("the season cannot be planned: {0}")]
    Unsound(String),
    /// Fixed days that break a rule.
    #[error("the settled days contradict the rules: {}", .0.join("; "))]
    Contradictions(Vec<String>),
}

/// How hard a season is planned for the window and the sheets: a fifth of a full search, some tenths of a second.
const USUAL_EFFORT: u64 = super::solver::FULL_EFFORT / 5;

/// Plans the farm's own season. `watch` is given each better plan, as seldom as makes sense, and ends the search by
/// answering `false`.
///
/// # Errors
/// Says in sentences why there is no plan.
pub fn live_season(
    farm: &Farm,
    watch: &mut dyn FnMut(SeasonPlan) -> bool,
) -> Result<SeasonPlan, SeasonError> {
    live_season_of(farm, farm.season.first_day, farm.season.days, watch)
}

/// Plans `days` days of a farm from `from` on.
///
/// # Errors
/// Says in sentences why there is no plan.
pub fn live_season_of(
    farm: &Farm,
    from: Day,
    days: u32,
    watch: &mut dyn FnMut(SeasonPlan) -> bool,
) -> Result<SeasonPlan, SeasonError> {
    let hens = Hens::of(farm, from, days);
    let made = match problem_from(farm, from, days) {
        Ok(made) => made,
        // A farm with hens and no sheep has a season all the same.
        Err(_) if farm.mobs.is_empty() && !hens.walks.is_empty() => {
            return Ok(hens_only(farm, from, days, hens));
        }
        Err(error) => return Err(error.into()),
    };
    let season =
        Season::compile(&made.problem).map_err(|fault| SeasonError::Unsound(fault.to_string()))?;
    let options = SolveOptions {
        seed: farm.season.seed,
        effort: USUAL_EFFORT,
        start: None,
    };
    let mut shown = f64::INFINITY;
    let plan = solve(&season, &options, &mut |progress| {
        // A step of half a hundredth is worth a look; smaller ones wait for the end.
        if progress.score < shown * 0.995 {
            shown = progress.score;
            if let Ok(plan) = Plan::from_stands(&season, progress.stands())
                && !watch(hens.in_plan(farm, read_back(&made, &season, &plan)))
            {
                return ControlFlow::Break(());
            }
        }
        ControlFlow::Continue(())
    })
    .map_err(|SolveError::Contradictions(breaches)| {
        SeasonError::Contradictions(
            breaches
                .iter()
                .map(|breach| breach.wording(&season))
                .collect(),
        )
    })?;
    // Reasons weigh every move against its next best, so they are worked out once, for the plan that stays.
    let why = why_of(farm, &season, &plan, &made);
    Ok(SeasonPlan {
        why,
        ..hens.in_plan(farm, read_back(&made, &season, &plan))
    })
}

/// The walks that need no sheep, and what is to be mended about them: found once for all plans of a search.
struct Hens {
    walks: BTreeMap<HenHouseId, HenWalk>,
    findings: Vec<Finding>,
}

impl Hens {
    fn of(farm: &Farm, from: Day, days: u32) -> Self {
        let walks: BTreeMap<HenHouseId, HenWalk> = farm
            .hen_houses
            .keys()
            .filter_map(|id| hen_walk(farm, *id, from, days).ok().map(|walk| (*id, walk)))
            .collect();
        let findings = hen_findings(farm, &walks);
        Self { walks, findings }
    }

    /// The plan with these walks, and those of the hens that go where its sheep stood.
    fn in_plan(&self, farm: &Farm, mut plan: SeasonPlan) -> SeasonPlan {
        plan.hens.clone_from(&self.walks);
        plan.hen_findings.clone_from(&self.findings);
        let followers = followers(farm, &plan);
        if !followers.is_empty() {
            plan.hens.extend(followers);
            plan.hen_findings = hen_findings(farm, &plan.hens);
        }
        plan
    }
}

/// The walks of those hens that go where the plan's sheep stood.
fn followers(farm: &Farm, plan: &SeasonPlan) -> Vec<(HenHouseId, HenWalk)> {
    let days = u32::try_from(plan.days).unwrap_or(u32::MAX);
    let stood = |mob: MobId, day: Day| match plan.index_of(day) {
        Some(index) => match plan.stand_at(mob, index) {
            Stand::On(ground) => Some(ground),
            Stand::Away | Stand::Yard => None,
        },
        // Before the plan only settled days are known.
        None => farm.fixed.get(&(mob, day)).and_then(|fixed| fixed.place),
    };
    farm.hen_houses
        .iter()
        .filter(|(_, house)| house.handling.follows.is_some())
        .filter_map(|(id, _)| {
            let walk = hen_walk_after(farm, *id, (plan.first_day, days), &stood).ok()?;
            Some((*id, walk))
        })
        .collect()
}

fn hens_only(farm: &Farm, from: Day, days: u32, hens: Hens) -> SeasonPlan {
    let last = from.plus_days(i64::from(days) - 1);
    SeasonPlan {
        clean: clean_spans(farm, from, last),
        first_day: from,
        days: usize::try_from(days).unwrap_or(0),
        stands: BTreeMap::new(),
        short_kg: BTreeMap::new(),
        cover: BTreeMap::new(),
        area_ha: BTreeMap::new(),
        walked_m: BTreeMap::new(),
        hens: hens.walks,
        hen_findings: hens.findings,
        assumptions: Vec::new(),
        warnings: Vec::new(),
        score: 0.0,
        why: BTreeMap::new(),
    }
}

/// The plan in the farm's own numbers.
fn read_back(made: &FarmProblem, season: &Season, plan: &Plan) -> SeasonPlan {
    let ground_of = |index: usize| {
        season
            .strips
            .get(index)
            .and_then(|strip| made.ground_of.get(&strip.name))
            .copied()
    };
    let mob_of = |index: usize| {
        season
            .mobs
            .get(index)
            .and_then(|mob| made.mob_of.get(&mob.name))
            .copied()
    };
    let stand = |place: &Place| match place {
        Place::Away => Stand::Away,
        Place::Yard => Stand::Yard,
        Place::Strip(strip) => ground_of(*strip).map_or(Stand::Yard, Stand::On),
    };
    let by_mob = |index: usize| mob_of(index);
    SeasonPlan {
        first_day: season.first_day,
        days: season.n_days,
        stands: plan
            .stands
            .iter()
            .enumerate()
            .filter_map(|(index, places)| {
                Some((by_mob(index)?, places.iter().map(stand).collect()))
            })
            .collect(),
        short_kg: plan
            .short
            .iter()
            .enumerate()
            .filter_map(|(index, days)| Some((by_mob(index)?, days.clone())))
            .collect(),
        cover: plan
            .cover
            .iter()
            .enumerate()
            .filter_map(|(index, covers)| Some((ground_of(index)?, covers.clone())))
            .collect(),
        area_ha: season
            .strips
            .iter()
            .filter_map(|strip| Some((*made.ground_of.get(&strip.name)?, strip.area)))
            .collect(),
        walked_m: (0..season.mobs.len())
            .filter_map(|index| Some((by_mob(index)?, walked_m(season, plan, index))))
            .collect(),
        hens: BTreeMap::new(),
        hen_findings: Vec::new(),
        clean: made.clean.clone(),
        assumptions: made.assumptions.clone(),
        warnings: plan
            .warnings
            .iter()
            .map(|breach| breach.wording(season))
            .collect(),
        score: plan.figures.score,
        why: BTreeMap::new(),
    }
}

/// The reasons of every move and every short day, in sentences, by mob and day.
fn why_of(
    farm: &Farm,
    season: &Season,
    plan: &Plan,
    made: &FarmProblem,
) -> BTreeMap<(MobId, usize), Vec<String>> {
    let found = reasons(season, plan);
    let mob_of = |index: usize| {
        season
            .mobs
            .get(index)
            .and_then(|mob| made.mob_of.get(&mob.name))
            .copied()
    };
    let mut why: BTreeMap<(MobId, usize), Vec<String>> = BTreeMap::new();
    for reason in &found.moves {
        if let Some(mob) = mob_of(reason.mob) {
            let sentences = why.entry((mob, reason.day)).or_default();
            sentences.push(reason.wording(season));
            sentences.extend(closed_for_crop(farm, season, made, reason));
        }
    }
    for reason in &found.shorts {
        if let Some(mob) = mob_of(reason.mob) {
            why.entry((mob, reason.day))
                .or_default()
                .push(reason.wording(season));
        }
    }
    why
}

/// The crop for which the strip that a mob leaves is closed from today on.
fn closed_for_crop(
    farm: &Farm,
    season: &Season,
    made: &FarmProblem,
    reason: &MoveReason,
) -> Option<String> {
    let (LeftBecause::Closed, Place::Strip(strip)) = (reason.left_because, reason.from) else {
        return None;
    };
    let left = made.ground_of.get(&season.strips.get(strip)?.name)?;
    let ground = course_ground_of(farm, *left);
    let day = season.first_day.plus_days(i64::try_from(reason.day).ok()?);
    let span = made
        .clean
        .iter()
        .find(|span| span.ground == ground && (span.span.first..=span.span.last).contains(&day))?;
    Some(format!("Clean ground: {}.", span.why))
}

/// Metres a mob walks on each day.
fn walked_m(season: &Season, plan: &Plan, mob: usize) -> Vec<f64> {
    let (Some(facts), Some(places)) = (season.mobs.get(mob), plan.stands.get(mob)) else {
        return Vec::new();
    };
    places
        .iter()
        .enumerate()
        .map(|(day, place)| match place {
            Place::Away => 0.0,
            place => {
                let from = season.comes_from(facts, places, day);
                distance_m(season.spot(facts, from), season.spot(facts, *place))
            }
        })
        .collect()
}
