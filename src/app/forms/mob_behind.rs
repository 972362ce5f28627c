//! On the page of the flocks: the mob that another comes behind, strip by strip.

use egui::Ui;

use super::change::{MobField, Target};
use super::field::{FieldRow, heading_ui, row_ui, small_ui};
use super::mob_choice::{MobChoice, mob_choice_ui};
use super::mob_press;
use crate::app::desk::Desk;
use crate::app::season_acts::Act;
use crate::farm::{Farm, Mob, MobId};

/// A way of its own, or a mob to come behind; nothing where there is no other mob.
pub(super) fn behind_ui(ui: &mut Ui, desk: &mut Desk, id: MobId, mob: &Mob, act: &mut Option<Act>) {
    let others = could_be_in_front(desk.farm(), id);
    if others.is_empty() && mob.follows.is_none() {
        return;
    }
    heading_ui(ui, "Way");
    let choice = MobChoice {
        label: "It comes behind",
        own: "its own",
        mobs: &others,
        now: mob.follows.map(|follows| follows.mob),
    };
    let front = mob_choice_ui(ui, desk.farm(), &choice);
    if front != choice.now {
        *act = mob_press::set_follows(desk.farm(), id, front);
    }
    let Some(follows) = mob.follows else { return };
    let row = FieldRow::figure(
        Target::Mob(id, MobField::DaysBehind),
        "At most",
        follows.days_after.to_string(),
        "days after",
    );
    row_ui(ui, desk, &row);
    small_ui(
        ui,
        "Onto each strip when the others leave it, in their order. Both together stay no longer than the longest stay.",
    );
}

/// Other mobs that do not themselves come behind one.
fn could_be_in_front(farm: &Farm, id: MobId) -> Vec<MobId> {
    let is_led = farm
        .mobs
        .values()
        .any(|mob| mob.follows.is_some_and(|follows| follows.mob == id));
    if is_led {
        // Others come behind this one: it leads.
        return Vec::new();
    }
    let free = farm.mobs.iter().filter(|(_, mob)| mob.follows.is_none());
    free.map(|(other, _)| *other)
        .filter(|other| *other != id)
        .collect()
}
