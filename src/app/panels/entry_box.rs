//! The box beside the pointer in which exact figures are typed while something is drawn.
//!
//! It opens at the first digit and closes with Enter, which puts the corner down, or Escape, which does not.

use egui::{Event, Key, RichText, Ui};

use crate::app::desk::Desk;
use crate::app::entry::{Drawing, Entry, corner_meant};
use crate::app::map::feed;
use crate::app::theme;
use crate::app::tools::{MapEvent, Tool};
use crate::sheets::palette::Ink;

/// Opens the box where a digit is typed while something is being drawn.
pub fn open_at_digit(ui: &Ui, desk: &mut Desk) {
    if desk.entry.is_some() || drawing(desk).is_none() {
        return;
    }
    let digit = ui.input_mut(|input| {
        let place = input.events.iter().position(|event| {
            matches!(event, Event::Text(text) if text.starts_with(|c: char| c.is_ascii_digit() || c == '.'))
        })?;
        match input.events.remove(place) {
            Event::Text(text) => Some(text),
            _ => None,
        }
    });
    if let Some(figure) = digit {
        desk.entry = Some(Entry {
            figure,
            is_new: true,
            ..Entry::default()
        });
    }
}

/// The box, where it is open.
pub fn entry_ui(ui: &mut Ui, desk: &mut Desk, whole: egui::Rect) {
    let Some(mut entry) = desk.entry.take() else {
        return;
    };
    let Some(drawing) = drawing(desk) else { return };
    let at = desk.view.screen_from_ground(drawing.pointer) + egui::Vec2::new(18.0, 40.0);
    let size = egui::Vec2::new(250.0, 60.0);
    let at = at.clamp(whole.min, whole.max - size);
    let mut stays = true;
    let area = egui::Rect::from_min_size(at, size);
    ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
        let frame = egui::Frame::new()
            .fill(theme::ink(ui, Ink::Panel))
            .stroke(egui::Stroke::new(1.0, theme::ink(ui, Ink::Act)))
            .corner_radius(5.0)
            .inner_margin(6.0);
        frame.show(ui, |ui| stays = fields_ui(ui, desk, &mut entry, &drawing));
    });
    if stays {
        desk.entry = Some(entry);
    }
}

fn fields_ui(ui: &mut Ui, desk: &mut Desk, entry: &mut Entry, drawing: &Drawing) -> bool {
    let mut stays = true;
    ui.horizontal(|ui| {
        let hint = if drawing.is_width {
            "width or area"
        } else {
            "length, area"
        };
        let field = ui.add(
            egui::TextEdit::singleline(&mut entry.figure)
                .desired_width(96.0)
                .hint_text(hint),
        );
        field.widget_info(|| {
            egui::WidgetInfo::labeled(egui::Role::TextInput, true, "Length or area")
        });
        if entry.is_new {
            field.request_focus();
            put_cursor_at_end(ui, field.id, entry.figure.chars().count());
            entry.is_new = false;
        }
        let mut entered = field.lost_focus();
        if !drawing.is_width {
            ui.label("at");
            let bearing = ui.add(
                egui::TextEdit::singleline(&mut entry.bearing)
                    .desired_width(44.0)
                    .hint_text("°"),
            );
            bearing.widget_info(|| {
                egui::WidgetInfo::labeled(egui::Role::TextInput, true, "Bearing in degrees")
            });
            entered |= bearing.lost_focus();
        }
        let (enter, escape) = ui.input(|input| {
            (
                input.key_pressed(Key::Enter),
                input.key_pressed(Key::Escape),
            )
        });
        if escape {
            stays = false;
        } else if entered && enter {
            match corner_meant(entry, drawing) {
                Ok(at) => {
                    stays = false;
                    feed(desk, MapEvent::Clicked { at, adds: false });
                }
                Err(text) => entry.trouble = Some(text),
            }
        }
    });
    if let Some(text) = &entry.trouble {
        ui.label(
            RichText::new(text)
                .font(theme::sans(theme::SMALL))
                .color(theme::ink(ui, Ink::Act)),
        );
    }
    stays
}

fn put_cursor_at_end(ui: &Ui, id: egui::Id, end: usize) {
    let mut state = egui::TextEdit::load_state(ui.ctx(), id).unwrap_or_default();
    let cursor = egui::text::CCursor::new(end);
    state
        .cursor
        .set_char_range(Some(egui::text::CCursorRange::one(cursor)));
    state.store(ui.ctx(), id);
}

/// Where the drawing stands, for tools that take figures.
fn drawing(desk: &Desk) -> Option<Drawing> {
    let (corners, is_width, is_ring) = match &desk.tool {
        Tool::Outline(tool) => (tool.corners().to_vec(), false, true),
        Tool::Hole(tool) => (tool.corners().to_vec(), false, true),
        Tool::Line(tool) => (tool.corners().to_vec(), false, false),
        Tool::Square(tool) => (tool.side().to_vec(), tool.side().len() == 2, false),
        Tool::Split(tool) => (tool.corners().to_vec(), false, false),
        Tool::Ruler(tool) => (tool.corners().to_vec(), false, false),
        Tool::Pick(_) | Tool::Place(_) | Tool::Yard(_) | Tool::Reshape(_) => return None,
    };
    let last = *corners.last()?;
    let pointer = desk.pointer.or(desk.last_pointer).unwrap_or(last);
    Some(Drawing {
        corners,
        pointer,
        is_width,
        is_ring,
        units: desk.units(),
    })
}
