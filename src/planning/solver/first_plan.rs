//! The first plan: day by day, each mob stays while it can and then goes to the strip that looks best that morning.
//!
//! Quick and always legal; the search starts from here. Masses kg DM, distances by their score.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]
#![expect(clippy::cast_precision_loss, reason = "day counts stay far below 2^53")]

use super::board::Board;
use super::ground::{AWAY, Ground};
use super::strip_sum::{is_closed, next_set};

/// What a first plan looks at in a strip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Taste {
    /// Pull of cover near the ceiling, score per kg/ha of closeness.
    pub(super) tall: f64,
    /// Days of feed that a strip should hold.
    pub(super) feed_days: f64,
    /// How much of a day's demand must be there for a mob to stay on.
    pub(super) stay_share: f64,
    /// How much the walk counts.
    pub(super) walk: f64,
}

/// Fills the free days of `plainest` by this taste, and makes sure that the result is legal.
pub(super) fn first_places(ground: &Ground, plainest: &[u16], taste: &Taste) -> Vec<u16> {
    let mut walker = Walker::new(ground, plainest);
    for day in 0..ground.n_days {
        walker.live_day(day, taste);
    }
    let places = walker.places;
    legal_places(ground, plainest, &places)
}

/// Clears the strips on which these places break a rule, down to what the plainest plan has there.
pub(super) fn legal_places(ground: &Ground, plainest: &[u16], wanted: &[u16]) -> Vec<u16> {
    let mut places = wanted.to_vec();
    let board = Board::new(ground, &places);
    if board.sums.is_legal() {
        return places;
    }
    for strip in (0..ground.n_strips).filter(|&strip| board.strip_faults(strip) > 0) {
        for (place, plain) in places.iter_mut().zip(plainest) {
            if usize::from(*place) == strip {
                *place = *plain;
            }
        }
    }
    // A place taken back may meet a mob that now stands where the plainest plan wanted to bridge.
    let board = Board::new(ground, &places);
    if board.sums.is_legal() && is_parted(ground, plainest, &places) {
        return places;
    }
    plainest.to_vec()
}

/// Whether no two mobs share a strip, but where the plainest plan has them so.
pub(super) fn is_parted(ground: &Ground, plainest: &[u16], places: &[u16]) -> bool {
    let mut seen = vec![usize::MAX; ground.n_strips];
    for day in 0..ground.n_days {
        for mob in 0..ground.n_mobs {
            let cell = mob * ground.n_days + day;
            let place = usize::from(places[cell]);
            if place >= ground.n_strips {
                continue;
            }
            if seen[place] == day && places[cell] != plainest[cell] {
                return false;
            }
            seen[place] = day;
        }
    }
    true
}

/// One strip as the day goes by.
struct Strip {
    cover: f64,
    /// Length of the spell that ran until yesterday, days.
    length: usize,
    last: i64,
    owed: f64,
    /// The next days on which a fixed stand holds the strip, as bits.
    held: Vec<u64>,
}

struct Walker<'a> {
    ground: &'a Ground,
    places: Vec<u16>,
    settled: Vec<bool>,
    strips: Vec<Strip>,
    /// The day on which each strip was last stood on, plus 1.
    stood_on: Vec<usize>,
}

impl<'a> Walker<'a> {
    fn new(ground: &'a Ground, plainest: &[u16]) -> Self {
        let mut strips: Vec<Strip> = ground
            .strips
            .iter()
            .map(|strip| Strip {
                cover: strip.cover,
                length: strip.stood,
                last: strip.former_last,
                owed: strip.former_owed,
                held: vec![0; ground.n_words],
            })
            .collect();
        let mut settled = vec![false; plainest.len()];
        for (cell, place) in plainest.iter().enumerate() {
            let day = cell % ground.n_days;
            // Free days in the yard are to be planned; all others stand as they are.
            settled[cell] = !ground.free[cell] || *place != ground.yard;
            if usize::from(*place) < ground.n_strips {
                strips[usize::from(*place)].held[day / 64] |= 1 << (day % 64);
            }
        }
        Self {
            ground,
            places: plainest.to_vec(),
            settled,
            strips,
            stood_on: vec![0; ground.n_strips],
        }
    }

    fn live_day(&mut self, day: usize, taste: &Taste) {
        let ground = self.ground;
        for mob in 0..ground.n_mobs {
            let cell = mob * ground.n_days + day;
            if !self.settled[cell] {
                self.places[cell] = self.choose(mob, day, taste);
            }
            let place = usize::from(self.places[cell]);
            if place < ground.n_strips {
                let strip = &mut self.strips[place];
                let fixed = &ground.strips[place];
                let available = fixed.area * (strip.cover - fixed.leave).max(0.0);
                strip.cover -= ground.demand[cell].min(available) * fixed.one_over_area;
                self.stood_on[place] = day + 1;
            }
        }
        for (index, strip) in self.strips.iter_mut().enumerate() {
            let fixed = &ground.strips[index];
            let growth = ground.growth[day] * fixed.factor;
            strip.cover = ground
                .growth_shape
                .grown(strip.cover, growth, fixed.ceiling);
            if self.stood_on[index] == day + 1 {
                strip.length += 1;
                strip.last = i64::try_from(day).unwrap_or(0);
                strip.owed = ground.rest[day];
            } else {
                strip.length = 0;
            }
        }
    }

    fn choose(&self, mob: usize, day: usize, taste: &Taste) -> u16 {
        let ground = self.ground;
        let cell = mob * ground.n_days + day;
        let from = match day.checked_sub(1) {
            Some(_) if !ground.starts[cell] => self.places[cell - 1],
            Some(_) => ground.yard,
            None => ground.stood[mob],
        };
        let from = if from == AWAY { ground.yard } else { from };
        let demand = ground.demand[cell];
        let feed = |strip: usize| {
            ground.strips[strip].area * (self.strips[strip].cover - ground.strips[strip].leave)
        };
        let here = usize::from(from);
        if here < ground.n_strips
            && self.may_stand(here, day)
            && feed(here) >= taste.stay_share * demand
        {
            return from;
        }
        let mut best = (f64::INFINITY, ground.yard);
        for strip in (0..ground.n_strips).filter(|&strip| strip != here) {
            if !self.may_stand(strip, day) {
                continue;
            }
            let place = super::ground::place_number(strip);
            let missing = (taste.feed_days * demand - feed(strip)).max(0.0);
            let room = (ground.strips[strip].ceiling - self.strips[strip].cover).max(0.0);
            let loss = missing * ground.short_weight
                + taste.walk * ground.walk_score(mob, from, place)
                + taste.tall * room;
            if loss < best.0 {
                best = (loss, place);
            }
        }
        best.1
    }

    fn may_stand(&self, index: usize, day: usize) -> bool {
        let ground = self.ground;
        let strip = &self.strips[index];
        if self.stood_on[index] == day + 1 || is_closed(ground, index, day) {
            return false;
        }
        if strip.length >= ground.longest {
            return false;
        }
        // A fixed stand soon after would come too early, so the strip is kept free for it.
        if let Some(next) = next_set(&strip.held, day)
            && ((next - day) as f64) <= ground.rest[day] + ground.longest as f64
        {
            return false;
        }
        if strip.length > 0 {
            return true;
        }
        let rested = i64::try_from(day).unwrap_or(0).saturating_sub(strip.last) - 1;
        rested as f64 >= strip.owed && strip.cover >= ground.strips[index].enter
    }
}
