//! The mobs of the problem and their settled days. Demand in kg DM a day for the whole mob.

use std::collections::{BTreeMap, BTreeSet};

use super::super::{FixedDay, ProblemMob, Step};
use super::Window;
use super::names::{Named, unique};
use crate::farm::{Farm, FixedPlace, GroundId, Mob, MobId};
use crate::quantity::{Day, plural_text};

type NameOfGround = BTreeMap<GroundId, String>;

/// The mobs that are here in the window, and the mob that each name stands for.
pub(super) fn mobs_of(
    farm: &Farm,
    window: Window,
    name_of: &NameOfGround,
    assumptions: &mut Vec<String>,
) -> (Vec<ProblemMob>, BTreeMap<String, MobId>) {
    let here: Vec<(MobId, &Mob, Vec<super::super::DaySpan>)> = farm
        .mobs
        .iter()
        .map(|(id, mob)| {
            let visits = mob.visits.iter();
            let visits = visits.filter_map(|visit| window.cut(visit.from, visit.to));
            (*id, mob, visits.collect::<Vec<_>>())
        })
        .filter(|(_, _, visits)| !visits.is_empty())
        .collect();
    let named: Vec<Named<'_>> = here
        .iter()
        .map(|(id, mob, _)| Named {
            name: &mob.name,
            number: id.0,
            kind: "mob",
        })
        .collect();
    let names = unique(&named);
    let mob_of = names
        .iter()
        .cloned()
        .zip(here.iter().map(|(id, ..)| *id))
        .collect();
    let mut mobs = Vec::new();
    for ((id, mob, visits), name) in here.into_iter().zip(names) {
        assumptions.extend(unrecorded(farm, id, mob, window.first));
        let yard = mob.yard.unwrap_or_else(|| farm.middle());
        mobs.push(ProblemMob {
            stood: stood_before(farm, id, mob, window.first, name_of),
            demand: demand_steps(window, mob),
            yard: [yard.east_m, yard.north_m],
            name,
            visits,
        });
    }
    (mobs, mob_of)
}

/// What the whole mob eats, a step wherever that changes.
fn demand_steps(window: Window, mob: &Mob) -> Vec<Step> {
    if !mob.is_changing() {
        let (from, value) = (window.first, mob.demand_kg());
        return vec![Step { from, value }];
    }
    super::changing_steps(window, |day| mob.as_on(day).demand_kg())
}

/// The strip on which a mob stood on the day before the window, where that visit runs on into it.
fn stood_before(
    farm: &Farm,
    id: MobId,
    mob: &Mob,
    first: Day,
    name_of: &NameOfGround,
) -> Option<String> {
    let before = first.plus_days(-1);
    let runs_in = mob
        .visits
        .iter()
        .any(|visit| visit.from <= before && visit.to >= first);
    let fixed = farm.fixed.get(&(id, before)).filter(|fixed| fixed.lived)?;
    let place = fixed.place.filter(|_| runs_in)?;
    name_of.get(&place).cloned()
}

/// Says how many days of a mob between the season's beginning and the window nobody wrote down.
fn unrecorded(farm: &Farm, id: MobId, mob: &Mob, first: Day) -> Option<String> {
    let season_first = farm.season.first_day;
    let days: Vec<Day> = (0..first.days_since(season_first))
        .map(|step| season_first.plus_days(step))
        .filter(|day| mob.is_here(*day))
        .filter(|day| farm.fixed.get(&(id, *day)).is_none_or(|fixed| !fixed.lived))
        .collect();
    let (from, to) = (days.first()?, days.last()?);
    let count = u64::try_from(days.len()).unwrap_or(u64::MAX);
    Some(format!(
        "{} of {} from {} to {} were not written down: nothing is taken off any strip for them.",
        plural_text(count, "day", "days"),
        mob.name.trim(),
        from.short_text(),
        to.short_text()
    ))
}

/// Why a settled day is left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum LeftOut {
    MobGone,
    NotHere,
    NotGrazed,
}

/// The settled days inside the window. One that cannot be in any plan is left out, and that is said.
pub(super) fn fixed_of(
    farm: &Farm,
    window: Window,
    name_of: &NameOfGround,
    mob_of: &BTreeMap<String, MobId>,
    assumptions: &mut Vec<String>,
) -> Vec<FixedDay> {
    let mob_names: BTreeMap<MobId, &String> = mob_of.iter().map(|(name, id)| (*id, name)).collect();
    let mut fixed_days = Vec::new();
    let mut left_out: BTreeMap<(LeftOut, MobId), BTreeSet<Day>> = BTreeMap::new();
    for ((mob, day), fixed) in &farm.fixed {
        if !window.contains(*day) {
            continue;
        }
        match fixed_day(farm, &mob_names, name_of, (*mob, *day), *fixed) {
            Ok(fixed_day) => fixed_days.push(fixed_day),
            Err(why) => {
                left_out.entry((why, *mob)).or_default().insert(*day);
            }
        }
    }
    assumptions.extend(left_out.iter().filter_map(|((why, mob), days)| {
        let name = farm.mobs.get(mob).map_or("a mob", |mob| mob.name.trim());
        left_out_sentence(*why, name, days)
    }));
    fixed_days
}

fn fixed_day(
    farm: &Farm,
    mob_names: &BTreeMap<MobId, &String>,
    name_of: &NameOfGround,
    (mob, day): (MobId, Day),
    fixed: FixedPlace,
) -> Result<FixedDay, LeftOut> {
    let owner = farm.mobs.get(&mob).ok_or(LeftOut::MobGone)?;
    let name = mob_names.get(&mob).filter(|_| owner.is_here(day));
    let name = (*name.ok_or(LeftOut::NotHere)?).clone();
    let strip = match fixed.place {
        None => None,
        Some(place) => Some(name_of.get(&place).ok_or(LeftOut::NotGrazed)?.clone()),
    };
    Ok(FixedDay {
        mob: name,
        day,
        strip,
        lived: fixed.lived,
    })
}

fn left_out_sentence(why: LeftOut, name: &str, days: &BTreeSet<Day>) -> Option<String> {
    let (first, last) = (days.first()?, days.last()?);
    let count = u64::try_from(days.len()).unwrap_or(u64::MAX);
    let why = match why {
        LeftOut::MobGone => "the mob is gone",
        LeftOut::NotHere => "it is not on the farm then",
        LeftOut::NotGrazed => "the ground is gone or is not grazed as one piece",
    };
    Some(format!(
        "Left out: {} of {name} ({} to {}), because {why}.",
        plural_text(count, "settled day", "settled days"),
        first.short_text(),
        last.short_text()
    ))
}
