//! What typing about a hen house does to the farm. Metres, hens, days.

use super::change::{Given, HouseField, gone};
use super::{figures, house_handling};
use crate::app::season_acts::Act;
use crate::farm::{Edit, HenHandling, HenHouse, HenHouseId, HenMark};
use crate::planning::hen_walk;
use crate::quantity::Day;

/// Longest house with its run that one person moves, generously.
const LONGEST_HOUSE_M: f64 = 100.0;
/// Least length or width of a house.
const SHORTEST_HOUSE_M: f64 = 0.3;
/// Farthest that a house walks from its line, and widest gap.
const FARTHEST_M: f64 = 500.0;
/// Longest stay and rest.
const MOST_DAYS: u32 = 3660;

pub(super) fn change(
    given: Given<'_>,
    id: HenHouseId,
    field: HouseField,
    typed: &str,
) -> Result<Act, String> {
    let old = given.farm.hen_houses.get(&id).ok_or_else(gone)?;
    let mut house = old.clone();
    let what = match field {
        HouseField::Name => {
            house.name = figures::name(typed)?;
            "name"
        }
        HouseField::Hens => {
            house.hens = figures::whole(typed, 0..=100_000, "hens")?;
            "hens"
        }
        HouseField::Length
        | HouseField::Width
        | HouseField::Gap
        | HouseField::Offset
        | HouseField::HouseLength
        | HouseField::HouseWidth
        | HouseField::TurnRadius => change_length(given, &mut house, field, typed)?,
        HouseField::DaysPerPlace => {
            house.days_per_place = figures::whole(typed, 1..=MOST_DAYS, "days")?;
            "days on a place"
        }
        HouseField::RestWanted => {
            house.rest_days_wanted = figures::whole(typed, 0..=MOST_DAYS, "days")?;
            "rest wanted"
        }
        HouseField::FirstDay => {
            house.first_day = figures::day(typed, old.first_day)?;
            "first day"
        }
        HouseField::LastDay => {
            let near = old.last_day.unwrap_or(given.farm.season.last_day());
            house.last_day = figures::unless_empty(typed, |typed| figures::day(typed, near))?;
            "last day"
        }
        HouseField::PlaceOn(day) => return settle_place(given, (id, old), day, typed),
        field => house_handling::change(given, &mut house, field, typed)?,
    };
    if matches!(field, HouseField::FirstDay | HouseField::LastDay) {
        check_days(&house)?;
    }
    let label = format!("{}: {what}", house.name);
    Ok((label, vec![changed(id, old, house)]))
}

/// The edit that puts `new` in the place of `old`.
pub(super) fn changed(id: HenHouseId, old: &HenHouse, new: HenHouse) -> Edit {
    Edit::HenHouse {
        id,
        old: Some(Box::new(old.clone())),
        new: Some(Box::new(new)),
    }
}

fn change_length(
    given: Given<'_>,
    house: &mut HenHouse,
    field: HouseField,
    typed: &str,
) -> Result<&'static str, String> {
    let size = |typed| figures::length_m(typed, given.units, SHORTEST_HOUSE_M..=LONGEST_HOUSE_M);
    let way = |typed| figures::length_m(typed, given.units, 0.0..=FARTHEST_M);
    Ok(match field {
        HouseField::Length => {
            house.length_m = size(typed)?;
            "length"
        }
        HouseField::Width => {
            house.width_m = size(typed)?;
            "width"
        }
        HouseField::Gap => {
            house.gap_m = gap_m(given, house, typed)?;
            "gap between places"
        }
        HouseField::HouseLength => {
            house.handling.house_length_m = alone_m(given, typed)?;
            "length of the house alone"
        }
        HouseField::HouseWidth => {
            house.handling.house_width_m = alone_m(given, typed)?;
            "width of the house alone"
        }
        HouseField::TurnRadius => {
            house.handling.turn_radius_m = figures::unless_empty(typed, |typed| {
                figures::length_m(typed, given.units, 0.0..=HenHandling::WIDEST_TURN_M)
            })?;
            "radius of its turn"
        }
        _ => {
            house.offset_m = way(typed)?;
            "way from the line"
        }
    })
}

/// A size of the house without its run; nothing for that with it.
fn alone_m(given: Given<'_>, typed: &str) -> Result<Option<f64>, String> {
    figures::unless_empty(typed, |typed| {
        figures::length_m(typed, given.units, SHORTEST_HOUSE_M..=LONGEST_HOUSE_M)
    })
}

/// A gap, or an overlap with a minus before it, which is less than the length.
fn gap_m(given: Given<'_>, house: &HenHouse, typed: &str) -> Result<f64, String> {
    let typed = typed.trim();
    let Some(overlap) = typed.strip_prefix(['-', '−']) else {
        return figures::length_m(typed, given.units, 0.0..=FARTHEST_M);
    };
    let overlap_m = figures::length_m(overlap, given.units, 0.0..=FARTHEST_M)?;
    if overlap_m < house.length_m {
        Ok(-overlap_m)
    } else {
        Err("Places cannot overlap by all their length.".to_owned())
    }
}

/// Fixes the place that bears this number in the round as it stands; an empty text frees the day.
fn settle_place(
    given: Given<'_>,
    (id, old): (HenHouseId, &HenHouse),
    day: Day,
    typed: &str,
) -> Result<Act, String> {
    let mut house = old.clone();
    if typed.trim().is_empty() {
        house.handling.marks.remove(&day);
        let label = format!("{}: free {}", house.name, day.short_text());
        return Ok((label, vec![changed(id, old, house)]));
    }
    let walk = if old.handling.follows.is_some() {
        let walk = given.walks.and_then(|walks| walks.get(&id));
        walk.cloned()
            .ok_or("Wait until the season is planned: it walks where the mob has been.")?
    } else {
        hen_walk(given.farm, id, day, 1).map_err(|error| format!("{error}."))?
    };
    let most = u32::try_from(walk.places.len()).unwrap_or(u32::MAX);
    let number = figures::whole(typed, 1..=most, "a place of the round")?;
    let place = usize::try_from(number)
        .ok()
        .and_then(|number| walk.place(number))
        .ok_or_else(gone)?;
    let spot = place.spot();
    house
        .handling
        .marks
        .insert(day, HenMark::At { spot, lived: false });
    let label = format!("{}: place {number} on {}", house.name, day.short_text());
    Ok((label, vec![changed(id, old, house)]))
}

fn check_days(house: &HenHouse) -> Result<(), String> {
    match house.last_day {
        Some(last) if last < house.first_day => Err(format!(
            "They would be shut in on {}, before they come out on {}.",
            figures::day_text(last),
            figures::day_text(house.first_day)
        )),
        _ => Ok(()),
    }
}
