//! The list of trees as a table: of the line that is selected, or of the whole farm.
//!
//! Rows are plain data; only those in view are painted. Arrows, Page and Home keys walk the list. Metres, degrees.

use egui::{Align2, Key, RichText, ScrollArea, Sense, Ui, Vec2, WidgetInfo};

use crate::app::desk::Desk;
use crate::app::dialogs::{Dialog, heading, main_button};
use crate::app::file_acts::path_beside;
use crate::app::file_chooser::ChoosingFor;
use crate::app::theme;
use crate::farm::{Kind, Tree, all_trees, totals_by_variety};
use crate::quantity::{UnitSystem, decimal_text, length_text_precise, plural_text};
use crate::sheets::palette::Ink;

/// Height of a row and of the part of the list in view.
const ROW: f32 = 23.0;
const IN_VIEW: f32 = 340.0;
/// Width of the table and the right edge of each column: number, along, east, north, latitude, longitude.
const WIDTH: f32 = 660.0;
const NUMBER_AT: f32 = 36.0;
const FIGURES_AT: [f32; 5] = [330.0, 405.0, 480.0, 568.0, 650.0];
const FIGURE_NAMES: [&str; 5] = ["along", "east", "north", "latitude", "longitude"];

/// The list on screen.
#[derive(Debug, Clone)]
pub struct TreeTable {
    title: String,
    rows: Vec<TreeTableRow>,
    totals: String,
    /// The row that the keys have walked to.
    at: usize,
}

/// One tree as it is read.
#[derive(Debug, Clone)]
struct TreeTableRow {
    number: String,
    variety: String,
    figures: [String; 5],
    spoken: String,
}

/// Whether there is a tree to list: on the selected line, where one is selected.
pub fn has_trees(desk: &Desk) -> bool {
    let has = |id| desk.measures(id).trees.is_some_and(|trees| trees > 0);
    match desk.selected_one() {
        Some((id, ground)) if ground.kind == Kind::TreeLine => has(id),
        _ => desk.farm().ground.keys().any(|id| has(*id)),
    }
}

impl TreeTable {
    /// The trees of the selected line, else all; none where there is no tree.
    pub fn of_selected(desk: &Desk) -> Option<Self> {
        let lines = all_trees(desk.farm());
        let selected = desk
            .selected_one()
            .filter(|(_, ground)| ground.kind == Kind::TreeLine)
            .map(|(id, _)| id);
        let shown: Vec<_> = lines
            .into_iter()
            .filter(|(id, _)| selected.is_none_or(|selected| selected == *id))
            .collect();
        let title = match selected.and_then(|id| desk.farm().ground.get(&id)) {
            Some(ground) => format!("Trees of {}", ground.name),
            None => "Every tree on the farm".to_owned(),
        };
        let totals = totals_text(shown.iter().flat_map(|(_, trees)| trees));
        let units = desk.units();
        let rows: Vec<TreeTableRow> = shown
            .iter()
            .flat_map(|(id, trees)| {
                let ground = desk.farm().ground.get(id);
                let line = ground.map(|ground| ground.name.as_str());
                let line = line.filter(|_| selected.is_none());
                trees.iter().map(move |tree| row_of(tree, line, units))
            })
            .collect();
        (!rows.is_empty()).then_some(Self {
            title,
            rows,
            totals,
            at: 0,
        })
    }
}

fn row_of(tree: &Tree, line: Option<&str>, units: UnitSystem) -> TreeTableRow {
    let variety = match (line, tree.variety.as_str()) {
        (Some(line), "") => line.to_owned(),
        (Some(line), variety) => format!("{variety} · {line}"),
        (None, "") => "–".to_owned(),
        (None, variety) => variety.to_owned(),
    };
    let length = |length_m| length_text_precise(length_m, units);
    let figures = [
        length(tree.along_m),
        length(tree.place.east_m),
        length(tree.place.north_m),
        decimal_text(tree.lonlat.lat_deg, 6),
        decimal_text(tree.lonlat.lon_deg, 6),
    ];
    let named = FIGURE_NAMES
        .iter()
        .zip(&figures)
        .map(|(name, figure)| format!("{figure} {name}"));
    let spoken = format!(
        "Tree {}, {variety}, {}",
        tree.number,
        named.collect::<Vec<_>>().join(", ")
    );
    TreeTableRow {
        number: tree.number.to_string(),
        variety,
        figures,
        spoken,
    }
}

fn totals_text<'a>(trees: impl Iterator<Item = &'a Tree>) -> String {
    let totals = totals_by_variety(trees);
    let parts: Vec<String> = totals
        .iter()
        .map(|(name, count)| match name.as_str() {
            "" => format!("{count} without a variety"),
            name => format!("{count} {name}"),
        })
        .collect();
    let count = u64::try_from(totals.values().sum::<usize>()).unwrap_or(0);
    format!(
        "{}: {}.",
        plural_text(count, "tree", "trees"),
        parts.join(", ")
    )
}

/// The table; whether it stays on screen.
pub fn tree_list_ui(ui: &mut Ui, desk: &mut Desk, table: &mut TreeTable) -> bool {
    ui.set_width(WIDTH);
    heading(ui, &table.title);
    ui.label(&table.totals);
    names_ui(ui);
    rows_ui(ui, table);
    ui.add_space(4.0);
    let mut stays = true;
    ui.horizontal(|ui| {
        if main_button(ui, "Close").clicked() {
            stays = false;
        }
        let tip = "Every tree of the farm as comma-separated values, for any spreadsheet";
        if ui.button("Write as a table …").on_hover_text(tip).clicked() {
            desk.dialog = Some(Dialog::Path {
                purpose: ChoosingFor::Export,
                typed: path_beside(desk, "-trees.csv"),
                trouble: None,
            });
            stays = false;
        }
        let words = "Metres east and north of the farm's origin, degrees on WGS 84.";
        ui.label(RichText::new(words).font(theme::sans(theme::SMALL)).weak());
    });
    stays
}

fn names_ui(ui: &mut Ui) {
    let (rect, _) = ui.allocate_exact_size(Vec2::new(WIDTH, ROW), Sense::hover());
    let (font, ink) = (theme::sans(theme::SMALL), theme::ink(ui, Ink::Soft));
    let painter = ui.painter();
    let middle = rect.center().y;
    let at = |x: f32| egui::pos2(rect.left() + x, middle);
    painter.text(
        at(NUMBER_AT),
        Align2::RIGHT_CENTER,
        "no.",
        font.clone(),
        ink,
    );
    painter.text(
        at(NUMBER_AT + 14.0),
        Align2::LEFT_CENTER,
        "variety",
        font.clone(),
        ink,
    );
    for (x, name) in FIGURES_AT.iter().zip(FIGURE_NAMES) {
        painter.text(at(*x), Align2::RIGHT_CENTER, name, font.clone(), ink);
    }
    let line = rect.bottom();
    painter.hline(
        rect.x_range(),
        line,
        egui::Stroke::new(1.0, theme::ink(ui, Ink::Rule)),
    );
}

fn rows_ui(ui: &mut Ui, table: &mut TreeTable) {
    let walked = walked_to(ui, table.at, table.rows.len());
    ui.spacing_mut().item_spacing.y = 0.0;
    let mut area = ScrollArea::vertical()
        .max_height(IN_VIEW)
        .auto_shrink([false, true]);
    if let Some(row) = walked {
        table.at = row;
        // The row walked to stands in the middle of the view.
        let top = figure(row).mul_add(ROW, -(IN_VIEW - ROW) / 2.0);
        area = area.vertical_scroll_offset(top.max(0.0));
    }
    area.show_rows(ui, ROW, table.rows.len(), |ui, shown| {
        for place in shown {
            if let Some(row) = table.rows.get(place)
                && row_ui(ui, row, place == table.at)
            {
                table.at = place;
            }
        }
    });
    ui.spacing_mut().item_spacing.y = 8.0;
}

/// One row; whether it was clicked.
fn row_ui(ui: &mut Ui, row: &TreeTableRow, is_at: bool) -> bool {
    let (rect, response) = ui.allocate_exact_size(Vec2::new(WIDTH, ROW), Sense::click());
    response.widget_info(|| {
        WidgetInfo::selected(egui::Role::ListBoxOption, true, is_at, row.spoken.clone())
    });
    if is_at || response.hovered() || response.has_focus() {
        let tint = theme::ink(ui, Ink::ActTint);
        let strength = if is_at { 1.0 } else { 0.5 };
        ui.painter()
            .rect_filled(rect, 4.0, tint.gamma_multiply(strength));
    }
    let (font, ink) = (theme::sans(theme::BODY), theme::ink(ui, Ink::Ink));
    let middle = rect.center().y;
    let at = |x: f32| egui::pos2(rect.left() + x, middle);
    let painter = ui.painter();
    painter.text(
        at(NUMBER_AT),
        Align2::RIGHT_CENTER,
        &row.number,
        font.clone(),
        ink,
    );
    let mut job = egui::text::LayoutJob::simple_singleline(row.variety.clone(), font.clone(), ink);
    job.wrap = egui::text::TextWrapping::truncate_at_width(205.0);
    let words = painter.layout_job(job);
    let top = middle - words.size().y / 2.0;
    painter.galley(egui::pos2(rect.left() + NUMBER_AT + 14.0, top), words, ink);
    for (x, text) in FIGURES_AT.iter().zip(&row.figures) {
        painter.text(at(*x), Align2::RIGHT_CENTER, text, font.clone(), ink);
    }
    response.clicked()
}

/// The row that a key walks to, where one was pressed.
fn walked_to(ui: &Ui, at: usize, rows: usize) -> Option<usize> {
    let last = rows.saturating_sub(1);
    let page = 14;
    let keys = [
        (Key::ArrowDown, at + 1),
        (Key::ArrowUp, at.saturating_sub(1)),
        (Key::PageDown, at + page),
        (Key::PageUp, at.saturating_sub(page)),
        (Key::Home, 0),
        (Key::End, last),
    ];
    let pressed = ui.input(|input| {
        keys.iter()
            .find(|(key, _)| input.key_pressed(*key))
            .copied()
    });
    pressed.map(|(_, row)| row.min(last))
}

fn figure(row: usize) -> f32 {
    #[expect(clippy::cast_precision_loss, reason = "some thousand rows")]
    let figure = row as f32;
    figure
}
