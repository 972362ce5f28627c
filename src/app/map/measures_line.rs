//! Live figures while something is drawn or measured: every side, the area, the length round.
//!
//! Figures are the reported ones, taken on the ellipsoid.

use egui::{Align2, Painter, Stroke, Vec2};

use super::labels::{paint_figure, paint_figure_in_view};
use super::paint::paint_line;
use crate::app::desk::Desk;
use crate::app::theme;
use crate::app::tools::Preview;
use crate::geometry::{Outline, Point, Ring, geodesic, validity};
use crate::quantity::{area_both_text, length_text, length_text_precise};
use crate::sheets::palette::{Ink, Light};

/// Paints what a tool is drawing, with its figures.
pub(super) fn paint_preview(painter: &Painter, desk: &Desk, preview: &Preview, light: Light) {
    if preview.line.is_empty() {
        return;
    }
    let act = theme::colour(Ink::Act, light);
    let points: Vec<_> = preview
        .line
        .iter()
        .map(|corner| desk.view.screen_from_ground(*corner))
        .collect();
    paint_line(
        painter,
        points.clone(),
        preview.is_closed && points.len() > 2,
        Stroke::new(2.2, act),
        None,
    );
    for point in &points {
        painter.circle(
            *point,
            4.0,
            theme::colour(Ink::Panel, light),
            Stroke::new(1.6, act),
        );
    }
    if preview.shows_measures {
        paint_sides(painter, desk, preview, light);
        if let Some(last) = points.last() {
            let text = summary(desk, preview);
            paint_figure_in_view(painter, *last + Vec2::new(16.0, 20.0), &text, light);
        }
    }
}

/// Lengths beside the sides of an outline or line.
pub(super) fn paint_sides(painter: &Painter, desk: &Desk, preview: &Preview, light: Light) {
    let frame = desk.farm().frame;
    let closing = preview.is_closed && preview.line.len() > 2;
    let runs_clockwise = Ring::new(preview.line.clone()).signed_area_m2() < 0.0;
    let next = preview.line.iter().cycle().skip(1);
    let sides = preview
        .line
        .iter()
        .zip(next)
        .take(preview.line.len() - usize::from(!closing));
    for (from, to) in sides.take(200) {
        let (a, b) = (
            desk.view.screen_from_ground(*from),
            desk.view.screen_from_ground(*to),
        );
        if (b - a).length() < 52.0 {
            continue;
        }
        let text = length_text_precise(geodesic::distance_m(frame, *from, *to), desk.units());
        // Beside the side, on the outer hand, so that the handle in its middle stays free.
        let aside = (b - a).normalized().rot90() * if runs_clockwise { 1.0 } else { -1.0 };
        let outwards = aside * (14.0 + 22.0 * aside.x.abs());
        paint_figure(
            painter,
            a + (b - a) / 2.0 + outwards,
            Align2::CENTER_CENTER,
            &text,
            light,
        );
    }
}

fn summary(desk: &Desk, preview: &Preview) -> String {
    let (frame, units) = (desk.farm().frame, desk.units());
    if preview.is_closed && preview.line.len() > 2 {
        let measured = geodesic::outline_measures(frame, &Outline::simple(preview.line.clone()));
        let round = length_text(measured.outer_perimeter_m, units);
        return format!(
            "{} · {round} round",
            area_both_text(measured.area_m2, units)
        );
    }
    let mut words = vec![length_text_precise(
        geodesic::length_m(frame, &preview.line),
        units,
    )];
    if let [.., from, to] = preview.line.as_slice()
        && from != to
    {
        let bearing_deg = geodesic::bearing_deg(frame, *from, *to);
        words.push(format!("bearing {bearing_deg:.0}°"));
    }
    if preview.shows_turn_and_area
        && let [.., from, over, to] = preview.line.as_slice()
    {
        words.extend(angle_deg(*from, *over, *to).map(|deg| format!("angle {deg:.0}°")));
        let ring = Outline::simple(preview.line.clone());
        // A line that crosses itself encloses no area that could be told.
        if validity::faults(&ring).is_empty() {
            let area_m2 = geodesic::outline_measures(frame, &ring).area_m2;
            words.push(format!("{} if closed", area_both_text(area_m2, units)));
        }
    }
    words.join(" · ")
}

/// The angle between two legs at the corner between them, degrees from 0 to 180; none where a leg has no length.
fn angle_deg(from: Point, over: Point, to: Point) -> Option<f64> {
    if from == over || over == to {
        return None;
    }
    let turn = (over.bearing_deg(from) - over.bearing_deg(to)).rem_euclid(360.0);
    Some(turn.min(360.0 - turn))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_angle_between_two_legs_lies_between_none_and_half_a_turn() {
        let place = Point::new;
        let square = angle_deg(place(0.0, 10.0), place(0.0, 0.0), place(5.0, 0.0));
        assert!((square.unwrap_or(0.0) - 90.0).abs() < 1e-9);
        let straight = angle_deg(place(-3.0, 0.0), place(0.0, 0.0), place(5.0, 0.0));
        assert!((straight.unwrap_or(0.0) - 180.0).abs() < 1e-9);
        assert_eq!(
            angle_deg(place(1.0, 1.0), place(1.0, 1.0), place(0.0, 0.0)),
            None
        );
    }
}
