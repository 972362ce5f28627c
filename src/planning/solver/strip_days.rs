//! A strip's days one stretch at a time: idle days, grazed days, and the rest that a spell owes.
//!
//! Knows neither plans nor prices. Covers kg DM/ha, what is short and lost as score.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip or day of the season whose lengths made the lists"
)]
#![expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "days are small counts, held at or above 0"
)]

use super::ground::{Ground, GroundStrip};
use super::strip_sum::is_closed;
use crate::farm::GrowthShape;

/// Days on which nobody grazes a strip, from the morning of `from` to the morning of `to`, laid out for many covers.
pub(super) struct IdleDays<'a> {
    ground: &'a Ground,
    strip: &'a GroundStrip,
    pub(super) growth: f64,
    from: usize,
    pub(super) to: usize,
}

impl<'a> IdleDays<'a> {
    /// The days of the strip of this index.
    pub(super) fn of(ground: &'a Ground, index: usize, from: usize, to: usize) -> Self {
        let strip = &ground.strips[index];
        Self {
            ground,
            strip,
            growth: strip.factor * (ground.grown[to] - ground.grown[from]),
            from,
            to,
        }
    }

    /// Whether the strip is closed on any of these days on which anything grows.
    pub(super) fn has_closed(&self) -> bool {
        let (open, grown) = (&self.strip.grown_open, &self.ground.grown);
        !open.is_empty() && open[self.to] - open[self.from] < grown[self.to] - grown[self.from]
    }

    /// The cover after these days, and the score of what is lost on them.
    pub(super) fn wait(&self, cover: f64) -> (f64, f64) {
        let (mut grown, mut lost) = (cover, 0.0);
        self.live(&mut grown, &mut lost);
        (grown, self.strip.lost_weight * lost)
    }

    /// Grows the cover and adds to what is lost.
    pub(super) fn live(&self, cover: &mut f64, lost: &mut f64) {
        let (ground, strip) = (self.ground, self.strip);
        if ground.growth_shape == GrowthShape::Logistic {
            *cover = ground
                .growth_shape
                .grown(*cover, self.growth, strip.ceiling);
            return;
        }
        let room = (strip.ceiling - *cover).max(0.0);
        if self.growth <= room {
            *cover += self.growth;
            return;
        }
        *lost += if strip.grown_open.is_empty() {
            self.growth - room
        } else {
            self.lost_while_open(room)
        };
        *cover += room;
    }

    /// What is lost where some days are closed: the day on which the room runs out loses a part; every open day after it
    /// loses all.
    fn lost_while_open(&self, room: f64) -> f64 {
        let (ground, strip, from, to) = (self.ground, self.strip, self.from, self.to);
        let target = ground.grown[from] + room / strip.factor;
        let days = &ground.grown[from + 1..=to];
        let full = days.partition_point(|&grown| grown <= target);
        let full = from + 1 + full.min(to - from - 1);
        let all_after = strip.factor * (strip.grown_open[to] - strip.grown_open[full]);
        let day = full - 1;
        let is_open = strip.grown_open[full] > strip.grown_open[day];
        let part = strip.factor * (ground.grown[full] - ground.grown[from]) - room;
        all_after + if is_open { part.max(0.0) } else { 0.0 }
    }
}

/// Grazing a strip on a day, laid out for many covers.
pub(super) struct Grazing<'a> {
    fixed: &'a GroundStrip,
    shape: GrowthShape,
    growth: f64,
    pub(super) short_weight: f64,
    lost_weight: f64,
}

impl<'a> Grazing<'a> {
    /// The day of the strip of this index.
    pub(super) fn of(ground: &'a Ground, strip: usize, day: usize) -> Self {
        let fixed = &ground.strips[strip];
        let is_closed = is_closed(ground, strip, day);
        Self {
            fixed,
            shape: ground.growth_shape,
            growth: ground.growth[day] * fixed.factor,
            short_weight: ground.short_weight * fixed.area,
            lost_weight: if is_closed { 0.0 } else { fixed.lost_weight },
        }
    }

    /// The cover on the next morning, and the score of what is short and lost.
    pub(super) fn grazed(&self, cover: f64, demand: f64) -> (f64, f64) {
        let fixed = self.fixed;
        let demand = demand * fixed.one_over_area;
        let grazed = greater(cover - demand, lesser(cover, fixed.leave));
        let short = demand - (cover - grazed);
        let grown = self.shape.grown(grazed, self.growth, fixed.ceiling);
        let lost = self.shape.lost(grazed, self.growth, fixed.ceiling);
        (grown, self.short_weight * short + self.lost_weight * lost)
    }
}

/// The cover after days on which nobody stands there, and the score of what is lost on them.
pub(super) fn wait(
    ground: &Ground,
    strip: usize,
    cover: f64,
    from: usize,
    to: usize,
) -> (f64, f64) {
    IdleDays::of(ground, strip, from, to).wait(cover)
}

/// The cover on the morning after a grazed day, and the score of what is short and lost on it.
pub(super) fn grazed_day(
    ground: &Ground,
    strip: usize,
    day: usize,
    cover: f64,
    demand: f64,
) -> (f64, f64) {
    Grazing::of(ground, strip, day).grazed(cover, demand)
}

/// Days of rest owed on a morning by a spell that ended yesterday.
pub(super) fn rest_owed(ground: &Ground, strip: usize, day: usize) -> usize {
    let owed = match day.checked_sub(1) {
        Some(last) => ground.rest[last],
        None => ground.strips[strip].former_owed,
    };
    // By way of the narrower type, which takes fewer steps than rounding up.
    let whole = owed.max(0.0) as u32;
    whole as usize + usize::from(f64::from(whole) < owed)
}

/// The first day on which a strip that nobody stands on has had its rest.
pub(super) fn first_free_day(ground: &Ground, strip: usize) -> usize {
    let fixed = &ground.strips[strip];
    let rested = -1 - fixed.former_last.max(-1_000_000);
    let missing = (fixed.former_owed - rested as f64).ceil().max(0.0);
    (missing as usize).min(ground.n_days)
}

/// The lesser of two figures, neither of which is ever undefined: quicker than asking for that each time.
pub(super) fn lesser(one: f64, other: f64) -> f64 {
    if one < other { one } else { other }
}

/// The greater of two figures, neither of which is ever undefined.
pub(super) fn greater(one: f64, other: f64) -> f64 {
    if one > other { one } else { other }
}
