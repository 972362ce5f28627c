//! What each strip's mornings are worth while mob-days have prices: a dynamic programme over days and cover, strip by strip.
//!
//! A strip is paid the price of every mob-day that it takes. Its worth on a morning is the least that its own score less
//! what it is paid can come to from there on; below zero where it will still be of use. Covers between levels are read by
//! straight lines, so nothing is proven here: the figures only guide. Covers kg DM/ha, worths score.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob, day, row or level whose lengths made the lists"
)]
mod dawn;
mod follow;
mod levels;

use super::ground::Ground;
use super::strip_days::{lesser, rest_owed};
use super::strip_sum::is_closed;
use crate::farm::GrowthShape;
use dawn::Dawn;
use levels::{Levels, MOST_LEVELS, Row, Spot};

/// The worths of a strip on a morning, by what was before: at rest and free to begin; a spell just ended; standing on, as
/// the second to the sixth day of a spell; and as its first, which comes last since it is never read from further on.
type Rows = [Row; 8];

/// Spells of more days than this are told as if they were so long.
const LONGEST_TOLD: usize = 6;
/// The row of a strip that is free.
const FREE: usize = 0;
/// The row of a strip whose spell ended yesterday.
const ENDED: usize = 1;
/// The row of a spell on its second day; those of later days follow.
const STOOD: usize = 2;
/// The row of a spell on its first day.
const BEGUN: usize = 7;
/// The worth of what cannot be.
const NEVER: f64 = 1e12;

/// The worths of all strips.
pub(super) struct Worth<'a> {
    pub(super) ground: &'a Ground,
    strips: Vec<Levels>,
    /// By strip, then day.
    rows: Vec<Rows>,
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
            strips: (0..n_strips)
                .map(|strip| Levels::of(ground, strip))
                .collect(),
            rows: vec![[[NEVER; MOST_LEVELS]; 8]; n_strips * (ground.n_days + 1)],
            held_by,
            held,
            work: 0,
            takers: Vec::new(),
        }
    }

    fn at(&self, strip: usize, day: usize) -> usize {
        strip * (self.ground.n_days + 1) + day
    }

    /// The days on which somebody is fixed on a strip, as bits.
    pub(super) fn held_row(&self, strip: usize) -> &[u64] {
        let words = strip * self.ground.n_words;
        &self.held[words..words + self.ground.n_words]
    }

    /// The worth of a morning at rest, free to be stood on.
    pub(super) fn free(&self, strip: usize, day: usize, cover: f64) -> f64 {
        let spot = self.strips[strip].read(day, cover);
        read(&self.rows[self.at(strip, day)][FREE], spot)
    }

    /// The worth of the morning after a spell's last day, with all that is lost until its rest is over.
    pub(super) fn ended(&self, strip: usize, day: usize, cover: f64) -> f64 {
        let spot = self.strips[strip].read(day, cover);
        read(&self.rows[self.at(strip, day)][ENDED], spot)
    }

    /// The worth of the morning after the `length`-th day of a spell, which may go on or end.
    pub(super) fn stood(&self, strip: usize, day: usize, length: usize, cover: f64) -> f64 {
        let spot = self.strips[strip].read(day, cover);
        let rows = &self.rows[self.at(strip, day)];
        let ended = read(&rows[ENDED], spot);
        if length >= self.ground.longest {
            return ended;
        }
        let told = length.min(LONGEST_TOLD - 1);
        lesser(ended, read(&rows[row_of(told)], spot))
    }

    /// Reckons a strip's worths anew at these prices.
    pub(super) fn fill(&mut self, strip: usize, prices: &[f64]) {
        let ground = self.ground;
        let fixed = &ground.strips[strip];
        let at = self.at(strip, ground.n_days);
        let covers = self.strips[strip].covers(ground.n_days);
        let bare = covers.map(|cover| fixed.bare_weight * (fixed.end_cover - cover).max(0.0));
        self.rows[at] = [bare; 8];
        // A spell may not go on past the longest stay.
        for told in ground.longest..LONGEST_TOLD {
            self.rows[at][row_of(told)] = [NEVER; MOST_LEVELS];
        }
        for day in (0..ground.n_days).rev() {
            self.fill_day(strip, day, prices);
        }
        self.work += work_of_fill(ground);
    }

    fn fill_day(&mut self, strip: usize, day: usize, prices: &[f64]) {
        let ground = self.ground;
        let is_held = self.held_by[strip * ground.n_days + day] > 0;
        let takers = self.takers_on(strip, day, prices);
        let release = (day + rest_owed(ground, strip, day)).min(ground.n_days);
        let at = self.at(strip, day);
        let (mornings, later) = self.rows.split_at_mut(at + 1);
        let rows = &mut mornings[at];
        let dawn = Dawn::new(ground, &self.strips[strip], (strip, day), later);
        // Of a fixed day no more than the first day of a spell is asked for: it stands for all.
        let n_told = if is_held {
            1
        } else {
            ground.longest.min(LONGEST_TOLD)
        };
        for told in 0..n_told {
            rows[row_of(told)] = [NEVER; MOST_LEVELS];
        }
        for taker in &takers {
            dawn.graze(taker, rows, n_told);
        }
        self.takers = takers;
        if is_held {
            *rows = [rows[BEGUN]; 8];
            return;
        }
        rows[FREE] = dawn.waited(day + 1);
        dawn.let_begin(rows);
        rows[ENDED] = if release > day {
            dawn.waited(release)
        } else {
            rows[FREE]
        };
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

/// Work of reckoning one strip's worths.
pub(super) fn work_of_fill(ground: &Ground) -> u64 {
    let steps = ground.n_days * (10 + 4 * ground.n_mobs);
    u64::try_from(steps * work_of_growth(ground)).unwrap_or(u64::MAX)
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

/// Strips times days whose worths are held: some hundred and thirty megabytes at most, fifty for 200 strips and a year.
const MOST_STRIP_DAYS: usize = 200_000;

/// The row of a spell that has lasted so many days and one.
fn row_of(told: usize) -> usize {
    if told == 0 { BEGUN } else { STOOD - 1 + told }
}

fn read(row: &Row, spot: Spot) -> f64 {
    between(row[spot.level], row[spot.level + 1], spot.share)
}

fn between(below: f64, above: f64, share: f64) -> f64 {
    below + share * (above - below)
}
