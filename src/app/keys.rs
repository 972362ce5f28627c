//! Keys: commands by the table, then what belongs to the tool in hand, a page or the entry box.

use egui::Ui;

use super::command::Command;
use super::desk::Desk;
use super::dispatch::do_command;
use super::forms::close_course;
use super::map::feed;
use super::panels::entry_box;
use super::taping;
use super::tools::{MapEvent, Tool};

/// Keys: commands first, then those that go to the tool in hand. Plain letters are left to a field that is typed in.
pub(super) fn keys(ui: &Ui, desk: &mut Desk, was_typing: bool) {
    let ctx = ui.ctx().clone();
    if desk.dialog.is_some() || desk.finder.is_some() {
        return;
    }
    let types = ctx.text_edit_focused();
    let is_on_page = desk.forms.course.tab.is_some();
    if !types && !is_on_page {
        entry_box::open_at_digit(ui, desk);
    }
    if desk.entry.is_some() {
        return;
    }
    if does_command(desk, &ctx, types, is_on_page) || types {
        return;
    }
    let is_escape = |ctx: &egui::Context| {
        ctx.input_mut(|input| input.consume_key(egui::Modifiers::NONE, egui::Key::Escape))
    };
    // A bar that is being dragged goes back; the pointer may still be down, and does nothing more.
    if desk.live.drag.is_some() && is_escape(&ctx) {
        desk.live.drag = None;
        ctx.stop_dragging();
        return;
    }
    // Escape leaves a field of a form, and that is all it does then.
    if desk.forms.was_in_field() && is_escape(&ctx) {
        return;
    }
    if is_on_page {
        if is_escape(&ctx) {
            close_course(desk);
        }
        return;
    }
    // The page of what was measured is left first; the tool in hand keeps its corners.
    if desk.taping.is_open && !was_typing && is_escape(&ctx) {
        desk.taping.is_open = false;
        return;
    }
    // Escape first ends what the tool is about, then leads from a page back to the facts.
    let ends_page = desk.forms.page.is_some() && matches!(desk.tool, Tool::Pick(_));
    if ends_page && is_escape(&ctx) {
        desk.forms.page = None;
    }
    let is_nothing_focused = ctx.memory(|memory| memory.focused().is_none());
    let enter = |ctx: &egui::Context| {
        ctx.input_mut(|input| input.consume_key(egui::Modifiers::NONE, egui::Key::Enter))
    };
    if is_nothing_focused && taping::is_ready(desk) && enter(&ctx) {
        taping::put(desk);
    }
    for (key, event) in [
        (egui::Key::Escape, MapEvent::Escape),
        (egui::Key::Enter, MapEvent::Finish),
        (egui::Key::Backspace, MapEvent::Back),
    ] {
        // Enter presses whatever has the focus; only an unfocused window hands it to the tool.
        // Escape leaves the field that was typed in, and nothing more.
        let is_for_tool = match key {
            egui::Key::Enter => is_nothing_focused,
            egui::Key::Escape => !was_typing,
            _ => true,
        };
        if is_for_tool && ctx.input_mut(|input| input.consume_key(egui::Modifiers::NONE, key)) {
            feed(desk, event);
        }
    }
}

/// Does the command whose key was pressed, if there is one; whether there was.
fn does_command(desk: &mut Desk, ctx: &egui::Context, types: bool, is_on_page: bool) -> bool {
    for command in Command::all() {
        let Some(key) = command.facts().key else {
            continue;
        };
        let is_plain = !key.modifiers.command && !key.modifiers.ctrl;
        let takes_back = matches!(command, Command::Undo | Command::Redo);
        // Arrows go from cell to cell on a page.
        if is_on_page && command.is_key_of_text() {
            continue;
        }
        let belongs_to_text = types
            && (is_plain || command.is_key_of_text() || takes_back && !desk.forms.rests_in_field());
        if belongs_to_text {
            continue;
        }
        // A slow frame may hold several presses of one key; none is lost.
        let presses =
            ctx.input_mut(|input| input.count_and_consume_key(key.modifiers, key.logical_key));
        if presses > 0 {
            // The letter of the key is not for a field that the act opens.
            ctx.input_mut(|input| {
                input
                    .events
                    .retain(|event| !matches!(event, egui::Event::Text(_)));
            });
            for _ in 0..presses {
                do_command(desk, command, ctx);
            }
            return true;
        }
    }
    false
}
