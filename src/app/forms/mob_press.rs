//! What a press does to the farm's mobs: add one, remove it, change its class, add and remove its visits.
//!
//! Each gives the edits of one step; none paints.

use super::mob_change::changed;
use crate::app::season_acts::Act;
use crate::farm::{Edit, Farm, Mob, MobId, StockClass, Visit};

/// Head of a mob as it is added, before anyone has counted.
const FIRST_HEAD: u32 = 20;
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
        visits: vec![Visit {
            from: farm.season.first_day,
            to: farm.season.last_day(),
        }],
        yard: None,
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

/// Leaves the yard to be the middle of the farm's ground.
pub(super) fn forget_yard(farm: &Farm, id: MobId) -> Option<Act> {
    let old = farm.mobs.get(&id)?;
    old.yard?;
    let mut mob = old.clone();
    mob.yard = None;
    let label = format!("{}: no yard of its own", mob.name);
    Some((label, vec![changed(id, old, mob)]))
}
