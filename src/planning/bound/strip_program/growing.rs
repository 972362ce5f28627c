//! What happens to the sward of a strip in its program: grazed for a day, left to grow, at rest after a spell.
//!
//! Chooses nothing. Masses kg DM/ha, what is short and lost as score.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a day of this program, whose length made the lists"
)]
#![expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "days of rest are small counts, held at or above 0"
)]

use super::{Next, StripProgram};

impl StripProgram<'_> {
    /// Grazes and grows one day: the next morning's cover, and the score of what is short and lost.
    pub(super) fn graze(&self, day: usize, cover: f64, demand: f64) -> (f64, f64) {
        let grazed = (cover - demand).max(cover.min(self.strip.leave));
        let growth = self.grown[day + 1] - self.grown[day];
        let grown = (grazed + growth).min(grazed.max(self.ceiling));
        let short = demand - (cover - grazed);
        let lost = if self.strip.closed[day] {
            0.0
        } else {
            (growth - (grown - grazed)).max(0.0)
        };
        (
            grown,
            self.short_weight * short.max(0.0) + self.lost_weight * lost,
        )
    }

    /// Lets the strip grow until a day, at the latest until the next forced day.
    pub(super) fn idle_until(&self, day: usize, cover: f64, until: usize) -> Next {
        let until = until.min(self.next_forced[day]).min(self.season.n_days);
        let growth = self.grown[until] - self.grown[day];
        let room = (self.ceiling - cover).max(0.0);
        if growth <= room {
            return self.look_up(until, 0, cover + growth);
        }
        // The day on which the room runs out loses a part; every open day after it loses all.
        let days = &self.grown[day + 1..=until];
        let full = day
            + 1
            + days
                .partition_point(|&grown| grown - self.grown[day] <= room)
                .min(until - day - 1);
        let mut lost = self.grown_open[until] - self.grown_open[full];
        if !self.strip.closed[full - 1] {
            lost += (self.grown[full] - self.grown[day] - room).max(0.0);
        }
        let mut next = self.look_up(until, 0, self.ceiling);
        next.value += self.lost_weight * lost;
        next
    }

    /// A spell that ended on a day: the strip is at leave again when the rest is over. It cannot end where the next day is
    /// fixed here.
    pub(super) fn ended(&self, day: usize, cover: f64) -> Next {
        if self.forced.get(day + 1).is_some_and(Option::is_some) {
            return self.nowhere();
        }
        let rest = self.season.rest[day].ceil().max(0.0) as usize;
        self.rest_until(day + 1, cover, (day + 1).saturating_add(rest))
    }

    /// Rests until a day, or until a lived day, which may come too early; no other day may.
    pub(super) fn rest_until(&self, day: usize, cover: f64, until: usize) -> Next {
        let next = self.next_forced[day];
        let forced = self.forced.get(next).copied().flatten();
        if next < until && forced.is_some_and(|forced| !forced.is_lived) {
            return self.nowhere();
        }
        self.idle_until(day, cover, until)
    }
}
