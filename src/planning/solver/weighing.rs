//! Weighs small changes of a finished plan: what standing elsewhere for some days would lose, if the rules allow it.
//!
//! Uses the search's quick reckoning, so that a whole season of alternatives is weighed in an instant. Score in kg DM.

use std::ops::Range;

use super::super::contradictions::plainest_stands;
use super::super::season::{Place, Season};
use super::board::Board;
use super::ground::Ground;
use super::strip_sum::Prices;

/// A season laid out for weighing.
#[derive(Debug, Clone)]
pub(in crate::planning) struct WeighingGround(Ground);

impl WeighingGround {
    /// Lays out a season; nothing where its fixed days contradict each other.
    pub(in crate::planning) fn new(season: &Season) -> Option<Self> {
        let plainest = plainest_stands(season).ok()?;
        Some(Self(Ground::new(season, &plainest)))
    }
}

/// A plan whose changes are weighed.
pub(in crate::planning) struct Weighing<'a> {
    board: Board<'a>,
}

impl<'a> Weighing<'a> {
    /// Weighs changes of these stands.
    pub(in crate::planning) fn new(ground: &'a WeighingGround, stands: &[Vec<Place>]) -> Self {
        let places: Vec<u16> = stands
            .iter()
            .flatten()
            .map(|&place| ground.0.number_of(place))
            .collect();
        Self {
            board: Board::new(&ground.0, &places),
        }
    }

    /// What the plan would lose if a mob stood there on these days instead, all else as planned; below 0 where it would
    /// gain. Nothing where that breaks a rule or a fixed day.
    pub(in crate::planning) fn loss(
        &mut self,
        mob: usize,
        days: Range<usize>,
        place: Place,
    ) -> Option<f64> {
        let ground = self.board.ground;
        let number = ground.number_of(place);
        self.board.clear_staged();
        let row = mob * ground.n_days;
        let cells = ground.free.get(row + days.start..row + days.end)?;
        if !cells.iter().all(|&free| free) {
            return None;
        }
        self.board.stage(mob, days.start, days.end, number);
        let before = self.board.sums.score;
        let sums = self.board.try_staged(&Prices::NONE, f64::INFINITY)?;
        self.board.take_back();
        sums.is_legal().then_some(sums.score - before)
    }
}
