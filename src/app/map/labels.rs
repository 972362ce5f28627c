//! Names on the map: inside their ground where they fit, smaller where they must, never one over another.
//!
//! Text is laid out at screen size; places come from the ground.

use std::collections::BTreeSet;

use egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Vec2};

use super::{GroundView, course_year};
use crate::app::desk::Desk;
use crate::app::theme;
use crate::farm::{Ground, GroundId, Kind, Shape};
use crate::geometry::Point;
use crate::quantity::area_text;
use crate::sheets::palette::{Ink, Light};

/// Writes the names, the largest ground first, each where it covers no other.
pub(super) fn paint_labels(painter: &Painter, desk: &Desk, light: Light) {
    let mut taken: Vec<Rect> = Vec::new();
    let mut rows: Vec<(f64, GroundId, &Ground)> = desk
        .farm()
        .ground
        .iter()
        .filter(|(_, ground)| is_named_on_map(ground))
        .map(|(id, ground)| {
            (
                ground
                    .outline()
                    .map_or(0.0, crate::geometry::Outline::area_m2),
                *id,
                ground,
            )
        })
        .collect();
    // A ley cut into strips gives the room to its strips.
    rows.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    let cut: BTreeSet<GroundId> = desk
        .farm()
        .ground
        .values()
        .filter_map(|ground| ground.within)
        .collect();
    let year = course_year::year_on_map(desk);
    for (_, id, ground) in rows {
        let gives_way = match year {
            Some(_) => course_year::is_hidden(desk, id),
            None => cut.contains(&id),
        };
        if gives_way {
            continue;
        }
        if let Some(label) = laid_out(painter, desk, id, ground, light)
            && desk.view.screen.contains_rect(label.rect)
            && !taken.iter().any(|other| other.intersects(label.rect))
        {
            taken.push(label.rect);
            label.paint(painter, light);
        }
    }
}

fn is_named_on_map(ground: &Ground) -> bool {
    !matches!(
        ground.kind,
        Kind::Fence | Kind::Hedge | Kind::Gate | Kind::Track | Kind::Trough
    ) && !matches!(ground.shape, Shape::Line(_))
}

struct Label {
    rect: Rect,
    at: Pos2,
    lines: Vec<(String, FontId, Color32)>,
}

impl Label {
    fn paint(&self, painter: &Painter, light: Light) {
        let halo = theme::colour(Ink::Panel, light).gamma_multiply(0.55);
        let mut y = self.rect.top();
        for (text, font, ink) in &self.lines {
            let galley = painter.layout_no_wrap(text.clone(), font.clone(), *ink);
            let size = galley.size();
            let pos = Pos2::new(self.at.x - size.x / 2.0, y);
            // A soft ground under the words keeps them apart from the pattern.
            painter.rect_filled(
                Rect::from_min_size(pos, size).expand2(Vec2::new(3.0, -1.0)),
                4.0,
                halo,
            );
            painter.galley(pos, galley, *ink);
            y += size.y - 3.0;
        }
    }
}

/// The label of a piece, with both lines, one, or none, as its room allows.
fn laid_out(
    painter: &Painter,
    desk: &Desk,
    id: GroundId,
    ground: &Ground,
    light: Light,
) -> Option<Label> {
    let outline = ground.outline()?;
    let label = desk.map_cache.label_place(id, outline)?;
    let (middle, room_m) = (label.place, label.clearance_m);
    let at = desk.view.screen_from_ground(middle);
    let ink = theme::colour(Ink::Ink, light);
    let name_font = |size: f32| match ground.kind {
        Kind::Water => theme::serif_italic(size),
        _ => theme::serif(size),
    };
    let name_ink = if ground.kind == Kind::Water {
        theme::colour(Ink::Ink, light)
    } else {
        ink
    };
    let second = second_line(desk, id, ground);
    let measure = |lines: &[(String, FontId, Color32)]| {
        let mut size = Vec2::ZERO;
        for (text, font, ink) in lines {
            let line = painter
                .layout_no_wrap(text.clone(), font.clone(), *ink)
                .size();
            size = Vec2::new(size.x.max(line.x), size.y + line.y - 3.0);
        }
        size + Vec2::new(0.0, 3.0)
    };
    let name = |size: f32| (ground.name.clone(), name_font(size), name_ink);
    let mut tries: Vec<Vec<(String, FontId, Color32)>> = Vec::new();
    if let Some(second) = second {
        tries.push(vec![name(16.0), (second, theme::sans(theme::SMALL), ink)]);
    }
    tries.push(vec![name(16.0)]);
    tries.push(vec![name(13.0)]);
    tries.into_iter().find_map(|lines| {
        let size = measure(&lines);
        let fits = fits_in(&desk.view, outline, middle, room_m, size);
        fits.then(|| Label {
            rect: Rect::from_center_size(at, size),
            at,
            lines,
        })
    })
}

/// Whether a box of this size about the middle lies inside the outline.
fn fits_in(
    view: &GroundView,
    outline: &crate::geometry::Outline,
    middle: Point,
    room_m: f64,
    size: Vec2,
) -> bool {
    let half_east_m = f64::from(size.x) / 2.0 * view.m_per_point;
    let half_north_m = f64::from(size.y) / 2.0 * view.m_per_point;
    if half_east_m.hypot(half_north_m) <= room_m {
        return true;
    }
    let shares = [-1.0, -0.5, 0.0, 0.5, 1.0];
    shares.iter().all(|east| {
        [-1.0, 0.0, 1.0]
            .iter()
            .all(|north| outline.contains(middle.moved(east * half_east_m, north * half_north_m)))
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

/// A figure beside a side or at the pointer, on a ground of paper.
pub(super) fn paint_figure(painter: &Painter, at: Pos2, align: Align2, text: &str, light: Light) {
    let ink = theme::colour(Ink::Act, light);
    let galley = painter.layout_no_wrap(text.to_owned(), theme::sans_bold(theme::SMALL), ink);
    let rect = align.anchor_size(at, galley.size());
    painter.rect_filled(
        rect.expand2(Vec2::new(4.0, 1.0)),
        4.0,
        theme::colour(Ink::Panel, light).gamma_multiply(0.9),
    );
    painter.galley(rect.min, galley, ink);
}
