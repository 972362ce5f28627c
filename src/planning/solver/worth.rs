//! What each strip's mornings are worth while mob-days have prices: a dynamic programme over days and cover, strip by strip.
//!
//! A strip is paid the price of every mob-day that it takes. Its worth on a morning is the least that its own score less
//! what it is paid can come to from there on; below zero where it will still be of use. Covers between levels are read by
//! straight lines, so nothing is proven here: the figures only guide. Covers kg DM/ha, worths score.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob, day or level whose lengths made the lists"
)]
#![expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "levels and days are small counts, held at or above 0"
)]

mod follow;

use super::ground::{Ground, place_number};
use super::strip_sum::{idle, is_closed};
use crate::farm::GrowthShape;

/// Worths of one level: of standing on, as the first to the sixth day of a spell; just ended; at rest and free to begin.
type Row = [f64; 8];

/// Spells of more days than this are told as if they were so long.
const LONGEST_TOLD: usize = 6;
/// The place in a row of a strip whose spell ended yesterday.
const ENDED: usize = 6;
/// The place in a row of a strip that is free.
const FREE: usize = 7;
/// Where a row tells of the spell day after each.
const NEXT: [usize; 8] = [1, 2, 3, 4, 5, 5, ENDED, ENDED];
/// The worth of what cannot be.
const NEVER: f64 = 1e12;
/// Covers told apart on each strip.
const N_LEVELS: usize = 8;

/// The worths of all strips.
pub(super) struct Worth<'a> {
    pub(super) ground: &'a Ground,
    strips: Vec<Levels>,
    /// By strip, then day, then level.
    rows: Vec<Row>,
    /// The mob that is fixed on each strip on each day, plus 1; 0 for none.
    held_by: Vec<u8>,
    /// The days on which somebody is fixed on each strip, as bits, `n_words` to a strip.
    held: Vec<u64>,
    /// Work done.
    pub(super) work: u64,
}

/// The levels of one strip.
struct Levels {
    lowest: f64,
    step: f64,
    one_over_step: f64,
    /// The least score of walking there from another place.
    arrival: f64,
}

impl<'a> Worth<'a> {
    pub(super) fn new(ground: &'a Ground, plainest: &[u16]) -> Self {
        let n_strips = ground.n_strips;
        let mut held_by = vec![0; n_strips * ground.n_days];
        let mut held = vec![0; n_strips * ground.n_words];
        for (cell, &place) in plainest.iter().enumerate() {
            let (strip, day) = (usize::from(place), cell % ground.n_days);
            if strip < n_strips {
                let mob = u8::try_from(cell / ground.n_days + 1).unwrap_or(u8::MAX);
                held_by[strip * ground.n_days + day] = mob;
                held[strip * ground.n_words + day / 64] |= 1 << (day % 64);
            }
        }
        Self {
            ground,
            strips: (0..n_strips).map(|strip| levels(ground, strip)).collect(),
            rows: vec![[0.0; 8]; n_strips * (ground.n_days + 1) * N_LEVELS],
            held_by,
            held,
            work: 0,
        }
    }

    fn first_row(&self, strip: usize, day: usize) -> usize {
        (strip * (self.ground.n_days + 1) + day) * N_LEVELS
    }

    /// The two rows about a cover, and how near it is to the upper one.
    fn rows_about(&self, strip: usize, day: usize, cover: f64) -> (&Row, &Row, f64) {
        let levels = &self.strips[strip];
        let height = ((cover - levels.lowest) * levels.one_over_step).max(0.0);
        let level = (height as usize).min(N_LEVELS - 2);
        let share = (height - level as f64).min(1.0);
        let at = self.first_row(strip, day) + level;
        (&self.rows[at], &self.rows[at + 1], share)
    }

    /// The days on which somebody is fixed on a strip, as bits.
    pub(super) fn held_row(&self, strip: usize) -> &[u64] {
        let words = strip * self.ground.n_words;
        &self.held[words..words + self.ground.n_words]
    }

    /// The worth of a morning at rest, free to be stood on.
    pub(super) fn free(&self, strip: usize, day: usize, cover: f64) -> f64 {
        let (below, above, share) = self.rows_about(strip, day, cover);
        between(below[FREE], above[FREE], share)
    }

    /// The worth of the morning after a spell's last day, with all that is lost until its rest is over.
    pub(super) fn ended(&self, strip: usize, day: usize, cover: f64) -> f64 {
        let (below, above, share) = self.rows_about(strip, day, cover);
        between(below[ENDED], above[ENDED], share)
    }

    /// The worth of the morning after the `length`-th day of a spell, which may go on or end.
    pub(super) fn stood(&self, strip: usize, day: usize, length: usize, cover: f64) -> f64 {
        let (below, above, share) = self.rows_about(strip, day, cover);
        let ended = between(below[ENDED], above[ENDED], share);
        if length >= self.ground.longest {
            return ended;
        }
        let told = length.min(LONGEST_TOLD - 1);
        lesser(ended, between(below[told], above[told], share))
    }

    /// Reckons a strip's worths anew at these prices.
    pub(super) fn fill(&mut self, strip: usize, prices: &[f64]) {
        let ground = self.ground;
        let fixed = &ground.strips[strip];
        let at = self.first_row(strip, ground.n_days);
        for level in 0..N_LEVELS {
            let missing = (fixed.end_cover - self.cover(strip, level)).max(0.0);
            let mut row = [(fixed.bare_weight * missing); 8];
            self.bar_long_spells(&mut row);
            self.rows[at + level] = row;
        }
        for day in (0..ground.n_days).rev() {
            self.fill_day(strip, day, prices);
        }
        self.work += work_of_fill(ground);
    }

    fn cover(&self, strip: usize, level: usize) -> f64 {
        self.strips[strip].lowest + level as f64 * self.strips[strip].step
    }

    /// A spell may not go on past the longest stay.
    fn bar_long_spells(&self, row: &mut Row) {
        for worth in row.iter_mut().take(LONGEST_TOLD).skip(self.ground.longest) {
            *worth = NEVER;
        }
    }

    fn fill_day(&mut self, strip: usize, day: usize, prices: &[f64]) {
        let ground = self.ground;
        let enter = ground.strips[strip].enter;
        let is_held = self.held_by[strip * ground.n_days + day] > 0;
        let may_stand = is_held || !is_closed(ground, strip, day);
        let release = (day + rest_owed(ground, strip, day)).min(ground.n_days);
        let arrival = if day > 0 {
            self.strips[strip].arrival
        } else {
            0.0
        };
        let at = self.first_row(strip, day);
        for level in 0..N_LEVELS {
            let cover = self.cover(strip, level);
            let mut row = [NEVER; 8];
            if may_stand {
                for mob in self.choices(strip, day) {
                    self.stand_with(strip, day, mob, cover, prices, &mut row);
                }
            }
            if is_held {
                row = [row[0]; 8];
            } else {
                let begun = row[0] + arrival;
                self.bar_long_spells(&mut row);
                let (grown, lost) = wait(ground, strip, cover, day, day + 1);
                row[FREE] = lost + self.free(strip, day + 1, grown);
                if cover >= enter {
                    row[FREE] = lesser(row[FREE], begun);
                }
                row[ENDED] = row[FREE];
                if release > day {
                    let (grown, lost) = wait(ground, strip, cover, day, release);
                    row[ENDED] = lost + self.free(strip, release, grown);
                }
            }
            self.rows[at + level] = row;
        }
    }

    /// The mobs that may take a strip on a day: whoever is fixed there, or all that are free.
    fn choices(&self, strip: usize, day: usize) -> std::ops::Range<usize> {
        match usize::from(self.held_by[strip * self.ground.n_days + day]) {
            0 => 0..self.ground.n_mobs,
            held => held - 1..held.min(self.ground.n_mobs),
        }
    }

    /// Lowers the worths of standing to what it comes to with a mob.
    fn stand_with(
        &self,
        strip: usize,
        day: usize,
        mob: usize,
        cover: f64,
        prices: &[f64],
        stand: &mut Row,
    ) {
        let cell = mob * self.ground.n_days + day;
        let is_held = self.held_by[strip * self.ground.n_days + day] > 0;
        if !is_held && !self.ground.free[cell] {
            return;
        }
        let (grown, cost) = grazed_day(self.ground, strip, day, cover, self.ground.demand[cell]);
        let cost = cost - if is_held { 0.0 } else { prices[cell] };
        let (below, above, share) = self.rows_about(strip, day + 1, grown);
        let ended = between(below[ENDED], above[ENDED], share);
        for (worth, &next) in stand.iter_mut().zip(&NEXT) {
            let goes_on = between(below[next], above[next], share);
            *worth = lesser(*worth, cost + lesser(ended, goes_on));
        }
    }
}

/// Work of reckoning one strip's worths.
pub(super) fn work_of_fill(ground: &Ground) -> u64 {
    let cells = ground.n_days * N_LEVELS * (1 + ground.n_mobs);
    u64::try_from(cells * work_of_growth(ground)).unwrap_or(u64::MAX)
}

/// What growing a strip takes, against the growth that takes least.
pub(super) fn work_of_growth(ground: &Ground) -> usize {
    match ground.growth_shape {
        GrowthShape::Capped => 1,
        GrowthShape::Logistic => 2,
    }
}

/// Whether the worths of a season are few enough to be held.
pub(super) fn is_small_enough(ground: &Ground) -> bool {
    ground.n_strips * ground.n_days <= MOST_STRIP_DAYS
}

/// Strips times days whose worths are held: some fifty megabytes.
const MOST_STRIP_DAYS: usize = 200_000;

/// The lesser of two worths, neither of which is ever undefined.
fn lesser(one: f64, other: f64) -> f64 {
    if one < other { one } else { other }
}

fn between(below: f64, above: f64, share: f64) -> f64 {
    below + share * (above - below)
}

fn levels(ground: &Ground, strip: usize) -> Levels {
    let fixed = &ground.strips[strip];
    let lowest = fixed.leave.min(fixed.cover);
    let highest = fixed.ceiling.max(fixed.cover).max(lowest + 1.0);
    let step = (highest - lowest) / (N_LEVELS - 1) as f64;
    let place = place_number(strip);
    let mut arrival = f64::INFINITY;
    for mob in 0..ground.n_mobs {
        arrival = arrival.min(ground.walk_score(mob, ground.yard, place));
        if ground.n_strips > 1 {
            let nearest = ground.near[strip * ground.n_near];
            arrival = arrival.min(ground.walk_score(mob, nearest, place));
        }
    }
    Levels {
        lowest,
        step,
        one_over_step: 1.0 / step,
        arrival,
    }
}

/// Days of rest owed on a morning by a spell that ended yesterday.
pub(super) fn rest_owed(ground: &Ground, strip: usize, day: usize) -> usize {
    let owed = match day.checked_sub(1) {
        Some(last) => ground.rest[last],
        None => ground.strips[strip].former_owed,
    };
    owed.ceil().max(0.0) as usize
}

/// The first day on which a strip that nobody stands on has had its rest.
pub(super) fn first_free_day(ground: &Ground, strip: usize) -> usize {
    let fixed = &ground.strips[strip];
    let rested = -1 - fixed.former_last.max(-1_000_000);
    let missing = (fixed.former_owed - rested as f64).ceil().max(0.0);
    (missing as usize).min(ground.n_days)
}

/// The cover after days on which nobody stands there, and the score of what is lost on them.
pub(super) fn wait(
    ground: &Ground,
    strip: usize,
    cover: f64,
    from: usize,
    to: usize,
) -> (f64, f64) {
    let fixed = &ground.strips[strip];
    let (mut grown, mut lost) = (cover, 0.0);
    idle(ground, fixed, &mut grown, &mut lost, from, to);
    (grown, fixed.lost_weight * lost)
}

/// The cover on the morning after a grazed day, and the score of what is short and lost on it.
pub(super) fn grazed_day(
    ground: &Ground,
    strip: usize,
    day: usize,
    cover: f64,
    demand: f64,
) -> (f64, f64) {
    let fixed = &ground.strips[strip];
    let demand = demand * fixed.one_over_area;
    let grazed = (cover - demand).max(cover.min(fixed.leave));
    let short = demand - (cover - grazed);
    let growth = ground.growth[day] * fixed.factor;
    let grown = ground.growth_shape.grown(grazed, growth, fixed.ceiling);
    let mut cost = ground.short_weight * fixed.area * short;
    if !is_closed(ground, strip, day) {
        cost += fixed.lost_weight * ground.growth_shape.lost(grazed, growth, fixed.ceiling);
    }
    (grown, cost)
}
