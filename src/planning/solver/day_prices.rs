//! Prices of mob-days: what a place to graze is worth to a mob on a day, found by letting strips bid for days.
//!
//! Each free mob-day should be taken by exactly one strip or spent in the yard. Strips choose in turn the days that pay them
//! best; a day taken falls in price at once, and all days rise a little, so that days nobody takes grow dear. (An
//! incremental subgradient method; from memory: Nedić and Bertsekas, "Incremental subgradient methods for nondifferentiable
//! optimization", SIAM Journal on Optimization 12, 2001.) Prices are score.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip or mob-day whose lengths made the lists"
)]
#![expect(
    clippy::cast_precision_loss,
    reason = "counts of strips stay far below 2^53"
)]

use super::random::Dice;
use super::worth::Worth;

/// The prices as they are and as they were on average.
pub(super) struct DayPrices {
    now: Vec<f64>,
    average: Vec<f64>,
    /// Hay of each free mob-day, which no price passes.
    hay: Vec<f64>,
    rounds: u32,
    order: Vec<usize>,
    taken: Vec<usize>,
}

/// The first price of a mob-day, as a share of its hay.
const FIRST_SHARE: f64 = 0.1;
/// The first step of a price, as a share of the hay.
const FIRST_STEP: f64 = 0.8;
/// Rounds after which the step is half the first.
const ROUNDS_TO_HALVE: f64 = 3.0;
/// How much of the newest prices goes into the average in a round.
const BLEND: f64 = 0.3;

impl DayPrices {
    pub(super) fn new(worth: &Worth<'_>) -> Self {
        let ground = worth.ground;
        let hay = |(&demand, &free): (&f64, &bool)| {
            if free {
                ground.short_weight * demand
            } else {
                0.0
            }
        };
        let hay: Vec<f64> = ground.demand.iter().zip(&ground.free).map(hay).collect();
        let first: Vec<f64> = hay.iter().map(|hay| FIRST_SHARE * hay).collect();
        Self {
            now: first.clone(),
            average: first,
            hay,
            rounds: 0,
            order: (0..ground.n_strips).collect(),
            taken: Vec::new(),
        }
    }

    /// Lets every strip choose once, in an order drawn by the dice.
    pub(super) fn round(&mut self, worth: &mut Worth<'_>, dice: &mut Dice) {
        for last in (1..self.order.len()).rev() {
            self.order.swap(last, dice.below(last + 1));
        }
        let step = FIRST_STEP / (1.0 + f64::from(self.rounds) / ROUNDS_TO_HALVE);
        self.rounds += 1;
        for index in 0..self.order.len() {
            self.let_choose(self.order[index], worth, step);
        }
        let cells = self.order.len() * self.hay.len();
        worth.work += u64::try_from(cells / 8).unwrap_or(0);
    }

    fn let_choose(&mut self, strip: usize, worth: &mut Worth<'_>, step: f64) {
        let n_strips = self.order.len() as f64;
        worth.fill(strip, &self.now);
        self.taken.clear();
        worth.follow(strip, &self.now, |cell| self.taken.push(cell));
        for &cell in &self.taken {
            self.now[cell] -= step * self.hay[cell];
        }
        let prices = self.now.iter_mut().zip(&mut self.average);
        for ((now, average), hay) in prices.zip(&self.hay) {
            *now = (*now + step / n_strips * hay).min(*hay);
            *average += BLEND / n_strips * (*now - *average);
        }
    }

    /// The average prices, by mob and day.
    pub(super) fn average(&self) -> &[f64] {
        &self.average
    }

    /// Reckons all worths at the average prices.
    pub(super) fn settle(&self, worth: &mut Worth<'_>) {
        for strip in 0..self.order.len() {
            worth.fill(strip, &self.average);
        }
    }
}
