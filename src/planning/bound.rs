//! A proven lower bound on the score of every plan of a season.
//!
//! Why it holds:
//! 1. *Prices.* Each free day of a mob is spent on exactly one strip or in the yard. Take any price for each mob-day, pay it
//!    out once for the day, and give it to whichever strip the mob stands on: a plan's score does not change. So the sum of
//!    (a) every price or, where less, the hay of a day in the yard, (b) for each strip by itself the least that its own
//!    score less the prices earned can be, and (c) the hay of days fixed in the yard, is not above the score of any plan.
//!    The prices decide only how near it comes.
//! 2. *Strips by themselves* may choose mobs freely day by day: that one mob cannot be on two strips is forgotten. Each
//!    strip keeps R2 to R5; what lived days break is forgiven, as everywhere.
//! 3. *Walks.* A spell begins with a mob that walks there from somewhere else, at least from the nearest other place; all
//!    other walks are forgotten. On day 0 nothing is charged.
//! 4. *Cover in steps.* Let V(c) be the least that a strip can come to from a morning with cover c. Whoever has cover c + d
//!    can do as with c: every cover is at least as high, no entry is refused, no short day grows; of the extra d kg/ha each
//!    part is eaten, kept or lost once, so at most d is lost more. Hence V(c + d) <= V(c) + lost weight * area * d, and
//!    V(c) >= V(c + d) - lost weight * area * d: cover may be rounded up to the next step at that discount.
//!    Steps move with growth, so idle days need no rounding; only grazing does. A strip that starts above its ceiling has
//!    its ceiling raised to its cover and its lost growth forgotten, which only lowers V.
//! 5. *Rounding of sums* is covered by taking one part in a million off the result.
//!
//! The climb starts from the prices at which the search lets strips bid for mob-days, which is most of the way.
//!
//! Known as Lagrangian relaxation (from memory: Held and Karp, "The traveling-salesman problem and minimum spanning trees:
//! Part II", Mathematical Programming 1, 1971, for the climbing of prices). Score in kg DM.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]

mod strip_program;

use crate::farm::GrowthShape;

use super::contradictions::free_days;
use super::season::{Place, Season};
use super::solver::{Bidding, bid};
use strip_program::StripProgram;

/// How much work a bound may take: stages of bettering the prices, each with its rounds and its cover step in kg DM/ha, and
/// the cover step of the bound itself.
#[derive(Debug, Clone, PartialEq)]
pub struct BoundOptions {
    /// Rounds and cover step of each stage.
    pub stages: Vec<(u32, f64)>,
    /// Cover step of the bound itself, kg DM/ha.
    pub last_step: f64,
}

impl Default for BoundOptions {
    fn default() -> Self {
        Self {
            stages: vec![(60, 25.0), (30, 6.0)],
            last_step: 1.5,
        }
    }
}

/// A lower bound on the score of every plan; 0 where growth is not capped, for which nothing is proven here. `known_score` is
/// that of any plan, and steers the prices only. `goes_on` is asked before each strip is reckoned, and nothing is given once
/// it says no.
pub fn lower_bound(
    season: &Season,
    known_score: f64,
    options: &BoundOptions,
    goes_on: &dyn Fn() -> bool,
) -> Option<f64> {
    if season.growth_shape != GrowthShape::Capped {
        return Some(0.0);
    }
    let mut climb = Climb {
        season,
        free: free_days(season),
        known_score,
        goes_on,
        best: (f64::NEG_INFINITY, Vec::new()),
    };
    let first = options.stages.first().map_or(25.0, |(_, step)| *step);
    climb.first_prices(first)?;
    let mut bound = climb.best.0;
    for &(rounds, step) in &options.stages {
        climb.stage(rounds, step)?;
        bound = bound.max(climb.best.0);
    }
    let last = climb.round(&climb.best.1, options.last_step)?;
    bound = bound.max(last.bound);
    // Nothing in a score is below zero, so zero is always a bound.
    Some((bound - 1e-6 * (1.0 + bound.abs())).max(0.0))
}

/// The search for good prices.
struct Climb<'a> {
    season: &'a Season,
    free: Vec<Vec<bool>>,
    known_score: f64,
    goes_on: &'a dyn Fn() -> bool,
    /// The best bound of this stage, and its prices.
    best: (f64, Vec<Vec<f64>>),
}

impl Climb<'_> {
    /// Starts from the prices that strips bid; where they cannot, from the best of some plain prices, each a share of the
    /// day's hay.
    fn first_prices(&mut self, step: f64) -> Option<()> {
        match bid(self.season, self.goes_on) {
            Bidding::Done(prices) => {
                self.best = (self.round(&prices, step)?.bound, prices);
                return Some(());
            }
            Bidding::GivenUp => return None,
            Bidding::CannotBe => {}
        }
        for share in [0.01, 0.03, 0.1, 0.3, 0.7, 1.0] {
            let hay = |demand: &f64| share * self.season.weights.short * demand;
            let mobs = self.season.mobs.iter();
            let prices: Vec<Vec<f64>> = mobs
                .map(|mob| mob.demand.iter().map(hay).collect())
                .collect();
            let bound = self.round(&prices, step)?.bound;
            if bound > self.best.0 {
                self.best = (bound, prices);
            }
        }
        Some(())
    }

    /// Betters the prices with covers in these steps.
    fn stage(&mut self, rounds: u32, step: f64) -> Option<()> {
        let mut prices = self.best.1.clone();
        // Bounds with other steps do not compare.
        self.best.0 = f64::NEG_INFINITY;
        let mut course = vec![vec![0.0; self.season.n_days]; self.season.mobs.len()];
        let mut pace = 0.3;
        let mut since_better = 0;
        for _ in 0..rounds {
            let round = self.round(&prices, step)?;
            if !round.bound.is_finite() {
                break;
            }
            since_better += 1;
            if round.bound > self.best.0 {
                self.best = (round.bound, prices.clone());
                since_better = 0;
            } else if since_better == 8 {
                pace *= 0.6;
                since_better = 0;
                prices.clone_from(&self.best.1);
            }
            // Going on partly as before keeps the prices from swinging to and fro.
            let mut square = 0.0;
            for (course, unmet) in course
                .iter_mut()
                .flatten()
                .zip(round.unmet.iter().flatten())
            {
                *course = *unmet + 0.8 * *course;
                square += *course * *course;
            }
            if square <= 0.0 {
                break;
            }
            let least_gap = (1e-3 * self.known_score.abs()).max(1e-6);
            let gap = (self.known_score - round.bound).max(least_gap);
            for (price, course) in prices.iter_mut().flatten().zip(course.iter().flatten()) {
                *price += pace * gap / square * course;
            }
        }
        Some(())
    }

    /// The bound at some prices.
    fn round(&self, prices: &[Vec<f64>], step: f64) -> Option<PriceRound> {
        let season = self.season;
        let mut unmet = vec![vec![0.0; season.n_days]; season.mobs.len()];
        let mut bound = yard_fixed_score(season);
        for (mob, days) in self.free.iter().enumerate() {
            for day in (0..season.n_days).filter(|&day| days[day]) {
                let hay = season.weights.short * season.mobs[mob].demand[day];
                let price = prices[mob][day];
                bound += price.min(hay);
                unmet[mob][day] = if hay < price { 0.0 } else { 1.0 };
            }
        }
        for strip in 0..season.strips.len() {
            if !(self.goes_on)() {
                return None;
            }
            let program = StripProgram::new(season, strip, &self.free, prices, step);
            bound += program.solve(|mob, day| unmet[mob][day] -= 1.0);
            // A strip that no plan could keep proves nothing: such a season is refused elsewhere.
            if !bound.is_finite() {
                bound = f64::NEG_INFINITY;
                break;
            }
        }
        Some(PriceRound { bound, unmet })
    }
}

/// The bound at some prices, and by how much each mob-day is wanted: 1 where nobody took it, below 0 where several did.
struct PriceRound {
    bound: f64,
    unmet: Vec<Vec<f64>>,
}

/// Hay of days fixed in the yard.
fn yard_fixed_score(season: &Season) -> f64 {
    let hay = |fixed: &super::season::SeasonFixed| {
        let day = usize::try_from(fixed.day).ok();
        let demand = day.and_then(|day| season.mobs[fixed.mob].demand.get(day));
        season.weights.short * demand.copied().unwrap_or(0.0)
    };
    let in_yard = season
        .fixed
        .iter()
        .filter(|fixed| fixed.place == Place::Yard);
    in_yard.map(hay).sum()
}
