//! Two plans side by side: the farm as it is, and with one figure changed.

use super::asked::{Asked, QuestionError};
use super::outcome::Outcome;
use crate::farm::{Farm, MobId};

/// What is changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Change {
    /// The same rest all through the year, days.
    RestDays(u32),
    /// Another number of head in a mob.
    Head(MobId, u32),
    /// Another longest stay, days.
    LongestStayDays(u32),
    /// Growth in every month times this.
    GrowthTimes(f64),
}

/// Both plans, of the same days and with the same effort.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Comparison {
    /// As it is.
    pub as_is: Outcome,
    /// As it would be.
    pub changed: Outcome,
}

/// Plans the days asked about as they are and with the changes.
///
/// # Errors
/// See [`QuestionError`].
pub fn compared(asked: &mut Asked<'_>, changes: &[Change]) -> Result<Comparison, QuestionError> {
    let farm = asked.farm.clone();
    let as_is = Outcome::of(&asked.planned(&farm, asked.to)?);
    let mut other = farm;
    for change in changes {
        put_in(&mut other, *change)?;
    }
    let changed = Outcome::of(&asked.planned(&other, asked.to)?);
    Ok(Comparison { as_is, changed })
}

fn put_in(farm: &mut Farm, change: Change) -> Result<(), QuestionError> {
    match change {
        Change::RestDays(days) => farm.sward.rest_days_by_month = [days; 12],
        Change::LongestStayDays(days) => farm.sward.longest_stay_days = days,
        Change::GrowthTimes(factor) => {
            for growth in &mut farm.sward.growth_by_month {
                *growth *= factor;
            }
        }
        Change::Head(id, head) => {
            let mob = farm.mobs.get_mut(&id);
            let mob =
                mob.ok_or_else(|| QuestionError::Senseless("There is no such flock.".to_owned()))?;
            mob.head = head;
        }
    }
    Ok(())
}
