//! The animals on the map, where the plan has them on the day in view, and where they go next.
//!
//! Sheep stand scattered in their strip at true size where that can be seen, larger otherwise; the hen house stands
//! to scale on its place, with the way it was towed there and the places it has left fading with their rest.

use std::collections::BTreeMap;

use egui::epaint::CircleShape;
use egui::{Color32, Painter, Pos2, Shape, Stroke, Vec2};

use super::GroundView;
use crate::app::desk::Desk;
use crate::app::theme;
use crate::farm::MobId;
use crate::geometry::{Outline, Point};
use crate::planning::{HenWalk, SeasonPlan, Stand, stretch_way};
use crate::quantity::Day;
use crate::sheets::palette::{Ink, Light};

/// Paints mobs, their next move, and hen houses.
pub(super) fn paint_animals(painter: &Painter, desk: &Desk, light: Light) {
    let Some(plan) = desk.plan.as_deref() else {
        return;
    };
    let Some(index) = plan.index_of(desk.day) else {
        return;
    };
    for house in plan.hens.keys() {
        paint_hens(painter, desk, plan, *house, index, light);
    }
    for (mob, facts) in &desk.farm().mobs {
        let place = place_of(desk, *mob, plan.stand_at(*mob, index));
        let Some((middle, room_m, outline)) = place else {
            continue;
        };
        if let Some((_, next)) = plan.next_move(*mob, index)
            && let Some((to, _, _)) = place_of(desk, *mob, next)
        {
            paint_way(
                painter,
                desk.view.screen_from_ground(middle),
                desk.view.screen_from_ground(to),
                light,
            );
        }
        paint_mob(
            painter, &desk.view, middle, room_m, outline, facts.head, light,
        );
    }
}

/// Middle, clear radius and outline of where a mob stands.
fn place_of(desk: &Desk, mob: MobId, stand: Stand) -> Option<(Point, f64, Option<&Outline>)> {
    match stand {
        Stand::Away => None,
        Stand::Yard => {
            let yard = desk
                .farm()
                .mobs
                .get(&mob)?
                .yard
                .unwrap_or_else(|| desk.farm().middle());
            Some((yard, 8.0, None))
        }
        Stand::On(ground) => {
            let outline = desk.farm().ground.get(&ground)?.outline()?;
            let label = desk.map_cache.label_place(ground, outline)?;
            Some((label.place, label.clearance_m, Some(outline)))
        }
    }
}

fn paint_mob(
    painter: &Painter,
    view: &GroundView,
    middle: Point,
    room_m: f64,
    outline: Option<&Outline>,
    head: u32,
    light: Light,
) {
    // A sheep is about 1.2 m long; on a wide view it is drawn larger, so that it is seen at all.
    let length_m = (view.m_per_point * 13.0).max(1.2);
    let shown = head.clamp(1, 14);
    let reach_m = (room_m * 2.4).max(length_m * 1.5);
    for count in 0..shown {
        let (turn, share) = (
            f64::from(count) * 137.5,
            (f64::from(count) + 0.4) / f64::from(shown),
        );
        let mut place = middle.towards(turn, reach_m * share.sqrt());
        if outline.is_some_and(|outline| !outline.contains(place)) {
            place = middle.towards(turn, room_m * 0.8 * share.sqrt());
        }
        paint_sheep(
            painter,
            view.screen_from_ground(place),
            length_m / view.m_per_point,
            count % 3 == 0,
            light,
        );
    }
}

fn paint_sheep(painter: &Painter, at: Pos2, length: f64, looks_left: bool, light: Light) {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "points on a screen are f32"
    )]
    let size = length as f32;
    // Dark in both lights: a sheep's outline against its fleece.
    let dark = theme::colour(Ink::Ink, Light::Day);
    let fleece = theme::colour(Ink::Fleece, light);
    let way = if looks_left { -1.0 } else { 1.0 };
    let edge = Stroke::new((size * 0.07).clamp(0.7, 1.6), dark);
    for foot in [-0.2, 0.2] {
        let top = at + Vec2::new(foot * size, size * 0.15);
        painter.line_segment([top, top + Vec2::new(0.0, size * 0.22)], edge);
    }
    let radius = Vec2::new(size * 0.36, size * 0.24);
    painter.add(Shape::ellipse_filled(
        at,
        radius + Vec2::splat(edge.width),
        dark,
    ));
    painter.add(Shape::ellipse_filled(at, radius, fleece));
    let head = at + Vec2::new(way * size * 0.4, -size * 0.06);
    painter.add(Shape::ellipse_filled(
        head,
        Vec2::new(size * 0.13, size * 0.11),
        dark,
    ));
}

/// A dashed arrow to the next place.
fn paint_way(painter: &Painter, from: Pos2, to: Pos2, light: Light) {
    let stroke = Stroke::new(2.0, theme::colour(Ink::Act, light));
    let along = to - from;
    if along.length() < 24.0 {
        return;
    }
    let tip = from + along * ((along.length() - 8.0) / along.length());
    painter.extend(Shape::dashed_line(&[from, tip], stroke, 5.0, 4.0));
    let direction = along.normalized();
    let wing = direction.rot90() * 5.0;
    let back = tip - direction * 10.0;
    painter.add(Shape::convex_polygon(
        vec![tip, back + wing, back - wing],
        stroke.color,
        Stroke::NONE,
    ));
}

fn paint_hens(
    painter: &Painter,
    desk: &Desk,
    plan: &SeasonPlan,
    house: crate::farm::HenHouseId,
    index: usize,
    light: Light,
) {
    let Some(walk) = plan.hens.get(&house) else {
        return;
    };
    let day = plan.day_at(index);
    let Some((stand, now)) = walk.on(day) else {
        return;
    };
    paint_left(painter, desk, house, light);
    paint_trail(painter, desk, walk, (day, now.number), light);
    paint_tow(painter, desk, walk, day, light);
    let ink = theme::colour(Ink::Hen, light);
    // Hens that are shut in have no run: the house alone.
    let run = if stand.is_housed { 0.0 } else { 0.35 };
    painter.add(place_shape(
        &desk.view,
        &now.outline,
        ink.gamma_multiply(run),
        Stroke::new(1.4, ink),
    ));
    paint_house(painter, desk.view.screen_from_ground(now.middle), ink);
}

/// The stretches of its lines on which no place is laid: dots along the line.
fn paint_left(painter: &Painter, desk: &Desk, house: crate::farm::HenHouseId, light: Light) {
    let Some(house) = desk.farm().hen_houses.get(&house) else {
        return;
    };
    let ink = theme::colour(Ink::Act, light);
    for stretch in &house.handling.left_stretches {
        let points: Vec<Pos2> = stretch_way(desk.farm(), stretch)
            .into_iter()
            .map(|corner| desk.view.screen_from_ground(corner))
            .collect();
        painter.extend(Shape::dotted_line(&points, ink, 9.0, 2.6));
    }
}

/// The places left before a day fade with their rest: strong on the day after, gone once the rest wanted is reached.
fn paint_trail(
    painter: &Painter,
    desk: &Desk,
    walk: &HenWalk,
    (day, now): (Day, usize),
    light: Light,
) {
    let mut left_on: BTreeMap<usize, Day> = BTreeMap::new();
    let before = walk.days.iter().take_while(|stand| stand.day < day);
    for stand in before.filter(|stand| !stand.is_housed) {
        left_on.insert(stand.place, stand.day);
    }
    left_on.remove(&now);
    let wanted = f64::from(walk.facts.rest_days_wanted.max(1));
    for (number, left) in left_on {
        let (Some(place), Ok(rested)) =
            (walk.place(number), u16::try_from(day.days_since(left) - 1))
        else {
            continue;
        };
        let share = f64::from(rested) / wanted;
        if share >= 1.0 {
            continue;
        }
        #[expect(clippy::cast_possible_truncation, reason = "a share from 0 to 1")]
        let fade = 0.6 * (1.0 - share as f32) + 0.08;
        let ink = theme::colour(Ink::HenTrail, light).gamma_multiply(fade);
        painter.add(place_shape(&desk.view, &place.outline, ink, Stroke::NONE));
    }
}

/// The way that the house is towed on a day.
fn paint_tow(painter: &Painter, desk: &Desk, walk: &HenWalk, day: Day, light: Light) {
    let Some(tow) = walk.tow_on(day) else { return };
    let points: Vec<Pos2> = tow
        .way
        .iter()
        .map(|corner| desk.view.screen_from_ground(*corner))
        .collect();
    let stroke = Stroke::new(1.6, theme::colour(Ink::Hen, light));
    painter.extend(Shape::dashed_line(&points, stroke, 4.0, 3.0));
}

fn place_shape(view: &GroundView, corners: &[Point], fill: Color32, stroke: Stroke) -> Shape {
    let points = corners
        .iter()
        .map(|corner| view.screen_from_ground(*corner))
        .collect();
    Shape::convex_polygon(points, fill, stroke)
}

/// The sign of a hen house: gable and walls.
fn paint_house(painter: &Painter, at: Pos2, ink: Color32) {
    let half = 7.0;
    let corners = vec![
        at + Vec2::new(0.0, -half * 1.2),
        at + Vec2::new(half, -half * 0.2),
        at + Vec2::new(half, half * 0.8),
        at + Vec2::new(-half, half * 0.8),
        at + Vec2::new(-half, -half * 0.2),
    ];
    painter.add(Shape::convex_polygon(
        corners,
        ink,
        Stroke::new(1.2, Color32::WHITE),
    ));
    let door = CircleShape::filled(at + Vec2::new(0.0, half * 0.2), 2.0, Color32::WHITE);
    painter.add(Shape::Circle(door));
}
