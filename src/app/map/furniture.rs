//! What every map carries: the grid, the scale bar, north, and the date it stands for.
//!
//! Points on the screen; lengths are read from the view.

use egui::{Align2, Painter, Pos2, Rect, Shape, Stroke, Vec2};

use super::GroundView;
use crate::app::theme;
use crate::geometry::Point;
use crate::quantity::{M_PER_YARD, UnitSystem, decimal_text};
use crate::sheets::palette::{Ink, Light};

/// The grid: fine lines at a round spacing of at least 70 points.
pub(super) fn paint_grid(painter: &Painter, view: &GroundView, light: Light) {
    let spacing_m = grid_spacing_m(view.m_per_point);
    let (south_west, north_east) = view.ground_in_view();
    let stroke = Stroke::new(1.0, theme::colour(Ink::Hair, light).gamma_multiply(0.55));
    let mut east_m = (south_west.east_m / spacing_m).ceil() * spacing_m;
    while east_m < north_east.east_m {
        let x = view
            .screen_from_ground(Point::new(east_m, view.middle.north_m))
            .x;
        painter.vline(x, view.screen.y_range(), stroke);
        east_m += spacing_m;
    }
    let mut north_m = (south_west.north_m / spacing_m).ceil() * spacing_m;
    while north_m < north_east.north_m {
        let y = view
            .screen_from_ground(Point::new(view.middle.east_m, north_m))
            .y;
        painter.hline(view.screen.x_range(), y, stroke);
        north_m += spacing_m;
    }
}

/// How far apart the lines of the grid lie at a scale, metres.
pub(super) fn grid_spacing_m(m_per_point: f64) -> f64 {
    round_length_m(m_per_point * 70.0)
}

/// The scale bar, at the lower left.
pub(super) fn paint_scale_bar(
    painter: &Painter,
    view: &GroundView,
    light: Light,
    units: UnitSystem,
) {
    let m_each = if units == UnitSystem::Imperial {
        M_PER_YARD
    } else {
        1.0
    };
    // The next round length may be two and a half times as long: it must fit a narrow map all the same.
    let wanted = (f64::from(view.screen.width()) * 0.14).clamp(40.0, 130.0);
    let length = round_length_m(view.m_per_point * wanted / m_each);
    #[expect(
        clippy::cast_possible_truncation,
        reason = "points on a screen are f32"
    )]
    let bar = (length * m_each / view.m_per_point) as f32;
    let left = view.screen.left_bottom() + Vec2::new(100.0, -22.0);
    let ink = theme::colour(Ink::Ink, light);
    let back = Rect::from_min_size(left + Vec2::new(-12.0, -24.0), Vec2::new(bar + 76.0, 36.0));
    painter.rect_filled(
        back,
        5.0,
        theme::colour(Ink::Paper, light).gamma_multiply(0.85),
    );
    let stroke = Stroke::new(1.6, ink);
    painter.line_segment([left, left + Vec2::new(bar, 0.0)], stroke);
    for share in [0.0, 0.5, 1.0] {
        let foot = left + Vec2::new(bar * share, 0.0);
        painter.line_segment([foot, foot - Vec2::new(0.0, 6.0)], stroke);
        let value = length * f64::from(share);
        let text = figure(value, units, share >= 1.0);
        let align = if share >= 1.0 {
            Align2::LEFT_BOTTOM
        } else {
            Align2::CENTER_BOTTOM
        };
        let nudge = if share >= 1.0 {
            Vec2::new(-8.0, -7.0)
        } else {
            Vec2::new(0.0, -7.0)
        };
        painter.text(foot + nudge, align, text, theme::sans(theme::SMALL), ink);
    }
}

/// The needle, at the upper right.
pub(super) fn paint_north(painter: &Painter, view: &GroundView, light: Light) {
    let foot = view.screen.right_top() + Vec2::new(-34.0, 48.0);
    let ink = theme::colour(Ink::Ink, light);
    let tip = foot - Vec2::new(0.0, 26.0);
    let corners = [
        tip,
        foot + Vec2::new(8.0, 0.0),
        foot - Vec2::new(0.0, 6.0),
        foot + Vec2::new(-8.0, 0.0),
    ];
    let halves = [[0, 1, 2], [0, 2, 3]];
    for half in halves {
        let points: Vec<Pos2> = half
            .iter()
            .filter_map(|place: &usize| corners.get(*place).copied())
            .collect();
        painter.add(Shape::convex_polygon(points, ink, Stroke::NONE));
    }
    painter.text(
        foot + Vec2::new(0.0, 2.0),
        Align2::CENTER_TOP,
        "N",
        theme::sans_bold(theme::BODY),
        ink,
    );
}

fn figure(value: f64, units: UnitSystem, with_unit: bool) -> String {
    let (value, unit) = match units {
        UnitSystem::Metric if value >= 2000.0 => (value / 1000.0, "km"),
        UnitSystem::Metric => (value, "m"),
        UnitSystem::Imperial => (value, "yd"),
    };
    let decimals = if value > 0.0 && value < 1.0 {
        2
    } else {
        usize::from(value.fract() > 0.0)
    };
    let figure = decimal_text(value, decimals);
    if with_unit {
        format!("{figure} {unit}")
    } else {
        figure
    }
}

/// The least of 1, 2, 5, 10, 20 … that is at least `least`.
pub(super) fn round_length_m(least: f64) -> f64 {
    let power = 10f64.powf(least.max(1e-9).log10().floor());
    [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|step| step * power)
        .find(|length| *length >= least * 0.999)
        .unwrap_or(power)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bars_have_round_lengths() {
        for (least, round) in [
            (0.3, 0.5),
            (1.0, 1.0),
            (13.0, 20.0),
            (48.0, 50.0),
            (51.0, 100.0),
        ] {
            assert!((round_length_m(least) - round).abs() < 1e-9, "{least}");
        }
    }
}
