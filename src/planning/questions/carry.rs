//! How many head some ground carries in a window, and until what day it carries a mob.

use std::collections::BTreeSet;

use super::asked::{Asked, QuestionError};
use super::outcome::Outcome;
use crate::farm::{GroundId, Mob, MobId};
use crate::quantity::Day;

/// More head than this are not looked for.
const MOST_HEAD: u32 = 100_000;
/// Steps by which a felt answer may be off and is put right by plans in full.
const MOST_STEPS: u32 = 12;

/// How many head are carried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CarryAnswer {
    /// The most head for which a plan was found with no day short; 0 where there is none.
    pub head: u32,
    /// That plan; none for 0 head.
    pub with_them: Option<Outcome>,
    /// The best plan found with one more; none where no more were looked for.
    pub with_one_more: Option<Outcome>,
}

/// Until when a mob is carried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UntilAnswer {
    /// The last day to which a plan was found with no day short; none where the first day is short.
    pub last: Option<Day>,
    /// That plan.
    pub to_then: Option<Outcome>,
    /// The best plan found to the day after; none where no later day was asked about.
    pub a_day_more: Option<Outcome>,
}

/// How many head of a mob's kind some ground carries over the days asked about, with no day short and every rule kept.
/// The mob is alone there; ground not named is left out; none named means all.
///
/// # Errors
/// See [`QuestionError`].
pub fn head_carried(
    asked: &mut Asked<'_>,
    id: MobId,
    ground: &BTreeSet<GroundId>,
) -> Result<CarryAnswer, QuestionError> {
    let mob = asked.mob(id)?;
    asked.is_feed_first = true;
    let feels_fed = |asked: &mut Asked<'_>, head: u32| {
        let farm = asked.alone(id, with_head(&mob, head), ground, asked.to);
        let plan = asked.felt(&farm, asked.to)?;
        Ok::<bool, QuestionError>(Outcome::of(&plan).is_fed())
    };
    // The least that is not fed, by doubling; then by halves.
    let mut fed = 0;
    let mut not_fed = mob.head.max(1);
    while not_fed <= MOST_HEAD && feels_fed(asked, not_fed)? {
        fed = not_fed;
        not_fed = not_fed.saturating_mul(2);
    }
    while not_fed - fed > 1 {
        let middle = fed + (not_fed - fed) / 2;
        if feels_fed(asked, middle)? {
            fed = middle;
        } else {
            not_fed = middle;
        }
    }
    let outcome = |asked: &mut Asked<'_>, head: u32| {
        let farm = asked.alone(id, with_head(&mob, head), ground, asked.to);
        Ok::<Outcome, QuestionError>(Outcome::of(&asked.planned(&farm, asked.to)?))
    };
    let (head, with_them, with_one_more) = settle_number(asked, fed, MOST_HEAD, outcome)?;
    Ok(CarryAnswer {
        head,
        with_them,
        with_one_more,
    })
}

/// Until what day some ground carries a mob as it is, from the first day asked about on; no day after the last one is
/// looked at.
///
/// # Errors
/// See [`QuestionError`].
pub fn lasts_until(
    asked: &mut Asked<'_>,
    id: MobId,
    ground: &BTreeSet<GroundId>,
) -> Result<UntilAnswer, QuestionError> {
    let mob = asked.mob(id)?;
    asked.is_feed_first = true;
    let (from, to) = (asked.from, asked.to);
    let last_of = |days: u32| from.plus_days(i64::from(days) - 1);
    let most = u32::try_from(to.days_since(from) + 1).unwrap_or(0);
    let mut fed = 0;
    let mut not_fed = most + 1;
    while not_fed - fed > 1 {
        let middle = fed + (not_fed - fed) / 2;
        let farm = asked.alone(id, mob.clone(), ground, last_of(middle));
        if Outcome::of(&asked.felt(&farm, last_of(middle))?).is_fed() {
            fed = middle;
        } else {
            not_fed = middle;
        }
    }
    let outcome = |asked: &mut Asked<'_>, days: u32| {
        let farm = asked.alone(id, mob.clone(), ground, last_of(days));
        Ok::<Outcome, QuestionError>(Outcome::of(&asked.planned(&farm, last_of(days))?))
    };
    let (days, to_then, a_day_more) = settle_number(asked, fed, most, outcome)?;
    Ok(UntilAnswer {
        last: (days > 0).then(|| last_of(days)),
        to_then,
        a_day_more,
    })
}

fn with_head(mob: &Mob, head: u32) -> Mob {
    Mob {
        head,
        ..mob.clone()
    }
}

/// Puts a felt number right by plans in full: down to one that is fed, or up as long as the next is fed too. Gives the
/// number, its plan, and the plan of the next.
fn settle_number(
    asked: &mut Asked<'_>,
    felt: u32,
    most: u32,
    mut outcome: impl FnMut(&mut Asked<'_>, u32) -> Result<Outcome, QuestionError>,
) -> Result<(u32, Option<Outcome>, Option<Outcome>), QuestionError> {
    let mut number = felt;
    let mut with_it = None;
    while number > 0 {
        let found = outcome(asked, number)?;
        if found.is_fed() {
            with_it = Some(found);
            break;
        }
        number -= 1;
    }
    let mut next = None;
    for _ in 0..MOST_STEPS {
        if number >= most {
            break;
        }
        let found = outcome(asked, number + 1)?;
        if !found.is_fed() {
            next = Some(found);
            break;
        }
        number += 1;
        with_it = Some(found);
    }
    Ok((number, with_it, next))
}
