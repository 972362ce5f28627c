//! A small curve of twelve months, drawn over the fields it is made of.
//!
//! Knows only figures and a word for readers of the screen.

use egui::{Pos2, Rect, Sense, Shape, Stroke, Ui};

use crate::app::theme;
use crate::quantity::MONTH_NAMES;
use crate::sheets::palette::Ink;

/// Height of a curve.
pub(super) const HEIGHT: f32 = 56.0;

/// Draws the curve in `rect`, the month in view marked; `ink` is its colour, by day and by night.
pub(super) fn month_curve_ui(
    ui: &mut Ui,
    rect: Rect,
    figures: [f64; 12],
    ink: Ink,
    month_in_view: usize,
    spoken: &str,
) {
    let response = ui.allocate_rect(rect, Sense::hover());
    let words = curve_words(figures, spoken);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, words.clone()));
    let painter = ui.painter();
    let most = figures.iter().copied().fold(0.0_f64, f64::max).max(1e-9);
    let step = rect.width() / 12.0;
    let middle_of = |month: usize, share: f64| {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_precision_loss,
            reason = "twelve months, a share from 0 to 1"
        )]
        let (across, up) = (month as f32, share as f32);
        Pos2::new(
            rect.left() + (across + 0.5) * step,
            rect.bottom() - 1.0 - up * (rect.height() - 8.0),
        )
    };
    let tint = theme::ink(ui, ink);
    let points: Vec<Pos2> = figures
        .iter()
        .enumerate()
        .map(|(month, figure)| middle_of(month, (figure / most).clamp(0.0, 1.0)))
        .collect();
    for (month, point) in points.iter().enumerate() {
        let column = Rect::from_min_max(
            Pos2::new(point.x - step / 2.0 + 1.0, point.y),
            Pos2::new(point.x + step / 2.0 - 1.0, rect.bottom() - 1.0),
        );
        let strength = if month == month_in_view { 0.55 } else { 0.22 };
        painter.rect_filled(column, 1.0, tint.gamma_multiply(strength));
    }
    painter.add(Shape::line(points.clone(), Stroke::new(1.6, tint)));
    for point in points {
        painter.circle_filled(point, 1.8, tint);
    }
    let base = Stroke::new(1.0, theme::ink(ui, Ink::Rule));
    painter.hline(rect.x_range(), rect.bottom(), base);
}

fn curve_words(figures: [f64; 12], spoken: &str) -> String {
    let highest = figures
        .iter()
        .enumerate()
        .max_by(|one, other| one.1.total_cmp(other.1));
    match highest {
        Some((month, figure)) => format!(
            "{spoken} through the year, highest in {}: {}",
            MONTH_NAMES.get(month).copied().unwrap_or(""),
            super::figures::figure_text(*figure)
        ),
        None => spoken.to_owned(),
    }
}
