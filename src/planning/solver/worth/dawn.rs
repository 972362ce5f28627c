//! The worths of one strip on one morning, reckoned from those of later mornings for all its levels at once.
//!
//! Steps of a morning lead to steps of later ones, all equally far, so that most is done without looking anything up. Covers
//! kg DM/ha, worths score.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, day, row or level whose lengths made the lists"
)]
#![expect(
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_sign_loss,
    reason = "levels and shifts are held within a few times the number of levels"
)]

use super::levels::{Levels, MOST_LEVELS, Row, Spot};
use super::{BEGUN, ENDED, FREE, LONGEST_TOLD, NEVER, Rows, Taker, between, read, row_of};
use crate::farm::GrowthShape;
use crate::planning::solver::ground::Ground;
use crate::planning::solver::strip_days::{Grazing, IdleDays, greater, lesser};

/// A strip on a morning, with the worths of all later ones.
pub(super) struct Dawn<'a> {
    ground: &'a Ground,
    levels: &'a Levels,
    strip: usize,
    day: usize,
    covers: Row,
    later: &'a [Rows],
}

/// Where a day of grazing by one mob leads from each level.
struct Grazed {
    pays: f64,
    /// With less than this the mob grazes down to the least cover; all that do so lead to one spot.
    enough: f64,
    at_leave: Spot,
    costs_at_leave: Row,
    /// All other levels lead between the levels so far above them and those one further, equally near.
    shift: i32,
    share: f64,
    /// But for these and those above, which lead to the ceiling or are no steps.
    first_odd: usize,
}

impl<'a> Dawn<'a> {
    /// The morning of `day`, of which `later` holds the worths of all that follow.
    pub(super) fn new(
        ground: &'a Ground,
        levels: &'a Levels,
        (strip, day): (usize, usize),
        later: &'a [Rows],
    ) -> Self {
        Self {
            ground,
            levels,
            strip,
            day,
            covers: levels.covers(day),
            later,
        }
    }

    /// What idle days until `to` lose, with the worth of the strip that is free after them.
    pub(super) fn waited(&self, to: usize) -> Row {
        let free = &self.later[to - self.day - 1];
        let (now, then) = (self.levels.on(self.day), self.levels.on(to));
        let idle = IdleDays::of(self.ground, self.strip, self.day, to);
        if self.ground.growth_shape == GrowthShape::Logistic {
            return self.covers.map(|cover| {
                let (grown, lost) = idle.wait(cover);
                lost + read(&free[FREE], self.levels.read(to, grown))
            });
        }
        // So many steps lead to steps; all other levels reach the ceiling.
        let shift = (now.first - then.first).clamp(0, MOST_LEVELS as i32);
        let n_moved = then.n_steps.saturating_sub(shift as usize).min(now.n_steps);
        let moved = window(free, FREE, shift);
        let at_ceiling = free[FREE][then.n_steps];
        let mut waited = *moved;
        if idle.has_closed() {
            let full = waited.iter_mut().zip(&self.covers).skip(n_moved);
            for (waited, &cover) in full {
                *waited = at_ceiling + idle.wait(cover).1;
            }
            return waited;
        }
        let lost_weight = self.ground.strips[self.strip].lost_weight;
        let room = self.levels.ceiling - idle.growth;
        for level in 0..MOST_LEVELS {
            let full = at_ceiling + lost_weight * (self.covers[level] - room);
            waited[level] = if level < n_moved { moved[level] } else { full };
        }
        waited
    }

    /// Lowers the worths of the first days of a spell to what they come to if this mob grazes today.
    pub(super) fn graze(&self, taker: &Taker, rows: &mut Rows, n_told: usize) {
        let grazed = self.grazed(taker);
        let then = &self.later[0];
        let ended = lean(then, ENDED, &grazed);
        let ended_at_leave = read(&then[ENDED], grazed.at_leave);
        for told in 0..n_told {
            let next = row_after(told);
            let goes_on = lean(then, next, &grazed);
            let at_leave = lesser(ended_at_leave, read(&then[next], grazed.at_leave));
            let row = &mut rows[row_of(told)];
            for level in 0..MOST_LEVELS {
                let well = lesser(ended[level], goes_on[level]) - grazed.pays;
                let well = if level < grazed.first_odd {
                    well
                } else {
                    NEVER
                };
                let poor = at_leave + grazed.costs_at_leave[level];
                let is_poor = self.covers[level] < grazed.enough;
                row[level] = lesser(row[level], if is_poor { poor } else { well });
            }
        }
        for level in grazed.first_odd..=self.levels.on(self.day).n_steps {
            if self.covers[level] >= grazed.enough {
                self.graze_odd(level, taker, rows, n_told);
            }
        }
    }

    fn grazed(&self, taker: &Taker) -> Grazed {
        let fixed = &self.ground.strips[self.strip];
        let grazing = Grazing::of(self.ground, self.strip, self.day);
        let (now, next) = (self.levels.on(self.day), self.levels.on(self.day + 1));
        let demand = taker.demand * fixed.one_over_area;
        let fall = demand * self.levels.one_over_step + f64::from(next.first - now.first);
        // Down to the next whole step, by way of a figure above 0, which takes fewer steps than rounding.
        let most = MOST_LEVELS as i32 - 1;
        let whole = (greater(fall, f64::from(-most)) + f64::from(most)) as i32 - most;
        let whole = whole.min(most);
        let (leave_grown, cost) = grazing.grazed(fixed.leave, taker.demand);
        let cost = cost + grazing.short_weight * fixed.leave - taker.pays;
        Grazed {
            pays: taker.pays,
            enough: fixed.leave + demand,
            at_leave: self.levels.read(self.day + 1, leave_grown),
            costs_at_leave: self.covers.map(|cover| cost - grazing.short_weight * cover),
            shift: -whole - 1,
            share: 1.0 - (fall - f64::from(whole)),
            first_odd: match self.ground.growth_shape {
                GrowthShape::Capped => {
                    (next.n_steps as i32 + whole).clamp(0, now.n_steps as i32) as usize
                }
                GrowthShape::Logistic => 0,
            },
        }
    }

    /// The same for one level that leads where others do not.
    fn graze_odd(&self, level: usize, taker: &Taker, rows: &mut Rows, n_told: usize) {
        let grazing = Grazing::of(self.ground, self.strip, self.day);
        let (grown, cost) = grazing.grazed(self.covers[level], taker.demand);
        let spot = self.levels.read(self.day + 1, grown);
        let then = &self.later[0];
        let ended = read(&then[ENDED], spot);
        for told in 0..n_told {
            let goes_on = read(&then[row_after(told)], spot);
            let worth = &mut rows[row_of(told)][level];
            *worth = lesser(*worth, cost - taker.pays + lesser(ended, goes_on));
        }
    }

    /// Lowers the worth of a free strip to what it comes to if a spell begins, where its cover allows it.
    pub(super) fn let_begin(&self, rows: &mut Rows) {
        let arrival = if self.day > 0 {
            self.levels.arrival
        } else {
            0.0
        };
        let enter = self.ground.strips[self.strip].enter;
        let begun = rows[BEGUN].map(|begun| begun + arrival);
        let free = rows[FREE].iter_mut().zip(begun);
        for ((free, begun), &cover) in free.zip(&self.covers) {
            *free = if cover >= enter {
                lesser(*free, begun)
            } else {
                *free
            };
        }
    }
}

/// The row of a spell that goes on after so many days and one.
fn row_after(told: usize) -> usize {
    row_of((told + 1).min(LONGEST_TOLD - 1))
}

/// The worths of a row where grazing leads from each step.
fn lean(rows: &Rows, row: usize, grazed: &Grazed) -> Row {
    let below = window(rows, row, grazed.shift);
    let above = window(rows, row, grazed.shift + 1);
    let mut worths = [0.0; MOST_LEVELS];
    for level in 0..MOST_LEVELS {
        worths[level] = between(below[level], above[level], grazed.share);
    }
    worths
}

/// A row read from so many levels further on. What lies beyond it is of other rows, and means nothing.
fn window(rows: &Rows, row: usize, shift: i32) -> &Row {
    let at = (row * MOST_LEVELS) as i32 + shift;
    let worths = rows.as_flattened().get(at.max(0) as usize..);
    worths
        .and_then(|worths| worths.first_chunk())
        .unwrap_or(&NOWHERE)
}

/// Worths of a row that is not there.
const NOWHERE: Row = [NEVER; MOST_LEVELS];

#[cfg(test)]
#[expect(
    clippy::unwrap_used,
    clippy::cast_precision_loss,
    reason = "a test stops where its own season is wrong, and draws small figures"
)]
mod tests {
    use super::*;
    use crate::planning::contradictions::plainest_stands;
    use crate::planning::problem::{DaySpan, Problem, ProblemMob, ProblemStrip, Step, Weights};
    use crate::planning::season::Season;
    use crate::planning::solver::random::Dice;
    use crate::quantity::Day;

    /// A season of one mob and one strip, with figures drawn by the dice.
    fn season(dice: &mut Dice) -> Season {
        let day = |n: i64| Day::new(2027, 4, 1).unwrap().plus_days(n);
        let mut draw =
            |low: u32, high: u32| f64::from(low) + dice.below((high - low) as usize + 1) as f64;
        let growth = |from: i64, value: f64| Step {
            from: day(from),
            value,
        };
        let leave = draw(1300, 1800);
        let problem = Problem {
            first_day: day(0),
            days: 40,
            growth: vec![growth(0, draw(0, 140)), growth(7, draw(0, 140))],
            growth_shape: GrowthShape::Capped,
            rest_days: vec![growth(0, draw(5, 25))],
            longest_stay_days: 3,
            strips: vec![ProblemStrip {
                name: "A1".to_owned(),
                area_ha: draw(10, 60) / 100.0,
                cover: leave + draw(0, 1500),
                leave,
                enter: None,
                ceiling: leave + draw(700, 2400),
                growth_factor: draw(50, 130) / 100.0,
                at: [30.0, 40.0],
                rested_days: None,
                stood_days: None,
                end_cover: None,
                rest_owed_days: None,
                closed: vec![DaySpan {
                    first: day(12),
                    last: day(15),
                }],
            }],
            mobs: vec![ProblemMob {
                name: "ewes".to_owned(),
                visits: vec![DaySpan {
                    first: day(0),
                    last: day(39),
                }],
                stood: None,
                demand: vec![growth(0, draw(10, 400))],
                yard: [0.0, 0.0],
            }],
            fixed: Vec::new(),
            weights: Weights::default(),
        };
        Season::compile(&problem).unwrap()
    }

    #[test]
    fn a_morning_reckoned_at_once_is_as_each_level_by_itself() {
        let mut dice = Dice::new(1);
        for _ in 0..300 {
            let season = season(&mut dice);
            let ground = Ground::new(&season, &plainest_stands(&season).unwrap());
            let levels = Levels::of(&ground, 0);
            let drawn = |dice: &mut Dice| dice.below(1_000_000) as f64 / 1000.0;
            let later: Vec<Rows> = (0..40)
                .map(|_| [0; 8].map(|_| [0; MOST_LEVELS].map(|_| drawn(&mut dice))))
                .collect();
            let day = dice.below(12);
            let dawn = Dawn::new(&ground, &levels, (0, day), &later);
            let taker = Taker {
                demand: ground.demand[day],
                pays: drawn(&mut dice),
            };
            let mut rows = [[NEVER; MOST_LEVELS]; 8];
            dawn.graze(&taker, &mut rows, 3);
            let to = day + 1 + dice.below(20);
            let waited = dawn.waited(to);
            for level in 0..=levels.on(day).n_steps {
                let cover = dawn.covers[level];
                if cover < ground.strips[0].leave {
                    continue;
                }
                let mut alone = [[NEVER; MOST_LEVELS]; 8];
                dawn.graze_odd(level, &taker, &mut alone, 3);
                for row in [BEGUN, row_of(1), row_of(2)] {
                    assert!((rows[row][level] - alone[row][level]).abs() < 1e-6);
                }
                let (grown, lost) = IdleDays::of(&ground, 0, day, to).wait(cover);
                let spot = levels.read(to, grown);
                let wanted = lost + read(&later[to - day - 1][FREE], spot);
                assert!((waited[level] - wanted).abs() < 1e-6, "{waited:?} {wanted}");
            }
        }
    }
}
