//! Legal plans that differ, kept for the annealing to start from.
//!
//! Knows scores alone: plans of one score are taken for the same.

use super::anneal::Best;
use super::board::Board;

/// Plans kept, at most; a power of two, since they are halved again and again.
const MOST_PLANS: usize = 16;

/// The best plan so far, and those that are worth going on from.
pub(super) struct Pool {
    pub(super) best: Best,
    /// By score, the best first.
    plans: Vec<Best>,
}

impl Pool {
    /// A pool of one plan.
    pub(super) fn new(first: Best) -> Self {
        Self {
            plans: vec![first.clone()],
            best: first,
        }
    }

    /// Keeps the board's plan if it is legal and among the best.
    pub(super) fn add(&mut self, board: &Board<'_>) {
        if !board.sums.is_legal() {
            return;
        }
        let score = board.sums.score;
        let at = self.place_of(score);
        if self.is_known(at, score) || at >= MOST_PLANS {
            return;
        }
        let plan = Best {
            places: board.places.clone(),
            score,
        };
        self.offer(&plan);
        self.plans.insert(at, plan);
        self.plans.truncate(MOST_PLANS);
    }

    /// Takes in the best plans of another pool, its share where so many fill this one.
    pub(super) fn take_in(&mut self, other: Self, n_pools: u64) {
        self.offer(&other.best);
        let share = usize::try_from(n_pools).map_or(1, |n_pools| MOST_PLANS / n_pools.max(1));
        for plan in other.plans.into_iter().take(share) {
            let at = self.place_of(plan.score);
            if !self.is_known(at, plan.score) {
                self.plans.insert(at, plan);
            }
        }
        self.plans.truncate(MOST_PLANS);
    }

    /// Where a plan of this score belongs.
    fn place_of(&self, score: f64) -> usize {
        self.plans.partition_point(|plan| plan.score < score - 1e-9)
    }

    /// Whether the plan there has this score too.
    fn is_known(&self, at: usize, score: f64) -> bool {
        let plan = self.plans.get(at);
        plan.is_some_and(|plan| plan.score < score + 1e-9)
    }

    /// Takes a plan for the best if it is.
    pub(super) fn offer(&mut self, plan: &Best) {
        if plan.score < self.best.score - 1e-9 {
            self.best.clone_from(plan);
        }
    }

    /// Hands out the plans, the best first.
    pub(super) fn take_plans(&mut self) -> Vec<Best> {
        std::mem::take(&mut self.plans)
    }
}
