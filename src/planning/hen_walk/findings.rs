//! What is to be mended about a walk: rest that is not reached, closed ground, room to turn and for the birds, two
//! houses on one place.
//!
//! Findings as those of the farm, but only known once a walk is laid. Remedies of rest were tried before they are told.

use std::collections::BTreeMap;

use super::shared_rest::rest_cut_short;
use super::{HenPlace, HenWalk, hen_remedies, hen_sums};
use crate::farm::{Farm, Finding, FindingCode, HenHouse, HenHouseId, Severity, Subject};
use crate::geometry::Point;
use crate::geometry::oblong;
use crate::planning::NitrogenSet;
use crate::quantity::{Day, UnitSystem, length_text, plural_text};

/// Findings of every walk of a farm.
pub fn hen_findings(farm: &Farm, walks: &BTreeMap<HenHouseId, HenWalk>) -> Vec<Finding> {
    let mut found = Vec::new();
    for (id, walk) in walks {
        let Some(house) = farm.hen_houses.get(id) else {
            continue;
        };
        found.extend(rest(farm, *id, house, walk));
        found.extend(on_closed(*id, house, walk));
        found.extend(no_room_to_turn(*id, house, walk));
        let sums = hen_sums(house, walk, NitrogenSet::default());
        if let Some((_, trouble)) = sums.room_trouble {
            let what = format!("{}: too little room as the birds grow.", house.name.trim());
            found.push(finding(*id, what, format!("{trouble}."), None));
        }
    }
    found.extend(two_on_one_place(farm, walks));
    found.extend(rest_cut_short(farm, walks));
    found
}

pub(super) fn finding(
    id: HenHouseId,
    what: String,
    remedy: String,
    place: Option<Point>,
) -> Finding {
    Finding {
        severity: Severity::Warning,
        code: FindingCode::HenRound,
        about: Subject::HenHouse(id),
        beside: None,
        place,
        what,
        remedy,
    }
}

fn rest(farm: &Farm, id: HenHouseId, house: &HenHouse, walk: &HenWalk) -> Option<Finding> {
    let facts = &walk.facts;
    if facts.rest_days >= facts.rest_days_wanted {
        return None;
    }
    let what = format!(
        "{}: its ground rests {} between two visits, and {} are wanted.",
        house.name.trim(),
        plural_text(u64::from(facts.rest_days), "day", "days"),
        facts.rest_days_wanted
    );
    let tried: Vec<String> = hen_remedies(farm, id)
        .into_iter()
        .map(|remedy| remedy.what)
        .collect();
    let remedy = if tried.is_empty() {
        "Nothing that was tried reaches it: longer lines, longer stays, other lines. Want less rest, or plan more ground."
            .to_owned()
    } else {
        format!("Each of these would do: {}.", tried.join("; or "))
    };
    Some(finding(id, what, remedy, None))
}

fn on_closed(id: HenHouseId, house: &HenHouse, walk: &HenWalk) -> Option<Finding> {
    let (first, why) = walk.closed.first()?;
    let what = format!(
        "{}: stands on closed ground on {}, first on {} ({why}).",
        house.name.trim(),
        plural_text(u64::try_from(walk.closed.len()).unwrap_or(0), "day", "days"),
        first.short_text()
    );
    let can_choose = walk.order.as_ref().is_some_and(|order| !order.is_chosen);
    let remedy = if can_choose {
        "Let the program choose the order, leave a place out on such a day, or begin on another day."
    } else {
        "Leave a place out on such a day, begin on another day, or take the line out of the walk."
    };
    let place = walk.on(*first).map(|(_, place)| place.middle);
    Some(finding(id, what, remedy.to_owned(), place))
}

/// Places that a house towed from one end cannot go on from, for there is no room to turn it about.
fn no_room_to_turn(id: HenHouseId, house: &HenHouse, walk: &HenWalk) -> Option<Finding> {
    let places = walk.places.iter().zip(&walk.tows);
    let mut lacking = places.filter(|(_, tow)| tow.lacks_room_to_turn);
    let (first, _) = lacking.next()?;
    let more = match lacking.count() {
        0 => String::new(),
        more => {
            let more = u64::try_from(more).unwrap_or(u64::MAX);
            format!(" and {}", plural_text(more, "other place", "other places"))
        }
    };
    let what = format!(
        "{}: after place {}{more} it must be turned about, and a circle of {} radius finds no room.",
        house.name.trim(),
        first.number,
        length_text(house.turn_radius_m(), UnitSystem::Metric)
    );
    let remedy = "Tow it from both ends where it can be hitched so, put in the radius it really turns on, \
                  leave out the end of the line so that it turns earlier, or clear the ground at its end.";
    Some(finding(id, what, remedy.to_owned(), Some(first.middle)))
}

/// Two houses that stand on the same ground on one day: told for the first day of each pair.
fn two_on_one_place(farm: &Farm, walks: &BTreeMap<HenHouseId, HenWalk>) -> Vec<Finding> {
    let mut found = Vec::new();
    for (id, walk) in walks {
        for (other_id, other) in walks.range(..*id) {
            let Some((day, place)) = first_clash(walk, other) else {
                continue;
            };
            let name = |id: &HenHouseId| {
                farm.hen_houses
                    .get(id)
                    .map_or("", |house| house.name.trim())
            };
            let what = format!(
                "{} and {} stand on the same ground on {}.",
                name(other_id),
                name(id),
                day.short_text()
            );
            let remedy = "Begin one of them on another day, or give it other lines.".to_owned();
            found.push(finding(*id, what, remedy, Some(place.middle)));
        }
    }
    found
}

fn first_clash<'a>(walk: &'a HenWalk, other: &HenWalk) -> Option<(Day, &'a HenPlace)> {
    walk.days.iter().find_map(|day| {
        let (_, place) = walk.on(day.day)?;
        let (_, there) = other.on(day.day)?;
        oblong::overlap(&place.outline, &there.outline).then_some((day.day, place))
    })
}
