//! The season that is planned, and the days whose place is already settled.
//!
//! Holds inputs only; the plan itself is derived and never stored.

use super::GroundId;
use crate::quantity::Day;

/// The days to plan and the seed of the search.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Season {
    /// First planned day.
    pub first_day: Day,
    /// Days planned, 1 to [`Season::MOST_DAYS`].
    pub days: u32,
    /// Seed of the planner's search: the same seed gives the same plan.
    pub seed: u64,
}

/// Where a mob stands on a settled day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FixedPlace {
    /// The ley or strip, or `None` for the yard.
    pub place: Option<GroundId>,
    /// Whether it has been lived already.
    pub lived: bool,
}

impl Season {
    /// The longest season that is planned: ten years.
    pub const MOST_DAYS: u32 = 3660;

    /// The last planned day.
    pub fn last_day(self) -> Day {
        self.first_day.plus_days(i64::from(self.days) - 1)
    }
}
