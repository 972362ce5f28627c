//! What typing about a mob does to the farm. Kilograms, head, days.

use super::change::{Given, MobField, gone};
use super::figures;
use crate::app::season_acts::Act;
use crate::farm::{ComesBehind, Edit, Farm, Mob, MobId, Visit};
use crate::geometry::{LonLat, Point};

/// Heaviest sheep that is taken for one (from memory: the heaviest rams weigh some 200 kg).
const MOST_LIVEWEIGHT_KG: f64 = 300.0;
/// Most that one head is believed to gain or lose a day, g (from memory: fast lambs gain some 400 g).
const MOST_GAIN_G: f64 = 1_000.0;
/// Most that one head is believed to eat (from memory: a suckling ewe eats 3 to 4 kg).
const MOST_EATEN_KG: f64 = 15.0;

pub(super) fn change(
    given: Given<'_>,
    id: MobId,
    field: MobField,
    typed: &str,
) -> Result<Act, String> {
    let old = given.farm.mobs.get(&id).ok_or_else(gone)?;
    let mut mob = old.clone();
    let label = match field {
        MobField::Name => {
            mob.name = figures::name(typed)?;
            format!("Call the flock {}", mob.name)
        }
        MobField::Head => {
            mob.head = figures::whole(typed, 0..=100_000, "head")?;
            format!("{}: {} head", mob.name, mob.head)
        }
        MobField::Liveweight => {
            mob.liveweight_kg = figures::decimal(typed, 1.0..=MOST_LIVEWEIGHT_KG, "kg")?;
            format!("{}: weight of one head", mob.name)
        }
        MobField::Eats => {
            mob.eats_kg_per_head = figures::unless_empty(typed, |typed| {
                figures::decimal(typed, 0.1..=MOST_EATEN_KG, "kg DM")
            })?;
            format!("{}: what one head eats", mob.name)
        }
        MobField::Gain => {
            mob.gain_g_per_day = gain(typed)?;
            format!("{}: gain of one head", mob.name)
        }
        MobField::LambedOn => {
            let near = old.lambed_on.unwrap_or(given.farm.season.first_day);
            mob.lambed_on = figures::unless_empty(typed, |typed| figures::day(typed, near))?;
            format!("{}: middle of lambing", mob.name)
        }
        MobField::LaterFrom(place)
        | MobField::LaterHead(place)
        | MobField::LaterWeight(place)
        | MobField::LaterGain(place) => {
            change_later(&mut mob, place, field, typed)?;
            format!("{}: what they become", mob.name)
        }
        MobField::VisitFrom(place) | MobField::VisitTo(place) => {
            let is_from = matches!(field, MobField::VisitFrom(_));
            change_visit(&mut mob, place, is_from, typed)?;
            format!("{}: days on the farm", mob.name)
        }
        MobField::Yard => {
            mob.yard = figures::unless_empty(typed, |typed| place_from_degrees(given.farm, typed))?;
            format!("{}: yard", mob.name)
        }
        MobField::DaysBehind => {
            let follows = mob.follows.as_mut().ok_or_else(gone)?;
            follows.days_after = figures::whole(typed, 1..=ComesBehind::MOST_DAYS, "days")?;
            format!("{}: days behind", mob.name)
        }
    };
    Ok((label, vec![changed(id, old, mob)]))
}

/// The edit that puts `new` in the place of `old`.
pub(super) fn changed(id: MobId, old: &Mob, new: Mob) -> Edit {
    Edit::Mob {
        id,
        old: Some(Box::new(old.clone())),
        new: Some(Box::new(new)),
    }
}

/// The step that puts a mob's yard where the map was clicked.
pub fn put_yard(farm: &Farm, id: MobId, at: Point) -> Option<Act> {
    let old = farm.mobs.get(&id)?;
    let mut mob = old.clone();
    mob.yard = Some(at.on_whole_mm());
    let label = format!("{}: put the yard here", mob.name);
    Some((label, vec![changed(id, old, mob)]))
}

fn gain(typed: &str) -> Result<f64, String> {
    figures::decimal(typed, -MOST_GAIN_G..=MOST_GAIN_G, "g")
}

fn change_later(mob: &mut Mob, place: usize, field: MobField, typed: &str) -> Result<(), String> {
    let change = mob.changes.get_mut(place).ok_or_else(gone)?;
    match field {
        MobField::LaterHead(_) => change.head = figures::whole(typed, 0..=100_000, "head")?,
        MobField::LaterWeight(_) => {
            change.liveweight_kg = figures::decimal(typed, 1.0..=MOST_LIVEWEIGHT_KG, "kg")?;
        }
        MobField::LaterGain(_) => change.gain_g_per_day = gain(typed)?,
        _ => {
            let day = figures::day(typed, change.from)?;
            let others = mob.changes.iter().enumerate();
            if others
                .into_iter()
                .any(|(other, change)| other != place && change.from == day)
            {
                return Err("Another change begins on that day.".to_owned());
            }
            if let Some(change) = mob.changes.get_mut(place) {
                change.from = day;
            }
            mob.changes.sort_by_key(|change| change.from);
        }
    }
    Ok(())
}

fn change_visit(mob: &mut Mob, place: usize, is_from: bool, typed: &str) -> Result<(), String> {
    let old = *mob.visits.get(place).ok_or_else(gone)?;
    let near = if is_from { old.from } else { old.to };
    let day = figures::day(typed, near)?;
    let visit = if is_from {
        Visit { from: day, ..old }
    } else {
        Visit { to: day, ..old }
    };
    check_visit(visit, mob, place)?;
    if let Some(slot) = mob.visits.get_mut(place) {
        *slot = visit;
    }
    mob.visits.sort_by_key(|visit| (visit.from, visit.to));
    Ok(())
}

/// Refuses a visit that ends before it begins, or that lies on another one of the same mob.
fn check_visit(visit: Visit, mob: &Mob, place: usize) -> Result<(), String> {
    if visit.to < visit.from {
        return Err(format!(
            "It would end on {}, before it begins on {}.",
            figures::day_text(visit.to),
            figures::day_text(visit.from)
        ));
    }
    let others = mob.visits.iter().enumerate();
    let clash = others
        .filter(|(other, _)| *other != place)
        .map(|(_, other)| other)
        .find(|other| visit.from <= other.to && other.from <= visit.to);
    match clash {
        Some(other) => Err(format!(
            "It would overlap the visit from {} to {}.",
            figures::day_text(other.from),
            figures::day_text(other.to)
        )),
        None => Ok(()),
    }
}

/// A place from degrees north and east, as a phone shows them.
fn place_from_degrees(farm: &Farm, typed: &str) -> Result<Point, String> {
    let figures: Vec<f64> = typed
        .split([',', ';', ' '])
        .filter(|part| !part.is_empty())
        .map(|part| part.parse().map_err(|_| degrees_wanted()))
        .collect::<Result<_, _>>()?;
    let &[lat_deg, lon_deg] = figures.as_slice() else {
        return Err(degrees_wanted());
    };
    let place = farm
        .frame
        .point_from_lonlat(LonLat { lon_deg, lat_deg })
        .map_err(|error| error.to_string())?;
    Ok(place.on_whole_mm())
}

fn degrees_wanted() -> String {
    "Two numbers are wanted: degrees north, then degrees east, such as 53.0500, -2.6000.".to_owned()
}
