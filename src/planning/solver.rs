//! The search for good plans: quick first plans, plans guided by prices, then annealing, then a cool polish.
//!
//! Reads no clock: effort is counted in work, so the same input gives the same plan on every machine. A watcher sees
//! better plans as they come and may end the search. Knows nothing of files or windows.

mod anneal;
mod assignment;
mod beam;
mod bidding;
mod board;
mod day_prices;
mod first_plan;
mod ground;
mod guide;
mod moves;
mod random;
mod reassign;
mod strip_days;
mod strip_sum;
mod weighing;
mod worth;

use std::ops::ControlFlow;

use thiserror::Error;

use super::contradictions::plainest_stands;
use super::plan::Plan;
use super::rules::Breach;
use super::season::{Place, Season, Stands};
use anneal::{Annealer, Best, Pricing, Schedule};
pub(super) use bidding::{Bidding, bid};
use board::{Board, stands_of};
use first_plan::{Taste, first_places, is_parted, legal_places};
use ground::Ground;
use guide::guide;
use random::{Dice, Waits};
use strip_sum::Prices;
pub(super) use weighing::{Weighing, WeighingGround};

/// Work of a full search: about a second and a half on one core of a 2023 server.
pub const FULL_EFFORT: u64 = 80_000_000;

/// Seed of a problem's search where none is given: of the seeds 1 to 10 the one with which no public problem is above
/// 1.02 times the best known.
const USUAL_SEED: u64 = 3;

/// How to search.
#[derive(Debug, Clone, PartialEq)]
pub struct SolveOptions {
    /// Seed of the dice.
    pub seed: u64,
    /// Work to be done, in units of which [`FULL_EFFORT`] is a whole search.
    pub effort: u64,
    /// An earlier plan to start from, by mob and day; days that no longer fit are planned anew.
    pub start: Option<Stands>,
}

impl Default for SolveOptions {
    fn default() -> Self {
        Self {
            seed: USUAL_SEED,
            effort: FULL_EFFORT,
            start: None,
        }
    }
}

/// What a watcher sees.
#[derive(Debug)]
pub struct Progress<'a> {
    /// The best plan so far as the search holds it; turn it into stands when it is worth showing.
    best: &'a Best,
    ground: &'a Ground,
    /// Its score, kg DM.
    pub score: f64,
    /// Whether it is better than what the watcher saw before.
    pub is_better: bool,
    /// Work done.
    pub work: u64,
    /// Work to be done.
    pub effort: u64,
}

impl Progress<'_> {
    /// Where everyone stands in the best plan so far.
    pub fn stands(&self) -> Stands {
        stands_of(self.ground, &self.best.places)
    }
}

/// Why a season cannot be planned.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum SolveError {
    /// The fixed days contradict the rules.
    #[error("the fixed days break {} of the rules", .0.len())]
    Contradictions(Vec<Breach>),
}

/// Plans a season.
///
/// `watch` is called with the first plan, and then every millisecond or so of work; when it breaks, the best plan so far is
/// given.
///
/// # Errors
/// The contradictions among the fixed days.
pub fn solve(
    season: &Season,
    options: &SolveOptions,
    watch: &mut dyn FnMut(&Progress<'_>) -> ControlFlow<()>,
) -> Result<Plan, SolveError> {
    let plainest = plainest_stands(season).map_err(SolveError::Contradictions)?;
    let ground = Ground::new(season, &plainest);
    let plainest_places = places_of(&ground, &plainest);
    let best = search(&ground, &plainest_places, options, watch);
    let stands = stands_of(&ground, &best.places);
    // The search's own sums differ from the replay in the last digits only, which the rules forgive.
    Plan::from_stands(season, stands)
        .or_else(|_| Plan::from_stands(season, plainest))
        .map_err(SolveError::Contradictions)
}

fn places_of(ground: &Ground, stands: &[Vec<Place>]) -> Vec<u16> {
    let places = stands.iter().flatten();
    places.map(|&place| ground.number_of(place)).collect()
}

fn search(
    ground: &Ground,
    plainest: &[u16],
    options: &SolveOptions,
    watch: &mut dyn FnMut(&Progress<'_>) -> ControlFlow<()>,
) -> Best {
    let mut board = Board::new(ground, plainest);
    let mut best = Best {
        places: plainest.to_vec(),
        score: board.sums.score,
    };
    if ground.free_list.is_empty() || ground.n_strips == 0 {
        return best;
    }
    let mut seen = f64::INFINITY;
    let mut look = |best: &Best, work: u64| {
        let is_better = best.score < seen;
        seen = best.score;
        watch(&Progress {
            best,
            ground,
            score: best.score,
            is_better,
            work,
            effort: options.effort,
        })
    };
    for taste in TASTES {
        let places = first_places(ground, plainest, &taste);
        board.load(&places);
        best.offer(&board);
    }
    if let Some(start) = &options.start {
        let wanted = fitting_places(ground, plainest, start);
        board.load(&legal_places(ground, plainest, &wanted));
        best.offer(&board);
    }
    // Whether the search ran out or was ended, the best plan so far is the answer.
    let _end = seek(&mut board, plainest, options, &mut best, &mut look);
    best
}

/// Betters the first plans until the effort is spent or the watcher ends it.
fn seek(
    board: &mut Board<'_>,
    plainest: &[u16],
    options: &SolveOptions,
    best: &mut Best,
    look: &mut dyn FnMut(&Best, u64) -> ControlFlow<()>,
) -> ControlFlow<()> {
    look(best, board.work)?;
    let scale = Scale::of(board.ground, best.score);
    let is_guided = guide(board, plainest, (options.effort, options.seed), best, look)?;
    let effort = options.effort.saturating_sub(board.work);
    improve(board, &scale, (effort, options.seed, is_guided), best, look)
}

const TASTES: [Taste; 3] = [
    Taste {
        tall: 0.0,
        feed_days: 1.0,
        stay_share: 0.9,
        walk: 1.0,
    },
    Taste {
        tall: 0.05,
        feed_days: 2.0,
        stay_share: 0.9,
        walk: 1.0,
    },
    Taste {
        tall: 0.5,
        feed_days: 2.0,
        stay_share: 0.5,
        walk: 0.3,
    },
];

/// An earlier plan, held to what still exists and is free: everything else as in the plainest plan.
fn fitting_places(ground: &Ground, plainest: &[u16], start: &[Vec<Place>]) -> Vec<u16> {
    let mut places = plainest.to_vec();
    for (mob, row) in start.iter().enumerate().take(ground.n_mobs) {
        let cells = mob * ground.n_days..(mob + 1) * ground.n_days;
        let free = ground.free.get(cells.clone()).unwrap_or_default();
        let kept = places.get_mut(cells).unwrap_or_default();
        for ((kept, free), &wanted) in kept.iter_mut().zip(free).zip(row) {
            let number = ground.number_of(wanted);
            if *free && *kept == ground.yard && number < ground.yard {
                *kept = number;
            }
        }
    }
    if is_parted(ground, plainest, &places) {
        places
    } else {
        plainest.to_vec()
    }
}

/// Work for each free mob-day in one reheating.
const WORK_OF_MOB_DAY: u64 = 125_000;

/// Betters the best plan by annealing: where no plan was guided, one is cooled from hot with many breaches allowed; the best
/// plan is reheated a few times, and polished with swinging prices. A guided plan is too good to be made hot.
fn improve(
    board: &mut Board<'_>,
    scale: &Scale,
    (effort, seed, is_guided): (u64, u64, bool),
    best: &mut Best,
    look: &mut dyn FnMut(&Best, u64) -> ControlFlow<()>,
) -> ControlFlow<()> {
    let mob_days = u64::try_from(board.ground.free_list.len()).unwrap_or(1);
    let n_reheats = (effort / (mob_days * WORK_OF_MOB_DAY)).clamp(1, 8);
    let schedules = Schedules::of(scale, effort, n_reheats, is_guided);
    let mut dice = Dice::new(seed);
    let waits = Waits::new();
    let mut annealer = Annealer {
        board,
        dice: &mut dice,
        waits: &waits,
        prices: scale.least_prices,
        least_prices: scale.least_prices,
    };
    if !is_guided {
        annealer.run_from_best(&schedules.cooling, best, look)?;
    }
    for _ in 0..n_reheats {
        annealer.prices = scale.least_prices;
        annealer.run_from_best(&schedules.reheating, best, look)?;
    }
    annealer.run_from_best(&schedules.polish, best, look)
}

/// The runs that an improvement is made of.
struct Schedules {
    cooling: Schedule,
    reheating: Schedule,
    polish: Schedule,
}

impl Schedules {
    fn of(scale: &Scale, effort: u64, n_reheats: u64, is_guided: bool) -> Self {
        let tenth = effort / 10;
        let reheating_tenths = if is_guided { 9 } else { 7 };
        let wanted = |breaches: f64| Pricing::Wanted {
            breaches: breaches * scale.stays,
        };
        Self {
            cooling: Schedule {
                hot: 0.2 * scale.unit,
                cold: 0.02 * scale.unit,
                work: 2 * tenth,
                pricing: wanted(0.2),
            },
            reheating: Schedule {
                hot: 0.05 * scale.unit,
                cold: 0.01 * scale.unit,
                work: reheating_tenths * tenth / n_reheats,
                pricing: wanted(0.1),
            },
            polish: Schedule {
                hot: 0.03 * scale.unit,
                cold: 0.001 * scale.unit,
                work: tenth,
                pricing: Pricing::Swinging,
            },
        }
    }
}

/// How large the figures of a season are, so that temperatures and prices fit it.
struct Scale {
    /// Score of a typical change.
    unit: f64,
    /// Number of stays in a plan.
    stays: f64,
    least_prices: Prices,
}

impl Scale {
    #[expect(clippy::cast_precision_loss, reason = "day counts stay far below 2^53")]
    fn of(ground: &Ground, first_score: f64) -> Self {
        let mob_days = ground.free_list.len() as f64;
        let demand: f64 = ground.demand.iter().sum();
        let daily = ground.short_weight.max(1e-3) * (demand / mob_days).max(1e-3);
        // Where a plan meets nearly all demand, its changes are about walks and lost growth, which count less.
        let unit = daily.min(10.0 * first_score / mob_days).max(1e-6);
        Self {
            unit,
            stays: mob_days / ground.longest.min(8) as f64,
            least_prices: Prices {
                rest: 0.02 * daily,
                cover: 0.05 * ground.short_weight.max(1e-3),
                stay: 0.05 * daily,
            },
        }
    }
}
