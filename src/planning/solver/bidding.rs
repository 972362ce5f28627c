//! Prices of mob-days as the search's own bidding finds them, for whoever wants to know what days are worth.
//!
//! The bound starts from them: good prices are most of a good bound. Prices are score; nothing is proven here.

use super::day_prices::DayPrices;
use super::ground::Ground;
use super::places_of;
use super::random::Dice;
use super::worth::{Worth, is_small_enough};
use crate::planning::contradictions::plainest_stands;
use crate::planning::season::Season;

/// Strip-days times rounds of a bidding, at most and at least as many rounds as that comes to.
const WANTED_STRIP_DAYS: usize = 1_500_000;
const LEAST_ROUNDS: usize = 60;
const MOST_ROUNDS: usize = 300;
/// Seed of the order in which strips bid.
const SEED: u64 = 1;

/// What prices were asked for came to.
pub(in crate::planning) enum Bidding {
    /// Prices by mob and day.
    Done(Vec<Vec<f64>>),
    /// `goes_on` said no.
    GivenUp,
    /// The season is too large for it, or its fixed days contradict each other.
    CannotBe,
}

/// Lets the strips of a season bid for mob-days until their prices hardly move. `goes_on` is asked before each round.
pub(in crate::planning) fn bid(season: &Season, goes_on: &dyn Fn() -> bool) -> Bidding {
    let Ok(plainest) = plainest_stands(season) else {
        return Bidding::CannotBe;
    };
    let ground = Ground::new(season, &plainest);
    if !is_small_enough(&ground) || ground.n_strips == 0 || ground.free_list.is_empty() {
        return Bidding::CannotBe;
    }
    let mut worth = Worth::new(&ground, &places_of(&ground, &plainest));
    let mut prices = DayPrices::new(&worth);
    let mut dice = Dice::new(SEED);
    let strip_days = ground.n_strips * ground.n_days;
    let rounds = (WANTED_STRIP_DAYS / strip_days).clamp(LEAST_ROUNDS, MOST_ROUNDS);
    for _ in 0..rounds {
        if !goes_on() {
            return Bidding::GivenUp;
        }
        prices.round(&mut worth, &mut dice);
    }
    let days = prices.average().chunks(season.n_days);
    Bidding::Done(days.map(<[f64]>::to_vec).collect())
}
