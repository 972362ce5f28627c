//! Hen houses as they are saved.

use super::super::once_map::OnceMap;
use super::super::saved_day::SavedDay;
use super::super::saved_hens::{
    SavedHandling, SavedMark, SavedStop, SavedStopKind, SavedStretch, SavedTrouble,
};
use super::super::{SavedHenHouse, SavedSide};
use crate::farm::{
    HenHandling, HenHouse, HenMark, HenStop, LeftStretch, LineOrder, LineSide, StopKind,
    StretchTrouble, TowSide,
};

pub(super) fn house(house: &HenHouse) -> SavedHenHouse {
    SavedHenHouse {
        name: house.name.clone(),
        hens: house.hens,
        length_m: house.length_m,
        width_m: house.width_m,
        gap_m: house.gap_m,
        lines: house.lines.iter().map(|line| line.0).collect(),
        side: side(house.side),
        offset_m: house.offset_m,
        first_day: SavedDay(house.first_day),
        last_day: house.last_day.map(SavedDay),
        days_per_place: house.days_per_place,
        rest_days_wanted: house.rest_days_wanted,
        handling: handling(&house.handling),
    }
}

const fn side(side: LineSide) -> SavedSide {
    match side {
        LineSide::Left => SavedSide::Left,
        LineSide::Right => SavedSide::Right,
        LineSide::Both => SavedSide::Both,
    }
}

fn handling(handling: &HenHandling) -> Option<SavedHandling> {
    (*handling != HenHandling::default()).then(|| SavedHandling {
        order_is_chosen: handling.line_order == LineOrder::Chosen,
        house_length_m: handling.house_length_m,
        house_width_m: handling.house_width_m,
        towed_from_one_end: handling.tow_side == TowSide::OneEnd,
        turn_radius_m: handling.turn_radius_m,
        lane_bearing_deg: handling.lane_bearing_deg,
        stops: handling.stops.iter().map(stop).collect(),
        left_stretches: handling.left_stretches.iter().map(stretch).collect(),
        left_on: handling
            .left_on
            .iter()
            .map(|(line, day)| (line.0, SavedDay(*day)))
            .collect(),
        follows: handling
            .follows
            .map(|follows| (follows.mob.0, follows.days_after)),
        flock_steps: handling
            .flock_steps
            .iter()
            .map(|step| (SavedDay(step.from), step.birds, step.m2_each))
            .collect(),
        settled: settled(handling),
    })
}

fn stop(stop: &HenStop) -> SavedStop {
    SavedStop {
        from: SavedDay(stop.from),
        to: SavedDay(stop.to),
        kind: match stop.kind {
            StopKind::Housed => SavedStopKind::Housed,
            StopKind::NoTowing => SavedStopKind::NoTowing,
            StopKind::KeepOff(line) => SavedStopKind::KeepOff(line.0),
        },
        why: stop.why.clone(),
    }
}

fn stretch(stretch: &LeftStretch) -> SavedStretch {
    SavedStretch {
        line: stretch.line.0,
        from_m: stretch.from_m,
        to_m: stretch.to_m,
        why: match stretch.why {
            StretchTrouble::Steep => SavedTrouble::Steep,
            StretchTrouble::Narrow => SavedTrouble::Narrow,
            StretchTrouble::Other => SavedTrouble::Other,
        },
    }
}

fn settled(handling: &HenHandling) -> OnceMap<SavedDay, SavedMark> {
    let mark = |mark: &HenMark| match *mark {
        HenMark::At { spot, lived: true } => {
            SavedMark::Lived(spot.line.0, side(spot.side), spot.number)
        }
        HenMark::At { spot, lived: false } => {
            SavedMark::Fixed(spot.line.0, side(spot.side), spot.number)
        }
        HenMark::Late => SavedMark::Late,
        HenMark::Skipped => SavedMark::Skipped,
    };
    handling
        .marks
        .iter()
        .map(|(day, given)| (SavedDay(*day), mark(given)))
        .collect()
}
