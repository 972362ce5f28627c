//! From a farm to its planned season: the problem made, solved, and read back in the farm's own numbers.
//!
//! Derived, never stored. Reads no clock; the seed and the days come with the farm.

use std::collections::BTreeMap;
use std::ops::ControlFlow;

use thiserror::Error;

use super::behind::Behind;
use super::clean_ground::clean_spans;
use super::farm_season::{SeasonPlan, Stand};
use super::from_farm::{FarmProblem, FarmProblemError, problem_from};
use super::hen_walk::{HenWalk, hen_findings, hen_walk_after, hen_walks};
use super::plan::Plan;
use super::problem::Problem;
use super::read_back::{Why, moves_of, read_back, why_of};
use super::rules::Breach;
use super::season::{Place, Season, Stands};
use super::solver::{SolveError, SolveOptions, solve};
use crate::farm::{Farm, Finding, GroundId, HenHouseId, MobId};
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

/// How hard a season is planned for the window and the sheets: a quarter of a full search, some tenths of a second.
const USUAL_EFFORT: u64 = super::solver::FULL_EFFORT / 4;
/// How hard it is planned while something is being dragged: some hundredths of a second.
const QUICK_EFFORT: u64 = super::solver::FULL_EFFORT / 80;

/// How a season is planned.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wish<'a> {
    /// Work of the search.
    pub(super) effort: u64,
    /// An earlier plan to start from.
    pub(super) start: Option<&'a SeasonPlan>,
    /// Whether every move is explained.
    pub(super) explains: bool,
}

impl<'a> Wish<'a> {
    /// A plan to stay: sought from the farm alone, and explained.
    pub(super) const USUAL: Self = Self {
        effort: USUAL_EFFORT,
        start: None,
        explains: true,
    };

    /// A plan for the moment: bettered from an earlier one, not explained.
    pub(super) const fn quick(start: Option<&'a SeasonPlan>) -> Self {
        Self {
            effort: QUICK_EFFORT,
            start,
            explains: false,
        }
    }
}

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
    planned(farm, (from, days), Wish::USUAL, watch)
}

/// Plans days of a farm as wished.
pub(super) fn planned(
    farm: &Farm,
    (from, days): (Day, u32),
    wish: Wish<'_>,
    watch: &mut dyn FnMut(SeasonPlan) -> bool,
) -> Result<SeasonPlan, SeasonError> {
    planned_with(farm, (from, days), wish, &|_| (), watch)
}

/// Plans days of a farm as wished, with its problem changed beforehand.
pub(super) fn planned_with(
    farm: &Farm,
    (from, days): (Day, u32),
    wish: Wish<'_>,
    change: &dyn Fn(&mut FarmProblem),
    watch: &mut dyn FnMut(SeasonPlan) -> bool,
) -> Result<SeasonPlan, SeasonError> {
    let hens = Hens::of(farm, from, days);
    let mut made = match problem_from(farm, from, days) {
        Ok(made) => made,
        // A farm with hens and no sheep has a season all the same.
        Err(_) if farm.mobs.is_empty() && !hens.walks.is_empty() => {
            return Ok(hens_only(farm, from, days, hens));
        }
        Err(error) => return Err(error.into()),
    };
    change(&mut made);
    let led = led(farm, &mut made, wish);
    let season = compiled(&made)?;
    let options = SolveOptions {
        seed: farm.season.seed,
        effort: if led.is_some() {
            wish.effort / 2
        } else {
            wish.effort
        },
        start: wish.start.map(|plan| stands_in(&made, &season, plan)),
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
    .map_err(|SolveError::Contradictions(breaches)| contradictions(&breaches, &season))?;
    // Reasons weigh every move against its next best, so they are worked out once, for the plan that stays.
    let why = if wish.explains {
        why_of(farm, &season, &plan, &made, &led.unwrap_or_default())
    } else {
        BTreeMap::new()
    };
    Ok(SeasonPlan {
        why,
        ..hens.in_plan(farm, read_back(&made, &season, &plan))
    })
}

/// Fixes the days of mobs that come behind others, and of those in front: why each of these moves, or nothing where nobody
/// follows.
fn led(farm: &Farm, made: &mut FarmProblem, wish: Wish<'_>) -> Option<Why> {
    let behind = Behind::of(farm, made)?;
    let stays = behind.stays(made.problem.longest_stay_days);
    let effort = wish.effort / 2 / u64::try_from(stays.len()).unwrap_or(1).max(1);
    let tried = stays.into_iter().filter_map(|stay| {
        let front = behind.in_front(&made.problem, stay);
        let (season, plan) = front_planned(farm, made, &front, Wish { effort, ..wish })?;
        let (whole, followed) = behind.fixed_after(&made.problem, (&season, &plan), stay)?;
        Some((season, plan, whole, followed))
    });
    let found = tried.min_by(|(.., one), (.., other)| one.score.total_cmp(&other.score));
    let followed = found.as_ref().map(|(.., followed)| followed);
    made.assumptions.extend(behind.sentences(followed));
    let (season, plan, whole, followed) = found?;
    made.problem = whole;
    let in_front = moves_of(farm, &season, &plan, made);
    let mut why = Why::new();
    for (name, day) in &followed.days {
        let (Some(mob), Ok(day)) = (made.mob_of.get(name), usize::try_from(*day)) else {
            continue;
        };
        let said = match behind.reason_of(name) {
            Some(sentence) => vec![sentence],
            None => in_front.get(&(*mob, day)).cloned().unwrap_or_default(),
        };
        why.insert((*mob, day), said);
    }
    Some(why)
}

/// The mobs in front planned alone, for all of those behind as well.
fn front_planned(
    farm: &Farm,
    made: &FarmProblem,
    front: &Problem,
    wish: Wish<'_>,
) -> Option<(Season, Plan)> {
    let season = Season::compile(front).ok()?;
    let options = SolveOptions {
        seed: farm.season.seed,
        effort: wish.effort,
        start: wish.start.map(|plan| stands_in(made, &season, plan)),
    };
    let plan = solve(&season, &options, &mut |_| ControlFlow::Continue(())).ok()?;
    Some((season, plan))
}

/// The problem with its days counted.
pub(super) fn compiled(made: &FarmProblem) -> Result<Season, SeasonError> {
    Season::compile(&made.problem).map_err(|fault| SeasonError::Unsound(fault.to_string()))
}

/// Contradictory settled days in sentences.
pub(super) fn contradictions(breaches: &[Breach], season: &Season) -> SeasonError {
    let sentences = breaches.iter().map(|breach| breach.wording(season));
    SeasonError::Contradictions(sentences.collect())
}

/// Where an earlier plan has everyone, in the numbers of a problem; what it does not know stands in the yard.
pub(super) fn stands_in(made: &FarmProblem, season: &Season, plan: &SeasonPlan) -> Stands {
    let strip_of: BTreeMap<GroundId, usize> = season
        .strips
        .iter()
        .enumerate()
        .filter_map(|(index, strip)| Some((*made.ground_of.get(&strip.name)?, index)))
        .collect();
    let mut stands = season.all_in_yard();
    for (mob, days) in season.mobs.iter().zip(&mut stands) {
        let Some(id) = made.mob_of.get(&mob.name) else {
            continue;
        };
        for (day, place) in days.iter_mut().enumerate() {
            if *place == Place::Yard
                && let Stand::On(ground) = plan.stand_on(*id, season.date(day))
                && let Some(strip) = strip_of.get(&ground)
            {
                *place = Place::Strip(*strip);
            }
        }
    }
    stands
}

/// The walks that need no sheep, and what is to be mended about them: found once for all plans of a search.
struct Hens {
    walks: BTreeMap<HenHouseId, HenWalk>,
    findings: Vec<Finding>,
}

impl Hens {
    fn of(farm: &Farm, from: Day, days: u32) -> Self {
        let walks: BTreeMap<HenHouseId, HenWalk> = hen_walks(farm, from, days)
            .into_iter()
            .filter_map(|(id, walk)| Some((id, walk.ok()?)))
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
