//! Simulated annealing over a board: changes are taken when they gain, and at a falling temperature also when they lose.
//!
//! Rules may be broken on the way at a price that rises while they are broken and falls while they are kept, so that the
//! search crosses plans it could not walk round. Knows nothing of clocks: effort is counted in work.

use std::ops::ControlFlow;

use super::board::{Board, Prices, Sums};
use super::moves::propose;
use super::random::{Dice, Waits, nth_root};

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
        let is_better = board.sums.faults == 0 && board.sums.score < self.score - 1e-9;
        if is_better {
            self.score = board.sums.score;
            self.places.clone_from(&board.places);
        }
        is_better
    }
}

/// Tries between two looks at temperature, prices and the watcher.
const TRIES_A_LOOK: u32 = 256;

/// The annealing's standing equipment.
pub(super) struct Annealer<'a, 'b> {
    pub(super) board: &'a mut Board<'b>,
    pub(super) dice: &'a mut Dice,
    pub(super) waits: &'a Waits,
    pub(super) prices: Prices,
    pub(super) least_prices: Prices,
}

impl Annealer<'_, '_> {
    /// Runs one schedule from the board as it is. `look` is called often and may end the search.
    pub(super) fn run(
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
        while done < schedule.work {
            for _ in 0..TRIES_A_LOOK {
                self.step(temperature, best);
            }
            self.reprice();
            done = self.board.work - start;
            let thousandth = (done * 1000) / schedule.work.max(1);
            while cooled_to < thousandth.min(1000) {
                temperature *= factor;
                cooled_to += 1;
            }
            look(best, self.board.work)?;
        }
        ControlFlow::Continue(())
    }

    fn step(&mut self, temperature: f64, best: &mut Best) {
        self.board.work += 1;
        if !propose(self.board, self.dice) {
            return;
        }
        let Some(sums) = self.board.try_staged() else {
            return;
        };
        let loss = sums.priced(&self.prices) - self.board.sums.priced(&self.prices);
        let wait = if loss <= 0.0 {
            0.0
        } else {
            self.waits.draw(self.dice)
        };
        if loss <= temperature * wait {
            self.board.keep(sums);
            best.offer(self.board);
        } else {
            self.board.take_back();
        }
    }

    /// Raises the price of rules that stand broken and lowers the others.
    fn reprice(&mut self) {
        let Sums {
            rest_missing,
            cover_missing,
            stay_over,
            faults,
            ..
        } = self.board.sums;
        let is_broken = |missing: f64| faults > 0 && missing > 1e-6;
        let least = &self.least_prices;
        let adapt = |price: &mut f64, broken: bool, least: f64| {
            *price = (*price * if broken { 1.04 } else { 0.97 }).clamp(least, least * 1e7);
        };
        adapt(&mut self.prices.rest, is_broken(rest_missing), least.rest);
        adapt(
            &mut self.prices.cover,
            is_broken(cover_missing),
            least.cover,
        );
        adapt(&mut self.prices.stay, is_broken(stay_over), least.stay);
    }
}
