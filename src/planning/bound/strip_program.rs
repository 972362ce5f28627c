//! The least that one strip can come to at given prices: a dynamic programme over days and cover in steps.
//!
//! Days run backwards. On each morning the strip is either at leave (a spell may begin) or on a further day of a spell.
//! Covers are steps that move with growth, and the ceiling; covers between steps are rounded up at the discount that the
//! bound's header proves. Masses kg DM/ha inside, values in score.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob, day or step of this program, whose lengths made the lists"
)]
#![expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "steps and days are small counts, held at or above 0"
)]

mod growing;

use super::super::season::{Place, Season, SeasonStrip, distance_m};

/// Spells longer than this are not counted on: from here a spell may go on for ever, which only lowers the bound.
const MOST_SPELL_DAYS: usize = 8;

/// One strip at some prices.
pub(super) struct StripProgram<'a> {
    season: &'a Season,
    strip: &'a SeasonStrip,
    prices: &'a [Vec<f64>],
    step: f64,
    ceiling: f64,
    lowest: f64,
    /// Growth summed before each day, kg/ha.
    grown: Vec<f64>,
    /// The same of open days only.
    grown_open: Vec<f64>,
    /// Score of a kg/ha lost.
    lost_weight: f64,
    /// Score of a kg/ha of demand not met.
    short_weight: f64,
    /// Free mobs and their demand, kg/ha, by day.
    choices: Vec<Vec<(usize, f64)>>,
    /// What is fixed on this strip, by day.
    forced: Vec<Option<Forced>>,
    /// The next forced day at or after each day, or the season's end.
    next_forced: Vec<usize>,
    arrival: f64,
    n_spell: usize,
    /// Values by day, then by spell day (0: at leave), then by step; the last step is the ceiling.
    values: Vec<Vec<Vec<f64>>>,
    /// The number of the first step of each day.
    first_step: Vec<i64>,
}

/// A day on which somebody is fixed on the strip.
#[derive(Clone, Copy)]
struct Forced {
    /// Demand of all who are, kg/ha.
    demand: f64,
    /// A lived day breaks no rule: whatever it breaks is a fact.
    is_lived: bool,
}

/// What a strip does on a day.
#[derive(Clone, Copy)]
struct Act {
    value: f64,
    mob: Option<usize>,
    next: Next,
}

/// Where an act leads: day, spell day (0: at leave), step.
#[derive(Clone, Copy)]
struct Next {
    day: usize,
    spell: usize,
    index: usize,
    /// What rounding up discounts.
    value: f64,
}

impl<'a> StripProgram<'a> {
    pub(super) fn new(
        season: &'a Season,
        index: usize,
        free: &[Vec<bool>],
        prices: &'a [Vec<f64>],
        step: f64,
    ) -> Self {
        let strip = &season.strips[index];
        let n_days = season.n_days;
        let starts_high = strip.cover > strip.ceiling;
        let ceiling = strip.ceiling.max(strip.cover);
        let mut grown = vec![0.0];
        let mut grown_open = vec![0.0];
        for day in 0..n_days {
            let growth = season.growth[day] * strip.growth_factor;
            grown.push(grown[day] + growth);
            grown_open.push(grown_open[day] + if strip.closed[day] { 0.0 } else { growth });
        }
        let choices = (0..n_days).map(|day| {
            let mobs = (0..season.mobs.len()).filter(|&mob| free[mob][day] && !strip.closed[day]);
            mobs.map(|mob| (mob, season.mobs[mob].demand[day] / strip.area))
                .collect()
        });
        let mut forced = vec![None; n_days];
        for fixed in season
            .fixed
            .iter()
            .filter(|fixed| fixed.place == Place::Strip(index))
        {
            let day = usize::try_from(fixed.day).unwrap_or(usize::MAX);
            if let Some(forced) = forced.get_mut(day) {
                let before = forced.map_or(0.0, |forced: Forced| forced.demand);
                *forced = Some(Forced {
                    demand: before + season.mobs[fixed.mob].demand[day] / strip.area,
                    is_lived: fixed.lived || forced.is_some_and(|forced| forced.is_lived),
                });
            }
        }
        let mut next_forced = vec![n_days; n_days + 1];
        for day in (0..n_days).rev() {
            next_forced[day] = if forced[day].is_some() {
                day
            } else {
                next_forced[day + 1]
            };
        }
        Self {
            season,
            strip,
            prices,
            step,
            ceiling,
            lowest: strip.leave.min(strip.cover),
            grown,
            grown_open,
            lost_weight: if starts_high {
                0.0
            } else {
                season.weights.lost * strip.area
            },
            short_weight: season.weights.short * strip.area,
            choices: choices.collect(),
            forced,
            next_forced,
            arrival: arrival_score(season, index),
            n_spell: season.longest_stay.min(MOST_SPELL_DAYS),
            values: Vec::new(),
            first_step: Vec::new(),
        }
    }

    /// The least value from day 0, after telling `took` each mob-day that the strip takes for it.
    pub(super) fn solve(mut self, mut took: impl FnMut(usize, usize)) -> f64 {
        self.lay_steps();
        for day in (0..self.season.n_days).rev() {
            for index in 0..self.values[day][0].len() {
                self.value_step(day, index);
            }
        }
        let start = self.start();
        let mut at = start;
        while at.day < self.season.n_days && at.value.is_finite() {
            let act = self.act(at.day, at.spell, at.index);
            if let Some(mob) = act.mob {
                took(mob, at.day);
            }
            at = act.next;
        }
        start.value
    }

    /// The values of one step on every day of a spell. What a mob-day costs and what ending there leads to is the same
    /// for all of them, so it is reckoned once.
    fn value_step(&mut self, day: usize, index: usize) {
        let cover = self.cover(day, index);
        if let Some(forced) = self.forced[day] {
            for spell in 0..=self.n_spell {
                self.values[day][spell][index] = self.forced_act(day, spell, cover, forced).value;
            }
            return;
        }
        let mut least = [f64::INFINITY; MOST_SPELL_DAYS + 1];
        for &(mob, demand) in &self.choices[day] {
            let (grown, cost) = self.graze(day, cover, demand);
            let cost = cost - self.prices[mob][day];
            let ended = self.ended(day, grown).value;
            let (step, discount) = self.step_above(day + 1, grown);
            for (spell, least) in least.iter_mut().enumerate().take(self.n_spell + 1).skip(1) {
                let value = match self.goes_on(day, spell) {
                    Some(next) => ended.min(self.values[day + 1][next][step] - discount),
                    None => ended,
                };
                *least = least.min(cost + value);
            }
        }
        let mut at_leave = self.idle_until(day, cover, day + 1).value;
        if self.may_enter(cover) {
            at_leave = at_leave.min(least[1] + self.arrival_on(day));
        }
        least[0] = at_leave;
        for (values, value) in self.values[day].iter_mut().zip(least) {
            values[index] = value;
        }
    }

    fn may_enter(&self, cover: f64) -> bool {
        cover >= self.strip.enter * (1.0 - 1e-9)
    }

    fn arrival_on(&self, day: usize) -> f64 {
        if day > 0 { self.arrival } else { 0.0 }
    }

    /// Lays out the steps of each day and the values after the last.
    fn lay_steps(&mut self) {
        let n_days = self.season.n_days;
        for day in 0..=n_days {
            let first = ((self.lowest - self.grown[day]) / self.step).floor() as i64;
            let last = ((self.ceiling - self.grown[day]) / self.step).floor() as i64;
            let n_steps = usize::try_from(last - first + 1).unwrap_or(0);
            self.first_step.push(first);
            self.values
                .push(vec![vec![f64::INFINITY; n_steps + 1]; self.n_spell + 1]);
        }
        for index in 0..self.values[n_days][0].len() {
            let cover = self.cover(n_days, index);
            let missing = self
                .strip
                .end_cover
                .map_or(0.0, |wanted| (wanted - cover).max(0.0));
            let value = self.season.weights.bare * self.strip.area * missing;
            for spell in 0..=self.n_spell {
                self.values[n_days][spell][index] = value;
            }
        }
    }

    /// The cover of a step; the last one is the ceiling.
    fn cover(&self, day: usize, index: usize) -> f64 {
        if index + 1 >= self.values[day][0].len() {
            return self.ceiling;
        }
        let number = self.first_step[day] + i64::try_from(index).unwrap_or(0);
        number as f64 * self.step + self.grown[day]
    }

    /// The step at or above a cover on a morning, and what rounding up to it discounts.
    fn step_above(&self, day: usize, cover: f64) -> (usize, f64) {
        let top = self.values[day][0].len() - 1;
        let number = ((cover - self.grown[day]) / self.step - 1e-9).ceil();
        let index = (number - self.first_step[day] as f64).max(0.0);
        let index = if index >= top as f64 {
            top
        } else {
            // By way of the narrower type, which takes fewer steps from a figure.
            index as u32 as usize
        };
        let discount = self.lost_weight * (self.cover(day, index) - cover).max(0.0);
        (index, discount)
    }

    /// The value of a morning with any cover.
    fn look_up(&self, day: usize, spell: usize, cover: f64) -> Next {
        let (index, discount) = self.step_above(day, cover);
        Next {
            day,
            spell,
            index,
            value: self.values[day][spell][index] - discount,
        }
    }

    /// Where the season begins: a spell that runs on, or the wait until the former rest is over.
    fn start(&self) -> Next {
        let first = match self.strip.former {
            Some(former) => (former.owed - former.rested as f64).ceil().max(0.0),
            None => 0.0,
        };
        let waiting = self.rest_until(0, self.strip.cover, first as usize);
        let stood = self.strip.stood_days;
        let is_lived = self.forced[0].is_some_and(|forced| forced.is_lived);
        if stood > 0 && (stood < self.season.longest_stay || is_lived) {
            let running = self.look_up(0, (stood + 1).min(self.n_spell), self.strip.cover);
            if running.value < waiting.value {
                return running;
            }
        }
        waiting
    }

    /// The best act of a morning.
    fn act(&self, day: usize, spell: usize, index: usize) -> Act {
        let cover = self.cover(day, index);
        if let Some(forced) = self.forced[day] {
            return self.forced_act(day, spell, cover, forced);
        }
        let mut best = self.never();
        if spell == 0 {
            let next = self.idle_until(day, cover, day + 1);
            best = Act {
                value: next.value,
                mob: None,
                next,
            };
            if !self.may_enter(cover) {
                return best;
            }
        }
        let arrival = if spell == 0 {
            self.arrival_on(day)
        } else {
            0.0
        };
        for &(mob, demand) in &self.choices[day] {
            let (grown, cost) = self.graze(day, cover, demand);
            let cost = cost + arrival - self.prices[mob][day];
            let next = self.after(day, spell.max(1), grown);
            if cost + next.value < best.value {
                best = Act {
                    value: cost + next.value,
                    mob: Some(mob),
                    next,
                };
            }
        }
        best
    }

    /// A fixed day: the strip is grazed so, as a day of its spell.
    fn forced_act(&self, day: usize, spell: usize, cover: f64, forced: Forced) -> Act {
        if spell == 0 && !forced.is_lived && !self.may_enter(cover) {
            return self.never();
        }
        let (grown, cost) = self.graze(day, cover, forced.demand);
        let arrival = if spell == 0 {
            self.arrival_on(day)
        } else {
            0.0
        };
        let next = self.after(day, spell.max(1), grown);
        Act {
            value: cost + arrival + next.value,
            mob: None,
            next,
        }
    }

    /// What cannot be.
    fn never(&self) -> Act {
        Act {
            value: f64::INFINITY,
            mob: None,
            next: self.nowhere(),
        }
    }

    fn nowhere(&self) -> Next {
        Next {
            day: self.season.n_days,
            spell: 0,
            index: 0,
            value: f64::INFINITY,
        }
    }

    /// After a day of a spell: it goes on, or ends and the rest is given.
    fn after(&self, day: usize, spell: usize, cover: f64) -> Next {
        let ended = self.ended(day, cover);
        let Some(next) = self.goes_on(day, spell) else {
            return ended;
        };
        let running = self.look_up(day + 1, next, cover);
        if running.value < ended.value {
            running
        } else {
            ended
        }
    }

    /// The next day of a spell, if it may go on; onto a lived day it always may.
    fn goes_on(&self, day: usize, spell: usize) -> Option<usize> {
        if spell < self.n_spell {
            return Some(spell + 1);
        }
        let tomorrow = self.forced.get(day + 1).copied().flatten();
        let may = self.season.longest_stay > self.n_spell
            || tomorrow.is_some_and(|tomorrow| tomorrow.is_lived);
        may.then_some(self.n_spell)
    }
}

/// The least score of walking to a strip from anywhere else.
fn arrival_score(season: &Season, index: usize) -> f64 {
    let at = season.strips[index].at;
    let others = season
        .strips
        .iter()
        .enumerate()
        .filter(|(other, _)| *other != index);
    let spots = others
        .map(|(_, strip)| strip.at)
        .chain(season.mobs.iter().map(|mob| mob.yard));
    let nearest = spots
        .map(|spot| distance_m(at, spot))
        .fold(f64::INFINITY, f64::min);
    let nearest = if nearest.is_finite() { nearest } else { 0.0 };
    season.weights.walk_per_m * nearest + season.weights.move_each
}
