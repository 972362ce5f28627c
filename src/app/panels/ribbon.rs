//! The season ribbon: a row for each strip and hen house, a column for each day, and the day cursor.
//!
//! Click or drag along it and the whole window goes to that day; click a row and that ground is selected. Drag a bar
//! and its days are fixed when it is let go; by its ends it is made longer or shorter.

use egui::{Align2, CursorIcon, Pos2, Rect, RichText, ScrollArea, Sense, Ui, Vec2};

use super::ribbon_days::Days;
use super::ribbon_paint::{
    HEAD, paint_bar, paint_closed, paint_cursors, paint_dragged, paint_head, paint_rest,
};
use super::ribbon_rows::{RibbonBar, RibbonRow, ribbon_places, ribbon_row};
use super::ribbon_words::{hover_words, row_words};
use crate::app::desk::Desk;
use crate::app::forms::no_flock_ui;
use crate::app::spell_drag::{Grip, SpellDrag, settle_drag};
use crate::app::theme;
use crate::farm::GroundId;
use crate::planning::SeasonPlan;
use crate::sheets::palette::{Ink, Light};

const NAME_WIDTH: f32 = 190.0;
const ROW: f32 = 17.0;
/// How near an end of a bar the pointer holds that end, points.
const END_REACH: f32 = 3.0;

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
    let places = ribbon_places(desk, &plan);
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
    let body =
        ScrollArea::vertical()
            .auto_shrink(false)
            .show_rows(ui, ROW, places.len(), |ui, range| {
                let mut placed = Vec::new();
                for place in places.get(range).unwrap_or_default() {
                    if let Some(row) = ribbon_row(desk, &plan, *place) {
                        let rect = row_ui(ui, desk, &plan, &row, days, light);
                        let ground = row.ground.filter(|_| row.house.is_none());
                        placed.extend(ground.map(|ground| (ground, rect)));
                    }
                }
                drag_ui(ui, desk, days, &placed, light);
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

fn take_day(desk: &mut Desk, response: &egui::Response, days: Days) {
    if (response.clicked() || response.dragged())
        && let Some(pos) = response.interact_pointer_pos()
        && let Some(index) = days.index_at(pos.x)
    {
        desk.go_to(days.first.plus_days(i64::try_from(index).unwrap_or(0)));
    }
}

fn row_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    plan: &SeasonPlan,
    row: &RibbonRow,
    days: Days,
    light: Light,
) -> Rect {
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
    if response.drag_started() {
        let origin = ui.input(|input| input.pointer.press_origin());
        if let Some((bar, grip, index)) = origin.and_then(|pos| gripped(row, pos, days)) {
            let held = (bar.mob, days.day(index));
            desk.live.drag = SpellDrag::grip(desk.history.farm(), plan, held, grip, desk.today);
            desk.selected.extend(row.ground);
            desk.selected.retain(|id| Some(*id) == row.ground);
        }
    }
    if desk.live.drag.is_none() {
        take_day(desk, &response, days);
        set_cursor(ui, desk, row, response.hover_pos(), days);
    }
    if let Some(index) = response.hover_pos().and_then(|pos| days.index_at(pos.x)) {
        response.on_hover_text_at_pointer(hover_words(plan, row, index));
    }
    rect
}

/// The bar of a mob under a place, by which of its parts, and on which day index.
fn gripped(row: &RibbonRow, pos: Pos2, days: Days) -> Option<(&RibbonBar, Grip, usize)> {
    row.ground.filter(|_| row.house.is_none())?;
    let index = days.index_at(pos.x)?;
    let bar = row
        .bars
        .iter()
        .find(|bar| (bar.from..=bar.to).contains(&index))?;
    let (left, right) = (days.x(bar.from), days.x(bar.to + 1));
    // A narrow bar has no room for ends: it is moved; the keys make it longer.
    let grip = if right - left < 4.0 * END_REACH {
        Grip::Whole
    } else if pos.x - left <= END_REACH {
        Grip::First
    } else if right - pos.x <= END_REACH {
        Grip::Last
    } else {
        Grip::Whole
    };
    Some((bar, grip, index))
}

fn set_cursor(ui: &Ui, desk: &Desk, row: &RibbonRow, pos: Option<Pos2>, days: Days) {
    let Some((bar, grip, _)) = pos.and_then(|pos| gripped(row, pos, days)) else {
        return;
    };
    if days.day(bar.to) >= desk.today {
        ui.ctx().set_cursor_icon(match grip {
            Grip::Whole => CursorIcon::Grab,
            Grip::First | Grip::Last => CursorIcon::ResizeHorizontal,
        });
    }
}

/// Moves the bar in hand with the pointer, shows where it would lie, and settles it when it is let go.
fn drag_ui(ui: &Ui, desk: &mut Desk, days: Days, rows: &[(GroundId, Rect)], light: Light) {
    let Some(mut drag) = desk.live.drag.take() else {
        return;
    };
    let (pos, is_down) = ui.input(|input| (input.pointer.latest_pos(), input.pointer.any_down()));
    if let Some(pos) = pos {
        let over = rows
            .iter()
            .find(|(_, rect)| rect.expand(1.0).y_range().contains(pos.y));
        let ground = over.map_or(drag.wish.ground, |(ground, _)| *ground);
        drag.follow(days.day_near(pos.x), Some(ground), desk.today);
    }
    if !is_down {
        if drag.is_moved() {
            settle_drag(desk, &drag);
        }
        return;
    }
    ui.ctx().set_cursor_icon(CursorIcon::Grabbing);
    if drag.is_moved()
        && let Some((_, rect)) = rows.iter().find(|(ground, _)| *ground == drag.wish.ground)
    {
        let words = drag.words(desk.farm());
        let (words, is_trouble) = match &desk.live.trouble {
            Some(trouble) => (format!("{words}. {trouble}"), true),
            None => (words, false),
        };
        let span = (drag.wish.first, drag.wish.last);
        paint_dragged(ui.painter(), days, span, *rect, (&words, is_trouble), light);
    }
    desk.live.drag = Some(drag);
}
