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
    /// How breaches are priced.
    pub(super) pricing: Pricing,
}

/// How the prices of breaches follow what stands broken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Pricing {
    /// Towards this many breaches of each rule at first, and fewer and fewer as the run goes on.
    Wanted {
        /// Breaches of each rule.
        breaches: f64,
    },
    /// Up while a rule is broken and down while it is kept: the plan is shaken again and again.
    Swinging,
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

/// Tries between two looks at temperature and prices, while prices swing.
const SWING_TRIES: u64 = 256;
/// Looks in a run towards wanted breaches, so that prices have the time to settle whatever the effort.
const LOOKS: u64 = 2000;
/// Among so many tries one gives several stays their strips anew at once, which takes about as long as fifty.
const TRIES_PER_ASSIGNMENT: usize = 200;
/// Work of one try, about.
const WORK_OF_TRY: u64 = 30;

/// The annealing's standing equipment.
pub(super) struct Annealer<'a, 'b> {
    pub(super) board: &'a mut Board<'b>,
    pub(super) dice: &'a mut Dice,
    pub(super) waits: &'a Waits,
    pub(super) prices: Prices,
    pub(super) least_prices: Prices,
}

impl Annealer<'_, '_> {
    /// Runs one schedule from the best plan.
    pub(super) fn run_from_best(
        &mut self,
        schedule: &Schedule,
        best: &mut Best,
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
        let tries = match schedule.pricing {
            Pricing::Swinging => SWING_TRIES,
            Pricing::Wanted { .. } => (schedule.work / WORK_OF_TRY / LOOKS).clamp(4, 512),
        };
        while done < schedule.work {
            for _ in 0..tries {
                self.step(temperature, best);
            }
            done = self.board.work - start;
            self.reprice(&schedule.pricing, share(done, schedule.work));
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
        self.board.work += 4;
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

    /// Raises the price of rules that are broken more often than wanted and lowers the others.
    fn reprice(&mut self, pricing: &Pricing, progress: f64) {
        let sums = &self.board.sums;
        let factor = |broken: i64| match pricing {
            Pricing::Swinging if broken > 0 => 1.04,
            Pricing::Swinging => 0.97,
            Pricing::Wanted { breaches } => {
                let left = 1.0 - progress;
                let wanted = breaches * left * left * left + LAST_BREACHES;
                let excess = (as_figure(broken) - wanted) / wanted.max(1.0);
                1.0 + PRICE_STEP * excess.clamp(-1.0, 2.0)
            }
        };
        let least = &self.least_prices;
        let adapt = |price: &mut f64, broken: i64, least: f64| {
            *price = (*price * factor(broken)).clamp(least, least * MOST_PRICE);
        };
        adapt(&mut self.prices.rest, sums.rest_faults, least.rest);
        adapt(&mut self.prices.cover, sums.cover_faults, least.cover);
        adapt(&mut self.prices.stay, sums.stay_faults, least.stay);
    }
}

/// Breaches of each rule wanted at the end of a cooling: legal plans about six times in seven.
const LAST_BREACHES: f64 = 0.15;
/// How far a price moves at one look, relative.
const PRICE_STEP: f64 = 0.02;
/// Highest price, relative to the least.
const MOST_PRICE: f64 = 1e7;

#[expect(
    clippy::cast_precision_loss,
    reason = "counts of breaches stay far below 2^53"
)]
fn as_figure(count: i64) -> f64 {
    count as f64
}

#[expect(clippy::cast_precision_loss, reason = "a share needs no last digits")]
fn share(done: u64, of: u64) -> f64 {
    (done as f64 / of.max(1) as f64).min(1.0)
}
