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
use super::strip_days::{Grazing, IdleDays, greater, lesser, rest_owed};
use super::strip_sum::is_closed;
use crate::farm::GrowthShape;

/// Worths of one level: of standing on, as the first to the sixth day of a spell; just ended; at rest and free to begin.
type Row = [f64; 8];

/// Spells of more days than this are told as if they were so long.
const LONGEST_TOLD: usize = 6;
/// The place in a row of a strip whose spell ended yesterday.
const ENDED: usize = 6;
/// The place in a row of a strip that is free.
const FREE: usize = 7;
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
    /// Room for the mobs that may take a strip on a day.
    takers: Vec<Taker>,
}

/// A mob that may take a strip on a day.
struct Taker {
    demand: f64,
    /// What the strip is paid for it, score.
    pays: f64,
}

/// The levels of one strip.
struct Levels {
    lowest: f64,
    covers: [f64; N_LEVELS],
    one_over_step: f64,
    /// The least score of walking there from another place.
    arrival: f64,
}

impl Levels {
    /// The level below a cover, never the last, and how near the cover is to the one above.
    fn about(&self, cover: f64) -> (usize, f64) {
        let height = greater((cover - self.lowest) * self.one_over_step, 0.0);
        // By way of the narrower type, which takes fewer steps from a figure.
        let level = (height as u32 as usize).min(N_LEVELS - 2);
        (level, lesser(height - level as f64, 1.0))
    }
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
            takers: Vec::new(),
        }
    }

    fn first_row(&self, strip: usize, day: usize) -> usize {
        (strip * (self.ground.n_days + 1) + day) * N_LEVELS
    }

    /// The two rows about a cover, and how near it is to the upper one.
    fn rows_about(&self, strip: usize, day: usize, cover: f64) -> (&Row, &Row, f64) {
        let (level, share) = self.strips[strip].about(cover);
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
            let missing = (fixed.end_cover - self.strips[strip].covers[level]).max(0.0);
            let mut row = [(fixed.bare_weight * missing); 8];
            self.bar_long_spells(&mut row);
            self.rows[at + level] = row;
        }
        for day in (0..ground.n_days).rev() {
            self.fill_day(strip, day, prices);
        }
        self.work += work_of_fill(ground);
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
        let takers = self.takers_on(strip, day, prices);
        let release = (day + rest_owed(ground, strip, day)).min(ground.n_days);
        let next_day = IdleDays::of(ground, strip, day, day + 1);
        let rest = IdleDays::of(ground, strip, day, release);
        let grazing = Grazing::of(ground, strip, day);
        let levels = &self.strips[strip];
        let arrival = if day > 0 { levels.arrival } else { 0.0 };
        // Of a fixed day no more than the first day of a spell is asked for: it stands for all.
        let n_told = if is_held {
            1
        } else {
            ground.longest.min(LONGEST_TOLD)
        };
        let at = self.first_row(strip, day);
        let (mornings, later) = self.rows.split_at_mut(at + N_LEVELS);
        let then = Morrow {
            levels,
            rows: later,
        };
        for (row, &cover) in mornings[at..].iter_mut().zip(&levels.covers) {
            let mut stand = [NEVER; 8];
            for taker in &takers {
                let (grown, cost) = grazing.grazed(cover, taker.demand);
                then.lower(&mut stand, n_told, cost - taker.pays, grown);
            }
            if is_held {
                *row = [stand[0]; 8];
                continue;
            }
            stand[FREE] = then.waited(&next_day, cover, day);
            if cover >= enter {
                stand[FREE] = lesser(stand[FREE], stand[0] + arrival);
            }
            stand[ENDED] = if release > day {
                then.waited(&rest, cover, day)
            } else {
                stand[FREE]
            };
            *row = stand;
        }
        self.takers = takers;
    }

    /// The mobs that may take a strip on a day.
    fn takers_on(&mut self, strip: usize, day: usize, prices: &[f64]) -> Vec<Taker> {
        let ground = self.ground;
        let is_held = self.held_by[strip * ground.n_days + day] > 0;
        let mut takers = std::mem::take(&mut self.takers);
        takers.clear();
        if is_held || !is_closed(ground, strip, day) {
            let cells = self
                .choices(strip, day)
                .map(|mob| mob * ground.n_days + day);
            let cells = cells.filter(|&cell| is_held || ground.free[cell]);
            takers.extend(cells.map(|cell| Taker {
                demand: ground.demand[cell],
                pays: if is_held { 0.0 } else { prices[cell] },
            }));
        }
        takers
    }

    /// The mobs that may take a strip on a day: whoever is fixed there, or all that are free.
    fn choices(&self, strip: usize, day: usize) -> std::ops::Range<usize> {
        match usize::from(self.held_by[strip * self.ground.n_days + day]) {
            0 => 0..self.ground.n_mobs,
            held => held - 1..held.min(self.ground.n_mobs),
        }
    }
}

/// The worths of a strip from the next morning on.
struct Morrow<'a> {
    levels: &'a Levels,
    rows: &'a [Row],
}

impl Morrow<'_> {
    /// What idle days from `day` on lose, with the worth of the strip that is free after them.
    fn waited(&self, idle: &IdleDays<'_>, cover: f64, day: usize) -> f64 {
        let (grown, lost) = idle.wait(cover);
        let (level, share) = self.levels.about(grown);
        let at = (idle.to - day - 1) * N_LEVELS;
        let rows = &self.rows[at..at + N_LEVELS];
        lost + between(rows[level][FREE], rows[level + 1][FREE], share)
    }

    /// Lowers the worths of the first days of a spell to what they come to at this cost.
    fn lower(&self, stand: &mut Row, n_told: usize, cost: f64, cover: f64) {
        let (level, share) = self.levels.about(cover);
        let rows = &self.rows[..N_LEVELS];
        let (below, above) = (&rows[level], &rows[level + 1]);
        let ended = between(below[ENDED], above[ENDED], share);
        for (index, worth) in stand[..n_told].iter_mut().enumerate() {
            let next = (index + 1).min(LONGEST_TOLD - 1);
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
        covers: std::array::from_fn(|level| lowest + level as f64 * step),
        one_over_step: 1.0 / step,
        arrival,
    }
}
