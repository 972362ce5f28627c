//! Hen houses checked: their figures, the lines they walk, what is settled.

use std::collections::BTreeMap;

use super::Checked;
use super::fault::{Fault, in_order, key, maybe, within};
use super::numbers::Numbers;
use crate::farm::{
    FlockStep, FollowsSheep, GroundId, HenHandling, HenHouse, HenMark, HenSpot, HenStop,
    LeftStretch, LineOrder, LineSide, MobId, StopKind, StretchTrouble, TowSide,
};
use crate::files::saved_farm::place::Step;
use crate::files::saved_farm::v1::saved_hens::{
    SavedHandling, SavedMark, SavedStop, SavedStopKind, SavedStretch, SavedTrouble,
};
use crate::files::saved_farm::v1::{SavedHenHouse, SavedSide};

/// The shortest and longest side of a hen house with its run, metres.
const HOUSE_SIDE_M: (f64, f64) = (0.01, 1_000.0);
/// No line is longer, metres.
const MOST_ALONG_M: f64 = 100_000.0;
/// No bird wants more ground than this on a day, m².
const MOST_M2_EACH: f64 = 10_000.0;

/// The hen house that a file holds.
pub(super) fn hen_house(saved: SavedHenHouse, numbers: &Numbers) -> Checked<HenHouse> {
    let metres = |field: &str, value: f64, least: f64, most: f64| {
        within(value, least, most, "m").map_err(|fault| fault.within(&[key(field)]))
    };
    for (place, line) in saved.lines.iter().enumerate() {
        numbers
            .ground(*line)
            .map_err(|fault| fault.within(&[key("lines"), Step::Item(place)]))?;
    }
    if saved.days_per_place == 0 {
        return Err(
            Fault::new("0 days on one place is no stay", "write 1 or more")
                .within(&[key("days_per_place")]),
        );
    }
    if let Some(last_day) = saved.last_day {
        in_order(saved.first_day, last_day).map_err(|fault| fault.within(&[key("last_day")]))?;
    }
    let handling = saved.handling.unwrap_or_default();
    Ok(HenHouse {
        name: saved.name,
        hens: saved.hens,
        length_m: metres("length_m", saved.length_m, HOUSE_SIDE_M.0, HOUSE_SIDE_M.1)?,
        width_m: metres("width_m", saved.width_m, HOUSE_SIDE_M.0, HOUSE_SIDE_M.1)?,
        gap_m: metres("gap_m", saved.gap_m, -HOUSE_SIDE_M.1, 10_000.0)?,
        lines: saved.lines.into_iter().map(GroundId).collect(),
        side: side(saved.side),
        offset_m: metres("offset_m", saved.offset_m, -10_000.0, 10_000.0)?,
        first_day: saved.first_day.0,
        last_day: saved.last_day.map(|day| day.0),
        days_per_place: saved.days_per_place,
        rest_days_wanted: saved.rest_days_wanted,
        handling: self::handling(handling, numbers)
            .map_err(|fault| fault.within(&[key("handling")]))?,
    })
}

const fn side(saved: SavedSide) -> LineSide {
    match saved {
        SavedSide::Left => LineSide::Left,
        SavedSide::Right => LineSide::Right,
        SavedSide::Both => LineSide::Both,
    }
}

fn handling(saved: SavedHandling, numbers: &Numbers) -> Checked<HenHandling> {
    let (least, most) = HOUSE_SIDE_M;
    let mut stops = Vec::with_capacity(saved.stops.len());
    for (place, saved) in saved.stops.into_iter().enumerate() {
        stops.push(
            stop(saved, numbers)
                .map_err(|fault| fault.within(&[key("stops"), Step::Item(place)]))?,
        );
    }
    let mut left_on = BTreeMap::new();
    for (line, day) in saved.left_on.0 {
        numbers
            .ground(line)
            .map_err(|fault| fault.within(&[key("left_on"), key(line)]))?;
        left_on.insert(GroundId(line), day.0);
    }
    if let Some((mob, _)) = saved.follows {
        numbers
            .mob(mob)
            .map_err(|fault| fault.within(&[key("follows")]))?;
    }
    let mut flock_steps = Vec::with_capacity(saved.flock_steps.len());
    for (place, (from, birds, m2_each)) in saved.flock_steps.into_iter().enumerate() {
        let m2_each = within(m2_each, 0.0, MOST_M2_EACH, "m²")
            .map_err(|fault| fault.within(&[key("flock_steps"), Step::Item(place)]))?;
        flock_steps.push(FlockStep {
            from: from.0,
            birds,
            m2_each,
        });
    }
    let mut left_stretches = Vec::with_capacity(saved.left_stretches.len());
    for (place, saved) in saved.left_stretches.into_iter().enumerate() {
        let at = |fault: Fault| fault.within(&[key("left_stretches"), Step::Item(place)]);
        left_stretches.push(stretch(saved, numbers).map_err(at)?);
    }
    let marks = marks(saved.settled.0, numbers)?;
    Ok(HenHandling {
        line_order: if saved.order_is_chosen {
            LineOrder::Chosen
        } else {
            LineOrder::AsListed
        },
        house_length_m: maybe("house_length_m", saved.house_length_m, least, most, "m")?,
        house_width_m: maybe("house_width_m", saved.house_width_m, least, most, "m")?,
        turn_radius_m: maybe(
            "turn_radius_m",
            saved.turn_radius_m,
            0.0,
            HenHandling::WIDEST_TURN_M,
            "m",
        )?,
        tow_side: if saved.towed_from_one_end {
            TowSide::OneEnd
        } else {
            TowSide::BothEnds
        },
        lane_bearing_deg: maybe(
            "lane_bearing_deg",
            saved.lane_bearing_deg,
            0.0,
            360.0,
            "degrees",
        )?,
        stops,
        left_stretches,
        left_on,
        follows: saved.follows.map(|(mob, days_after)| FollowsSheep {
            mob: MobId(mob),
            days_after,
        }),
        flock_steps,
        marks,
    })
}

fn stretch(saved: SavedStretch, numbers: &Numbers) -> Checked<LeftStretch> {
    numbers
        .ground(saved.line)
        .map_err(|fault| fault.within(&[key("line")]))?;
    let metres = |field: &str, value: f64, least: f64| {
        within(value, least, MOST_ALONG_M, "m").map_err(|fault| fault.within(&[key(field)]))
    };
    let from_m = metres("from_m", saved.from_m, 0.0)?;
    Ok(LeftStretch {
        line: GroundId(saved.line),
        from_m,
        to_m: metres("to_m", saved.to_m, from_m)?,
        why: match saved.why {
            SavedTrouble::Steep => StretchTrouble::Steep,
            SavedTrouble::Narrow => StretchTrouble::Narrow,
            SavedTrouble::Other => StretchTrouble::Other,
        },
    })
}

fn stop(saved: SavedStop, numbers: &Numbers) -> Checked<HenStop> {
    in_order(saved.from, saved.to)?;
    let kind = match saved.kind {
        SavedStopKind::Housed => StopKind::Housed,
        SavedStopKind::NoTowing => StopKind::NoTowing,
        SavedStopKind::KeepOff(line) => {
            numbers
                .ground(line)
                .map_err(|fault| fault.within(&[key("kind")]))?;
            StopKind::KeepOff(GroundId(line))
        }
    };
    Ok(HenStop {
        from: saved.from.0,
        to: saved.to.0,
        kind,
        why: saved.why,
    })
}

fn marks(
    saved: BTreeMap<crate::files::saved_farm::v1::SavedDay, SavedMark>,
    numbers: &Numbers,
) -> Checked<BTreeMap<crate::quantity::Day, HenMark>> {
    let mut marks = BTreeMap::new();
    for (day, mark) in saved {
        let at = |line: u32, along: SavedSide, number: u32, lived: bool| {
            numbers
                .ground(line)
                .map_err(|fault| fault.within(&[key("settled"), key(day)]))?;
            let spot = HenSpot {
                line: GroundId(line),
                side: side(along),
                number,
            };
            Ok(HenMark::At { spot, lived })
        };
        let mark = match mark {
            SavedMark::Lived(line, along, number) => at(line, along, number, true)?,
            SavedMark::Fixed(line, along, number) => at(line, along, number, false)?,
            SavedMark::Late => HenMark::Late,
            SavedMark::Skipped => HenMark::Skipped,
        };
        marks.insert(day.0, mark);
    }
    Ok(marks)
}
