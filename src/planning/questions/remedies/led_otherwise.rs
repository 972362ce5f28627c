//! Short days that come of leading one mob behind another: what it gains to lead it more days after, or not at all.
//!
//! A strip that two mobs have in turn within the longest stay feeds each of them for fewer days, and then rests from both.

use super::super::asked::{Asked, QuestionError};
use super::super::outcome::{Outcome, SHORT_FROM_KG};
use super::{Remedy, RemedyKind};
use crate::farm::{ComesBehind, Mob, MobId};
use crate::quantity::plural_text;

/// For each mob behind another: the fewest days after with which least is short, and what its own way comes to.
pub(super) fn led_otherwise(asked: &mut Asked<'_>) -> Result<Vec<Remedy>, QuestionError> {
    let mobs: Vec<(MobId, Mob)> = asked.farm.mobs.clone().into_iter().collect();
    let mut found = Vec::new();
    for (id, mob) in &mobs {
        let Some(follows) = mob.follows else { continue };
        let Some(front) = asked.farm.mobs.get(&follows.mob) else {
            continue;
        };
        let front = front.name.clone();
        let later = later(asked, *id, follows)?;
        found.extend(later.map(|(follows, with_it)| Remedy {
            kind: RemedyKind::LedOtherwise {
                mob: *id,
                follows: Some(follows),
            },
            words: format!(
                "Let {} come up to {} after {front}",
                mob.name,
                plural_text(u64::from(follows.days_after), "day", "days"),
            ),
            with_it,
        }));
        found.push(Remedy {
            kind: RemedyKind::LedOtherwise {
                mob: *id,
                follows: None,
            },
            words: format!("Let {} go their own way, not behind {front}", mob.name),
            with_it: led(asked, *id, None)?,
        });
    }
    Ok(found)
}

/// The fewest days after, above those of today, with which least is short.
fn later(
    asked: &mut Asked<'_>,
    id: MobId,
    follows: ComesBehind,
) -> Result<Option<(ComesBehind, Outcome)>, QuestionError> {
    // More days than the longest stay change nothing: both mobs have left by then.
    let most = asked.farm.sward.longest_stay_days;
    let mut best: Option<(ComesBehind, Outcome)> = None;
    for days_after in follows.days_after + 1..=most.min(ComesBehind::MOST_DAYS) {
        let follows = ComesBehind {
            days_after,
            ..follows
        };
        let with_it = led(asked, id, Some(follows))?;
        let is_better = best
            .as_ref()
            .is_none_or(|(_, best)| with_it.short_kg < best.short_kg - SHORT_FROM_KG);
        if is_better {
            best = Some((follows, with_it));
        }
    }
    Ok(best)
}

/// What the season comes to with a mob led so.
fn led(
    asked: &mut Asked<'_>,
    id: MobId,
    follows: Option<ComesBehind>,
) -> Result<Outcome, QuestionError> {
    let mut farm = asked.farm.clone();
    if let Some(mob) = farm.mobs.get_mut(&id) {
        mob.follows = follows;
    }
    Ok(Outcome::of(&asked.planned(&farm, asked.to)?))
}
