//! The bar along the top: the farm, the one date of the window, find-or-do, units, the menu.

use egui::{Align, Key, Layout, RichText, Ui};

use super::ground_menu::ground_menu_ui;
use crate::app::command::Command;
use crate::app::desk::Desk;
use crate::app::dispatch::do_command;
use crate::app::theme;
use crate::quantity::{Day, UnitSystem};
use crate::sheets::palette::Ink;

/// The bar.
pub fn top_bar_ui(ui: &mut Ui, desk: &mut Desk) {
    let ctx = ui.ctx().clone();
    let whole = ui.max_rect();
    ui.horizontal_centered(|ui| {
        ui.label(RichText::new(desk.farm().name.clone()).font(theme::serif(theme::TITLE)));
        ui.label(
            RichText::new(desk.saved_text())
                .font(theme::serif_italic(theme::BODY))
                .weak(),
        );
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            menu_ui(ui, desk, &ctx);
            ui.menu_button("Ground", |ui| ground_menu_ui(ui, desk));
            units_ui(ui, desk, &ctx);
            // A narrow window keeps the room for the date.
            let is_narrow = whole.width() < 1060.0;
            let (find, width) = if is_narrow {
                ("Find …".to_owned(), 60.0)
            } else {
                let key = key_text(&ctx, Command::Find);
                (format!("Find or do …   {key}"), 180.0)
            };
            if ui
                .add(
                    egui::Button::new(RichText::new(find).weak()).min_size(egui::vec2(width, 27.0)),
                )
                .on_hover_text(Command::Find.facts().tip)
                .clicked()
            {
                do_command(desk, Command::Find, &ctx);
            }
        });
    });
    let middle = egui::Rect::from_center_size(whole.center(), egui::vec2(258.0, 31.0));
    ui.scope_builder(egui::UiBuilder::new().max_rect(middle), |ui| {
        date_ui(ui, desk);
    });
}

/// The key of a command as it is shown.
pub fn key_text(ctx: &egui::Context, command: Command) -> String {
    command
        .facts()
        .key
        .map(|key| shortcut_text(ctx, &key))
        .unwrap_or_default()
}

/// A shortcut as it stands on the keys: brackets by their sign, not their name.
pub fn shortcut_text(ctx: &egui::Context, shortcut: &egui::KeyboardShortcut) -> String {
    ctx.format_shortcut(shortcut)
        .replace("CloseBracket", "]")
        .replace("OpenBracket", "[")
}

fn date_ui(ui: &mut Ui, desk: &mut Desk) {
    ui.horizontal_centered(|ui| {
        if ui
            .button("‹")
            .on_hover_text("The day before ( , )")
            .clicked()
        {
            desk.go_to(desk.day.plus_days(-1));
        }
        let id = ui.make_persistent_id("date");
        let mut typed: String = ui.data_mut(|data| data.get_temp(id)).unwrap_or_default();
        let shown = desk.day.long_text();
        if !ui.memory(|memory| memory.has_focus(id)) {
            typed.clone_from(&shown);
        }
        let field = egui::TextEdit::singleline(&mut typed)
            .id(id)
            .desired_width(190.0)
            .align(egui::Align2::CENTER_CENTER)
            .font(theme::sans_bold(theme::BODY));
        let response = ui.add(field);
        let label = format!("Date in view, {shown}");
        response
            .widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, label.clone()));
        let response = response.on_hover_text("Type a day, such as 7 may");
        if response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter)) {
            take_typed_day(desk, &typed);
        }
        ui.data_mut(|data| data.insert_temp(id, typed));
        if ui
            .button("›")
            .on_hover_text("The day after ( . )")
            .clicked()
        {
            desk.go_to(desk.day.plus_days(1));
        }
        if desk.day != desk.today {
            let text = format!("today is {}", desk.today.short_text());
            let link = ui.add(egui::Button::new(RichText::new(text).weak()).frame(false));
            if link.on_hover_text("Go to today").clicked() {
                desk.go_to(desk.today);
            }
        }
    });
}

fn take_typed_day(desk: &mut Desk, typed: &str) {
    match Day::parse_typed(typed, desk.day) {
        Some(day) => desk.go_to(day),
        None => desk.tell_trouble(format!(
            "\"{typed}\" is not a day: write it like 7 may or 2027-05-07."
        )),
    }
}

fn units_ui(ui: &mut Ui, desk: &mut Desk, ctx: &egui::Context) {
    // Right to left: acre stands to the right of ha.
    for (units, text, tip) in [
        (UnitSystem::Imperial, "acre", "Acres, yards and feet"),
        (UnitSystem::Metric, "ha", "Hectares and metres"),
    ] {
        let is_used = desk.units() == units;
        let ink = theme::ink(ui, if is_used { Ink::Ink } else { Ink::Soft });
        let font = if is_used {
            theme::sans_bold(theme::BODY)
        } else {
            theme::sans(theme::BODY)
        };
        let button = egui::Button::new(RichText::new(text).font(font).color(ink)).frame(false);
        if ui.add(button).on_hover_text(tip).clicked() && !is_used {
            do_command(desk, Command::Units, ctx);
        }
    }
}

fn menu_ui(ui: &mut Ui, desk: &mut Desk, ctx: &egui::Context) {
    let mut chosen = None;
    ui.menu_button("Farm", |ui| {
        ui.set_min_width(220.0);
        for group in [
            &[Command::New, Command::Open, Command::Save, Command::SaveAs][..],
            &[Command::Import, Command::Taped, Command::Export],
            &[Command::Undo, Command::Redo],
            &[
                Command::Flocks,
                Command::Hens,
                Command::SeasonGrass,
                Command::Questions,
                Command::Pictures,
            ],
            &[
                Command::FitAll,
                Command::Units,
                Command::Light,
                Command::Keys,
            ],
            &[Command::Close],
        ] {
            for command in group {
                if menu_row_ui(ui, desk, *command, ctx) {
                    chosen = Some(*command);
                }
            }
            if group != [Command::Close] {
                ui.separator();
            }
        }
    });
    if let Some(command) = chosen {
        do_command(desk, command, ctx);
    }
}

/// One command as a row of a menu: its words, its key, and whether it was pressed.
pub fn menu_row_ui(ui: &mut Ui, desk: &Desk, command: Command, ctx: &egui::Context) -> bool {
    let facts = command.facts();
    let text = match command {
        Command::Undo => desk
            .history
            .undo_label()
            .map(|label| format!("Undo: {label}")),
        Command::Redo => desk
            .history
            .redo_label()
            .map(|label| format!("Redo: {label}")),
        _ => None,
    }
    .unwrap_or_else(|| facts.text.to_owned());
    let button = egui::Button::new(text).shortcut_text(key_text(ctx, command));
    let row = ui
        .add_enabled(command.is_available(desk), button)
        .on_hover_text(facts.tip);
    if row.clicked() {
        ui.close();
    }
    row.clicked()
}
