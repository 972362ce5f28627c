//! Paints the table of plots by years, the sums under it and what is amiss; a cell is chosen by pointer or by key.

use egui::text::{LayoutJob, TextWrapping};
use egui::{Align2, FontId, Rect, RichText, Role, ScrollArea, Sense, Stroke, Ui, Vec2, WidgetInfo};

use super::table_rows::{TableRow, TableYear, sum_rows, table_rows};
use crate::app::desk::Desk;
use crate::app::dialogs::main_button;
use crate::app::forms::field::small_ui;
use crate::app::map::use_ink;
use crate::app::theme;
use crate::farm::{Cell, CourseFinding, Severity, Use, course_years, use_words};
use crate::sheets::palette::Ink;

/// Room of the names at the left.
const NAMES: f32 = 118.0;
/// Least and most width of a year.
const YEAR: (f32, f32) = (92.0, 150.0);
/// Height of a line of a cell.
const LINE: f32 = 21.0;

/// The table.
pub(super) fn table_ui(ui: &mut Ui, desk: &mut Desk, found: &[CourseFinding]) {
    let rows = table_rows(desk.farm(), found);
    if rows.is_empty() {
        ui.label("No plot, ley or tunnel is drawn yet. Draw one, and it has its row here.");
        return;
    }
    if desk.farm().course.courses.is_empty() && desk.farm().course.by_hand.is_empty() {
        ui.label("No course yet. Make one of what is drawn, then write what grows in each step.");
        if main_button(ui, "Make a course of the plots").clicked()
            && let Some((label, edits)) = super::press::course_of_plots(desk.farm())
        {
            desk.commit(&label, edits);
        }
        ui.add_space(6.0);
    }
    ScrollArea::both()
        .id_salt("course table")
        .auto_shrink(false)
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing = Vec2::new(3.0, 3.0);
            let years = course_years(desk.farm()).count();
            let room = (ui.available_width() - NAMES - 12.0) / column_count(years) - 3.0;
            let width = room.clamp(YEAR.0, YEAR.1).floor();
            let (heads, _) = ui.allocate_exact_size(
                Vec2::new(NAMES + (width + 3.0) * column_count(years), LINE),
                Sense::hover(),
            );
            for row in &rows {
                row_ui(ui, desk, row, width);
            }
            sums_ui(ui, desk, width);
            standing_heads_ui(ui, desk, heads, width);
            small_ui(
                ui,
                "A dot: changed by hand. An exclamation mark: something to know, told below and beside.",
            );
            findings_ui(ui, desk, found);
        });
}

#[expect(clippy::cast_precision_loss, reason = "at most forty years")]
const fn column_count(years: usize) -> f32 {
    years as f32
}

/// The years stay in sight at the top however far the rows are scrolled, so they are put down after these.
fn standing_heads_ui(ui: &mut Ui, desk: &mut Desk, heads: Rect, width: f32) {
    let top = heads.top().max(ui.clip_rect().top());
    let heads = Rect::from_min_size(egui::pos2(heads.left(), top), heads.size());
    ui.painter().rect_filled(
        heads.expand2(Vec2::new(0.0, 2.0)),
        0.0,
        theme::ink(ui, Ink::Panel),
    );
    let mut above = ui.new_child(egui::UiBuilder::new().max_rect(heads));
    heads_ui(&mut above, desk, width);
}

fn heads_ui(ui: &mut Ui, desk: &mut Desk, width: f32) {
    let in_view = desk.forms.course.year;
    ui.horizontal(|ui| {
        ui.allocate_exact_size(Vec2::new(NAMES, LINE), Sense::hover());
        for year in course_years(desk.farm()) {
            let font = if year == in_view {
                theme::sans_bold(theme::BODY)
            } else {
                theme::sans(theme::BODY)
            };
            let ink = theme::ink(ui, if year == in_view { Ink::Act } else { Ink::Ink });
            let words = RichText::new(year.to_string()).font(font).color(ink);
            let head = egui::Button::new(words)
                .frame(false)
                .min_size(Vec2::new(width, LINE));
            if ui.add(head).on_hover_text("The year in view").clicked() {
                desk.forms.course.year = year;
            }
        }
    });
}

fn row_ui(ui: &mut Ui, desk: &mut Desk, row: &TableRow, width: f32) {
    let lines = row
        .years
        .iter()
        .map(|year| year.cells.len())
        .max()
        .unwrap_or(1);
    #[expect(clippy::cast_precision_loss, reason = "at most four crops")]
    let height = LINE * lines as f32 + 4.0;
    ui.horizontal(|ui| {
        let (rect, _) = ui.allocate_exact_size(Vec2::new(NAMES, height), Sense::hover());
        let font = theme::serif(theme::BODY);
        line_at(ui, rect.left_top(), NAMES - 4.0, &row.name, font, Ink::Ink);
        for year in &row.years {
            cell_ui(ui, desk, row, year, Vec2::new(width, height));
        }
    });
    debug_assert!(!row.kind.is_empty(), "every kind has a name");
}

fn cell_ui(ui: &mut Ui, desk: &mut Desk, row: &TableRow, year: &TableYear, size: Vec2) {
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let is_chosen = desk.forms.course.cell == Some((row.ground, year.year));
    response
        .widget_info(|| WidgetInfo::selected(Role::Button, true, is_chosen, year.spoken.clone()));
    if response.clicked() {
        let view = &mut desk.forms.course;
        view.cell = Some((row.ground, year.year));
        view.year = year.year;
        view.wants_field = true;
    }
    if !ui.is_rect_visible(rect) {
        return;
    }
    for (place, cell) in year.cells.iter().enumerate() {
        #[expect(clippy::cast_precision_loss, reason = "at most four crops")]
        let top = rect.top() + 2.0 + LINE * place as f32;
        let is_last = place + 1 == year.cells.len();
        let bottom = if is_last { rect.bottom() } else { top + LINE };
        let from = if place == 0 { rect.top() } else { top };
        let part = Rect::from_min_max(
            egui::pos2(rect.left(), from),
            egui::pos2(rect.right(), bottom),
        );
        let has_mark = place == 0 && (year.trouble.is_some() || year.is_by_hand());
        // On a low line the marks at its right end and the family's sign stand side by side.
        let marks = if has_mark && !is_last { 16.0 } else { 0.0 };
        paint_part(ui, part, cell, marks);
    }
    let mut mark_right = rect.right() - 4.0;
    if let Some(severity) = year.trouble {
        let bold = theme::sans_bold(theme::BODY);
        let ink = if severity == Severity::Note {
            Ink::Soft
        } else {
            Ink::Act
        };
        let at = egui::pos2(mark_right, rect.top() + 1.0);
        let mark = ui
            .painter()
            .text(at, Align2::RIGHT_TOP, "!", bold, theme::ink(ui, ink));
        mark_right = mark.left() - 3.0;
    }
    if year.is_by_hand() {
        let at = egui::pos2(mark_right - 2.0, rect.top() + 10.0);
        ui.painter()
            .circle_filled(at, 2.6, theme::ink(ui, Ink::Ink));
    }
    let edge = if is_chosen {
        Stroke::new(2.0, theme::ink(ui, Ink::Act))
    } else if response.has_focus() || response.hovered() {
        Stroke::new(1.4, theme::ink(ui, Ink::Act))
    } else if year
        .trouble
        .is_some_and(|severity| severity > Severity::Note)
    {
        Stroke::new(1.2, theme::ink(ui, Ink::WarnEdge))
    } else {
        Stroke::new(1.0, theme::ink(ui, Ink::Hair))
    };
    ui.painter()
        .rect_stroke(rect, 3.0, edge, egui::StrokeKind::Inside);
    response.on_hover_text(&year.spoken);
}

/// One crop of a cell: its tint, its words, and the sign of its family at the right.
fn paint_part(ui: &Ui, part: Rect, cell: &Cell, marks: f32) {
    ui.painter()
        .rect_filled(part, 3.0, theme::ink(ui, use_ink(cell)));
    if matches!(cell.used, Use::Ley { .. }) {
        // Blades as on the map, so that a ley is told from a crop without its colour.
        let blade = Stroke::new(1.0, theme::ink(ui, Ink::Blade));
        let mut x = part.left() + 8.0;
        while x < part.right() - 6.0 {
            let foot = egui::pos2(x, part.bottom() - 2.0);
            ui.painter()
                .line_segment([foot, foot + Vec2::new(1.5, -4.0)], blade);
            x += 9.0;
        }
    }
    let at = part.left_top() + Vec2::new(6.0, 2.0);
    let room = part.width() - 26.0 - marks;
    let words = use_words(cell);
    let ink = theme::ink(ui, Ink::Ink);
    let measured = ui
        .painter()
        .layout_no_wrap(words.clone(), theme::sans(theme::BODY), ink);
    // Long words stand smaller before they are cut.
    let (size, at) = if measured.size().x <= room {
        (theme::BODY, at)
    } else {
        (theme::SMALL, at + Vec2::new(0.0, 1.5))
    };
    line_at(ui, at, room, &words, theme::sans(size), Ink::Ink);
    if let Some(family) = cell.used.family() {
        let at = part.right_bottom() - Vec2::new(4.0 + marks, 2.0);
        let small = theme::sans(11.0);
        let soft = theme::ink(ui, Ink::Ink).gamma_multiply(0.75);
        ui.painter()
            .text(at, Align2::RIGHT_BOTTOM, family.sign(), small, soft);
    }
}

fn line_at(ui: &Ui, at: egui::Pos2, room: f32, text: &str, font: FontId, ink: Ink) {
    let ink = theme::ink(ui, ink);
    let mut job = LayoutJob::simple_singleline(text.to_owned(), font, ink);
    job.wrap = TextWrapping::truncate_at_width(room.max(10.0));
    let words = ui.painter().layout_job(job);
    ui.painter().galley(at, words, ink);
}

fn sums_ui(ui: &mut Ui, desk: &Desk, width: f32) {
    ui.add_space(4.0);
    let size = Vec2::new(width, 17.0);
    for (name, texts) in sum_rows(desk.farm(), desk.units()) {
        ui.horizontal(|ui| {
            ui.spacing_mut().interact_size.y = size.y;
            let small = theme::sans(theme::SMALL);
            let (rect, _) = ui.allocate_exact_size(Vec2::new(NAMES, size.y), Sense::hover());
            line_at(ui, rect.left_top(), NAMES, name, small.clone(), Ink::Soft);
            for (text, year) in texts.iter().zip(course_years(desk.farm())) {
                let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
                response.widget_info(|| {
                    WidgetInfo::labeled(Role::Label, true, format!("{name} in {year}: {text}"))
                });
                let at = rect.left_top() + Vec2::new(6.0, 0.0);
                line_at(ui, at, width - 6.0, text, small.clone(), Ink::Soft);
            }
        });
    }
}

fn findings_ui(ui: &mut Ui, desk: &mut Desk, found: &[CourseFinding]) {
    ui.add_space(8.0);
    if found.is_empty() {
        if !desk.farm().course.courses.is_empty() {
            ui.label("Nothing amiss in the course.");
        }
        return;
    }
    ui.label(RichText::new("To know").font(theme::serif_bold(theme::HEADING - 1.0)));
    let mut sorted: Vec<&CourseFinding> = found.iter().collect();
    sorted.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    for finding in sorted {
        let words = RichText::new(format!("{} {}", finding.what, finding.remedy))
            .font(theme::sans(theme::SMALL));
        let words = if finding.severity == Severity::Note {
            words.weak()
        } else {
            words
        };
        let label = egui::Label::new(words).wrap().sense(Sense::click());
        if ui.add(label).on_hover_text("Go to the cell").clicked() {
            let view = &mut desk.forms.course;
            view.year = finding.year;
            view.cell = finding.ground.map(|ground| (ground, finding.year));
        }
    }
}
