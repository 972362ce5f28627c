//! The map as the course has it in a year: each plot, ley and tunnel by its crop or ley, and the bar to choose the year.
//!
//! Only a way of looking: nothing of the farm changes by it.

use egui::{Frame, Margin, RichText, Stroke, Ui, Vec2};

use crate::app::desk::Desk;
use crate::app::forms::CourseTab;
use crate::app::theme;
use crate::farm::{Cell, Family, GroundId, Kind, Use, cell_at, course_years, use_words, uses_at};
use crate::sheets::estate_map::YearLook;
use crate::sheets::palette::Ink;

/// The year that the map shows, where it shows one.
pub fn year_on_map(desk: &Desk) -> Option<i16> {
    let view = &desk.forms.course;
    view.is_on_map
        .then(|| held_in(view.year, &course_years(desk.farm())))
}

fn held_in(year: i16, years: &std::ops::RangeInclusive<i16>) -> i16 {
    year.clamp(*years.start(), *years.end())
}

/// The tint of a use; words stand on it, so that colour never speaks alone.
pub fn use_ink(cell: &Cell) -> Ink {
    match &cell.used {
        Use::Crop { family, .. } => {
            let place = Family::ALL.iter().position(|other| other == family);
            Ink::Family(
                place
                    .and_then(|place| u8::try_from(place).ok())
                    .unwrap_or(u8::MAX),
            )
        }
        Use::Ley { .. } => Ink::Ley,
        Use::Cover(_) => Ink::LeyShort,
        Use::Fallow => Ink::Track,
        Use::Unsaid => Ink::Field,
    }
}

/// How a piece looks in a year; `None` for what has no place in the course.
pub(super) fn year_look(desk: &Desk, id: GroundId, year: i16) -> Option<YearLook> {
    let ground = desk.farm().ground.get(&id)?;
    if !matches!(ground.kind, Kind::Plot | Kind::Ley | Kind::Tunnel) {
        return None;
    }
    let cell = cell_at(&desk.farm().course, id, year, 0);
    let kind = match (&cell.used, ground.kind) {
        (_, Kind::Tunnel) => Kind::Tunnel,
        (Use::Crop { .. }, _) => Kind::Plot,
        (Use::Ley { .. } | Use::Cover(_), _) => Kind::Ley,
        // Without furrows or blades: nothing is sown.
        (Use::Fallow | Use::Unsaid, _) => Kind::Note,
    };
    Some(YearLook {
        kind,
        ink: use_ink(&cell),
    })
}

/// Strips give way to their ley while the map shows a year.
pub(super) fn is_hidden(desk: &Desk, id: GroundId) -> bool {
    desk.farm()
        .ground
        .get(&id)
        .is_some_and(|ground| ground.kind == Kind::Strip)
}

/// What stands on a piece in a year, in words: `squash, then cover: rye`.
pub(super) fn year_words(desk: &Desk, id: GroundId, year: i16) -> Option<String> {
    year_look(desk, id, year)?;
    let words: Vec<String> = uses_at(&desk.farm().course, id, year)
        .iter()
        .map(use_words)
        .filter(|words| !words.is_empty())
        .collect();
    Some(if words.is_empty() {
        "nothing said".to_owned()
    } else {
        words.join(", then ")
    })
}

/// The bar over the map with the year in view, where the map shows one.
pub fn year_bar_ui(ui: &mut Ui, desk: &mut Desk, whole: egui::Rect) {
    if !desk.forms.course.is_on_map {
        return;
    }
    // A narrow map leaves the bar's words out; on a very narrow one it breaks into two lines.
    let is_narrow = whole.width() < 520.0;
    let size = Vec2::new((whole.width() - 100.0).clamp(120.0, 520.0), 42.0);
    let lines = if whole.width() < 340.0 { 2.0 } else { 1.0 };
    let at = egui::pos2(whole.left() + 88.0, whole.bottom() - 90.0 - 34.0 * lines);
    // A narrow map keeps the buttons and gives up rail.
    let rail = match whole.width() {
        width if width < 520.0 => 30.0,
        width if width < 620.0 => 64.0,
        _ => 130.0,
    };
    let area = egui::Rect::from_min_size(at, size);
    ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
        Frame::new()
            .fill(theme::ink(ui, Ink::Panel))
            .stroke(Stroke::new(1.0, theme::ink(ui, Ink::Rule)))
            .corner_radius(6.0)
            .inner_margin(Margin::symmetric(12, 6))
            .show(ui, |ui| {
                ui.horizontal_wrapped(|ui| {
                    ui.spacing_mut().item_spacing.x = 6.0;
                    if !is_narrow {
                        ui.label(RichText::new("Course in").font(theme::serif(theme::BODY)));
                    }
                    year_slider_ui(ui, desk, rail);
                    if ui
                        .button("Table")
                        .on_hover_text("The course as a table")
                        .clicked()
                    {
                        desk.forms.course.tab = Some(CourseTab::Course);
                    }
                    if ui
                        .button("Season")
                        .on_hover_text("The map as it is on the day in view")
                        .clicked()
                    {
                        desk.forms.course.is_on_map = false;
                    }
                });
            });
    });
}

/// The slider of years, with a rail of so many points.
pub fn year_slider_ui(ui: &mut Ui, desk: &mut Desk, rail: f32) {
    let years = course_years(desk.farm());
    let mut year = held_in(desk.forms.course.year, &years);
    ui.spacing_mut().slider_width = rail;
    let slider = egui::Slider::new(&mut year, years).integer();
    let response = ui.add(slider);
    let spoken = format!("Year of the course, {year}");
    response.widget_info(|| egui::WidgetInfo::slider(true, f64::from(year), spoken.clone()));
    desk.forms.course.year = year;
}
