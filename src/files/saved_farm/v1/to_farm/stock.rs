//! Mobs checked: their figures and their days.

use super::Checked;
use super::fault::{in_order, key, maybe, point, within};
use crate::farm::{Mob, StockClass, Visit};
use crate::files::saved_farm::place::Step;
use crate::files::saved_farm::v1::{SavedClass, SavedMob};

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
        visits,
        yard: yard.map_err(|fault| fault.within(&[key("yard")]))?,
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
