//! Mobs checked: their figures and their days.

use super::Checked;
use super::fault::{Fault, in_order, key, maybe, point, within};
use super::numbers::Numbers;
use crate::farm::{ComesBehind, Mob, MobChange, MobId, StockClass, Visit};
use crate::files::saved_farm::place::Step;
use crate::files::saved_farm::v1::{SavedClass, SavedMob, SavedMobChange};

/// The mob that a file holds.
pub(super) fn mob(saved: SavedMob, numbers: &Numbers) -> Checked<Mob> {
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
        follows: follows(saved.follows, numbers)
            .map_err(|fault| fault.within(&[key("follows")]))?,
    })
}

fn follows(saved: Option<(u32, u32)>, numbers: &Numbers) -> Checked<Option<ComesBehind>> {
    let Some((mob, days_after)) = saved else {
        return Ok(None);
    };
    numbers.mob(mob)?;
    if days_after == 0 || days_after > ComesBehind::MOST_DAYS {
        return Err(Fault::new(
            format!("no mob comes {days_after} days behind another"),
            format!("write 1 to {} days", ComesBehind::MOST_DAYS),
        ));
    }
    Ok(Some(ComesBehind {
        mob: MobId(mob),
        days_after,
    }))
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

fn class(saved: SavedClass) -> StockClass {
    match saved {
        SavedClass::DryEwes => StockClass::DryEwes,
        SavedClass::EwesInLamb => StockClass::EwesInLamb,
        SavedClass::EwesWithLambs => StockClass::EwesWithLambs,
        SavedClass::Lambs => StockClass::Lambs,
        SavedClass::Rams => StockClass::Rams,
    }
}
