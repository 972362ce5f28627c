//! When grazing must stop so that so much grass stands for winter.

use super::asked::{Asked, QuestionError};
use super::outcome::Outcome;
use crate::farm::{Farm, Grazing, Visit, grazed_units};
use crate::quantity::Day;

/// The last day of grazing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StopAnswer {
    /// The last day of grazing with which a plan keeps the cover; none where not even stopping at once does.
    pub last: Option<Day>,
    /// That plan, or the one that stops at once.
    pub then: Outcome,
    /// The best plan found with a day more of grazing; none where they may graze to the end.
    pub a_day_more: Option<Outcome>,
}

/// The last day of grazing with which the mean cover of all grazed ground, by area, is `keep_kg_per_ha` or more on the
/// morning after the last day asked about. Every flock leaves then; strips grow on as they do.
///
/// # Errors
/// See [`QuestionError`].
pub fn stop_day(asked: &mut Asked<'_>, keep_kg_per_ha: f64) -> Result<StopAnswer, QuestionError> {
    let whole = u32::try_from(asked.to.days_since(asked.from) + 1).unwrap_or(0);
    let stopped = |asked: &Asked<'_>, days: u32| {
        let last = asked.from.plus_days(i64::from(days) - 1);
        let mut farm = stopped_after(&asked.farm, last, keep_kg_per_ha);
        if days == 0 {
            leave_nobody(&mut farm, asked.from);
        }
        farm
    };
    let keeps = |outcome: &Outcome| {
        outcome
            .end_cover_kg_per_ha
            .is_some_and(|cover| cover >= keep_kg_per_ha)
    };
    let full = |asked: &mut Asked<'_>, days: u32| {
        let farm = stopped(asked, days);
        Ok::<Outcome, QuestionError>(Outcome::of(&asked.planned(&farm, asked.to)?))
    };
    let mut kept = 0;
    let mut not_kept = whole + 1;
    while not_kept - kept > 1 {
        let middle = kept + (not_kept - kept) / 2;
        let farm = stopped(asked, middle);
        if keeps(&Outcome::of(&asked.felt(&farm, asked.to)?)) {
            kept = middle;
        } else {
            not_kept = middle;
        }
    }
    // The felt day is planned in full, and put right downwards where it does not hold.
    let mut then = full(asked, kept)?;
    while kept > 0 && !keeps(&then) {
        kept -= 1;
        then = full(asked, kept)?;
    }
    let mut a_day_more = None;
    while kept < whole {
        let more = full(asked, kept + 1)?;
        if !keeps(&more) {
            a_day_more = Some(more);
            break;
        }
        kept += 1;
        then = more;
    }
    let last = keeps(&then).then(|| asked.from.plus_days(i64::from(kept) - 1));
    Ok(StopAnswer {
        last,
        then,
        a_day_more,
    })
}

/// The farm with no flock on it after a day, and the cover wanted at the end, so that the planner spares it.
fn stopped_after(farm: &Farm, last: Day, keep_kg_per_ha: f64) -> Farm {
    let mut stopped = farm.clone();
    for mob in stopped.mobs.values_mut() {
        mob.visits.retain(|visit| visit.from <= last);
        for visit in &mut mob.visits {
            *visit = Visit {
                to: visit.to.min(last),
                ..*visit
            };
        }
    }
    stopped
        .fixed
        .retain(|(_, day), fixed| *day <= last || fixed.lived);
    for unit in grazed_units(farm) {
        if let Some(ground) = stopped.ground.get_mut(&unit.id) {
            let grazing = ground.grazing.get_or_insert_with(Grazing::default);
            let wanted = grazing.end_cover_kg_per_ha.unwrap_or(0.0);
            grazing.end_cover_kg_per_ha = Some(wanted.max(keep_kg_per_ha));
        }
    }
    stopped
}

/// Nobody to eat anything from a day on. A season is planned for a flock, so one of no head stands there on that day.
fn leave_nobody(farm: &mut Farm, from: Day) {
    for mob in farm.mobs.values_mut() {
        mob.head = 0;
        mob.visits = vec![Visit { from, to: from }];
    }
}
