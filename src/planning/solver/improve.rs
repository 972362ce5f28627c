//! Betters plans by annealing: many differing plans for a short while each, then the better half of them for twice as
//! long, and so on to the last one; the best plan met is polished.
//!
//! A short run tells well enough which plans are worth a long one, and plans that differ from the start lead where no
//! single run comes (successive halving; from memory: Jamieson and Talwalkar, "Non-stochastic best arm identification
//! and hyperparameter optimization", AISTATS 2016). Counts its work.

use std::ops::ControlFlow;

use super::anneal::{Annealer, Best, Schedule};
use super::board::Board;
use super::ground::Ground;
use super::pool::Pool;
use super::random::{Dice, Waits, nth_root};
use super::strip_sum::Prices;

/// Work for each free mob-day from which on a run is as hot as any, and beyond which it becomes several runs.
const WORK_OF_MOB_DAY: u64 = 125_000;
/// Work for each free mob-day below which a run tells too little of its plan.
const LEAST_WORK_OF_MOB_DAY: u64 = 3_000;
/// Runs after each other from one plan, at most.
const MOST_REHEATS: u64 = 8;
/// First and last temperature of a long run, in units of the scale.
const HOT: f64 = 0.05;
const COLD: f64 = 0.001;
/// A short run ends at least this much colder than it begins.
const LEAST_COOLING: f64 = 0.3;
/// First temperature of the polish, in units of the scale.
const POLISH_HOT: f64 = 0.03;
/// What part of the work is kept for the polish.
const POLISH_SHARE: u64 = 10;

/// Betters the plans of a pool until the effort is spent or `look` ends it.
pub(super) fn improve(
    board: &mut Board<'_>,
    scale: &Scale,
    (effort, seed): (u64, u64),
    pool: &mut Pool,
    look: &mut dyn FnMut(&Best, u64) -> ControlFlow<()>,
) -> ControlFlow<()> {
    let mob_days = u64::try_from(board.ground.free_list.len()).unwrap_or(u64::MAX);
    let polish_work = effort / POLISH_SHARE;
    let mut plans = pool.take_plans();
    let stages = Stages::of(effort - polish_work, mob_days, plans.len());
    let mut dice = Dice::new(seed);
    let waits = Waits::new();
    let mut annealer = Annealer {
        board,
        dice: &mut dice,
        waits: &waits,
        prices: scale.first_prices,
        least_prices: scale.least_prices,
    };
    for stage in 0..stages.count {
        let (n_plans, work) = stages.plans_and_work(stage);
        plans.truncate(n_plans);
        let (n_reheats, schedule) = reheating(scale, work, mob_days);
        for plan in &mut plans {
            for _ in 0..n_reheats {
                annealer.prices = scale.first_prices;
                better(&mut annealer, &schedule, plan, pool, look)?;
            }
        }
        plans.sort_by(|a, b| a.score.total_cmp(&b.score));
    }
    let mut best = pool.best.clone();
    better(
        &mut annealer,
        &polish(scale, polish_work),
        &mut best,
        pool,
        look,
    )
}

/// One run from a plan, of which the pool's best plan learns.
fn better(
    annealer: &mut Annealer<'_, '_>,
    schedule: &Schedule,
    plan: &mut Best,
    pool: &mut Pool,
    look: &mut dyn FnMut(&Best, u64) -> ControlFlow<()>,
) -> ControlFlow<()> {
    let best = &pool.best;
    let mut look_at_better = |plan: &Best, work| {
        let is_best = plan.score < best.score;
        look(if is_best { plan } else { best }, work)
    };
    let end = annealer.run_from(plan, schedule, &mut look_at_better);
    pool.offer(plan);
    end
}

/// How the work is spread: every stage has the same, and half as many plans as the stage before.
struct Stages {
    count: u32,
    work_of_each: u64,
}

impl Stages {
    /// As many plans at first as there are and as the work allows.
    fn of(work: u64, mob_days: u64, n_plans: usize) -> Self {
        let least = LEAST_WORK_OF_MOB_DAY.saturating_mul(mob_days);
        let mut count = n_plans.max(1).ilog2() + 1;
        while count > 1 && (work / u64::from(count)) >> (count - 1) < least {
            count -= 1;
        }
        Self {
            count,
            work_of_each: work / u64::from(count),
        }
    }

    /// The plans of a stage and the work for each of them.
    fn plans_and_work(&self, stage: u32) -> (usize, u64) {
        let halvings = self.count - 1 - stage;
        (1 << halvings, self.work_of_each >> halvings)
    }
}

/// How often and how a plan is reheated with so much work: the shorter, the less hot, since what is undone must be
/// found again.
fn reheating(scale: &Scale, work: u64, mob_days: u64) -> (u64, Schedule) {
    let long = WORK_OF_MOB_DAY.saturating_mul(mob_days).max(1);
    let n_reheats = (work / long).clamp(1, MOST_REHEATS);
    let hot = HOT * nth_root(share(work, long), 3.0);
    let schedule = Schedule {
        hot: hot * scale.unit,
        cold: COLD.min(LEAST_COOLING * hot) * scale.unit,
        work: work / n_reheats,
    };
    (n_reheats, schedule)
}

fn polish(scale: &Scale, work: u64) -> Schedule {
    Schedule {
        hot: POLISH_HOT * scale.unit,
        cold: COLD * scale.unit,
        work,
    }
}

#[expect(clippy::cast_precision_loss, reason = "a share needs no last digits")]
fn share(part: u64, of: u64) -> f64 {
    (part as f64 / of as f64).min(1.0)
}

/// How large the figures of a season are, so that temperatures and prices fit it.
pub(super) struct Scale {
    /// Score of a typical change.
    unit: f64,
    /// Prices of breaches at which a run begins: so dear that the plan it starts from is not torn up at once.
    first_prices: Prices,
    least_prices: Prices,
}

/// The first price of a breach, relative to the least.
const FIRST_PRICE: f64 = 250.0;

impl Scale {
    #[expect(clippy::cast_precision_loss, reason = "day counts stay far below 2^53")]
    pub(super) fn of(ground: &Ground, first_score: f64) -> Self {
        let mob_days = ground.free_list.len() as f64;
        let demand: f64 = ground.demand.iter().sum();
        let short_weight = ground.short_weight.max(1e-3);
        let daily = short_weight * (demand / mob_days).max(1e-3);
        let prices = |factor: f64| Prices {
            rest: 0.02 * daily * factor,
            cover: 0.05 * short_weight * factor,
            stay: 0.05 * daily * factor,
        };
        Self {
            // Where a plan meets nearly all demand, its changes are about walks and lost growth, which count less.
            unit: daily.min(10.0 * first_score / mob_days).max(1e-6),
            first_prices: prices(FIRST_PRICE),
            least_prices: prices(1.0),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Stages;

    #[test]
    fn every_stage_has_half_the_plans_and_no_more_than_its_share_of_the_work() {
        for (work, n_plans) in [(72_000_000, 16), (72_000_000, 5), (1_000_000, 16), (10, 0)] {
            let stages = Stages::of(work, 160, n_plans);
            let (mut sum, mut before) = (0, usize::MAX);
            for stage in 0..stages.count {
                let (plans, work_of_each) = stages.plans_and_work(stage);
                assert!(plans <= n_plans.max(1) && plans < before);
                before = plans;
                sum += u64::try_from(plans).unwrap_or(0) * work_of_each;
            }
            assert_eq!(before, 1, "the last stage betters one plan");
            assert!(sum <= work && sum + 64 > work, "{sum} of {work}");
        }
    }
}
