//! Words on lines and at single places, and the lengths that are to stand beside their sides.
//!
//! Points of the screen; lengths are the reported ones, taken on the ellipsoid.

use egui::{Painter, Rect, Vec2};

use super::label::{Label, least_length};
use crate::app::desk::Desk;
use crate::app::theme;
use crate::farm::{Ground, Kind};
use crate::geometry::{Point, geodesic};
use crate::quantity::length_text_precise;
use crate::sheets::palette::{Ink, Light};

/// Sides of one piece that are written beside, at most.
const MOST_SIDES: usize = 200;

/// The name along the longest side of a line, where that is long enough on screen.
pub(super) fn along(
    painter: &Painter,
    desk: &Desk,
    ground: &Ground,
    line: &[Point],
    light: Light,
) -> Option<Label> {
    // A kept measurement tells its lengths; its name would say the same.
    if ground.kind == Kind::Note && ground.shows_lengths {
        return None;
    }
    let sides = line.iter().zip(line.iter().skip(1));
    let (from, to) = sides.max_by(|a, b| a.0.distance_m(*a.1).total_cmp(&b.0.distance_m(*b.1)))?;
    let room = from.distance_m(*to) / desk.view.m_per_point;
    if f64::from(least_length(&ground.name, 13.0)) + 12.0 > room {
        return None;
    }
    let words = (
        ground.name.clone(),
        theme::serif_italic(13.0),
        theme::colour(Ink::Ink, light),
    );
    let aside = ground.trees.as_ref().map_or(0.0, |row| row.crown_m / 2.0);
    let aside = to_points(
        aside.max(ground.drawn_width_m() / 2.0),
        desk.view.m_per_point,
    ) + 10.0;
    let label = beside_side(painter, desk, (*from, *to), words, aside, Hand::Upper);
    (f64::from(label.size.x) + 12.0 < room).then_some(label)
}

/// The words of a note beside its dot.
pub(super) fn beside(
    painter: &Painter,
    desk: &Desk,
    ground: &Ground,
    place: Point,
    light: Light,
) -> Label {
    let at = desk.view.screen_from_ground(place);
    let ink = theme::colour(Ink::Ink, light);
    let words = (ground.name.clone(), theme::serif_italic(14.0), ink);
    let mut label = Label::new(painter, at, vec![words], 0.0);
    label.move_to(at + Vec2::new(label.size.x / 2.0 + 8.0, 0.0));
    label
}

/// Writes the lengths that are to stay on the map, where they cover no name and no other length.
pub(in crate::app::map) fn paint_lengths(
    painter: &Painter,
    desk: &Desk,
    taken: &mut Vec<Rect>,
    light: Light,
) {
    let with_lengths = desk.reckoned().with_lengths().iter();
    let shown = with_lengths
        .filter_map(|id| desk.farm().ground.get(id).map(|ground| (id, ground)))
        .filter(|(id, ground)| {
            // An outline that is selected alone shows its lengths anyway.
            let is_alone = desk.selected.len() == 1 && desk.selected.contains(*id);
            !(desk.hidden.contains(&ground.kind) || is_alone && ground.outline().is_some())
        });
    for (_, ground) in shown {
        let corners = ground.shape.corners();
        let hand = outer_hand(ground);
        for (start, end) in ground.shape.sides().into_iter().take(MOST_SIDES) {
            let (Some(from), Some(to)) = (corners.get(start), corners.get(end)) else {
                continue;
            };
            let length_m = geodesic::distance_m(desk.farm().frame, *from, *to);
            let words = (
                length_text_precise(length_m, desk.units()),
                theme::sans(theme::SMALL),
                theme::colour(Ink::Ink, light),
            );
            let label = beside_side(painter, desk, (*from, *to), words, 9.0, hand);
            let room = from.distance_m(*to) / desk.view.m_per_point;
            if f64::from(label.size.x) + 8.0 < room && label.is_free(desk.view.screen, taken) {
                taken.push(label.rect);
                label.paint(painter, light);
            }
        }
    }
}

/// On which hand of a side words stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Hand {
    /// Above it on screen.
    Upper,
    /// To the left, going along it.
    Left,
    /// To the right, going along it.
    Right,
}

/// The hand that looks out of an outline; a line has its words above it.
fn outer_hand(ground: &Ground) -> Hand {
    let ring = ground.outline().and_then(|outline| outline.parts.first());
    match ring.map(|part| part.outer.signed_area_m2() < 0.0) {
        None => Hand::Upper,
        Some(true) => Hand::Left,
        Some(false) => Hand::Right,
    }
}

/// Words along a side, `aside` points off it.
fn beside_side(
    painter: &Painter,
    desk: &Desk,
    (from, to): (Point, Point),
    words: (String, egui::FontId, egui::Color32),
    aside: f32,
    hand: Hand,
) -> Label {
    let (a, b) = (
        desk.view.screen_from_ground(from),
        desk.view.screen_from_ground(to),
    );
    let turn = turn(from, to);
    // The screen's y runs down: a quarter turn of the toolkit leads to the right hand.
    let right = -(b - a).normalized().rot90();
    let way = match hand {
        Hand::Upper => Vec2::new(turn.sin(), -turn.cos()),
        Hand::Left => -right,
        Hand::Right => right,
    };
    Label::new(painter, a + (b - a) / 2.0 + way * aside, vec![words], turn)
}

/// The turn, in radians clockwise on screen, that lays text along a side, never upside down.
pub(super) fn turn(from: Point, to: Point) -> f32 {
    let (east_m, north_m) = (to.east_m - from.east_m, to.north_m - from.north_m);
    let mut turn = (-north_m).atan2(east_m);
    if turn > std::f64::consts::FRAC_PI_2 {
        turn -= std::f64::consts::PI;
    } else if turn <= -std::f64::consts::FRAC_PI_2 {
        turn += std::f64::consts::PI;
    }
    #[expect(clippy::cast_possible_truncation, reason = "an angle for the screen")]
    let turn = turn as f32;
    turn
}

fn to_points(length_m: f64, m_per_point: f64) -> f32 {
    #[expect(clippy::cast_possible_truncation, reason = "a distance on the screen")]
    let points = (length_m / m_per_point) as f32;
    points
}
