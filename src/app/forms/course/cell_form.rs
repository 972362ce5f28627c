//! What is chosen in the table: what grows there that year, crop after crop, given back to the course at a press.

use egui::{RichText, Ui};

use crate::app::desk::Desk;
use crate::app::forms::buttons::word_button;
use crate::app::forms::change::{CourseField, Target};
use crate::app::forms::course_change::change_cell;
use crate::app::forms::field::{FieldRow, rows_ui, small_ui};
use crate::app::forms::figures::figure_or_empty;
use crate::app::forms::settle::field_id;
use crate::app::theme;
use crate::farm::{
    CourseFinding, Courses, Farm, GroundId, Kind, Use, course_grounds, course_years, use_words,
    uses_at,
};
use crate::quantity::area_text;
use crate::sheets::palette::Ink;

/// Uses that may be pressed instead of typed.
const MOST_OFFERED: usize = 14;

/// The chosen cell; words of what to do where none is.
pub(super) fn cell_ui(ui: &mut Ui, desk: &mut Desk, found: &[CourseFinding]) {
    let Some((id, year)) = cell_in_view(desk) else {
        small_ui(ui, "Choose a cell to change what grows there.");
        return;
    };
    let Some(ground) = desk.farm().ground.get(&id) else {
        return;
    };
    let (name, is_tunnel) = (ground.name.trim().to_owned(), ground.kind == Kind::Tunnel);
    ui.label(RichText::new(format!("{name}, {year}")).font(theme::serif_bold(theme::HEADING)));
    if let Some(area_m2) = desk.measures(id).area_m2 {
        small_ui(ui, &area_text(area_m2, desk.units()));
    }
    let rows = field_rows(desk.farm(), id, year, is_tunnel);
    rows_ui(ui, desk, &rows);
    if std::mem::take(&mut desk.forms.course.wants_field)
        && let Some(first) = rows.first()
    {
        let field = field_id(first.target);
        ui.memory_mut(|memory| memory.request_focus(field));
    }
    small_ui(
        ui,
        "A crop, ley, fallow, or cover: and its name. (…) behind a crop names its family.",
    );
    offered_ui(ui, desk, id, year);
    if let Some((label, edits)) = super::press::back_to_course(desk.farm(), id, year)
        && word_button(
            ui,
            "Back to the course",
            "What was changed by hand here is taken back",
        )
    {
        desk.commit(&label, edits);
    }
    let ph = desk.farm().course.soil_ph.get(&id).copied();
    let ph = FieldRow::figure(
        Target::Course(CourseField::SoilPh(id)),
        "Soil pH here",
        figure_or_empty(ph),
        "",
    )
    .hinted("not known");
    rows_ui(ui, desk, &[ph]);
    for finding in found {
        if finding.ground == Some(id) && finding.year == year {
            let words = RichText::new(format!("{} {}", finding.what, finding.remedy))
                .font(theme::sans(theme::SMALL))
                .color(theme::ink(ui, Ink::Act));
            ui.add(egui::Label::new(words).wrap());
        }
    }
}

fn cell_in_view(desk: &Desk) -> Option<(GroundId, i16)> {
    let (id, year) = desk.forms.course.cell?;
    let is_there =
        course_years(desk.farm()).contains(&year) && course_grounds(desk.farm()).contains(&id);
    is_there.then_some((id, year))
}

/// A field for each crop of the year and one for a further one.
fn field_rows(farm: &Farm, id: GroundId, year: i16, is_tunnel: bool) -> Vec<FieldRow> {
    let cells = uses_at(&farm.course, id, year);
    let count = (cells.len() + 1).min(usize::from(Courses::MOST_CROPS_A_YEAR));
    (0..count)
        .zip(0_u8..)
        .map(|(place, crop)| {
            let label = match (place, is_tunnel) {
                (0, true) => "Summer crop",
                (0, false) => "Main crop",
                (1, true) => "Winter crop",
                (1, false) => "Winter or catch",
                _ => "Then",
            };
            let words = cells.get(place).map_or_else(String::new, use_words);
            let spoken = match place {
                0 => "Main crop of this year".to_owned(),
                _ => format!("Crop {} of this year", place + 1),
            };
            let target = Target::Course(CourseField::Cell(id, year, crop));
            FieldRow::words(target, label, words).spoken(spoken)
        })
        .collect()
}

/// Uses found elsewhere in the table, to be pressed.
fn offered_ui(ui: &mut Ui, desk: &mut Desk, id: GroundId, year: i16) {
    let mut pressed = None;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = egui::vec2(4.0, 4.0);
        for words in offered(desk.farm()) {
            let small = RichText::new(&words).font(theme::sans(theme::SMALL));
            let tip = format!("Main crop here: {words}");
            if ui.button(small).on_hover_text(tip).clicked() {
                pressed = Some(words);
            }
        }
    });
    let Some(words) = pressed else { return };
    match change_cell(desk.farm(), (id, year, 0), &words) {
        Ok((label, edits)) => desk.commit(&label, edits),
        Err(why) => desk.tell_trouble(why),
    }
}

fn offered(farm: &Farm) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for id in course_grounds(farm) {
        for year in course_years(farm) {
            let cells = uses_at(&farm.course, id, year);
            let Some(cell) = cells.first() else { continue };
            let word = match &cell.used {
                Use::Crop { .. } => use_words(cell),
                _ => continue,
            };
            if !words.contains(&word) && words.len() < MOST_OFFERED {
                words.push(word);
            }
        }
    }
    words.sort();
    words.extend(["ley".to_owned(), "fallow".to_owned()]);
    words
}
