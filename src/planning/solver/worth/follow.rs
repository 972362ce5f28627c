//! The course that pays a strip best at the prices of its worths, followed day by day from the season's beginning.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]

use super::Worth;
use crate::planning::solver::strip_days::{first_free_day, grazed_day, rest_owed, wait};
use crate::planning::solver::strip_sum::is_closed;

/// A strip on a morning of its course.
#[derive(Debug, Clone, Copy)]
struct Morning {
    day: usize,
    cover: f64,
    /// Length of the spell that ran until yesterday, days.
    length: usize,
}

/// What a strip may do next.
#[derive(Debug, Clone, Copy)]
struct Act {
    value: f64,
    then: Morning,
    /// The free mob-day that it takes.
    taken: Option<usize>,
}

impl Worth<'_> {
    /// Follows the best course of a strip at prices, and tells each mob-day that it takes.
    pub(in crate::planning::solver) fn follow(
        &self,
        strip: usize,
        prices: &[f64],
        mut took: impl FnMut(usize),
    ) {
        let ground = self.ground;
        let fixed = &ground.strips[strip];
        let mut at = Morning {
            day: 0,
            cover: fixed.cover,
            length: fixed.stood,
        };
        if at.length == 0 {
            at.day = first_free_day(ground, strip);
            (at.cover, _) = wait(ground, strip, at.cover, 0, at.day);
        }
        while at.day < ground.n_days {
            let act = self.best_act(strip, &at, prices);
            if let Some(cell) = act.taken {
                took(cell);
            }
            at = act.then;
        }
    }

    fn best_act(&self, strip: usize, at: &Morning, prices: &[f64]) -> Act {
        let ground = self.ground;
        let is_held = self.held_by[strip * ground.n_days + at.day] > 0;
        let mut best = self.leave(strip, at);
        if is_held {
            best.value = f64::INFINITY;
        } else if !self.may_stand(strip, at) {
            return best;
        }
        for mob in self.choices(strip, at.day) {
            let cell = mob * ground.n_days + at.day;
            if !is_held && !ground.free[cell] {
                continue;
            }
            let demand = ground.demand[cell];
            let (cover, mut value) = grazed_day(ground, strip, at.day, at.cover, demand);
            if !is_held {
                value -= prices[cell];
            }
            if at.length == 0 && at.day > 0 {
                value += self.strips[strip].arrival;
            }
            let then = Morning {
                day: at.day + 1,
                cover,
                length: at.length + 1,
            };
            value += self.stood(strip, then.day, then.length, cover);
            if value < best.value {
                let taken = (!is_held).then_some(cell);
                best = Act { value, then, taken };
            }
        }
        best
    }

    fn may_stand(&self, strip: usize, at: &Morning) -> bool {
        let ground = self.ground;
        let may_go_on = if at.length == 0 {
            at.cover >= ground.strips[strip].enter
        } else {
            at.length < ground.longest
        };
        may_go_on && !is_closed(ground, strip, at.day)
    }

    /// Nobody stands there today, nor while a spell that so ends is owed rest.
    fn leave(&self, strip: usize, at: &Morning) -> Act {
        let ground = self.ground;
        let idle_days = if at.length > 0 {
            rest_owed(ground, strip, at.day).max(1)
        } else {
            1
        };
        let day = (at.day + idle_days).min(ground.n_days);
        let (cover, lost) = wait(ground, strip, at.cover, at.day, day);
        let then = Morning {
            day,
            cover,
            length: 0,
        };
        Act {
            value: lost + self.free(strip, day, cover),
            then,
            taken: None,
        }
    }
}
