//! Where days lie across the ribbon. Screen points and day indices.

use crate::quantity::Day;

/// Where days lie across the ribbon.
#[derive(Debug, Clone, Copy)]
pub(super) struct Days {
    pub(super) left: f32,
    pub(super) width: f32,
    pub(super) first: Day,
    pub(super) count: usize,
}

impl Days {
    pub(super) fn x(self, index: usize) -> f32 {
        #[expect(
            clippy::cast_precision_loss,
            reason = "a season has a few thousand days at most"
        )]
        let index = index as f32;
        self.left + index * self.width
    }

    /// The day of an index.
    pub(super) fn day(self, index: usize) -> Day {
        self.first.plus_days(i64::try_from(index).unwrap_or(0))
    }

    /// The day at a place, the first or the last for a place beside the ribbon.
    pub(super) fn day_near(self, x: f32) -> Day {
        let last = self.count.saturating_sub(1);
        let index = if x < self.left {
            0
        } else {
            self.index_at(x).unwrap_or(last)
        };
        self.day(index)
    }

    /// The index of a day inside the season.
    pub(super) fn index_of(self, day: Day) -> Option<usize> {
        usize::try_from(day.days_since(self.first))
            .ok()
            .filter(|index| *index < self.count)
    }

    /// The day index at a place.
    pub(super) fn index_at(self, x: f32) -> Option<usize> {
        let share = (x - self.left) / self.width;
        if share < 0.0 {
            return None;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "not negative, a few thousand"
        )]
        let index = share as usize;
        (index < self.count).then_some(index)
    }
}
