//! Ground that two houses walk: a house that comes onto it before it has rested from the hens of another.
//!
//! Told as findings. The rest that a house counts for itself knows its own hens only; an order that the program chooses
//! heeds those of the houses listed before (see `beside`). Days.

use std::collections::BTreeMap;

use super::findings::finding;
use super::{HenPlace, HenWalk};
use crate::farm::{Farm, Finding, HenHouseId};
use crate::geometry::oblong;
use crate::quantity::{Day, plural_text};

/// One finding for each house that comes too soon after another.
pub(super) fn rest_cut_short(farm: &Farm, walks: &BTreeMap<HenHouseId, HenWalk>) -> Vec<Finding> {
    let mut found = Vec::new();
    for (id, walk) in walks {
        let Some(house) = farm.hen_houses.get(id) else {
            continue;
        };
        for (other_id, other) in walks.iter().filter(|(other, _)| *other != id) {
            let Some(cut) = cut_of(walk, other, house.rest_days_wanted) else {
                continue;
            };
            let left = farm
                .hen_houses
                .get(other_id)
                .map_or("", |house| house.name.trim());
            let name = house.name.trim();
            let what = format!(
                "{name}: comes onto ground that {left} has left {} before, where {} of rest are wanted: on {}, first on {}.",
                plural_text(u64::from(cut.least_days), "day", "days"),
                plural_text(u64::from(house.rest_days_wanted), "day", "days"),
                plural_text(cut.visits, "visit", "visits"),
                cut.first.short_text()
            );
            let remedy = format!(
                "Give them other lines or other sides of a line, begin {name} on another day, or leave those places out. \
                 The rest told for each house counts its own hens only; an order that the program chooses heeds the \
                 houses listed before."
            );
            found.push(finding(*id, what, remedy, Some(cut.place.middle)));
        }
    }
    found
}

/// Visits that come too soon after the hens of another house.
struct Cut<'a> {
    visits: u64,
    first: Day,
    place: &'a HenPlace,
    /// The shortest rest of all these visits.
    least_days: u32,
}

fn cut_of<'a>(walk: &'a HenWalk, other: &HenWalk, wanted_days: u32) -> Option<Cut<'a>> {
    let mut cut: Option<Cut<'a>> = None;
    let arrivals = walk.days.iter().filter(|day| day.day_of_stay == 1);
    for arrival in arrivals {
        let Some((_, place)) = walk.on(arrival.day) else {
            continue;
        };
        let Some(rested_days) = rested_from(place, arrival.day, other, wanted_days) else {
            continue;
        };
        match &mut cut {
            Some(cut) => {
                cut.visits += 1;
                cut.least_days = cut.least_days.min(rested_days);
            }
            None => {
                cut = Some(Cut {
                    visits: 1,
                    first: arrival.day,
                    place,
                    least_days: rested_days,
                });
            }
        }
    }
    cut
}

/// Full days since the other's hens ranged on the ground of a place, where fewer than wanted.
fn rested_from(place: &HenPlace, day: Day, other: &HenWalk, wanted_days: u32) -> Option<u32> {
    (0..wanted_days).find(|rested| {
        other
            .on(day.plus_days(-1 - i64::from(*rested)))
            .is_some_and(|(stand, there)| {
                !stand.is_housed && oblong::overlap(&place.outline, &there.outline)
            })
    })
}
