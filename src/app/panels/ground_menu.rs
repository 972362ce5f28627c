//! What can be done with what is selected, as a menu: in the bar along the top, and under the right button on the map.

use egui::Ui;

use super::top_bar::menu_row_ui;
use crate::app::command::Command;
use crate::app::desk::Desk;
use crate::app::dispatch::do_command;

/// The acts, group by group.
const GROUPS: [&[Command]; 5] = [
    &[Command::Note, Command::KeepMeasure],
    &[
        Command::Strips,
        Command::Split,
        Command::Copies,
        Command::Row,
    ],
    &[
        Command::Lock,
        Command::Lengths,
        Command::Raise,
        Command::Lower,
    ],
    &[
        Command::SelectAll,
        Command::Shown,
        Command::Snap,
        Command::SnapGrid,
        Command::HoldApart,
    ],
    &[Command::Delete],
];

/// The group before which the acts of reshaping stand, in a menu of their own.
const RESHAPE_BEFORE: usize = 2;

/// The acts of reshaping, each shown on the map before it is done.
const RESHAPING: [Command; 9] = [
    Command::Headland,
    Command::KeepClear,
    Command::Hole,
    Command::CutOut,
    Command::FillHole,
    Command::Join,
    Command::Mend,
    Command::Mirror,
    Command::Turn,
];

/// The rows of the menu.
pub fn ground_menu_ui(ui: &mut Ui, desk: &mut Desk) {
    ui.set_min_width(230.0);
    let ctx = ui.ctx().clone();
    let mut chosen = None;
    for (place, group) in GROUPS.into_iter().enumerate() {
        if place > 0 {
            ui.separator();
        }
        if place == RESHAPE_BEFORE {
            let menu = ui.menu_button("Reshape", |ui| {
                ui.set_min_width(250.0);
                for command in RESHAPING {
                    if menu_row_ui(ui, desk, command, &ctx) {
                        chosen = Some(command);
                    }
                }
            });
            menu.response
                .on_hover_text("Join, headland, holes, mirror, turn and more");
        }
        for command in group {
            if menu_row_ui(ui, desk, *command, &ctx) {
                chosen = Some(*command);
            }
        }
    }
    if let Some(command) = chosen {
        do_command(desk, command, &ctx);
    }
}
