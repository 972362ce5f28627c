//! Names on the map: inside their ground where they fit, smaller or turned where they must, else beside it on a
//! leader; never one over another.
//!
//! Text is laid out at screen size; places come from the ground.

mod label;
mod on_lines;

use std::collections::BTreeSet;

use std::sync::Arc;

use egui::{Align2, Galley, Painter, Pos2, Rect, Vec2};

use self::label::Label;
pub(super) use self::on_lines::paint_lengths;
use super::{GroundView, course_year};
use crate::app::desk::Desk;
use crate::app::theme;
use crate::app::tools::Preview;
use crate::farm::{Ground, GroundId, Kind, Shape};
use crate::geometry::{Outline, Point};
use crate::quantity::area_text;
use crate::sheets::palette::{Ink, Light};

/// Ground with less room than this about its middle gets no name, points.
const LEAST_ROOM: f64 = 3.5;
/// Names on leaders at most: more would be a thicket.
const MOST_LEADERS: usize = 24;

/// Writes the names, notes first, then the largest ground first, each where it covers no other; gives back what is
/// covered.
pub(super) fn paint_labels(
    painter: &Painter,
    desk: &Desk,
    preview: &Preview,
    light: Light,
) -> Vec<Rect> {
    let mut taken: Vec<Rect> = Vec::new();
    let mut left_over: Vec<(GroundId, &Ground)> = Vec::new();
    // A figure of what an act would change bears the name itself.
    let is_told = |id: GroundId| {
        let mut changed = preview.changed.iter();
        !preview.figures.is_empty() && changed.any(|(changed, _)| *changed == id)
    };
    for (id, ground) in in_order(desk).into_iter().filter(|(id, _)| !is_told(*id)) {
        let label = match &ground.shape {
            Shape::Area(outline) => inside(painter, desk, (id, ground), outline, light),
            Shape::Line(line) => on_lines::along(painter, desk, ground, line, light),
            Shape::Place(place) => on_lines::beside(painter, desk, ground, *place, light),
        };
        match label {
            Some(label) if label.is_free(desk.view.screen, &taken) => {
                taken.push(label.rect);
                label.paint(painter, light);
            }
            // A strip's name beside it would stand on the next strip.
            None if ground.outline().is_some() && ground.kind != Kind::Strip => {
                left_over.push((id, ground));
            }
            _ => {}
        }
    }
    let leaders = left_over
        .into_iter()
        .filter_map(|(id, ground)| Some((room_of(desk, id, ground.outline()?)?, ground)));
    for ((middle, _), ground) in leaders.take(MOST_LEADERS) {
        if let Some(label) = on_leader(painter, desk, ground, middle, &taken, light) {
            taken.push(label.rect);
            label.paint(painter, light);
        }
    }
    taken
}

/// What is named, in the order in which it may choose its room.
fn in_order(desk: &Desk) -> Vec<(GroundId, &Ground)> {
    let ground = &desk.farm().ground;
    // A ley cut into strips gives the room to its strips.
    let cut: BTreeSet<GroundId> = ground.values().filter_map(|ground| ground.within).collect();
    let gives_way = |id: GroundId| match course_year::year_on_map(desk) {
        Some(_) => course_year::is_hidden(desk, id),
        None => cut.contains(&id),
    };
    let mut rows: Vec<(bool, f64, GroundId, &Ground)> = ground
        .iter()
        .filter(|(id, ground)| {
            is_named_on_map(ground) && !gives_way(**id) && !desk.hidden.contains(&ground.kind)
        })
        .map(|(id, ground)| {
            let area_m2 = desk.measures(*id).area_m2.unwrap_or(0.0);
            (ground.kind != Kind::Note, area_m2, *id, ground)
        })
        .collect();
    rows.sort_by(|a, b| {
        let by_size = b.1.total_cmp(&a.1);
        a.0.cmp(&b.0).then(by_size).then(a.2.cmp(&b.2))
    });
    rows.into_iter()
        .map(|(_, _, id, ground)| (id, ground))
        .collect()
}

fn is_named_on_map(ground: &Ground) -> bool {
    let is_named = match ground.shape {
        Shape::Area(_) => !matches!(ground.kind, Kind::Hedge | Kind::Gate | Kind::Track),
        Shape::Line(_) => matches!(ground.kind, Kind::TreeLine | Kind::Water | Kind::Note),
        Shape::Place(_) => ground.kind == Kind::Note,
    };
    is_named && !ground.name.trim().is_empty()
}

/// The middle of the roomiest place of a piece in view and the room about it, where there is enough for a name.
fn room_of(desk: &Desk, id: GroundId, outline: &Outline) -> Option<(Point, f64)> {
    let place = desk.map_cache.label_place(id, outline)?;
    let is_seen = desk
        .view
        .screen
        .contains(desk.view.screen_from_ground(place.place));
    let is_roomy = place.clearance_m / desk.view.m_per_point >= LEAST_ROOM;
    (is_seen && is_roomy).then_some((place.place, place.clearance_m))
}

/// The label of a piece, with both lines, one, a small one or a turned one, as its room allows.
fn inside(
    painter: &Painter,
    desk: &Desk,
    (id, ground): (GroundId, &Ground),
    outline: &Outline,
    light: Light,
) -> Option<Label> {
    let (middle, room_m) = room_of(desk, id, outline)?;
    let at = desk.view.screen_from_ground(middle);
    let ink = theme::colour(Ink::Ink, light);
    let name = |size: f32| {
        let font = match ground.kind {
            Kind::Water => theme::serif_italic(size),
            _ => theme::serif(size),
        };
        (ground.name.clone(), font, ink)
    };
    let mut tries = Vec::new();
    if let Some(second) = second_line(desk, id, ground) {
        let second = (second, theme::sans(theme::SMALL), ink);
        tries.push((vec![name(16.0), second], 0.0));
    }
    let along = turn_along_longest_side(outline);
    tries.push((vec![name(16.0)], 0.0));
    tries.push((vec![name(13.0)], 0.0));
    tries.push((vec![name(13.0)], along));
    tries.push((vec![name(11.0)], along));
    tries.into_iter().find_map(|(lines, turn)| {
        let label = Label::new(painter, at, lines, turn);
        fits_in(&desk.view, outline, middle, room_m, &label).then_some(label)
    })
}

/// A small name beside its ground, where the map is free.
fn on_leader(
    painter: &Painter,
    desk: &Desk,
    ground: &Ground,
    middle: Point,
    taken: &[Rect],
    light: Light,
) -> Option<Label> {
    let from = desk.view.screen_from_ground(middle);
    let ink = theme::colour(Ink::Ink, light);
    let line = (ground.name.clone(), theme::serif(12.0), ink);
    let ways = [
        (0.0, -1.0),
        (0.0, 1.0),
        (1.0, -0.6),
        (-1.0, -0.6),
        (1.0, 0.6),
        (-1.0, 0.6),
    ];
    [26.0f32, 44.0].into_iter().find_map(|reach| {
        ways.into_iter().find_map(|(x, y)| {
            let mut label = Label::new(painter, from, vec![line.clone()], 0.0);
            let half = label.rect.size() / 2.0;
            label.move_to(from + Vec2::new(x * (reach + half.x), y * (reach + half.y)));
            label.leader = Some(from);
            label.is_free(desk.view.screen, taken).then_some(label)
        })
    })
}

/// The turn, in radians on screen, that lays text along the longest side, never upside down.
fn turn_along_longest_side(outline: &Outline) -> f32 {
    let sides = outline.parts.iter().flat_map(|part| {
        let corners = &part.outer.corners;
        corners.iter().zip(corners.iter().cycle().skip(1))
    });
    sides
        .max_by(|a, b| a.0.distance_m(*a.1).total_cmp(&b.0.distance_m(*b.1)))
        .map_or(0.0, |(from, to)| on_lines::turn(*from, *to))
}

/// Whether a label lies inside the outline.
fn fits_in(
    view: &GroundView,
    outline: &Outline,
    middle: Point,
    room_m: f64,
    label: &Label,
) -> bool {
    let half = label.size / 2.0;
    if f64::from(half.length()) * view.m_per_point <= room_m {
        return true;
    }
    let (sin, cos) = label.turn.sin_cos();
    let shares = [-1.0f32, -0.5, 0.0, 0.5, 1.0];
    shares.iter().all(|across| {
        [-1.0f32, 0.0, 1.0].iter().all(|down| {
            let (x, y) = (across * half.x, down * half.y);
            let place = middle.moved(
                f64::from(x * cos - y * sin) * view.m_per_point,
                -f64::from(x * sin + y * cos) * view.m_per_point,
            );
            outline.contains(place)
        })
    })
}

fn second_line(desk: &Desk, id: GroundId, ground: &Ground) -> Option<String> {
    if let Some(year) = course_year::year_on_map(desk) {
        return course_year::year_words(desk, id, year);
    }
    if !matches!(ground.kind, Kind::Plot | Kind::Ley) {
        return None;
    }
    let area = area_text(desk.measures(id).area_m2?, desk.units());
    Some(if ground.crop.is_empty() {
        area
    } else {
        format!("{area} · {}", ground.crop)
    })
}

/// A figure beside a side, on a ground of paper.
pub(super) fn paint_figure(painter: &Painter, at: Pos2, align: Align2, text: &str, light: Light) {
    let galley = figure_galley(painter, text, light);
    let rect = align.anchor_size(at, galley.size());
    paint_on_paper(painter, rect, galley, light);
}

/// Room at the foot of the map that the sentence of what to do next takes, points.
const HINT_ROOM: f32 = 44.0;

/// A figure right below a place, drawn in or put above where it would leave the map or lie on the sentence at its foot.
pub(super) fn paint_figure_in_view(painter: &Painter, at: Pos2, text: &str, light: Light) {
    let galley = figure_galley(painter, text, light);
    let mut room = painter.clip_rect().shrink(8.0);
    room.max.y -= HINT_ROOM;
    let most = (room.max - galley.size()).max(room.min);
    // At the foot of the map it stands above the place, over the word of a snap.
    let at = if at.y > most.y {
        at - Vec2::new(0.0, 74.0)
    } else {
        at
    };
    let rect = Rect::from_min_size(at.clamp(room.min, most), galley.size());
    paint_on_paper(painter, rect, galley, light);
}

fn figure_galley(painter: &Painter, text: &str, light: Light) -> Arc<Galley> {
    let ink = theme::colour(Ink::Act, light);
    painter.layout_no_wrap(text.to_owned(), theme::sans_bold(theme::SMALL), ink)
}

fn paint_on_paper(painter: &Painter, rect: Rect, galley: Arc<Galley>, light: Light) {
    let ink = theme::colour(Ink::Act, light);
    painter.rect_filled(
        rect.expand2(Vec2::new(4.0, 1.0)),
        4.0,
        theme::colour(Ink::Panel, light).gamma_multiply(0.9),
    );
    painter.galley(rect.min, galley, ink);
}
