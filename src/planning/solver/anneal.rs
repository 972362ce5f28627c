//! Simulated annealing over a board: changes are taken when they gain, and at a falling temperature also when they lose.
//!
//! Rules may be broken on the way at a price that rises while they are broken and falls while they are kept, so that the
//! search crosses plans it could not walk round. Knows nothing of clocks: effort is counted in work.

use std::ops::ControlFlow;

use super::board::Board;
use super::moves::propose;
use super::random::{Dice, Waits, nth_root};
use super::reassign::reassign;
use super::strip_sum::Prices;

/// How one run of annealing goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Schedule {
    /// First temperature, score.
    pub(super) hot: f64,
    /// Last temperature, score.
    pub(super) cold: f64,
    /// Work to be done.
    pub(super) work: u64,
}

/// The best legal plan so far.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Best {
    pub(super) places: Vec<u16>,
    pub(super) score: f64,
}

impl Best {
    /// Takes the board's plan if it is legal and better.
    pub(super) fn offer(&mut self, board: &Board<'_>) -> bool {
        let is_better = board.sums.is_legal() && board.sums.score < self.score - 1e-9;
        if is_better {
            self.score = board.sums.score;
            self.places.clone_from(&board.places);
        }
        is_better
    }
}

/// Tries between two looks at temperature and prices.
const TRIES: u64 = 256;
/// Among so many tries one gives several stays their strips anew at once, which takes about as long as fifty.
const TRIES_PER_ASSIGNMENT: usize = 200;
/// Work of one try, about.
const WORK_OF_TRY: u64 = 50;
/// Work of making up a change, which is much of the work where strips have few spells.
const WORK_OF_PROPOSAL: u64 = 24;

/// The annealing's standing equipment.
pub(super) struct Annealer<'a, 'b> {
    pub(super) board: &'a mut Board<'b>,
    pub(super) dice: &'a mut Dice,
    pub(super) waits: &'a Waits,
    pub(super) prices: Prices,
    pub(super) least_prices: Prices,
}

impl Annealer<'_, '_> {
    /// Runs one schedule from a legal plan and leaves the best one met in its place.
    pub(super) fn run_from(
        &mut self,
        best: &mut Best,
        schedule: &Schedule,
        look: &mut dyn FnMut(&Best, u64) -> ControlFlow<()>,
    ) -> ControlFlow<()> {
        self.board.load(&best.places);
        self.run(schedule, best, look)
    }

    /// Runs one schedule from the board as it is. `look` is called often and may end the search.
    fn run(
        &mut self,
        schedule: &Schedule,
        best: &mut Best,
        look: &mut dyn FnMut(&Best, u64) -> ControlFlow<()>,
    ) -> ControlFlow<()> {
        let start = self.board.work;
        let mut temperature = schedule.hot;
        let mut done = 0;
        let mut cooled_to = 0;
        // The temperature falls by one small factor for each thousandth of the work.
        let factor = nth_root(schedule.cold / schedule.hot, 1000.0);
        let tries = (schedule.work / WORK_OF_TRY).clamp(4, TRIES);
        while done < schedule.work {
            for _ in 0..tries {
                self.step(temperature, best);
            }
            done = self.board.work - start;
            self.reprice();
            let thousandth = done.saturating_mul(1000) / schedule.work.max(1);
            while cooled_to < thousandth.min(1000) {
                temperature *= factor;
                cooled_to += 1;
            }
            look(best, self.board.work)?;
        }
        ControlFlow::Continue(())
    }

    fn step(&mut self, temperature: f64, best: &mut Best) {
        self.board.work += WORK_OF_PROPOSAL;
        let is_proposed = if self.dice.one_in(TRIES_PER_ASSIGNMENT) {
            reassign(self.board, self.dice, &self.prices, temperature)
        } else {
            propose(self.board, self.dice)
        };
        if !is_proposed {
            return;
        }
        let allowance = temperature * self.waits.draw(self.dice);
        let Some(sums) = self.board.try_staged(&self.prices, allowance) else {
            return;
        };
        let loss = sums.priced(&self.prices) - self.board.sums.priced(&self.prices);
        if loss <= allowance {
            self.board.keep(sums);
            best.offer(self.board);
        } else {
            self.board.take_back();
        }
    }

    /// Raises the price of the rules that are broken and lowers the others, so that the plan is shaken again and again.
    fn reprice(&mut self) {
        let sums = &self.board.sums;
        let factor = |broken: i64| if broken > 0 { DEARER } else { CHEAPER };
        let least = &self.least_prices;
        let adapt = |price: &mut f64, broken: i64, least: f64| {
            *price = (*price * factor(broken)).clamp(least, least * MOST_PRICE);
        };
        adapt(&mut self.prices.rest, sums.rest_faults, least.rest);
        adapt(&mut self.prices.cover, sums.cover_faults, least.cover);
        adapt(&mut self.prices.stay, sums.stay_faults, least.stay);
    }
}

/// What a price is multiplied by at a look while its rule is broken.
const DEARER: f64 = 1.04;
/// What a price is multiplied by at a look while its rule is kept.
const CHEAPER: f64 = 0.97;
/// Highest price, relative to the least.
const MOST_PRICE: f64 = 1e7;
