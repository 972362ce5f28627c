//! The season ribbon: a row for each strip and hen house, a column for each day, and the day cursor.
//!
//! Click or drag along it and the whole window goes to that day; click a row and that ground is selected.

use egui::{
    Align2, Color32, Painter, Pos2, Rect, RichText, ScrollArea, Sense, Shape, Stroke, Ui, Vec2,
};

use super::ribbon_rows::{RibbonBar, RibbonRow, ribbon_rows};
use crate::app::desk::Desk;
use crate::app::forms::no_flock_ui;
use crate::app::theme;
use crate::planning::SeasonPlan;
use crate::quantity::Day;
use crate::sheets::palette::{Ink, Light};

const NAME_WIDTH: f32 = 190.0;
const HEAD: f32 = 30.0;
const ROW: f32 = 17.0;

/// Where days lie across the ribbon.
#[derive(Debug, Clone, Copy)]
struct Days {
    left: f32,
    width: f32,
    first: Day,
    count: usize,
}

/// The ribbon.
pub fn ribbon_ui(ui: &mut Ui, desk: &mut Desk) {
    // A panel shrinks to what is in it unless all its room is taken.
    ui.set_min_size(ui.available_size());
    let Some(plan) = desk.plan.clone() else {
        no_plan_ui(ui, desk);
        return;
    };
    if desk.farm().mobs.is_empty() {
        ui.horizontal(|ui| {
            ui.add_space(NAME_WIDTH);
            no_flock_ui(ui, desk);
        });
    }
    let rows = ribbon_rows(desk);
    let whole = ui.available_rect_before_wrap();
    let left = whole.left() + NAME_WIDTH;
    #[expect(
        clippy::cast_precision_loss,
        reason = "a season has a few thousand days at most"
    )]
    let width = (whole.right() - left - 6.0) / plan.days.max(1) as f32;
    let days = Days {
        left,
        width,
        first: plan.first_day,
        count: plan.days,
    };
    let light = theme::light_of(ui.ctx());
    let head = Rect::from_min_size(whole.min, Vec2::new(whole.width(), HEAD));
    let head_response = ui.allocate_rect(head, Sense::click_and_drag());
    paint_head(ui.painter(), head, days, light);
    season_words(ui, desk, head);
    ui.spacing_mut().item_spacing.y = 1.5;
    let body = ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        for row in &rows {
            row_ui(ui, desk, &plan, row, days, light);
        }
    });
    paint_cursors(
        ui.painter(),
        desk,
        days,
        Rect::from_min_max(head.min, body.inner_rect.max),
        light,
    );
    take_day(desk, &head_response, days);
}

fn no_plan_ui(ui: &mut Ui, desk: &mut Desk) {
    ui.label(RichText::new("Season").font(theme::serif_bold(theme::HEADING)));
    if no_flock_ui(ui, desk) {
        return;
    }
    let text = match (&desk.plan_trouble, desk.planner.is_at_work()) {
        (_, true) => "Planning the season …".to_owned(),
        (Some(trouble), _) => trouble.clone(),
        (None, _) => "No season is planned yet.".to_owned(),
    };
    ui.label(RichText::new(text).weak());
}

fn season_words(ui: &Ui, desk: &Desk, head: Rect) {
    let painter = ui.painter();
    let at = head.left_top() + Vec2::new(4.0, 2.0);
    painter.text(
        at,
        Align2::LEFT_TOP,
        "Season",
        theme::serif_bold(theme::HEADING),
        theme::ink(ui, Ink::Ink),
    );
    if desk.planner.is_at_work() {
        let at = at + Vec2::new(66.0, 5.0);
        painter.text(
            at,
            Align2::LEFT_TOP,
            "planning …",
            theme::serif_italic(theme::SMALL),
            theme::ink(ui, Ink::Soft),
        );
    }
}

impl Days {
    fn x(self, index: usize) -> f32 {
        #[expect(
            clippy::cast_precision_loss,
            reason = "a season has a few thousand days at most"
        )]
        let index = index as f32;
        self.left + index * self.width
    }

    fn index_at(self, x: f32) -> Option<usize> {
        let share = (x - self.left) / self.width;
        if share < 0.0 {
            return None;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "not negative, a few thousand"
        )]
        let index = share as usize;
        (index < self.count).then_some(index)
    }
}

fn take_day(desk: &mut Desk, response: &egui::Response, days: Days) {
    if (response.clicked() || response.dragged())
        && let Some(pos) = response.interact_pointer_pos()
        && let Some(index) = days.index_at(pos.x)
    {
        desk.go_to(days.first.plus_days(i64::try_from(index).unwrap_or(0)));
    }
}

/// Month names and a tick for every week.
fn paint_head(painter: &Painter, head: Rect, days: Days, light: Light) {
    let (ink, hair) = (
        theme::colour(Ink::Ink, light),
        theme::colour(Ink::Rule, light),
    );
    let mut last_right = f32::NEG_INFINITY;
    for index in 0..days.count {
        let day = days.first.plus_days(i64::try_from(index).unwrap_or(0));
        let x = days.x(index);
        if day.day_of_month() == 1 || index == 0 {
            painter.vline(x, head.y_range(), Stroke::new(1.0, hair));
            let text = if day.month() == 1 || index == 0 && days.count > 366 {
                format!("{} {}", day.month_name(), day.year())
            } else {
                day.month_name().to_owned()
            };
            if x > last_right {
                let at = Pos2::new(x + 5.0, head.top() + 3.0);
                let drawn =
                    painter.text(at, Align2::LEFT_TOP, text, theme::serif(theme::BODY), ink);
                last_right = drawn.right() + 4.0;
            }
        } else if day.days_since(days.first) % 7 == 0 && days.width * 7.0 > 6.0 {
            painter.vline(
                x,
                head.bottom() - 5.0..=head.bottom(),
                Stroke::new(1.0, hair),
            );
        }
    }
}

fn row_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    plan: &SeasonPlan,
    row: &RibbonRow,
    days: Days,
    light: Light,
) {
    let (rect, response) = ui.allocate_exact_size(
        Vec2::new(ui.available_width(), ROW),
        Sense::click_and_drag(),
    );
    let words = row_words(plan, row);
    response.widget_info(|| {
        egui::WidgetInfo::selected(
            egui::Role::ListBoxOption,
            true,
            row.is_selected,
            words.clone(),
        )
    });
    let painter = ui.painter();
    let band = Rect::from_min_max(
        Pos2::new(days.left, rect.top() + 1.0),
        Pos2::new(days.x(days.count), rect.bottom() - 1.0),
    );
    painter.rect_filled(band, 2.0, theme::colour(Ink::RowGround, light));
    for bar in &row.bars {
        paint_rest(painter, bar, days, band, light);
    }
    for (from, to, why) in &row.closed {
        paint_closed(painter, days, band, *from, *to, why, light);
    }
    for bar in &row.bars {
        paint_bar(painter, bar, row.house.is_some(), days, band, light);
    }
    let font = if row.is_selected {
        theme::sans_bold(theme::SMALL + 1.0)
    } else {
        theme::sans(theme::SMALL + 1.0)
    };
    let ink = theme::colour(
        if row.is_selected || response.hovered() {
            Ink::Act
        } else {
            Ink::Ink
        },
        light,
    );
    let mut job = egui::text::LayoutJob::simple_singleline(row.name.clone(), font, ink);
    job.wrap = egui::text::TextWrapping::truncate_at_width(NAME_WIDTH - 20.0);
    let name = painter.layout_job(job);
    let at = Pos2::new(
        days.left - 10.0 - name.size().x,
        rect.center().y - name.size().y / 2.0,
    );
    painter.galley(at, name, ink);
    if response.clicked()
        && let Some(ground) = row.ground
    {
        desk.select_only(ground);
    }
    take_day(desk, &response, days);
    if let Some(index) = response.hover_pos().and_then(|pos| days.index_at(pos.x)) {
        response.on_hover_text_at_pointer(hover_words(plan, row, index));
    }
}

fn paint_rest(painter: &Painter, bar: &RibbonBar, days: Days, band: Rect, light: Light) {
    if bar.rest_days == 0 {
        return;
    }
    let from = bar.to + 1;
    let to = (from + bar.rest_days).min(days.count);
    let ink = theme::colour(Ink::Rest, light);
    let steps = 12;
    for step in 0..steps {
        #[expect(clippy::cast_precision_loss, reason = "twelve steps")]
        let (near, far) = (step as f32 / steps as f32, (step + 1) as f32 / steps as f32);
        let (left, right) = (days.x(from), days.x(to));
        let part = Rect::from_min_max(
            Pos2::new(left + (right - left) * near, band.top()),
            Pos2::new(left + (right - left) * far, band.bottom()),
        );
        painter.rect_filled(part, 0.0, ink.gamma_multiply(1.0 - 0.85 * near));
    }
}

fn paint_closed(
    painter: &Painter,
    days: Days,
    band: Rect,
    from: usize,
    to: usize,
    why: &str,
    light: Light,
) {
    let ink = theme::colour(Ink::Soft, light);
    let rect = Rect::from_min_max(
        Pos2::new(days.x(from), band.top()),
        Pos2::new(days.x(to + 1), band.bottom()),
    );
    let mut x = rect.left() - rect.height();
    let clipped = painter.with_clip_rect(rect.intersect(painter.clip_rect()));
    while x < rect.right() {
        let ends = [
            Pos2::new(x, rect.bottom()),
            Pos2::new(x + rect.height(), rect.top()),
        ];
        clipped.line_segment(ends, Stroke::new(1.0, ink));
        x += 6.0;
    }
    let text = if why.is_empty() {
        "closed".to_owned()
    } else {
        format!("closed: {why}")
    };
    let galley = painter.layout_no_wrap(text, theme::sans(12.0), ink);
    if galley.size().x + 8.0 < rect.width() {
        let pos = rect.center() - galley.size() / 2.0;
        painter.rect_filled(
            Rect::from_min_size(pos, galley.size()).expand(2.0),
            2.0,
            theme::colour(Ink::RowGround, light),
        );
        painter.galley(pos, galley, ink);
    }
}

fn paint_bar(
    painter: &Painter,
    bar: &RibbonBar,
    is_hens: bool,
    days: Days,
    band: Rect,
    light: Light,
) {
    let gap = if days.width > 3.0 { 0.6 } else { 0.0 };
    let rect = Rect::from_min_max(
        Pos2::new(days.x(bar.from) + gap, band.top()),
        Pos2::new(days.x(bar.to + 1) - gap, band.bottom()),
    );
    let ink = match (is_hens, bar.is_lived) {
        (true, true) => Ink::Hen,
        (true, false) => Ink::HenTrail,
        (false, true) => Ink::Spell,
        (false, false) => Ink::SpellPlanned,
    };
    painter.rect_filled(rect, 2.0, theme::colour(ink, light));
    let paper = theme::colour(Ink::Panel, light);
    // Mobs are told apart by pattern: plain, a line through, dots, two lines.
    paint_mob_sign(painter, rect, bar.mob_order, paper);
    if bar.is_fixed {
        painter.rect_stroke(
            rect,
            2.0,
            Stroke::new(1.6, theme::colour(Ink::Act, light)),
            egui::StrokeKind::Inside,
        );
    }
}

fn paint_mob_sign(painter: &Painter, rect: Rect, mob_order: usize, paper: Color32) {
    let stroke = Stroke::new(1.4, paper);
    match mob_order % 4 {
        1 => {
            painter.hline(
                rect.shrink2(Vec2::new(1.0, 0.0)).x_range(),
                rect.center().y,
                stroke,
            );
        }
        2 => {
            let mut x = rect.left() + 3.0;
            while x < rect.right() - 1.0 {
                painter.circle_filled(Pos2::new(x, rect.center().y), 1.5, paper);
                x += 5.0;
            }
        }
        3 => {
            for offset in [-2.5, 2.5] {
                painter.hline(
                    rect.shrink2(Vec2::new(1.0, 0.0)).x_range(),
                    rect.center().y + offset,
                    stroke,
                );
            }
        }
        _ => {}
    }
}

fn paint_cursors(painter: &Painter, desk: &Desk, days: Days, rect: Rect, light: Light) {
    let index_of = |day: Day| {
        usize::try_from(day.days_since(days.first))
            .ok()
            .filter(|index| *index < days.count)
    };
    if let Some(today) = index_of(desk.today) {
        let x = days.x(today);
        let ends = [
            Pos2::new(x, rect.top() + HEAD - 12.0),
            Pos2::new(x, rect.bottom()),
        ];
        let stroke = Stroke::new(1.2, theme::colour(Ink::Ink, light));
        painter.extend(Shape::dashed_line(&ends, stroke, 3.0, 3.0));
    }
    if let Some(index) = index_of(desk.day) {
        let wide = days.width.max(5.0);
        let middle = days.x(index) + days.width / 2.0;
        let cursor = Rect::from_min_max(
            Pos2::new(middle - wide / 2.0, rect.top() + HEAD - 8.0),
            Pos2::new(middle + wide / 2.0, rect.bottom() - 1.0),
        );
        painter.rect_stroke(
            cursor,
            1.0,
            Stroke::new(1.8, theme::colour(Ink::Act, light)),
            egui::StrokeKind::Outside,
        );
    }
}

/// What a screen reader says of a row.
fn row_words(plan: &SeasonPlan, row: &RibbonRow) -> String {
    let spells: Vec<String> = row
        .bars
        .iter()
        .take(12)
        .map(|bar| {
            format!(
                "{} {} to {}",
                bar.who,
                plan.day_at(bar.from).short_text(),
                plan.day_at(bar.to).short_text()
            )
        })
        .collect();
    format!(
        "Season of {}: {}",
        row.name,
        if spells.is_empty() {
            "no spells".to_owned()
        } else {
            spells.join("; ")
        }
    )
}

fn hover_words(plan: &SeasonPlan, row: &RibbonRow, index: usize) -> String {
    let day = plan.day_at(index).row_text();
    if let Some(bar) = row
        .bars
        .iter()
        .find(|bar| (bar.from..=bar.to).contains(&index))
    {
        let state = if bar.is_lived {
            "lived"
        } else if bar.is_fixed {
            "fixed"
        } else {
            "planned"
        };
        return format!("{day}: {} ({state})", bar.who);
    }
    if let Some((_, _, why)) = row
        .closed
        .iter()
        .find(|(from, to, _)| (*from..=*to).contains(&index))
    {
        return format!("{day}: closed {why}");
    }
    if row.house.is_some() {
        let left = row
            .bars
            .iter()
            .filter(|bar| bar.to < index)
            .map(|bar| index - bar.to - 1);
        return match left.min() {
            Some(days) => format!("{day}: {days} d without hens"),
            None => day,
        };
    }
    let rested = row
        .ground
        .and_then(|ground| plan.days_since_grazed(ground, index));
    match (
        row.ground
            .and_then(|ground| plan.cover.get(&ground)?.get(index).copied()),
        rested,
    ) {
        (Some(cover), Some(days)) => format!("{day}: rested {days} d, cover {cover:.0} kg DM/ha"),
        (Some(cover), None) => format!("{day}: cover {cover:.0} kg DM/ha"),
        _ => day,
    }
}
