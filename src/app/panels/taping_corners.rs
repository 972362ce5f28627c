//! The known corners of the page: clicked on the map, typed, or taken from the list.

use egui::{Key, ScrollArea, TextEdit, Ui, Vec2};

use super::taping_fields::{GAP, ROW, field_id, small_ui, take_focus};
use crate::app::desk::Desk;
use crate::app::taping::{Focus, KnownCorner, Taping, Wanting, Way, corner_lists, corner_typed};

/// A row for each known corner.
pub(super) fn corners_ui(ui: &mut Ui, desk: &Desk, taping: &mut Taping) {
    let names: &[&str] = match taping.way {
        Way::TwoTapes | Way::BaseLine => &["First known corner", "Second known corner"],
        Way::WalkRound => &["Where the walk began"],
        Way::Walked => &[],
    };
    for (number, name) in names.iter().enumerate() {
        corner_ui(ui, desk, taping, number, name);
    }
}

fn corner_ui(ui: &mut Ui, desk: &Desk, taping: &mut Taping, number: usize, name: &str) {
    let Some(mut typed) = taping.end_texts.get_mut(number).map(std::mem::take) else {
        return;
    };
    small_ui(ui, name);
    let mut listed = None;
    let field = ui
        .horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = GAP;
            let hint = if taping.wants == Some(number) {
                "click on the map, or type: Ley 2"
            } else {
                "a corner, such as Ley 2"
            };
            let width = ui.available_width() - 56.0 - GAP;
            let field = TextEdit::singleline(&mut typed)
                .id(field_id(Focus::Corner(number)))
                .desired_width(width - 16.0)
                .min_size(Vec2::new(width, ROW))
                .margin(egui::Margin::symmetric(8, 3))
                .align(egui::Align2::LEFT_CENTER)
                .hint_text(hint);
            let field = ui.add(field);
            field.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, name));
            listed = list_ui(ui, desk, name);
            field
        })
        .inner;
    take_focus(ui, &field, &typed, Focus::Corner(number), &mut taping.focus);
    // The next click on the map is for the field that the cursor stands in.
    if field.gained_focus() {
        taping.wants = Some(number);
    }
    let by_key = ui.input(|input| input.key_pressed(Key::Enter) || input.key_pressed(Key::Tab));
    let is_left = field.lost_focus();
    if let Some(text) = taping.end_texts.get_mut(number) {
        *text = typed;
    }
    if let Some(corner) = listed {
        taping.set_end(number, corner);
    } else if is_left {
        take_typed(desk, taping, number, by_key);
    }
    if let Some(Some(trouble)) = taping.end_trouble.get(number).cloned() {
        super::taping_fields::wanting_ui(ui, &Wanting::wrong(trouble));
    }
}

/// What was typed becomes the known corner once its field is left.
fn take_typed(desk: &Desk, taping: &mut Taping, number: usize, by_key: bool) {
    let Some(text) = taping.end_texts.get(number).cloned() else {
        return;
    };
    let known = taping.ends.get(number).and_then(Option::as_ref);
    let is_same = known.is_some_and(|corner| corner.name == text);
    let found = if is_same {
        Ok(None)
    } else if text.trim().is_empty() {
        Err(None)
    } else {
        corner_typed(desk.farm(), &text).map(Some).map_err(Some)
    };
    match found {
        Ok(Some(corner)) => {
            taping.set_end(number, corner);
        }
        Ok(None) => {
            if by_key {
                taping.want_next();
            }
        }
        Err(trouble) => {
            if let Some(end) = taping.ends.get_mut(number) {
                *end = None;
            }
            if let Some(told) = taping.end_trouble.get_mut(number) {
                *told = trouble;
            }
            taping.want_next();
        }
    }
}

/// Every corner of the farm by the ground it belongs to.
fn list_ui(ui: &mut Ui, desk: &Desk, name: &str) -> Option<KnownCorner> {
    let mut chosen = None;
    let shown = ui.menu_button("List", |ui| {
        ui.set_min_width(160.0);
        ScrollArea::vertical().max_height(320.0).show(ui, |ui| {
            let first = desk.selected_one().map(|(id, _)| id);
            for (ground, corners) in corner_lists(desk.farm(), first) {
                if let [only] = corners.as_slice() {
                    if ui.button(&only.name).clicked() {
                        chosen = Some(only.clone());
                        ui.close();
                    }
                    continue;
                }
                ui.menu_button(ground, |ui| {
                    let row = ui.spacing().interact_size.y;
                    let scroll = ScrollArea::vertical().max_height(320.0);
                    scroll.show_rows(ui, row, corners.len(), |ui, range| {
                        for corner in corners.get(range).unwrap_or_default() {
                            if ui.button(&corner.name).clicked() {
                                chosen = Some(corner.clone());
                                ui.close();
                            }
                        }
                    });
                });
            }
        });
    });
    let spoken = format!("List for {}", name.to_lowercase());
    shown
        .response
        .widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, spoken.clone()));
    chosen
}
