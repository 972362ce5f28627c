//! The page of the season and the grass: first and last day, growth and rest month by month, what is left.
//!
//! Rows first, as plain data; the page only paints them.

use egui::{Align2, Pos2, Rect, Sense, Ui, Vec2};

use super::change::{SeasonField, Target};
use super::field::{
    FieldRow, GAP, ROW, field_at, heading_ui, labelled_ui, row_ui, rows_ui, small_ui,
};
use super::figures::{day_text, figure_text};
use super::month_curve::{HEIGHT, month_curve_ui};
use super::season_change::{self, COVER_UNIT, month_name};
use crate::app::desk::Desk;
use crate::app::theme;
use crate::farm::{GROWTH_PRESETS, GrowthPreset, GrowthShape, Season, Sward, year_growth_kg};
use crate::quantity::decimal_text;
use crate::sheets::palette::Ink;

/// The page.
pub(super) fn season_ui(ui: &mut Ui, desk: &mut Desk) {
    let (season, sward) = (desk.farm().season, desk.farm().sward.clone());
    heading_ui(ui, "Days that are planned");
    rows_ui(ui, desk, &season_rows(season));
    heading_ui(ui, "The grass through the year");
    preset_ui(ui, desk);
    months_ui(ui, desk, &sward);
    year_ui(ui, desk, &sward);
    worms_ui(ui, desk, &sward);
    heading_ui(ui, "What they leave");
    rows_ui(ui, desk, &cover_rows(&sward));
    small_ui(
        ui,
        "Cover is dry matter per hectare from ground level. A strip or ley may have figures of its own.",
    );
    row_ui(
        ui,
        desk,
        &FieldRow::lines(
            Target::Season(SeasonField::Source),
            "Where these figures come from",
            sward.source.clone(),
        ),
    );
    ui.add_space(8.0);
    ui.collapsing("Finer points", |ui| {
        small_ui(
            ui,
            "The planner's search begins at this number. Another number may find another plan as good; the same one \
             finds the same plan.",
        );
        let seed = FieldRow::figure(
            Target::Season(SeasonField::Seed),
            "Search begins at",
            season.seed.to_string(),
            "",
        );
        row_ui(ui, desk, &seed);
    });
}

/// What a grower may begin from.
fn preset_ui(ui: &mut Ui, desk: &mut Desk) {
    let mut act = None;
    labelled_ui(ui, "Begin from", |ui| {
        ui.spacing_mut().combo_width = ui.available_width();
        let sward = &desk.farm().sward;
        let now = GROWTH_PRESETS.iter().find(|preset| is_taken(preset, sward));
        let text = now.map_or("your own figures", |preset| preset.name);
        let combo = egui::ComboBox::from_id_salt("growth preset").selected_text(text);
        let shown = combo.show_ui(ui, |ui| {
            for preset in &GROWTH_PRESETS {
                let label = ui.selectable_label(now == Some(preset), preset.name);
                if label.on_hover_text(preset.source).clicked() {
                    act = Some(season_change::take_preset(desk.farm(), preset));
                }
            }
        });
        let words =
            || egui::WidgetInfo::labeled(egui::Role::ComboBox, true, "Growth to begin from");
        shown.response.widget_info(words);
    });
    if let Some((label, edits)) = act {
        desk.commit(&label, edits);
    }
}

/// Whether the figures are still those of a preset, which rounds them to a tenth.
fn is_taken(preset: &GrowthPreset, sward: &Sward) -> bool {
    let months = [false, true].map(|south| preset.months(&sward.growth_by_month, south));
    let alike = |preset: &[f64; 12]| {
        let mut pairs = preset.iter().zip(&sward.growth_by_month);
        pairs.all(|(preset, now)| (preset - now).abs() < 0.15)
    };
    sward.source == preset.source && months.iter().any(alike)
}

/// How this year differs, and the shape of regrowth.
fn year_ui(ui: &mut Ui, desk: &mut Desk, sward: &Sward) {
    ui.add_space(4.0);
    let target = Target::Season;
    let percent = figure_text(sward.season_factor * 100.0);
    let rows = [
        FieldRow::figure(
            target(SeasonField::Factor),
            "This year grows",
            percent,
            "% of that",
        ),
        FieldRow::words(
            target(SeasonField::FactorFrom),
            "Since",
            sward.season_factor_from.map_or_else(String::new, day_text),
        )
        .hinted("all year")
        .spoken("Since when growth differs"),
    ];
    rows_ui(ui, desk, &rows);
    let year_t = year_growth_kg(&sward.growth_by_month) / 1000.0;
    small_ui(
        ui,
        &format!(
            "The months come to {} t DM/ha a year. A dry year may bring 70 %, a kind one 115 % (common practice, no \
             source: read the sward and put your own in).",
            decimal_text(year_t, 1)
        ),
    );
    let mut act = None;
    labelled_ui(ui, "Regrowth", |ui| {
        ui.spacing_mut().combo_width = ui.available_width();
        let combo = egui::ComboBox::from_id_salt("growth shape");
        let shown = combo
            .selected_text(sward.growth_shape.name())
            .show_ui(ui, |ui| {
                for shape in [GrowthShape::Capped, GrowthShape::Logistic] {
                    let is_it = shape == sward.growth_shape;
                    if ui.selectable_label(is_it, shape.name()).clicked() && !is_it {
                        act = Some(season_change::take_shape(desk.farm(), shape));
                    }
                }
            });
        let words = || egui::WidgetInfo::labeled(egui::Role::ComboBox, true, "Shape of regrowth");
        shown.response.widget_info(words);
    });
    if let Some((label, edits)) = act {
        desk.commit(&label, edits);
    }
}

/// The rest that lambs want beyond the grass's own.
fn worms_ui(ui: &mut Ui, desk: &mut Desk, sward: &Sward) {
    heading_ui(ui, "Worms");
    let days = sward
        .lamb_rest_days
        .map_or_else(String::new, |days| days.to_string());
    let row = FieldRow::figure(
        Target::Season(SeasonField::LambRest),
        "Lambs stay away",
        days,
        "days",
    )
    .hinted("–")
    .spoken("Least days before lambs come back to a strip");
    row_ui(ui, desk, &row);
    small_ui(ui, WORMS);
}

/// What is published of how long larvae last; the figures differ by climate, and none is a promise.
const WORMS: &str = "While lambs are here every strip rests at least so long before any sheep come back. Left empty, the \
    grass alone decides. Published: 35 days, better 40, in a warm dry country (NCAT/ATTRA sheep parasite guide, D. Scott); \
    two months in the hottest weather to five or six months in the cold until nine larvae in ten are dead (Australian \
    sheep industry worm guidance, AWI/MLA). No rest makes ground free of worms: egg counts and the vet decide.";

fn season_rows(season: Season) -> Vec<FieldRow> {
    let words = |field, label: &str, text| FieldRow::words(Target::Season(field), label, text);
    vec![
        words(
            SeasonField::FirstDay,
            "First day",
            day_text(season.first_day),
        ),
        words(
            SeasonField::LastDay,
            "Last day",
            day_text(season.last_day()),
        ),
        FieldRow::figure(
            Target::Season(SeasonField::Days),
            "That is",
            season.days.to_string(),
            "days",
        )
        .spoken("Days of the season"),
    ]
}

fn cover_rows(sward: &Sward) -> Vec<FieldRow> {
    let figure = |field, label: &str, text, unit: &str| {
        FieldRow::figure(Target::Season(field), label, text, unit)
    };
    vec![
        figure(
            SeasonField::Leave,
            "Leave (residual)",
            figure_text(sward.leave_kg_per_ha),
            COVER_UNIT,
        ),
        figure(
            SeasonField::Enter,
            "Enter at",
            figure_text(sward.enter_kg_per_ha),
            COVER_UNIT,
        ),
        figure(
            SeasonField::Ceiling,
            "Growth stops at",
            figure_text(sward.ceiling_kg_per_ha),
            COVER_UNIT,
        ),
        figure(
            SeasonField::LongestStay,
            "Longest stay",
            sward.longest_stay_days.to_string(),
            "days",
        ),
    ]
}

/// A month's two fields: growth and rest.
fn month_rows(sward: &Sward, month: usize) -> (FieldRow, FieldRow) {
    let name = month_name(month);
    let growth = sward.growth_by_month.get(month).copied().unwrap_or(0.0);
    let rest = sward.rest_days_by_month.get(month).copied().unwrap_or(0);
    (
        FieldRow::figure(
            Target::Season(SeasonField::Growth(month)),
            "",
            figure_text(growth),
            "kg DM/ha a day",
        )
        .spoken(format!("Growth in {name}")),
        FieldRow::figure(
            Target::Season(SeasonField::Rest(month)),
            "",
            rest.to_string(),
            "days",
        )
        .spoken(format!("Rest after {name}")),
    )
}

/// Two curves with their figures under them, a month on each line.
fn months_ui(ui: &mut Ui, desk: &mut Desk, sward: &Sward) {
    let columns = Columns::new(ui.available_rect_before_wrap());
    let month_in_view = desk.day.month_index();
    let (head, _) = allocate(ui, 20.0);
    for (column, title) in [(0, "Growth"), (1, "Rest owed")] {
        let at = Pos2::new(columns.left(column), head.center().y);
        let ink = theme::ink(ui, Ink::Ink);
        ui.painter().text(
            at,
            Align2::LEFT_CENTER,
            title,
            theme::sans_bold(theme::BODY),
            ink,
        );
    }
    let (units, _) = allocate(ui, 16.0);
    for (column, unit) in [(0, "kg DM/ha a day"), (1, "days after a spell")] {
        let at = Pos2::new(columns.left(column), units.center().y);
        let ink = theme::ink(ui, Ink::Soft);
        ui.painter().text(
            at,
            Align2::LEFT_CENTER,
            unit,
            theme::sans(theme::SMALL),
            ink,
        );
    }
    let (curves, _) = allocate(ui, HEIGHT);
    let growth = columns.rect(0, curves);
    month_curve_ui(
        ui,
        growth,
        sward.growth_by_month,
        Ink::Spell,
        month_in_view,
        "Growth",
    );
    let rest = columns.rect(1, curves);
    let days = sward.rest_days_by_month.map(f64::from);
    month_curve_ui(ui, rest, days, Ink::Hoop, month_in_view, "Rest owed");
    for month in 0..12 {
        month_ui(ui, desk, &columns, sward, month, month == month_in_view);
    }
}

fn month_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    columns: &Columns,
    sward: &Sward,
    month: usize,
    is_in_view: bool,
) {
    let (line, _) = allocate(ui, ROW);
    let (font, ink) = if is_in_view {
        (theme::sans_bold(theme::BODY), Ink::Ink)
    } else {
        (theme::sans(theme::BODY), Ink::Soft)
    };
    let ink = theme::ink(ui, ink);
    ui.painter().text(
        line.left_center(),
        Align2::LEFT_CENTER,
        month_name(month),
        font,
        ink,
    );
    let (growth, rest) = month_rows(sward, month);
    for (column, row) in [(0, &growth), (1, &rest)] {
        field_at(ui, desk, row, columns.rect(column, line));
    }
    for row in [&growth, &rest] {
        super::field::refusal_ui(ui, desk, row.target);
    }
}

fn allocate(ui: &mut Ui, height: f32) -> (Rect, egui::Response) {
    ui.allocate_exact_size(Vec2::new(ui.available_width(), height), Sense::hover())
}

/// The two columns of figures beside the months' names.
struct Columns {
    whole: Rect,
    width: f32,
}

impl Columns {
    const NAME: f32 = 88.0;

    fn new(whole: Rect) -> Self {
        let width = ((whole.width() - Self::NAME - GAP) / 2.0).floor();
        Self { whole, width }
    }

    fn left(&self, column: u8) -> f32 {
        let right = self.whole.right();
        if column == 0 {
            right - 2.0 * self.width - GAP
        } else {
            right - self.width
        }
    }

    fn rect(&self, column: u8, line: Rect) -> Rect {
        Rect::from_min_size(
            Pos2::new(self.left(column), line.top()),
            Vec2::new(self.width, line.height()),
        )
    }
}
