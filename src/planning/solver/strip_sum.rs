//! What one strip adds to the score, and by how much it breaks the rules, reckoned spell by spell.
//!
//! Idle stretches are one step each, from summed growth, which makes this some ten times faster than living every day.
//! It agrees with [`super::super::replay`] but for the last digits. Masses kg DM/ha inside, score outside.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]
#![expect(clippy::cast_precision_loss, reason = "day counts stay far below 2^53")]

use crate::farm::GrowthShape;

use super::ground::{FORGIVE_COVER, FORGIVE_REST, FORGIVE_STAY, Ground, GroundStrip};
use super::strip_days::IdleDays;

/// A strip's part of the score and its breaches.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct StripSum {
    /// Short, lost and bare, weighed.
    pub(super) score: f64,
    /// Days of rest missing.
    pub(super) rest_missing: f64,
    /// Cover missing at entry, kg DM.
    pub(super) cover_missing: f64,
    /// Days stood too long.
    pub(super) stay_over: f64,
    /// Spells begun without the rest owed.
    pub(super) rest_faults: u32,
    /// Spells begun with too little cover.
    pub(super) cover_faults: u32,
    /// Days stood too long, as a count.
    pub(super) stay_faults: u32,
}

impl StripSum {
    fn breaches_priced(&self, prices: &Prices) -> f64 {
        prices.rest * self.rest_missing
            + prices.cover * self.cover_missing
            + prices.stay * self.stay_over
    }

    /// Score with the breaches priced.
    pub(super) fn priced(&self, prices: &Prices) -> f64 {
        self.score + self.breaches_priced(prices)
    }
}

/// What a unit of each breach costs in the search.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Prices {
    /// Of a day of rest missing.
    pub(super) rest: f64,
    /// Of a kg DM of cover missing at entry.
    pub(super) cover: f64,
    /// Of a day stood too long.
    pub(super) stay: f64,
}

impl Prices {
    /// Breaches cost nothing.
    pub(super) const NONE: Self = Self {
        rest: 0.0,
        cover: 0.0,
        stay: 0.0,
    };
}

/// Who stands on a strip on its days.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stood<'a> {
    /// The days stood on, as bits.
    pub(super) row: &'a [u64],
    /// Who stands there on each day.
    pub(super) who: &'a [u8],
}

/// A strip on the morning after a spell, and what it came to until then.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Pause {
    /// The day after the spell's last.
    pub(super) end: usize,
    cover: f64,
    lost: f64,
    short: f64,
    breaches: StripSum,
}

impl Pause {
    /// What the strip came to until then, with the breaches priced.
    pub(super) fn priced(&self, ground: &Ground, strip: &GroundStrip, prices: &Prices) -> f64 {
        strip.score(ground, self) + self.breaches.breaches_priced(prices)
    }
}

/// One strip to be reckoned.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reckoning<'a> {
    pub(super) ground: &'a Ground,
    /// The strip's index.
    pub(super) index: usize,
    pub(super) stood: Stood<'a>,
    pub(super) prices: &'a Prices,
    /// Where the score with the breaches priced is beyond this, nobody wants to know it.
    pub(super) limit: f64,
}

impl Reckoning<'_> {
    /// Reckons the strip, from a pause on where one is given that still holds. Gives up, and gives nothing, once the limit
    /// is passed: every part of the score only grows as the days go by. Tells each pause, and adds what it did to `work`.
    pub(super) fn sum(
        &self,
        from: Option<&Pause>,
        work: &mut u64,
        mut tell: impl FnMut(Pause),
    ) -> Option<StripSum> {
        let (ground, strip) = (self.ground, &self.ground.strips[self.index]);
        let mut at = from.copied().unwrap_or(Pause {
            end: 0,
            cover: strip.cover,
            lost: 0.0,
            short: 0.0,
            breaches: StripSum::default(),
        });
        let mut last = strip.former_last;
        let mut owed = strip.former_owed;
        if from.is_some() {
            (last, owed) = ended(ground, at.end);
        }
        while let Some(start) = next_set(self.stood.row, at.end) {
            let end = next_clear(self.stood.row, start, ground.n_days);
            IdleDays::of(ground, self.index, at.end, start).live(&mut at.cover, &mut at.lost);
            *work += 4;
            self.judge(start, end, last, owed, &mut at);
            if at.priced(ground, strip, self.prices) > self.limit {
                return None;
            }
            self.graze(start, end, &mut at);
            at.end = end;
            (last, owed) = ended(ground, end);
            tell(at);
        }
        let idle = IdleDays::of(ground, self.index, at.end, ground.n_days);
        idle.live(&mut at.cover, &mut at.lost);
        let mut sum = at.breaches;
        sum.score =
            strip.score(ground, &at) + strip.bare_weight * (strip.end_cover - at.cover).max(0.0);
        Some(sum)
    }

    /// Judges a spell by the rules.
    fn judge(&self, start: usize, end: usize, last: i64, owed: f64, at: &mut Pause) {
        let strip = &self.ground.strips[self.index];
        let before = if start == 0 { strip.stood } else { 0 };
        if before == 0 {
            let rested = i64::try_from(start).unwrap_or(0) - last - 1;
            let rested = rested as f64;
            entry(
                self.ground,
                self.index,
                start,
                rested,
                owed,
                at.cover,
                &mut at.breaches,
            );
        }
        if before + end - start > self.ground.longest {
            stay(
                self.ground,
                self.index,
                start,
                end,
                before,
                &mut at.breaches,
            );
        }
    }

    /// Grazes and grows the days of a spell.
    fn graze(&self, start: usize, end: usize, at: &mut Pause) {
        let (ground, strip) = (self.ground, &self.ground.strips[self.index]);
        let is_ever_closed = !strip.grown_open.is_empty();
        let is_logistic = ground.growth_shape == GrowthShape::Logistic;
        let (mut cover, mut lost, mut short) = (at.cover, at.lost, at.short);
        for (t, &who) in (start..end).zip(&self.stood.who[start..end]) {
            let demand = ground.demand_on(self.index, t, who) * strip.one_over_area;
            // Written so that few steps hang on the step before: this loop is most of the search's time.
            let grazed = (cover - demand).max(cover.min(strip.leave));
            short += demand - (cover - grazed);
            let growth = ground.growth[t] * strip.factor;
            if is_logistic {
                cover = ground.growth_shape.grown(grazed, growth, strip.ceiling);
                continue;
            }
            let grown = (grazed + growth).min(grazed.max(strip.ceiling));
            let spilt = growth - (grown - grazed);
            if !(is_ever_closed && is_closed(ground, self.index, t)) {
                lost += spilt;
            }
            cover = grown;
        }
        (at.cover, at.lost, at.short) = (cover, lost, short);
    }
}

/// The last day of a spell that ended before this day, and the rest it owes.
fn ended(ground: &Ground, end: usize) -> (i64, f64) {
    (i64::try_from(end).unwrap_or(0) - 1, ground.rest[end - 1])
}

impl GroundStrip {
    /// What is short and lost so far, weighed.
    fn score(&self, ground: &Ground, at: &Pause) -> f64 {
        ground.short_weight * self.area * at.short + self.lost_weight * at.lost
    }
}

/// Judges the first day of a spell.
fn entry(
    ground: &Ground,
    index: usize,
    start: usize,
    rested: f64,
    owed: f64,
    cover: f64,
    sum: &mut StripSum,
) {
    let strip = &ground.strips[index];
    let forgiven = |flag| is_forgiven(ground, index, start, flag);
    if rested < owed && !forgiven(FORGIVE_REST) {
        sum.rest_missing += owed - rested;
        sum.rest_faults += 1;
    }
    if cover < strip.enter && !forgiven(FORGIVE_COVER) {
        sum.cover_missing += (strip.enter - cover) * strip.area;
        sum.cover_faults += 1;
    }
}

/// Judges a spell that is too long.
fn stay(
    ground: &Ground,
    index: usize,
    start: usize,
    end: usize,
    before: usize,
    sum: &mut StripSum,
) {
    for day in start..end {
        let too_long = before + day - start + 1 > ground.longest;
        if too_long && !is_forgiven(ground, index, day, FORGIVE_STAY) {
            sum.stay_over += 1.0;
            sum.stay_faults += 1;
        }
    }
}

fn is_forgiven(ground: &Ground, index: usize, day: usize, flag: u8) -> bool {
    let forgiven = ground.forgiven.get(index * ground.n_days + day);
    forgiven.is_some_and(|flags| flags & flag != 0)
}

pub(super) fn is_closed(ground: &Ground, index: usize, day: usize) -> bool {
    ground.closed[index * ground.n_words + day / 64] >> (day % 64) & 1 != 0
}

/// The first day from `from` on whose bit is set.
pub(super) fn next_set(row: &[u64], from: usize) -> Option<usize> {
    let mut word = from / 64;
    let mut bits = row.get(word)? & (u64::MAX << (from % 64));
    while bits == 0 {
        word += 1;
        bits = *row.get(word)?;
    }
    Some(word * 64 + usize::try_from(bits.trailing_zeros()).unwrap_or(0))
}

/// The first day from `from` on whose bit is clear, or `n_days`.
pub(super) fn next_clear(row: &[u64], from: usize, n_days: usize) -> usize {
    let mut word = from / 64;
    let Some(first) = row.get(word) else {
        return n_days;
    };
    let mut bits = !first & (u64::MAX << (from % 64));
    while bits == 0 {
        word += 1;
        match row.get(word) {
            Some(next) => bits = !next,
            None => return n_days,
        }
    }
    (word * 64 + usize::try_from(bits.trailing_zeros()).unwrap_or(0)).min(n_days)
}

/// The last day before `before` whose bit is set.
pub(super) fn last_set(row: &[u64], before: usize) -> Option<usize> {
    let mut word = before / 64;
    let mask = (1_u64 << (before % 64)) - 1;
    let mut bits = row.get(word).map_or(0, |bits| bits & mask);
    while bits == 0 {
        word = word.checked_sub(1)?;
        bits = *row.get(word)?;
    }
    Some(word * 64 + 63 - usize::try_from(bits.leading_zeros()).unwrap_or(0))
}
