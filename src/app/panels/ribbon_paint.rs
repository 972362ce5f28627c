//! Painting the ribbon: months, bars with the signs of their mobs, rest, closed days, cursors, a bar being dragged.

use egui::{Align2, Color32, Painter, Pos2, Rect, Shape, Stroke, Vec2};

use super::ribbon_days::Days;
use super::ribbon_rows::RibbonBar;
use crate::app::desk::Desk;
use crate::app::theme;
use crate::quantity::Day;
use crate::sheets::palette::{Ink, Light};

/// Height of the head with the months.
pub(super) const HEAD: f32 = 30.0;

/// Month names and a tick for every week.
pub(super) fn paint_head(painter: &Painter, head: Rect, days: Days, light: Light) {
    let (ink, hair) = (
        theme::colour(Ink::Ink, light),
        theme::colour(Ink::Rule, light),
    );
    let mut last_right = f32::NEG_INFINITY;
    for index in 0..days.count {
        let day = days.day(index);
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

pub(super) fn paint_rest(painter: &Painter, bar: &RibbonBar, days: Days, band: Rect, light: Light) {
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

pub(super) fn paint_closed(
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

pub(super) fn paint_bar(
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
    if bar.is_chosen && rect.width() > 7.0 {
        paint_grips(painter, rect, paper);
    }
}

/// The two ends by which a chosen bar is made longer or shorter.
fn paint_grips(painter: &Painter, rect: Rect, paper: Color32) {
    for x in [rect.left() + 2.5, rect.right() - 2.5] {
        painter.vline(x, rect.shrink(2.5).y_range(), Stroke::new(1.6, paper));
    }
}

/// Where a bar that is being dragged would come to lie, and what is said of it.
pub(super) fn paint_dragged(
    painter: &Painter,
    days: Days,
    (first, last): (Day, Day),
    row: Rect,
    (words, is_trouble): (&str, bool),
    light: Light,
) {
    let near = |day: Day| {
        day.max(days.first)
            .min(days.day(days.count.saturating_sub(1)))
    };
    let (Some(from), Some(to)) = (days.index_of(near(first)), days.index_of(near(last))) else {
        return;
    };
    let rect = Rect::from_min_max(
        Pos2::new(days.x(from), row.top()),
        Pos2::new(days.x(to + 1), row.bottom()),
    );
    let edge = if is_trouble { Ink::WarnEdge } else { Ink::Act };
    let stroke = Stroke::new(2.2, theme::colour(edge, light));
    painter.rect_stroke(rect, 2.0, stroke, egui::StrokeKind::Outside);
    let ink = theme::colour(Ink::Ink, light);
    let galley = painter.layout(
        words.to_owned(),
        theme::sans(theme::SMALL + 1.0),
        ink,
        420.0,
    );
    // Above the bar where there is room, and never past the ribbon's right end.
    let room = painter.clip_rect();
    let above = rect.top() - galley.size().y - 8.0;
    let y = if above > room.top() {
        above
    } else {
        rect.bottom() + 8.0
    };
    let x = rect.left().min(room.right() - galley.size().x - 8.0);
    let ground = Rect::from_min_size(Pos2::new(x, y), galley.size()).expand(4.0);
    let fill = if is_trouble {
        Ink::WarnGround
    } else {
        Ink::Panel
    };
    painter.rect_filled(ground, 3.0, theme::colour(fill, light));
    painter.rect_stroke(
        ground,
        3.0,
        Stroke::new(1.0, theme::colour(edge, light)),
        egui::StrokeKind::Outside,
    );
    painter.galley(Pos2::new(x, y), galley, ink);
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

pub(super) fn paint_cursors(painter: &Painter, desk: &Desk, days: Days, rect: Rect, light: Light) {
    if let Some(today) = days.index_of(desk.today) {
        let x = days.x(today);
        let ends = [
            Pos2::new(x, rect.top() + HEAD - 12.0),
            Pos2::new(x, rect.bottom()),
        ];
        let stroke = Stroke::new(1.2, theme::colour(Ink::Ink, light));
        painter.extend(Shape::dashed_line(&ends, stroke, 3.0, 3.0));
    }
    if let Some(index) = days.index_of(desk.day) {
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
