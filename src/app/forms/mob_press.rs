//! What a press does to the farm's mobs: add one, remove it, change its class, add and remove its visits.
//!
//! Each gives the edits of one step; none paints.

use super::mob_change::changed;
use crate::app::season_acts::Act;
use crate::farm::{ComesBehind, Edit, Farm, Mob, MobChange, MobId, StockClass, Visit};
use crate::quantity::Day;

/// Head of a mob as it is added, before anyone has counted.
const FIRST_HEAD: u32 = 20;
/// Days behind the mob in front as they are first put in: regrowth is not yet grazed (common practice, no source).
const FIRST_DAYS_BEHIND: u32 = 3;
/// Days of a visit that is put behind the season's end.
const LATE_VISIT_DAYS: i64 = 30;

/// Adds ewes with lambs that are here all season; the number they get.
pub(super) fn add(farm: &Farm) -> (MobId, Act) {
    let id = MobId(farm.next_id);
    let class = StockClass::EwesWithLambs;
    let mob = Mob {
        name: free_name(farm),
        class,
        head: FIRST_HEAD,
        liveweight_kg: class.facts().liveweight_kg.value,
        eats_kg_per_head: None,
        gain_g_per_day: 0.0,
        lambed_on: None,
        changes: Vec::new(),
        visits: vec![Visit {
            from: farm.season.first_day,
            to: farm.season.last_day(),
        }],
        yard: None,
        follows: None,
    };
    let label = format!("Add the flock {}", mob.name);
    let edit = Edit::Mob {
        id,
        old: None,
        new: Some(Box::new(mob)),
    };
    (id, (label, vec![edit]))
}

fn free_name(farm: &Farm) -> String {
    let is_free = |name: &String| farm.mobs.values().all(|mob| mob.name != *name);
    (1..=farm.mobs.len() + 1)
        .map(|number| {
            if number == 1 {
                "Ewes".to_owned()
            } else {
                format!("Ewes {number}")
            }
        })
        .find(is_free)
        .unwrap_or_default()
}

/// Removes a mob and the days that were settled for it.
pub(super) fn remove(farm: &Farm, id: MobId) -> Option<Act> {
    let mob = farm.mobs.get(&id)?;
    let mut edits: Vec<Edit> = farm
        .fixed
        .iter()
        .filter(|((whose, _), _)| *whose == id)
        .map(|(key, place)| Edit::Fixed {
            key: *key,
            old: Some(*place),
            new: None,
        })
        .collect();
    edits.push(Edit::Mob {
        id,
        old: Some(Box::new(mob.clone())),
        new: None,
    });
    Some((format!("Remove the flock {}", mob.name), edits))
}

/// Makes them another class; a weight that was the old class's usual one becomes the new one's.
pub(super) fn set_class(farm: &Farm, id: MobId, class: StockClass) -> Option<Act> {
    let old = farm.mobs.get(&id)?;
    let mut mob = old.clone();
    let usual_kg = old.class.facts().liveweight_kg.value;
    if (old.liveweight_kg - usual_kg).abs() < 1e-9 {
        mob.liveweight_kg = class.facts().liveweight_kg.value;
    }
    mob.class = class;
    let label = format!("{} are {}", mob.name, class.name());
    Some((label, vec![changed(id, old, mob)]))
}

/// Adds a visit from the day after the last one to the season's end, or the whole season where there is none.
pub(super) fn add_visit(farm: &Farm, id: MobId) -> Option<Act> {
    let old = farm.mobs.get(&id)?;
    let season = farm.season;
    let from = old
        .visits
        .iter()
        .map(|visit| visit.to.plus_days(1))
        .max()
        .unwrap_or(season.first_day);
    let to = if season.last_day() >= from {
        season.last_day()
    } else {
        from.plus_days(LATE_VISIT_DAYS - 1)
    };
    let mut mob = old.clone();
    mob.visits.push(Visit { from, to });
    let label = format!("{}: add a visit", mob.name);
    Some((label, vec![changed(id, old, mob)]))
}

/// Takes one visit away.
pub(super) fn remove_visit(farm: &Farm, id: MobId, place: usize) -> Option<Act> {
    let old = farm.mobs.get(&id)?;
    let mut mob = old.clone();
    if place >= mob.visits.len() {
        return None;
    }
    mob.visits.remove(place);
    let label = format!("{}: take a visit away", mob.name);
    Some((label, vec![changed(id, old, mob)]))
}

/// Lets a mob come behind another, or go its own way.
pub(super) fn set_follows(farm: &Farm, id: MobId, front: Option<MobId>) -> Option<Act> {
    let old = farm.mobs.get(&id)?;
    let mut mob = old.clone();
    let days_after = old.follows.map_or(FIRST_DAYS_BEHIND, |now| now.days_after);
    mob.follows = front.map(|mob| ComesBehind { mob, days_after });
    let way = match front.and_then(|front| farm.mobs.get(&front)) {
        Some(front) => format!("behind {}", front.name),
        None => "a way of its own".to_owned(),
    };
    let label = format!("{}: {way}", mob.name);
    Some((label, vec![changed(id, old, mob)]))
}

/// Leaves the yard to be the middle of the farm's ground.
pub(super) fn forget_yard(farm: &Farm, id: MobId) -> Option<Act> {
    let old = farm.mobs.get(&id)?;
    old.yard?;
    let mut mob = old.clone();
    mob.yard = None;
    let label = format!("{}: no yard of its own", mob.name);
    Some((label, vec![changed(id, old, mob)]))
}

/// Lets a mob change from a day on: as it is then, ready to be altered.
pub(super) fn add_change(farm: &Farm, id: MobId, day: Day) -> Option<Act> {
    let old = farm.mobs.get(&id)?;
    let mut mob = old.clone();
    let change = free_change(old, day);
    let label = format!("{}: a change from {}", mob.name, change.from.short_text());
    mob.changes.push(change);
    mob.changes.sort_by_key(|change| change.from);
    Some((label, vec![changed(id, old, mob)]))
}

/// What the mob is on a day, as a change; on the next day that has none yet.
fn free_change(mob: &Mob, day: Day) -> MobChange {
    let is_taken = |day: &Day| mob.changes.iter().any(|change| change.from == *day);
    let days = (0..=i64::try_from(mob.changes.len()).unwrap_or(0)).map(|step| day.plus_days(step));
    let from = days.into_iter().find(|day| !is_taken(day)).unwrap_or(day);
    let then = mob.as_on(from);
    MobChange {
        from,
        class: then.class,
        head: then.head,
        liveweight_kg: then.liveweight_kg,
        gain_g_per_day: then.gain_g_per_day,
    }
}

/// Takes a later change away.
pub(super) fn remove_change(farm: &Farm, id: MobId, place: usize) -> Option<Act> {
    let old = farm.mobs.get(&id)?;
    let mut mob = old.clone();
    if place >= mob.changes.len() {
        return None;
    }
    mob.changes.remove(place);
    let label = format!("{}: take a change away", mob.name);
    Some((label, vec![changed(id, old, mob)]))
}

/// Makes them another class from a later change on.
pub(super) fn set_later_class(
    farm: &Farm,
    id: MobId,
    place: usize,
    class: StockClass,
) -> Option<Act> {
    let old = farm.mobs.get(&id)?;
    let mut mob = old.clone();
    let change = mob.changes.get_mut(place)?;
    change.class = class;
    let label = format!("{} become {}", old.name, class.name());
    Some((label, vec![changed(id, old, mob)]))
}

/// Parts half of a mob off from a day on: they become a mob of their own, in one step.
pub(super) fn part(farm: &Farm, id: MobId, day: Day) -> Option<(MobId, Act)> {
    let old = farm.mobs.get(&id)?;
    let visit = old
        .visits
        .iter()
        .find(|visit| (visit.from..=visit.to).contains(&day))?;
    let then = old.as_on(day);
    let parted_head = then.head / 2;
    if parted_head == 0 {
        return None;
    }
    let mut rest = old.clone();
    rest.changes.retain(|change| change.from != day);
    let mut change = free_change(&rest, day);
    change.head = then.head - parted_head;
    rest.changes.push(change);
    rest.changes.sort_by_key(|change| change.from);
    let later = old.visits.iter().filter(|other| other.from > visit.to);
    let first = Visit {
        from: day,
        to: visit.to,
    };
    let parted = Mob {
        name: free_name(farm),
        head: parted_head,
        changes: Vec::new(),
        visits: std::iter::once(first).chain(later.copied()).collect(),
        eats_kg_per_head: old.eats_kg_per_head,
        ..then
    };
    let new_id = MobId(farm.next_id);
    let label = format!(
        "Part {parted_head} head of {} off as {}",
        old.name, parted.name
    );
    let added = Edit::Mob {
        id: new_id,
        old: None,
        new: Some(Box::new(parted)),
    };
    Some((new_id, (label, vec![changed(id, old, rest), added])))
}

/// Lets a mob join another from a day on: it leaves as a mob of its own, and the other grows by its head.
pub(super) fn join(farm: &Farm, joining: MobId, into: MobId, day: Day) -> Option<Act> {
    let (leaver, host) = (farm.mobs.get(&joining)?, farm.mobs.get(&into)?);
    if joining == into || !leaver.is_here(day) || !host.is_here(day) {
        return None;
    }
    let (leaving, staying) = (leaver.as_on(day), host.as_on(day));
    let mut grown = host.clone();
    grown.changes.retain(|change| change.from != day);
    let mut change = free_change(&grown, day);
    change.head = staying.head.saturating_add(leaving.head);
    // What one of the joined mob weighs is the mean of both.
    let all_kg = f64::from(staying.head) * staying.liveweight_kg
        + f64::from(leaving.head) * leaving.liveweight_kg;
    if change.head > 0 {
        change.liveweight_kg = all_kg / f64::from(change.head);
    }
    grown.changes.push(change);
    grown.changes.sort_by_key(|change| change.from);
    let mut gone = leaver.clone();
    gone.visits.retain(|visit| visit.from < day);
    for visit in &mut gone.visits {
        visit.to = visit.to.min(day.plus_days(-1));
    }
    let label = format!("{} join {} on {}", leaver.name, host.name, day.short_text());
    let settled = farm.fixed.iter();
    let mut edits: Vec<Edit> = settled
        .filter(|((mob, settled), fixed)| *mob == joining && *settled >= day && !fixed.lived)
        .map(|(key, place)| Edit::Fixed {
            key: *key,
            old: Some(*place),
            new: None,
        })
        .collect();
    edits.push(changed(joining, leaver, gone));
    edits.push(changed(into, host, grown));
    Some((label, edits))
}
