//! The hens of houses listed before: when they are on the places of a house, and what coming too near to them costs an
//! order.
//!
//! Houses are walked in the order they are listed, each with those before it in mind. Hens that follow sheep are left
//! aside: where they walk is known once the season is planned. Civil days.

use super::HenWalk;
use super::order::OrderCost;
use super::stays::Stay;
use crate::farm::HenHouse;
use crate::geometry::oblong::{self, Oblong};
use crate::quantity::Day;

/// Days in a row on which hens of another house are on a place, both included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Visit {
    pub(super) first: Day,
    pub(super) last: Day,
    /// The rest that the ground should have had before they came.
    pub(super) rest_days_wanted: u32,
}

/// The days of all houses walked so far, in the order the houses are listed.
#[derive(Debug, Default)]
pub(super) struct WalkedBefore {
    houses: Vec<Walked>,
}

/// One house: its name, and where its hens range, in the order of days.
#[derive(Debug)]
struct Walked {
    name: String,
    rest_days_wanted: u32,
    outlines: Vec<Oblong>,
    /// Day, and the outline's place in the list.
    days: Vec<(Day, usize)>,
}

impl WalkedBefore {
    /// Takes the whole walk of a house into account for those that are listed after it.
    pub(super) fn add(&mut self, house: &HenHouse, walk: &HenWalk) {
        let ranging = walk.days.iter().filter(|day| !day.is_housed);
        self.houses.push(Walked {
            name: house.name.trim().to_owned(),
            rest_days_wanted: house.rest_days_wanted,
            outlines: walk.places.iter().map(|place| place.outline).collect(),
            days: ranging.map(|day| (day.day, day.place - 1)).collect(),
        });
    }

    /// When their hens are on each of these places, and the names of the houses that come there.
    pub(super) fn on_places(&self, places: &[super::HenPlace]) -> (Vec<Vec<Visit>>, Vec<String>) {
        let mut all: Vec<Vec<Visit>> = vec![Vec::new(); places.len()];
        let mut names = Vec::new();
        for house in &self.houses {
            let mut comes = false;
            for (place, visits) in places.iter().zip(&mut all) {
                let found = house.visits_to(&place.outline);
                comes |= !found.is_empty();
                visits.extend(found);
            }
            if comes {
                names.push(house.name.clone());
            }
        }
        for visits in &mut all {
            visits.sort_by_key(|visit| (visit.first, visit.last));
        }
        (all, names)
    }
}

impl Walked {
    fn visits_to(&self, place: &Oblong) -> Vec<Visit> {
        let shared: Vec<bool> = self
            .outlines
            .iter()
            .map(|there| oblong::overlap(place, there))
            .collect();
        let mut visits: Vec<Visit> = Vec::new();
        if !shared.contains(&true) {
            return visits;
        }
        for (day, there) in &self.days {
            if shared.get(*there) != Some(&true) {
                continue;
            }
            match visits.last_mut() {
                Some(visit) if visit.last.plus_days(1) == *day => visit.last = *day,
                _ => visits.push(Visit {
                    first: *day,
                    last: *day,
                    rest_days_wanted: self.rest_days_wanted,
                }),
            }
        }
        visits
    }
}

/// What a stay costs beside the visits of others: days on one ground count as closed, days between them that are fewer
/// than the one who comes later wants as missing rest. Visits in order of days.
pub(super) fn beside_others(stay: Stay, visits: &[Visit], rest_days_wanted: u32) -> OrderCost {
    let mut cost = OrderCost::default();
    let missing = |wanted: u32, rested: i64| u64::try_from(i64::from(wanted) - rested).unwrap_or(0);
    let meets = |visit: &&Visit| visit.first <= stay.last && stay.first <= visit.last;
    for visit in visits.iter().filter(meets) {
        let shared = stay
            .last
            .min(visit.last)
            .days_since(stay.first.max(visit.first))
            + 1;
        cost.closed_days += u64::try_from(shared).unwrap_or(0);
    }
    let before = visits.iter().filter(|visit| visit.last < stay.first);
    if let Some(visit) = before.max_by_key(|visit| visit.last) {
        let rested = stay.first.days_since(visit.last) - 1;
        cost.unrested_days += missing(rest_days_wanted, rested);
    }
    let after = visits.iter().find(|visit| visit.first > stay.last);
    if let Some(visit) = after {
        let rested = visit.first.days_since(stay.last) - 1;
        cost.unrested_days += missing(visit.rest_days_wanted, rested);
    }
    cost
}
