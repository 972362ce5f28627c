//! On the page of the flocks: the mob that another comes behind, strip by strip.

use egui::Ui;

use super::change::{MobField, Target};
use super::field::{FieldRow, heading_ui, labelled_ui, row_ui, small_ui};
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
    let own = "its own".to_owned();
    let name = |front: MobId| {
        let front = desk.farm().mobs.get(&front);
        front.map_or_else(|| "a mob that is gone".to_owned(), |mob| mob.name.clone())
    };
    let now = mob
        .follows
        .map_or_else(|| own.clone(), |follows| name(follows.mob));
    labelled_ui(ui, "It comes behind", |ui| {
        ui.spacing_mut().combo_width = ui.available_width();
        let combo = egui::ComboBox::from_id_salt("comes behind").selected_text(now);
        let shown = combo.show_ui(ui, |ui| {
            if ui.selectable_label(mob.follows.is_none(), own).clicked() {
                *act = mob_press::set_follows(desk.farm(), id, None);
            }
            for front in others {
                let is_it = mob.follows.is_some_and(|follows| follows.mob == front);
                if ui.selectable_label(is_it, name(front)).clicked() && !is_it {
                    *act = mob_press::set_follows(desk.farm(), id, Some(front));
                }
            }
        });
        shown.response.widget_info(|| {
            egui::WidgetInfo::labeled(egui::Role::ComboBox, true, "It comes behind")
        });
    });
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
