//! The days of a walk: where the house stands on each, how long its ground had rested, and which of them are closed.
//!
//! Civil days.

use std::collections::BTreeMap;

use super::closed::{ClosedSpan, why_closed};
use super::round::Round;
use super::stays::walked_days;
use super::{HenDay, HenPlace};
use crate::farm::{HenHouse, HenMark, HenSpot};
use crate::quantity::{Day, plural_text};

/// Every day out to `last`, each with the rest its ground had, and what was settled but cannot be kept.
pub(super) fn days_of(
    house: &HenHouse,
    places: &[HenPlace],
    last: Day,
) -> (Vec<HenDay>, Vec<String>) {
    let count = places.len().max(1);
    let index_of: BTreeMap<HenSpot, usize> = places
        .iter()
        .enumerate()
        .map(|(index, place)| (place.spot(), index))
        .collect();
    let jump = |spot: HenSpot, stay: usize| {
        let index = *index_of.get(&spot)?;
        Some(stay + (index + count - stay % count) % count)
    };
    let mut history = RestHistory::default();
    let mut days = Vec::new();
    for walked in walked_days(house, last, &jump) {
        let index = walked.stay % count;
        let before = places
            .get(index)
            .and_then(|place| house.handling.left_on.get(&place.line).copied());
        let rested_days =
            history.rested((walked.stay, index), walked.day, walked.is_housed, before);
        days.push(HenDay {
            day: walked.day,
            place: index + 1,
            day_of_stay: walked.day_of_stay,
            is_moved: walked.is_moved,
            is_housed: walked.is_housed,
            is_waiting: false,
            rested_days,
            is_rested: rested_days.map(|rested| rested >= house.rest_days_wanted),
        });
    }
    let gone = house.handling.marks.iter().filter(|(day, mark)| {
        matches!(mark, HenMark::At { spot, .. } if !index_of.contains_key(spot))
            && **day >= house.first_day
            && **day <= last
    });
    let notes = match gone.count() {
        0 => Vec::new(),
        many => vec![format!(
            "{} on places that are no longer there: the house stays where it was",
            plural_text(
                u64::try_from(many).unwrap_or(0),
                "settled day is",
                "settled days are"
            )
        )],
    };
    (days, notes)
}

/// When each place last had hens, and how long its ground had rested before the stay in hand.
#[derive(Debug, Default)]
pub(super) struct RestHistory {
    last_on: BTreeMap<usize, Day>,
    now: Option<(usize, Option<u32>)>,
}

impl RestHistory {
    /// Full days without hens before the stay that holds this day.
    pub(super) fn rested(
        &mut self,
        (stay, place): (usize, usize),
        day: Day,
        is_housed: bool,
        before_walk: Option<Day>,
    ) -> Option<u32> {
        let rested = match self.now {
            Some((now, rested)) if now == stay => rested,
            _ => {
                let left = self.last_on.get(&place).copied().or(before_walk);
                let rested =
                    left.map(|left| u32::try_from((day.days_since(left) - 1).max(0)).unwrap_or(0));
                self.now = Some((stay, rested));
                rested
            }
        };
        if !is_housed {
            self.last_on.insert(place, day);
        }
        rested
    }
}

/// The days on which hens stand on ground that is closed.
pub(super) fn closed_days(
    round: &Round,
    closed: &[Vec<ClosedSpan>],
    days: &[HenDay],
) -> Vec<(Day, String)> {
    days.iter()
        .filter(|day| !day.is_housed)
        .filter_map(|day| {
            let step = round.steps.get(day.place.checked_sub(1)?)?;
            let why = why_closed(closed.get(step.place)?, day.day)?;
            Some((day.day, why.to_owned()))
        })
        .collect()
}
