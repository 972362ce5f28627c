//! The guided start: prices of mob-days are found step by step, and after each step a narrow beam builds a plan by them; a
//! wide one at the end builds the last.
//!
//! Every set of prices leads the beam another way, so that many narrow beams find more than one of their work together. A
//! whole search lets the prices begin several times, since plans of one course of prices are much alike.
//! Counts its work, of which it takes a share of the whole search; gives way where the season is too large for that share.

use std::ops::ControlFlow;

use super::anneal::Best;
use super::beam::{beam_places, work_of_beam};
use super::board::Board;
use super::day_prices::DayPrices;
use super::first_plan::legal_places;
use super::ground::Ground;
use super::pool::Pool;
use super::random::Dice;
use super::worth::{Worth, is_small_enough, work_of_fill};

/// Part plans side by side in all beams but the last.
const WIDTH: usize = 5;
/// Part plans side by side in the last beam, at least.
const LEAST_LAST_WIDTH: usize = 32;
/// Part plans side by side in the last beam, at most: some ten megabytes in a long season.
const MOST_LAST_WIDTH: usize = 2000;
/// Rounds before the first beam: earlier prices lead nowhere.
const ROUNDS_UNLED: u64 = 6;
/// With fewer rounds than this the work is better spent on annealing.
const LEAST_ROUNDS: u64 = 6;
/// Rounds that are worth most of a small search: as many as free mob-days, and no more than this.
const MOST_WANTED_ROUNDS: u64 = 100;
/// Even in a large season so many rounds are wanted.
const LEAST_WANTED_ROUNDS: u64 = 25;
/// Courses of prices, each from its beginning on, at most: strips that bid in another order lead to other plans.
const MOST_COURSES: u64 = 4;
/// Sets the seeds of courses apart.
const SEED_OF_COURSE: u64 = 1000;
/// Rounds times free mob-days that are wanted: what many mobs together can do is found by annealing rather than by prices.
const WANTED_ROUND_DAYS: u64 = 20_000;

/// Adds the plans of a guided start to the pool, if there is the effort for it.
pub(super) fn guide(
    board: &mut Board<'_>,
    plainest: &[u16],
    (effort, seed): (u64, u64),
    pool: &mut Pool,
    look: &mut dyn FnMut(&Best, u64) -> ControlFlow<()>,
) -> ControlFlow<()> {
    let Some(effort) = Effort::of(board.ground, effort) else {
        return ControlFlow::Continue(());
    };
    let mut worth = Worth::new(board.ground, plainest);
    for course in 0..effort.n_courses {
        let mut dice = Dice::new(seed.wrapping_add(SEED_OF_COURSE * course));
        let mut own = Pool::new(pool.best.clone());
        let end = run_course(
            board,
            plainest,
            (&effort, &mut dice),
            &mut worth,
            &mut own,
            look,
        );
        pool.take_in(own, effort.n_courses);
        end?;
    }
    ControlFlow::Continue(())
}

/// Finds prices from their beginning on, and adds the plans of its beams to the pool.
fn run_course(
    board: &mut Board<'_>,
    plainest: &[u16],
    (effort, dice): (&Effort, &mut Dice),
    worth: &mut Worth<'_>,
    pool: &mut Pool,
    look: &mut dyn FnMut(&Best, u64) -> ControlFlow<()>,
) -> ControlFlow<()> {
    let ground = board.ground;
    let end = board.work + effort.of_course;
    let mut prices = DayPrices::new(worth);
    let mut rounds = 0;
    loop {
        prices.round(worth, dice);
        rounds += 1;
        let left = end.saturating_sub(board.work + worth.work);
        let is_last = left < effort.of_last;
        if is_last {
            prices.settle(worth);
        }
        board.work += std::mem::take(&mut worth.work);
        if is_last || rounds >= ROUNDS_UNLED {
            let width = if is_last { effort.last_width } else { WIDTH };
            let places = beam_places(worth, plainest, width, &mut board.work);
            board.load(&legal_places(ground, plainest, &places));
            pool.add(board);
        }
        look(&pool.best, board.work)?;
        if is_last {
            return ControlFlow::Continue(());
        }
    }
}

/// The work that a guided start may take.
struct Effort {
    n_courses: u64,
    of_course: u64,
    /// Of a course's last rounds with their beam.
    of_last: u64,
    last_width: usize,
}

impl Effort {
    /// Most of a small search, for one course of prices; at most half of a whole one, for several. Nothing where that is
    /// too little.
    fn of(ground: &Ground, effort: u64) -> Option<Self> {
        let strips = u64::try_from(ground.n_strips).unwrap_or(1);
        let of_round = strips * work_of_fill(ground) + work_of_beam(ground, WIDTH);
        let mob_days = u64::try_from(ground.free_list.len()).unwrap_or(u64::MAX);
        let wanted_rounds = (WANTED_ROUND_DAYS / mob_days.max(1))
            .clamp(LEAST_WANTED_ROUNDS, MOST_WANTED_ROUNDS)
            .min(mob_days);
        let of_wanted = wanted_rounds * of_round;
        let n_courses = (effort / 2 / of_wanted.max(1)).clamp(1, MOST_COURSES);
        let of_course = (effort / 4 * 3).min(of_wanted).max(effort / 10 / n_courses);
        if of_course < LEAST_ROUNDS * of_round || !is_small_enough(ground) {
            return None;
        }
        // What is not wanted for rounds makes the last beam wider.
        let of_last_beam = (of_course / 6).max(of_course.saturating_sub(of_wanted));
        let last_width = of_last_beam / work_of_beam(ground, 1).max(1);
        let last_width = usize::try_from(last_width).unwrap_or(MOST_LAST_WIDTH);
        let last_width = last_width.clamp(LEAST_LAST_WIDTH, MOST_LAST_WIDTH);
        Some(Self {
            n_courses,
            of_course,
            of_last: 2 * of_round + work_of_beam(ground, last_width),
            last_width,
        })
    }
}
