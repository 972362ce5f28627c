//! The search for good plans: quick first plans, plans guided by prices, then annealing of the best of them.
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
mod improve;
mod moves;
mod pool;
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
use anneal::Best;
pub(super) use bidding::{Bidding, bid};
use board::{Board, stands_of};
use first_plan::{Taste, first_places, is_parted, legal_places};
use ground::Ground;
use guide::guide;
use improve::{Scale, improve};
use pool::Pool;
pub(super) use weighing::{Weighing, WeighingGround};

/// Work of a full search: one to two seconds on one core of a 2023 server.
pub const FULL_EFFORT: u64 = 75_000_000;

/// Seed of a problem's search where none is given.
const USUAL_SEED: u64 = 1;

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
    let mut pool = Pool::new(Best {
        places: plainest.to_vec(),
        score: board.sums.score,
    });
    if ground.free_list.is_empty() || ground.n_strips == 0 {
        return pool.best;
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
        pool.add(&board);
    }
    if let Some(start) = &options.start {
        let wanted = fitting_places(ground, plainest, start);
        board.load(&legal_places(ground, plainest, &wanted));
        pool.add(&board);
    }
    // Whether the search ran out or was ended, the best plan so far is the answer.
    let _end = seek(&mut board, plainest, options, &mut pool, &mut look);
    pool.best
}

/// Betters the first plans until the effort is spent or the watcher ends it.
fn seek(
    board: &mut Board<'_>,
    plainest: &[u16],
    options: &SolveOptions,
    pool: &mut Pool,
    look: &mut dyn FnMut(&Best, u64) -> ControlFlow<()>,
) -> ControlFlow<()> {
    look(&pool.best, board.work)?;
    let scale = Scale::of(board.ground, pool.best.score);
    guide(board, plainest, (options.effort, options.seed), pool, look)?;
    let effort = options.effort.saturating_sub(board.work);
    improve(board, &scale, (effort, options.seed), pool, look)
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
