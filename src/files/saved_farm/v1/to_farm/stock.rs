//! Mobs and hen houses checked: their figures, their days, the lines they walk.

use super::Checked;
use super::fault::{Fault, in_order, key, maybe, point, within};
use super::numbers::Numbers;
use crate::farm::{GroundId, HenHouse, LineSide, Mob, MobChange, StockClass, Visit};
use crate::files::saved_farm::place::Step;
use crate::files::saved_farm::v1::{
    SavedClass, SavedHenHouse, SavedMob, SavedMobChange, SavedSide,
};

/// The shortest and longest side of a hen house with its run, metres.
const HOUSE_SIDE_M: (f64, f64) = (0.01, 1_000.0);

/// The mob that a file holds.
pub(super) fn mob(saved: SavedMob) -> Checked<Mob> {
    let mut visits = Vec::with_capacity(saved.visits.len());
    for (place, (from, to)) in saved.visits.into_iter().enumerate() {
        in_order(from, to).map_err(|fault| fault.within(&[key("visits"), Step::Item(place)]))?;
        visits.push(Visit {
            from: from.0,
            to: to.0,
        });
    }
    let yard = saved.yard.map(point).transpose();
    Ok(Mob {
        name: saved.name,
        class: class(saved.class),
        head: saved.head,
        liveweight_kg: within(saved.liveweight_kg, 0.0, 1_000.0, "kg")
            .map_err(|fault| fault.within(&[key("liveweight_kg")]))?,
        eats_kg_per_head: maybe(
            "eats_kg_per_head",
            saved.eats_kg_per_head,
            0.0,
            1_000.0,
            "kg",
        )?,
        gain_g_per_day: gain(saved.gain_g_per_day)?,
        lambed_on: saved.lambed_on.map(|day| day.0),
        changes: changes(saved.changes)?,
        visits,
        yard: yard.map_err(|fault| fault.within(&[key("yard")]))?,
    })
}

/// The most that a sheep is believed to gain or lose a day, g.
const MOST_GAIN_G: f64 = 2_000.0;

fn gain(saved: Option<f64>) -> Checked<f64> {
    within(saved.unwrap_or(0.0), -MOST_GAIN_G, MOST_GAIN_G, "g")
        .map_err(|fault| fault.within(&[key("gain_g_per_day")]))
}

fn changes(saved: Vec<SavedMobChange>) -> Checked<Vec<MobChange>> {
    let read = |change: SavedMobChange| {
        Ok(MobChange {
            from: change.from.0,
            class: class(change.class),
            head: change.head,
            liveweight_kg: within(change.liveweight_kg, 0.0, 1_000.0, "kg")
                .map_err(|fault| fault.within(&[key("liveweight_kg")]))?,
            gain_g_per_day: gain(change.gain_g_per_day)?,
        })
    };
    let numbered = saved.into_iter().enumerate();
    numbered
        .map(|(place, change)| {
            read(change).map_err(|fault: Fault| fault.within(&[key("changes"), Step::Item(place)]))
        })
        .collect()
}

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
    Ok(HenHouse {
        name: saved.name,
        hens: saved.hens,
        length_m: metres("length_m", saved.length_m, HOUSE_SIDE_M.0, HOUSE_SIDE_M.1)?,
        width_m: metres("width_m", saved.width_m, HOUSE_SIDE_M.0, HOUSE_SIDE_M.1)?,
        gap_m: metres("gap_m", saved.gap_m, 0.0, 10_000.0)?,
        lines: saved.lines.into_iter().map(GroundId).collect(),
        side: match saved.side {
            SavedSide::Left => LineSide::Left,
            SavedSide::Right => LineSide::Right,
        },
        offset_m: metres("offset_m", saved.offset_m, -10_000.0, 10_000.0)?,
        first_day: saved.first_day.0,
        last_day: saved.last_day.map(|day| day.0),
        days_per_place: saved.days_per_place,
        rest_days_wanted: saved.rest_days_wanted,
    })
}

fn class(saved: SavedClass) -> StockClass {
    match saved {
        SavedClass::DryEwes => StockClass::DryEwes,
        SavedClass::EwesInLamb => StockClass::EwesInLamb,
        SavedClass::EwesWithLambs => StockClass::EwesWithLambs,
        SavedClass::Lambs => StockClass::Lambs,
        SavedClass::Rams => StockClass::Rams,
    }
}
