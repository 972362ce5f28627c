//! Names on the map: inside their ground where they fit, smaller or turned where they must, else beside it on a
//! leader; never one over another.
//!
//! Text is laid out at screen size; places come from the ground.

mod label;
mod on_lines;

use std::collections::BTreeSet;

use std::sync::Arc;

use egui::{Align2, Galley, Painter, Pos2, Rect, Vec2};

use self::label::{Label, least_length};
pub(super) use self::on_lines::paint_lengths;
use super::{GroundView, course_year};
use crate::app::desk::Desk;
use crate::app::theme;
use crate::app::tools::Preview;
use crate::farm::{Ground, GroundId, Kind, Shape};
use crate::geometry::{Bounds, Outline, Point};
use crate::quantity::{UnitSystem, area_text};
use crate::sheets::palette::{Ink, Light};

/// Ground with less room than this about its middle gets no name, points.
const LEAST_ROOM: f64 = 3.5;
/// Names on leaders at most, on the map and beyond its sides each: more would be a thicket.
const MOST_LEADERS: usize = 24;

/// Labels are placed so far beyond the map's sides, so that most of a pan only moves them, points.
const BEYOND: f32 = 200.0;

/// Where the labels stand, kept while the view moves and nothing else changes.
#[derive(Debug, Default)]
pub struct KeptLabels {
    placed: Option<Placed>,
}

#[derive(Debug)]
struct Placed {
    asked: Asked,
    view: GroundView,
    labels: Vec<Label>,
}

/// What labels were placed for.
#[derive(Debug, PartialEq)]
struct Asked {
    round: u64,
    hidden: BTreeSet<Kind>,
    year: Option<i16>,
    is_metric: bool,
    light: Light,
    pixels_per_point: f32,
    told: BTreeSet<GroundId>,
}

/// Writes the names, notes first, then the largest ground first, each where it covers no other; gives back what is
/// covered.
pub(super) fn paint_labels(
    painter: &Painter,
    desk: &mut Desk,
    preview: &Preview,
    light: Light,
) -> Vec<Rect> {
    let asked = Asked {
        round: desk.reckoned().round(),
        hidden: desk.hidden.clone(),
        year: course_year::year_on_map(desk),
        is_metric: desk.units() == UnitSystem::Metric,
        light,
        pixels_per_point: painter.ctx().pixels_per_point(),
        told: told(preview),
    };
    let kept = desk.map_labels.placed.take();
    let placed = match kept.filter(|kept| kept.stands(&asked, &desk.view)) {
        Some(kept) => kept,
        None => Placed {
            labels: placed_labels(painter, desk, &asked.told, light),
            view: desk.view,
            asked,
        },
    };
    let moved = desk.view.screen_from_ground(placed.view.middle) - placed.view.screen.center();
    let mut taken = Vec::new();
    for label in &placed.labels {
        if desk.view.screen.contains_rect(label.rect.translate(moved)) {
            let label = label.shifted(moved);
            label.paint(painter, light);
            taken.push(label.rect);
        }
    }
    desk.map_labels.placed = Some(placed);
    taken
}

impl Placed {
    /// Whether the labels stand as they would be placed now, but for the way that the view has moved.
    fn stands(&self, asked: &Asked, view: &GroundView) -> bool {
        let is_same_scale = self.view.m_per_point.to_bits() == view.m_per_point.to_bits();
        let moved = view.screen_from_ground(self.view.middle) - view.screen.center();
        self.asked == *asked
            && is_same_scale
            && self.view.screen.size() == view.screen.size()
            && moved.abs().max_elem() <= BEYOND
    }
}

/// What a figure of an act tells of: the figure bears the name itself.
fn told(preview: &Preview) -> BTreeSet<GroundId> {
    if preview.figures.is_empty() {
        return BTreeSet::new();
    }
    preview.changed.iter().map(|(id, _)| *id).collect()
}

fn placed_labels(
    painter: &Painter,
    desk: &Desk,
    told: &BTreeSet<GroundId>,
    light: Light,
) -> Vec<Label> {
    let seen = desk.view.screen.expand(BEYOND);
    let mut labels: Vec<Label> = Vec::new();
    let mut taken: Vec<Rect> = Vec::new();
    let mut left_over: Vec<(GroundId, &Ground)> = Vec::new();
    let named = in_order(desk, seen);
    for (id, ground) in named.into_iter().filter(|(id, _)| !told.contains(id)) {
        let label = match &ground.shape {
            Shape::Area(outline) => inside(painter, desk, (id, ground), outline, light),
            Shape::Line(line) => on_lines::along(painter, desk, ground, line, light),
            Shape::Place(place) => Some(on_lines::beside(painter, desk, ground, *place, light)),
        };
        match label {
            Some(label) if label.is_free(seen, &taken) => {
                taken.push(label.rect);
                labels.push(label);
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
    let mut left = [MOST_LEADERS; 2];
    for ((middle, _), ground) in leaders {
        let at = desk.view.screen_from_ground(middle);
        let is_on_screen = desk.view.screen.contains(at);
        let Some(left) = left
            .get_mut(usize::from(is_on_screen))
            .filter(|left| **left > 0)
        else {
            continue;
        };
        *left -= 1;
        if let Some(label) = on_leader(painter, desk, ground, middle, (seen, &taken), light) {
            taken.push(label.rect);
            labels.push(label);
        }
    }
    labels
}

/// What is named in a part of the screen, in the order in which it may choose its room.
fn in_order(desk: &Desk, seen: Rect) -> Vec<(GroundId, &Ground)> {
    let view = &desk.view;
    let bounds = Bounds {
        least: view.ground_from_screen(seen.left_bottom()),
        most: view.ground_from_screen(seen.right_top()),
    };
    // A ley cut into strips gives the room to its strips.
    let gives_way = |id: GroundId| match course_year::year_on_map(desk) {
        Some(_) => course_year::is_hidden(desk, id),
        None => desk.reckoned().is_cut(id),
    };
    let mut rows: Vec<(bool, f64, GroundId, &Ground)> = desk
        .neighbourhood()
        .near(bounds)
        .into_iter()
        .filter_map(|id| desk.farm().ground.get(&id).map(|ground| (id, ground)))
        .filter(|(id, ground)| {
            is_named_on_map(ground) && !gives_way(*id) && !desk.hidden.contains(&ground.kind)
        })
        .map(|(id, ground)| {
            let area_m2 = desk.measures(id).area_m2.unwrap_or(0.0);
            (ground.kind != Kind::Note, area_m2, id, ground)
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
        .expand(BEYOND)
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
    let longest = outline
        .bounds()
        .map_or(0.0, |bounds| bounds.width_m().hypot(bounds.height_m()))
        / desk.view.m_per_point;
    tries.into_iter().find_map(|(lines, turn)| {
        // Most ground of a large farm is far too small for its name: no letter need be laid out to know it.
        let least = lines
            .iter()
            .map(|(text, font, _)| least_length(text, font.size))
            .fold(0.0, f32::max);
        if f64::from(least) > longest {
            return None;
        }
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
    (seen, taken): (Rect, &[Rect]),
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
            label.is_free(seen, taken).then_some(label)
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
