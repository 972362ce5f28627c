//! The calendar of a walk: on which days it is out, shut in, moved, late; and which place of the round that is.
//!
//! A day of shut-in hens is no day of a stay. On a day without towing a stay that is over goes on. Days, places by their
//! index in the round, from 0.

use crate::farm::{HenHouse, HenMark, HenSpot, StopKind};
use crate::quantity::Day;

/// A day of the walk.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct WalkedDay {
    pub(super) day: Day,
    /// Stays begun before this one, over all rounds.
    pub(super) stay: usize,
    /// The day of the stay, from 1.
    pub(super) day_of_stay: u32,
    /// Whether the house is moved to the place on this day.
    pub(super) is_moved: bool,
    /// Whether the hens are shut in.
    pub(super) is_housed: bool,
}

/// First day, last day of a stay, shut-in days within it included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Stay {
    pub(super) first: Day,
    pub(super) last: Day,
}

/// Goes through the days from the first day out to `last`. `jump` says to which stay a settled spot belongs, seen
/// from the stay that the house is in; none leaves the house where it is.
pub(super) fn walked_days(
    house: &HenHouse,
    last: Day,
    jump: &dyn Fn(HenSpot, usize) -> Option<usize>,
) -> Vec<WalkedDay> {
    let mut days = Vec::new();
    let (mut stay, mut out_days, mut is_out) = (0_usize, 0_u32, false);
    let mut day = house.first_day;
    while day <= last {
        let is_housed = stops(house, day, StopKind::Housed);
        let before = stay;
        if !is_housed {
            let is_due = out_days >= house.days_per_place.max(1);
            let can_tow = !stops(house, day, StopKind::NoTowing);
            match house.handling.marks.get(&day) {
                Some(HenMark::Skipped) => stay += if is_due { 2 } else { 1 },
                Some(HenMark::At { spot, .. }) => {
                    stay = jump(*spot, stay).unwrap_or(stay);
                }
                None if is_due && can_tow => stay += 1,
                Some(HenMark::Late) | None => {}
            }
            if stay != before {
                out_days = 0;
            }
            out_days += 1;
        }
        days.push(WalkedDay {
            day,
            stay,
            day_of_stay: out_days.max(1),
            is_moved: !is_housed && (stay != before || !is_out),
            is_housed,
        });
        is_out |= !is_housed;
        day = day.plus_days(1);
    }
    days
}

/// The stays of a walk in which no spot is settled: the calendar that an order is chosen by. Stays left out are empty.
pub(super) fn stays(house: &HenHouse, last: Day) -> Vec<Option<Stay>> {
    let mut stays: Vec<Option<Stay>> = Vec::new();
    for day in walked_days(house, last, &|_, stay| Some(stay)) {
        if stays.len() <= day.stay {
            stays.resize(day.stay + 1, None);
        }
        if let Some(stay) = stays.get_mut(day.stay) {
            let first = stay.map_or(day.day, |stay: Stay| stay.first);
            *stay = Some(Stay {
                first,
                last: day.day,
            });
        }
    }
    stays
}

/// Whether a stop of the whole house holds on a day.
pub(super) fn stops(house: &HenHouse, day: Day, kind: StopKind) -> bool {
    house
        .handling
        .stops
        .iter()
        .any(|stop| stop.kind == kind && stop.holds_on(day))
}
