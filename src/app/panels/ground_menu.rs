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
        Command::HoldApart,
    ],
    &[Command::Delete],
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
