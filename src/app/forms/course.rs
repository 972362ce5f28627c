//! The page of the course: tabs over the whole window, the table at the left, what is chosen in it at the right.
//!
//! Rows first, as plain data; the page only paints them and hands on what was pressed.

mod cell_form;
mod clean_page;
mod courses_form;
mod loads_page;
mod plain_table;
mod planting_page;
mod press;
mod table;
mod table_rows;

pub(super) use plain_table::words_table_ui;

use egui::{Align, Layout, RichText, ScrollArea, Ui};

use super::settle::settle_now;
use crate::app::desk::Desk;
use crate::app::map::year_slider_ui;
use crate::app::theme;
use crate::farm::{GroundId, course_findings, course_years};
use crate::planning::NitrogenSet;

/// A tab of the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CourseTab {
    /// Plots by years.
    Course,
    /// The last day for animals on ground that goes under crop.
    Clean,
    /// Nitrogen, head and room.
    Loads,
    /// Plants, seed, days and yields.
    Planting,
}

/// What the page of the course remembers between frames.
#[derive(Debug, Clone, Default)]
pub struct CourseView {
    /// The tab that is open; `None` where the map is in view.
    pub tab: Option<CourseTab>,
    /// The year in view.
    pub year: i16,
    /// Whether the map shows that year.
    pub is_on_map: bool,
    /// The ground and year chosen in the table.
    pub cell: Option<(GroundId, i16)>,
    /// The crop whose figures are in view.
    pub crop: String,
    /// The set of nitrogen figures.
    pub nitrogen: NitrogenSet,
    /// Whether the field of the chosen cell is to take the keys.
    pub(super) wants_field: bool,
}

const TABS: [(CourseTab, &str, &str); 4] = [
    (
        CourseTab::Course,
        "Years",
        "Which plot and tunnel carries what in which year",
    ),
    (
        CourseTab::Clean,
        "Clean ground",
        "The last day for animals before each crop",
    ),
    (
        CourseTab::Loads,
        "Loads",
        "Nitrogen, head and room against the limits",
    ),
    (
        CourseTab::Planting,
        "Planting",
        "Plants, seed, days and yields of the year in view",
    ),
];

/// Opens the page at a tab.
pub fn open_course(desk: &mut Desk, tab: CourseTab) {
    settle_now(desk);
    let view = &mut desk.forms.course;
    view.tab = Some(tab);
    if !course_years(desk.history.farm()).contains(&view.year) {
        view.year = desk.day.year();
    }
}

/// Leads back to the map.
pub fn close_course(desk: &mut Desk) {
    settle_now(desk);
    desk.forms.course.tab = None;
}

/// The page.
pub fn course_page_ui(ui: &mut Ui, desk: &mut Desk, tab: CourseTab) {
    head_ui(ui, desk, tab);
    ui.separator();
    let found = match tab {
        CourseTab::Course => course_findings(desk.farm()),
        CourseTab::Clean | CourseTab::Loads | CourseTab::Planting => Vec::new(),
    };
    let whole = ui.available_rect_before_wrap();
    let side = (whole.width() * 0.3).clamp(270.0, 340.0);
    let split = whole.right() - side;
    let left = egui::Rect::from_min_max(whole.min, egui::pos2(split - 12.0, whole.bottom()));
    let right = egui::Rect::from_min_max(egui::pos2(split + 6.0, whole.top()), whole.max);
    ui.painter().vline(
        split - 3.0,
        whole.y_range(),
        egui::Stroke::new(1.0, theme::ink(ui, crate::sheets::palette::Ink::Rule)),
    );
    ui.scope_builder(egui::UiBuilder::new().max_rect(left), |ui| match tab {
        CourseTab::Course => table::table_ui(ui, desk, &found),
        CourseTab::Clean => clean_page::clean_ui(ui, desk),
        CourseTab::Loads => loads_page::loads_ui(ui, desk),
        CourseTab::Planting => planting_page::planting_ui(ui, desk),
    });
    ui.scope_builder(egui::UiBuilder::new().max_rect(right), |ui| {
        ScrollArea::vertical()
            .id_salt("course side")
            .auto_shrink(false)
            .show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = 4.0;
                ui.set_width(ui.available_width() - 6.0);
                match tab {
                    CourseTab::Course => {
                        cell_form::cell_ui(ui, desk, &found);
                        courses_form::courses_ui(ui, desk);
                    }
                    CourseTab::Clean => clean_page::rules_ui(ui, desk),
                    CourseTab::Loads => loads_page::sets_ui(ui, desk),
                    CourseTab::Planting => planting_page::crops_ui(ui, desk),
                }
                ui.add_space(12.0);
            });
    });
    ui.advance_cursor_after_rect(whole);
}

fn head_ui(ui: &mut Ui, desk: &mut Desk, tab: CourseTab) {
    ui.horizontal(|ui| {
        ui.label(RichText::new("Course").font(theme::serif(theme::TITLE)));
        ui.add_space(10.0);
        for (other, words, tip) in TABS {
            let chosen = ui.selectable_label(other == tab, words).on_hover_text(tip);
            if chosen.clicked() && other != tab {
                open_course(desk, other);
            }
        }
        ui.add_space(16.0);
        year_slider_ui(ui, desk, 130.0);
        if ui
            .button("On the map")
            .on_hover_text("The map as it is in this year (Shift+Y)")
            .clicked()
        {
            close_course(desk);
            desk.forms.course.is_on_map = true;
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if ui
                .button("Done")
                .on_hover_text("Back to the map (Escape)")
                .clicked()
            {
                close_course(desk);
            }
        });
    });
}
