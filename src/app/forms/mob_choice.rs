//! A choice of the mob that something comes after, or none.

use egui::Ui;

use super::field::labelled_ui;
use crate::farm::{Farm, MobId};

/// What can be chosen: words for none, and these mobs.
pub(super) struct MobChoice<'a> {
    /// What the choice is called.
    pub(super) label: &'static str,
    /// Words for none of them.
    pub(super) own: &'static str,
    /// The mobs that can be chosen.
    pub(super) mobs: &'a [MobId],
    /// The one that is chosen; it may be gone from the farm.
    pub(super) now: Option<MobId>,
}

/// Shows the choice and gives what is chosen after it.
pub(super) fn mob_choice_ui(ui: &mut Ui, farm: &Farm, choice: &MobChoice<'_>) -> Option<MobId> {
    let name = |mob: MobId| {
        farm.mobs
            .get(&mob)
            .map_or_else(|| "a mob that is gone".to_owned(), |mob| mob.name.clone())
    };
    let now = choice.now.map_or_else(|| choice.own.to_owned(), name);
    let mut chosen = choice.now;
    labelled_ui(ui, choice.label, |ui| {
        ui.spacing_mut().combo_width = ui.available_width();
        let combo = egui::ComboBox::from_id_salt(choice.label).selected_text(now);
        let shown = combo.show_ui(ui, |ui| {
            if ui
                .selectable_label(choice.now.is_none(), choice.own)
                .clicked()
            {
                chosen = None;
            }
            for mob in choice.mobs {
                if ui
                    .selectable_label(choice.now == Some(*mob), name(*mob))
                    .clicked()
                {
                    chosen = Some(*mob);
                }
            }
        });
        shown
            .response
            .widget_info(|| egui::WidgetInfo::labeled(egui::Role::ComboBox, true, choice.label));
    });
    chosen
}
