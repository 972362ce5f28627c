//! The covers that are told apart on each strip: steps that grow with the sward, and its ceiling.
//!
//! Since the steps grow as the sward does, idle days lead from step to step, and only grazing is read between two of them.
//! Logistic growth has no such steps: there they stand still. Covers kg DM/ha.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a day or level whose length made the lists"
)]
#![expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "levels and days are small counts, held at or above 0"
)]

use crate::farm::GrowthShape;
use crate::planning::solver::ground::{Ground, place_number};
use crate::planning::solver::strip_days::{greater, lesser};

/// Steps from the lowest cover to the ceiling.
const N_STEPS: usize = 7;
/// Levels of a day, at most: the steps from below the lowest cover to the ceiling, and the ceiling.
pub(super) const MOST_LEVELS: usize = N_STEPS + 3;

/// A figure for each level; those beyond the ceiling mean nothing.
pub(super) type Row = [f64; MOST_LEVELS];

/// The levels of one strip.
pub(super) struct Levels {
    pub(super) ceiling: f64,
    pub(super) one_over_step: f64,
    step: f64,
    days: Vec<DayLevels>,
    /// The least score of walking there from another place.
    pub(super) arrival: f64,
}

/// The levels of a strip on one morning.
#[derive(Debug, Clone, Copy)]
pub(super) struct DayLevels {
    /// Cover of the first step, at or below the lowest there may be.
    lowest: f64,
    /// The number of the first step among those of the whole season.
    pub(super) first: i32,
    /// How many steps there are; the ceiling is a level more.
    pub(super) n_steps: usize,
    one_over_top_gap: f64,
}

/// A cover between two levels.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Spot {
    /// The level below, never the last.
    pub(super) level: usize,
    /// How near the cover is to the one above.
    pub(super) share: f64,
}

impl Levels {
    /// The levels of the strip of this index.
    pub(super) fn of(ground: &Ground, strip: usize) -> Self {
        let fixed = &ground.strips[strip];
        let lowest = fixed.leave.min(fixed.cover);
        let ceiling = fixed.ceiling.max(lowest + 1.0);
        let step = (ceiling - lowest) / N_STEPS as f64;
        let day_levels = |day: usize| {
            let drift = match ground.growth_shape {
                GrowthShape::Capped => fixed.factor * ground.grown[day],
                GrowthShape::Logistic => 0.0,
            };
            let first = ((lowest - drift) / step).floor();
            // A hair below the ceiling, so that no step falls together with it.
            let last = ((ceiling - drift) / step - 1e-6).floor();
            DayLevels {
                lowest: drift + first * step,
                // Growth beyond all measure must not run out of numbers.
                first: first.max(-1e9) as i32,
                n_steps: (last - first) as usize + 1,
                one_over_top_gap: 1.0 / (ceiling - drift - last * step),
            }
        };
        Self {
            ceiling,
            one_over_step: 1.0 / step,
            step,
            days: (0..=ground.n_days).map(day_levels).collect(),
            arrival: arrival(ground, strip),
        }
    }

    /// The levels of a morning.
    pub(super) fn on(&self, day: usize) -> &DayLevels {
        &self.days[day]
    }

    /// The cover of each level of a morning.
    pub(super) fn covers(&self, day: usize) -> Row {
        let levels = self.on(day);
        let mut covers = [0.0; MOST_LEVELS];
        for (level, cover) in covers.iter_mut().enumerate() {
            *cover = levels.lowest + level as f64 * self.step;
        }
        covers[levels.n_steps] = self.ceiling;
        covers
    }

    /// Where a cover lies among the levels of a morning.
    pub(super) fn read(&self, day: usize, cover: f64) -> Spot {
        let levels = self.on(day);
        let height = greater((cover - levels.lowest) * self.one_over_step, 0.0);
        // By way of the narrower type, which takes fewer steps from a figure.
        let level = height as u32 as usize;
        if level + 1 < levels.n_steps {
            return Spot {
                level,
                share: height - level as f64,
            };
        }
        let level = levels.n_steps - 1;
        let above = cover - (levels.lowest + level as f64 * self.step);
        Spot {
            level,
            share: lesser(greater(above, 0.0) * levels.one_over_top_gap, 1.0),
        }
    }
}

fn arrival(ground: &Ground, strip: usize) -> f64 {
    let place = place_number(strip);
    let mut arrival = f64::INFINITY;
    for mob in 0..ground.n_mobs {
        arrival = arrival.min(ground.walk_score(mob, ground.yard, place));
        if ground.n_strips > 1 {
            let nearest = ground.near[strip * ground.n_near];
            arrival = arrival.min(ground.walk_score(mob, nearest, place));
        }
    }
    arrival
}
