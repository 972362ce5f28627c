//! The walked boundary on the page: its points or its file, how it is thinned, and what is left of it.

use egui::{RichText, TextEdit, Ui};

use super::taping_page::{
    Pressed, field_id, figure_field, form_ui, labelled, place_kind_ui, small_ui, take_focus,
};
use crate::app::desk::Desk;
use crate::app::taping::{Focus, Taping, WalkedShape, Wanting};
use crate::app::theme;
use crate::quantity::{area_text, count_text, length_text, plural_text};

/// Points and settings.
pub(super) fn walked_ui(ui: &mut Ui, desk: &Desk, taping: &mut Taping) -> Option<Pressed> {
    let mut pressed = None;
    if taping.walked.file.is_some() {
        file_ui(ui, taping);
    } else {
        labelled(ui, "Points", |ui| {
            let file = ui.button("Bring a file in …");
            if file.on_hover_text("A walk recorded as GPX").clicked() {
                pressed = Some(Pressed::File);
            }
        });
        let field = TextEdit::multiline(&mut taping.walked.text)
            .id(field_id(Focus::Points))
            .desired_rows(4)
            .desired_width(f32::INFINITY)
            .margin(egui::Margin::symmetric(8, 4))
            .hint_text("52.12345, -1.23456\n52.12351, -1.23397");
        let field = egui::ScrollArea::vertical()
            .id_salt("points")
            .max_height(110.0)
            .show(ui, |ui| ui.add(field))
            .inner;
        field.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, "Points"));
        let focus = &mut taping.focus;
        take_focus(ui, &field, &taping.walked.text, Focus::Points, focus);
    }
    form_ui(ui, &mut taping.walked.is_line);
    labelled(ui, "Thin to", |ui| {
        figure_field(ui, &mut taping.walked.thinning, Focus::Thinning, "Thin to").on_hover_text(
            "Points that lie nearer than this to the line through the others are left out; 0 keeps all",
        );
    });
    if !taping.walked.is_line {
        labelled(ui, "Error of a point", |ui| {
            figure_field(ui, &mut taping.walked.point_error, Focus::PointError, "Error of a point").on_hover_text(
                "How far off one point may be: some 3 m for a phone under open sky (common practice, no source)",
            );
        });
    }
    // The answer is worked out here, once a frame, and read by the foot of the page and by the map.
    let answer = taping.walked.work_out(desk);
    if answer.is_ok_and(|shapes| shapes.iter().any(|shape| shape.is_unsound)) {
        let text = "The outline crosses itself or touches itself. It can be put down, and mended with Pick.";
        super::taping_page::wanting_ui(ui, &Wanting::wrong(text));
    }
    pressed
}

/// The file, which of its lines, and the way back to typed points.
fn file_ui(ui: &mut Ui, taping: &mut Taping) {
    let walked = &mut taping.walked;
    let mut is_dropped = false;
    if let Some(file) = &walked.file {
        let name = std::path::Path::new(&file.name).file_name().map_or_else(
            || file.name.clone(),
            |name| name.to_string_lossy().into_owned(),
        );
        ui.horizontal(|ui| {
            let words = RichText::new(name).font(theme::sans_bold(theme::BODY));
            ui.add(egui::Label::new(words).truncate())
                .on_hover_text(&file.name);
        });
        is_dropped = ui
            .button("Type points instead")
            .on_hover_text("Leaves this file")
            .clicked();
        let lines = &file.recorded.lines;
        let words = |place: usize| {
            lines.get(place).map_or_else(String::new, |line| {
                let points = u64::try_from(line.places.len()).unwrap_or(u64::MAX);
                format!("{}, {}", line.name, plural_text(points, "point", "points"))
            })
        };
        if lines.len() > 1 {
            let all = format!("All {} lines", lines.len());
            let shown = walked.line.map_or_else(|| all.clone(), words);
            let choice = egui::ComboBox::from_id_salt("line")
                .selected_text(&shown)
                .width(ui.available_width() - 8.0)
                .truncate()
                .show_ui(ui, |ui| {
                    ui.selectable_value(&mut walked.line, None, all);
                    for place in 0..lines.len() {
                        ui.selectable_value(&mut walked.line, Some(place), words(place));
                    }
                });
            let spoken = format!("Which line: {shown}");
            choice.response.widget_info(|| {
                egui::WidgetInfo::labeled(egui::Role::ComboBox, true, spoken.clone())
            });
        }
        for note in &file.recorded.notes {
            small_ui(ui, note);
        }
        let marked = u64::try_from(file.recorded.marked.len()).unwrap_or(u64::MAX);
        if marked > 0 {
            let text = format!(
                "With {}",
                plural_text(marked, "marked place", "marked places")
            );
            ui.checkbox(&mut walked.brings_marked, text);
        }
    }
    if walked.brings_marked && walked.file.is_some() {
        place_kind_ui(ui, "A place becomes a", &mut taping.place_kind);
    }
    if is_dropped {
        taping.walked.clear();
        taping.focus = Some(Focus::Points);
    }
}

/// Corners and size before and after, and how sure the area is.
pub(super) fn walked_facts_ui(ui: &mut Ui, desk: &Desk) -> Result<String, Wanting> {
    let shapes = desk.taping.walked.answer()?;
    let count = |of: fn(&WalkedShape) -> usize| -> String {
        let sum: usize = shapes.iter().map(of).sum();
        count_text(u64::try_from(sum).unwrap_or(u64::MAX))
    };
    let size = |of: fn(&WalkedShape) -> f64| -> String {
        let sum: f64 = shapes.iter().map(of).sum();
        if desk.taping.walked.is_line {
            length_text(sum, desk.units())
        } else {
            area_text(sum, desk.units())
        }
    };
    let what = if desk.taping.walked.is_line {
        "Length"
    } else {
        "Area"
    };
    ui.spacing_mut().interact_size.y = 18.0;
    egui::Grid::new("before and after")
        .num_columns(3)
        .spacing([18.0, 3.0])
        .show(ui, |ui| {
            ui.label("");
            ui.label(RichText::new("walked").weak());
            ui.label(RichText::new("thinned").weak());
            ui.end_row();
            ui.label("Corners");
            ui.label(count(|shape| shape.before.len()));
            ui.label(count(|shape| shape.after.len()));
            ui.end_row();
            ui.label(what);
            ui.label(size(|shape| shape.size_before));
            ui.label(size(|shape| shape.size_after));
            ui.end_row();
        });
    match shapes {
        [only] if only.is_ring => {
            let error = area_text(only.area_error_m2, desk.units());
            Ok(format!(
                "Sure to ± {error}: two walks in three come out so near."
            ))
        }
        _ => Ok(String::new()),
    }
}
