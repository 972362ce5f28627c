//! The page beside the map: its heading, the way back, and which form stands on it.

use egui::{Align, Layout, RichText, ScrollArea, Ui};

use super::settle::{Page, settle_now};
use super::{flocks, hens, pictures, questions, season};
use crate::app::command::Command;
use crate::app::desk::Desk;
use crate::app::dialogs::main_button;
use crate::app::dispatch::do_command;
use crate::app::theme;

/// Opens a page. Where it is open already, it stays.
pub fn open_page(desk: &mut Desk, page: Page) {
    settle_now(desk);
    desk.forms.page = Some(page);
    desk.forms.selected.clone_from(&desk.selected);
}

/// The page in the column's place; closes it once something else is picked, so that its facts are seen.
pub fn page_ui(ui: &mut Ui, desk: &mut Desk, page: Page) {
    let title = match page {
        Page::Flocks => "Flocks",
        Page::Hens => "Hens",
        Page::Season => "Season and grass",
        Page::Questions => "Questions",
        Page::Pictures => "The season in pictures",
    };
    // Questions are about what is selected, and pictures pick strips, so they stay.
    let is_about_selected = matches!(page, Page::Questions | Page::Pictures);
    let mut stays =
        is_about_selected || desk.selected.is_empty() || desk.selected == desk.forms.selected;
    if desk.selected.is_empty() {
        desk.forms.selected.clear();
    }
    ui.horizontal(|ui| {
        ui.label(RichText::new(title).font(theme::serif(theme::TITLE)));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if ui
                .button("Done")
                .on_hover_text("Back to the facts (Escape)")
                .clicked()
            {
                stays = false;
            }
        });
    });
    ScrollArea::vertical()
        .id_salt(("page", title))
        .auto_shrink(false)
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 4.0;
            // The bar of a long page lies beside the fields, not on them.
            ui.set_width(ui.available_width() - 4.0);
            match page {
                Page::Flocks => flocks::flocks_ui(ui, desk),
                Page::Hens => hens::hens_ui(ui, desk),
                Page::Season => season::season_ui(ui, desk),
                Page::Questions => questions::questions_ui(ui, desk),
                Page::Pictures => pictures::pictures_ui(ui, desk),
            }
            ui.add_space(12.0);
        });
    if !stays {
        settle_now(desk);
        desk.forms.page = None;
    }
}

/// The ways to the pages, from the facts of the whole farm.
pub fn pages_ui(ui: &mut Ui, desk: &mut Desk) {
    ui.add_space(8.0);
    ui.separator();
    ui.label(RichText::new("Keep up to date").font(theme::serif_bold(theme::HEADING - 1.0)));
    let mut chosen = None;
    ui.horizontal_wrapped(|ui| {
        for command in [
            Command::Flocks,
            Command::Hens,
            Command::SeasonGrass,
            Command::Course,
            Command::Questions,
            Command::Pictures,
        ] {
            let facts = command.facts();
            if ui.button(facts.text).on_hover_text(facts.tip).clicked() {
                chosen = Some(command);
            }
        }
    });
    if let Some(command) = chosen {
        let ctx = ui.ctx().clone();
        do_command(desk, command, &ctx);
    }
}

/// Says that there is no flock yet and offers the page on which one is put in; whether there is none.
pub fn no_flock_ui(ui: &mut Ui, desk: &mut Desk) -> bool {
    if !desk.farm().mobs.is_empty() {
        return false;
    }
    ui.label("No flock yet. Say which sheep graze here, and from when to when.");
    if main_button(ui, "Put in a flock").clicked() {
        open_page(desk, Page::Flocks);
    }
    true
}
