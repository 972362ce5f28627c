//! One field for everything: an act, a piece of ground, or a day.
//!
//! Rows are plain data; painting them decides nothing.

use egui::{Key, Modal, RichText, Ui};

use super::command::Command;
use super::desk::Desk;
use super::dispatch::do_command;
use super::theme;
use crate::farm::GroundId;
use crate::quantity::Day;

/// What is typed, and the row that Enter takes.
#[derive(Debug, Clone, Default)]
pub struct Finder {
    typed: String,
    picked: usize,
}

/// What a row leads to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Found {
    /// An act.
    Act(Command),
    /// A piece of ground.
    Ground(GroundId),
    /// A day.
    Day(Day),
}

/// One row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FinderRow {
    /// Where it leads.
    pub found: Found,
    /// Its words.
    pub text: String,
    /// More about it: the tip, the kind.
    pub more: String,
}

/// Rows shown at most.
const MOST_ROWS: usize = 9;

/// The rows for what is typed, best first.
pub fn finder_rows(desk: &Desk, typed: &str) -> Vec<FinderRow> {
    let wanted = typed.trim().to_lowercase();
    let mut rows: Vec<(usize, FinderRow)> = Vec::new();
    if let Some(day) = Day::parse_typed(&wanted, desk.day) {
        let row = FinderRow {
            found: Found::Day(day),
            text: day.long_text(),
            more: "go to this day".to_owned(),
        };
        rows.push((0, row));
    }
    for command in Command::all() {
        let facts = command.facts();
        let best = [
            rank(facts.text, &wanted),
            rank(facts.tip, &wanted).map(|rank| rank + 3),
        ]
        .into_iter()
        .flatten()
        .min();
        if let Some(rank) = best
            && command.is_available(desk)
        {
            let row = FinderRow {
                found: Found::Act(command),
                text: facts.text.to_owned(),
                more: facts.tip.to_owned(),
            };
            rows.push((rank, row));
        }
    }
    if !wanted.is_empty() {
        for (id, ground) in &desk.farm().ground {
            if let Some(rank) = rank(&ground.name, &wanted) {
                let row = FinderRow {
                    found: Found::Ground(*id),
                    text: ground.name.clone(),
                    more: format!("show this {}", ground.kind.name()),
                };
                rows.push((rank, row));
            }
        }
    }
    rows.sort_by_key(|row| row.0);
    rows.into_iter()
        .map(|(_, row)| row)
        .take(MOST_ROWS)
        .collect()
}

/// How well a text answers: 0 whole, 1 from its beginning, 2 from a word's beginning, 3 within; `None` not at all.
fn rank(text: &str, wanted: &str) -> Option<usize> {
    let text = text.to_lowercase();
    if wanted.is_empty() {
        return Some(2);
    }
    if text == wanted {
        Some(0)
    } else if text.starts_with(wanted) {
        Some(1)
    } else if text.split(' ').any(|word| word.starts_with(wanted)) {
        Some(2)
    } else if text.contains(wanted) {
        Some(3)
    } else {
        None
    }
}

/// Shows the finder, if it is open.
pub fn finder_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(mut finder) = desk.finder.take() else {
        return;
    };
    let ctx = ui.ctx().clone();
    let rows = finder_rows(desk, &finder.typed);
    let mut chosen = None;
    let mut stays = true;
    let (down, up, enter, escape) = ctx.input_mut(|input| {
        (
            input.consume_key(egui::Modifiers::NONE, Key::ArrowDown),
            input.consume_key(egui::Modifiers::NONE, Key::ArrowUp),
            input.key_pressed(Key::Enter),
            input.key_pressed(Key::Escape),
        )
    });
    let last = rows.len().saturating_sub(1);
    finder.picked = match (down, up) {
        (true, _) => (finder.picked + 1).min(last),
        (_, true) => finder.picked.saturating_sub(1),
        _ => finder.picked.min(last),
    };
    let modal = Modal::new(egui::Id::unique("finder")).show(&ctx, |ui| {
        ui.set_width(460.0);
        let field = egui::TextEdit::singleline(&mut finder.typed)
            .desired_width(f32::INFINITY)
            .hint_text("split, tunnel, 7 may, a field's name …");
        let response = ui.add(field);
        response
            .widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, "Find or do"));
        if response.changed() {
            finder.picked = 0;
        }
        response.request_focus();
        if rows.is_empty() {
            ui.label(
                RichText::new("Nothing answers to that: try an act, a field's name or a day.")
                    .weak(),
            );
        }
        for (place, row) in rows.iter().enumerate() {
            if row_ui(ui, row, place == finder.picked) {
                chosen = Some(row.found);
            }
        }
    });
    if enter {
        chosen = rows.get(finder.picked).map(|row| row.found);
    }
    if escape || modal.should_close() {
        stays = false;
    }
    match chosen {
        Some(found) => follow(desk, found, &ctx),
        None if stays => desk.finder = Some(finder),
        None => {}
    }
}

fn row_ui(ui: &mut Ui, row: &FinderRow, is_picked: bool) -> bool {
    let label = format!("{}  –  {}", row.text, row.more);
    let mut words = RichText::new(label);
    if is_picked {
        words = words.font(theme::sans_bold(theme::BODY));
    }
    ui.add(
        egui::Button::selectable(is_picked, words).min_size(egui::vec2(ui.available_width(), 27.0)),
    )
    .clicked()
}

fn follow(desk: &mut Desk, found: Found, ctx: &egui::Context) {
    match found {
        Found::Act(command) => do_command(desk, command, ctx),
        Found::Day(day) => desk.go_to(day),
        Found::Ground(id) => {
            desk.select_only(id);
            do_command(desk, Command::FitSelected, ctx);
        }
    }
}
