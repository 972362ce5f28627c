//! Whether the fixed days can be kept at all, and the plainest plan that keeps them: everyone else in the yard.
//!
//! Two fixed spells on one strip may lie so close that only standing there between them keeps the rest rule; such gaps are
//! bridged here. What cannot be kept is refused with its list; nothing is planned round it. Days are day numbers.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]

use super::replay::replay;
use super::rules::{Breach, BreachCause, breaches};
use super::season::{Place, Season, Stands};

/// The plainest plan that keeps every rule: fixed days kept, every other day in the yard, gaps bridged where needed.
///
/// # Errors
/// The contradictions among the fixed days, each with mob, day, strip and rule.
pub fn plainest_stands(season: &Season) -> Result<Stands, Vec<Breach>> {
    let mut stands = season.all_in_yard();
    let mut free = free_days(season);
    for fixed in &season.fixed {
        let day = usize::try_from(fixed.day).ok();
        let stand = day.and_then(|day| stands[fixed.mob].get_mut(day));
        // Days outside a visit stay away and show as contradictions below.
        if let Some(place) = stand.filter(|place| **place != Place::Away) {
            *place = fixed.place;
        }
    }
    loop {
        let cover = replay(season, &stands).cover;
        let mut broken = breaches(season, &stands, &cover);
        broken.retain(|breach| !breach.lived);
        if broken.is_empty() {
            return Ok(stands);
        }
        let is_bridged = broken
            .iter()
            .any(|breach| bridge(season, &mut stands, &mut free, breach));
        if !is_bridged {
            return Err(broken);
        }
    }
}

/// Which days of each mob are its own to plan: on the farm and not fixed.
pub(super) fn free_days(season: &Season) -> Vec<Vec<bool>> {
    let mut free: Vec<Vec<bool>> = season.mobs.iter().map(|mob| mob.present.clone()).collect();
    for fixed in &season.fixed {
        let day = usize::try_from(fixed.day).ok();
        if let Some(flag) = day.and_then(|day| free[fixed.mob].get_mut(day)) {
            *flag = false;
        }
    }
    free
}

/// Stands free mobs on the days between a fixed spell that begins too early and the one before it.
fn bridge(season: &Season, stands: &mut Stands, free: &mut [Vec<bool>], breach: &Breach) -> bool {
    let is_early = matches!(
        breach.cause,
        BreachCause::NotRested { .. } | BreachCause::TooLow { .. }
    );
    let (true, Place::Strip(strip), Ok(start)) =
        (is_early, breach.place, usize::try_from(breach.day))
    else {
        return false;
    };
    let stands_on = |day: usize, stands: &Stands| {
        let here = Place::Strip(strip);
        stands.iter().any(|places| places[day] == here)
    };
    let mut gap_start = start;
    while gap_start > 0 && !stands_on(gap_start - 1, stands) {
        gap_start -= 1;
        if start - gap_start > season.longest_stay {
            return false;
        }
    }
    if gap_start == 0 && season.strips[strip].stood_days == 0 {
        return false;
    }
    let mut bridged = Vec::new();
    for (day, closed) in season.strips[strip].closed.iter().enumerate() {
        if !(gap_start..start).contains(&day) {
            continue;
        }
        let mob = free.iter().position(|days| days[day]);
        let Some(mob) = mob.filter(|_| !closed) else {
            return false;
        };
        bridged.push((mob, day));
    }
    for (mob, day) in bridged {
        stands[mob][day] = Place::Strip(strip);
        free[mob][day] = false;
    }
    true
}
