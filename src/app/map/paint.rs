//! Puts marks of the pen on the screen.
//!
//! The one place where a mark becomes the toolkit's shapes; fills go in as triangles, so any outline fills right.

use egui::epaint::{Mesh, Vertex, WHITE_UV};
use egui::{Color32, Painter, Pos2, Rect, Shape, Stroke};

use super::GroundView;
use super::disc::Disc;
use crate::app::theme;
use crate::geometry::Point;
use crate::geometry::triangulate::FillMesh;
use crate::sheets::estate_map::Mark;
use crate::sheets::palette::Light;

/// Paints marks in order.
pub(super) fn paint_marks(painter: &Painter, view: &GroundView, light: Light, marks: &[Mark]) {
    let seen = view.screen.intersect(painter.clip_rect());
    for mark in marks {
        mark_shapes(view, seen, light, mark, &mut |shape| {
            painter.add(shape);
        });
    }
}

/// Hands on the shapes of a mark that come into `seen`, a part of the screen.
pub(super) fn mark_shapes(
    view: &GroundView,
    seen: Rect,
    light: Light,
    mark: &Mark,
    put: &mut dyn FnMut(Shape),
) {
    match mark {
        Mark::Fill { mesh, ink } => put(fill_shape(view, mesh, theme::colour(*ink, light))),
        Mark::Stroke {
            line,
            is_closed,
            ink,
            width,
            dash,
        } => {
            let points: Vec<Pos2> = line
                .iter()
                .map(|point| view.screen_from_ground(*point))
                .collect();
            let width = narrow(*width);
            if !seen.intersects(Rect::from_points(&points).expand(width + 1.0)) {
                return;
            }
            let stroke = Stroke::new(width, theme::colour(*ink, light));
            line_shapes(points, *is_closed, stroke, *dash, put);
        }
        Mark::Hatch {
            strokes,
            ink,
            width,
        } => put(hatch_mesh(
            view,
            seen,
            strokes,
            narrow(*width),
            theme::colour(*ink, light),
        )),
        Mark::Discs {
            middles,
            radius_m,
            ink,
            edge,
            edge_width,
        } => {
            let radius = narrow(radius_m / view.m_per_point);
            let disc = Disc::new(
                radius,
                theme::colour(*ink, light),
                Stroke::new(narrow(*edge_width), theme::colour(*edge, light)),
            );
            let seen = seen.expand(radius + 2.0);
            let middles = middles.iter().map(|at| view.screen_from_ground(*at));
            put(disc.mesh_at(middles.filter(|at| seen.contains(*at))));
        }
    }
}

/// Triangles on the ground as the toolkit's mesh.
pub fn fill_shape(view: &GroundView, mesh: &FillMesh, color: Color32) -> Shape {
    let vertices = mesh
        .positions
        .iter()
        .map(|corner| Vertex {
            pos: view.screen_from_ground(*corner),
            uv: WHITE_UV,
            color,
        })
        .collect();
    let indices = mesh.triangles.iter().flatten().copied().collect();
    Shape::mesh(Mesh {
        indices,
        vertices,
        ..Mesh::default()
    })
}

/// A line, broken where `dash` gives dash and gap.
pub(super) fn paint_line(
    painter: &Painter,
    points: Vec<Pos2>,
    is_closed: bool,
    stroke: Stroke,
    dash: Option<(f64, f64)>,
) {
    line_shapes(points, is_closed, stroke, dash, &mut |shape| {
        painter.add(shape);
    });
}

fn line_shapes(
    mut points: Vec<Pos2>,
    is_closed: bool,
    stroke: Stroke,
    dash: Option<(f64, f64)>,
    put: &mut dyn FnMut(Shape),
) {
    // Corners closer than a screen can part would grow spikes where sides meet.
    points.dedup_by(|next, kept| kept.distance_sq(*next) < 0.5);
    if points.len() > 1
        && is_closed
        && points
            .first()
            .zip(points.last())
            .is_some_and(|(a, b)| a.distance_sq(*b) < 0.5)
    {
        points.pop();
    }
    if points.len() < 2 {
        return;
    }
    match dash {
        Some((on, off)) => {
            if is_closed {
                points.extend(points.first().copied());
            }
            for dash in Shape::dashed_line(&points, stroke, narrow(on), narrow(off)) {
                put(dash);
            }
        }
        None => solid_line(points, is_closed, stroke, put),
    }
}

/// A line without gaps, in parts that meet wherever it turns back on itself: there the pen would draw a long spike.
fn solid_line(mut points: Vec<Pos2>, is_closed: bool, stroke: Stroke, put: &mut dyn FnMut(Shape)) {
    let count = points.len();
    let turns_back = |at: usize| {
        let (before, here, after) = (
            points.get((at + count - 1) % count),
            points.get(at),
            points.get((at + 1) % count),
        );
        let (Some(before), Some(here), Some(after)) = (before, here, after) else {
            return false;
        };
        (*before - *here)
            .normalized()
            .dot((*after - *here).normalized())
            > SHARPEST_COSINE
    };
    let inner = if is_closed {
        0..count
    } else {
        1..count.saturating_sub(1)
    };
    let sharp: Vec<usize> = inner.filter(|&at| turns_back(at)).collect();
    match sharp.first() {
        None if is_closed => return put(Shape::closed_line(points, stroke)),
        None => return put(Shape::line(points, stroke)),
        Some(&first) if is_closed => {
            points.rotate_left(first);
            points.extend(points.first().copied());
        }
        Some(_) => {}
    }
    let shift = if is_closed {
        sharp.first().copied().unwrap_or(0)
    } else {
        0
    };
    let mut from = 0;
    for end in sharp
        .iter()
        .map(|at| at - shift)
        .filter(|at| *at > 0)
        .chain([points.len() - 1])
    {
        let part = points.get(from..=end).unwrap_or_default();
        put(Shape::line(part.to_vec(), stroke));
        from = end;
    }
}

/// Sides that meet at less than some 25 degrees are drawn apart.
const SHARPEST_COSINE: f32 = 0.906;

/// Thin separate strokes as one mesh: far cheaper than a shape each. Both edges fade out, so that slanting strokes
/// do not break up into steps.
fn hatch_mesh(
    view: &GroundView,
    seen: Rect,
    strokes: &[(Point, Point)],
    width: f32,
    color: Color32,
) -> Shape {
    let mut mesh = Mesh::default();
    let seen = seen.expand(8.0);
    // A stroke thinner than a point is drawn a point wide and paler.
    let solid = color.gamma_multiply(width.min(1.0));
    let reach = width.max(1.0) / 2.0 + 0.5;
    for (from, to) in strokes {
        let (from, to) = (view.screen_from_ground(*from), view.screen_from_ground(*to));
        if !seen.intersects(Rect::from_two_pos(from, to).expand(1.0)) {
            continue;
        }
        let aside = (to - from).normalized().rot90() * reach;
        let base = u32::try_from(mesh.vertices.len()).unwrap_or(0);
        for (offset, color) in [
            (-1.0, Color32::TRANSPARENT),
            (0.0, solid),
            (1.0, Color32::TRANSPARENT),
        ] {
            for end in [from, to] {
                mesh.vertices.push(Vertex {
                    pos: end + aside * offset,
                    uv: WHITE_UV,
                    color,
                });
            }
        }
        for strip in [0, 2] {
            mesh.add_triangle(base + strip, base + strip + 1, base + strip + 2);
            mesh.add_triangle(base + strip + 1, base + strip + 3, base + strip + 2);
        }
    }
    Shape::mesh(mesh)
}

fn narrow(value: f64) -> f32 {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "points on a screen are f32"
    )]
    let narrowed = value as f32;
    narrowed
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(places: &[(f32, f32)], is_closed: bool) -> Vec<(Vec<Pos2>, bool)> {
        let points = places.iter().map(|&(x, y)| Pos2::new(x, y)).collect();
        let mut found = Vec::new();
        let stroke = Stroke::new(1.0, Color32::BLACK);
        line_shapes(points, is_closed, stroke, None, &mut |shape| match shape {
            Shape::Path(path) => found.push((path.points, path.closed)),
            Shape::LineSegment { points, .. } => found.push((points.to_vec(), false)),
            _ => found.push((Vec::new(), false)),
        });
        found
    }

    #[test]
    fn a_line_that_turns_back_on_itself_is_drawn_in_two_parts_that_meet() {
        let found = parts(&[(0.0, 0.0), (50.0, 0.0), (100.0, 0.0), (60.0, 1.0)], false);
        let turn = Some(Pos2::new(100.0, 0.0));
        assert_eq!(found.len(), 2);
        let ends: Vec<_> = found.iter().map(|(part, _)| part.last().copied()).collect();
        let starts: Vec<_> = found
            .iter()
            .map(|(part, _)| part.first().copied())
            .collect();
        assert_eq!((ends.first(), starts.last()), (Some(&turn), Some(&turn)));
    }

    #[test]
    fn an_outline_with_a_needle_goes_once_round_from_the_needle() {
        let corners = [(0.0, 0.0), (100.0, 0.0), (0.0, 4.0)];
        let found = parts(&corners, true);
        assert!(found.iter().all(|(_, is_closed)| !is_closed));
        // Three sides in all, each drawn once.
        let sides: usize = found.iter().map(|(part, _)| part.len() - 1).sum();
        assert_eq!(sides, 3);
        let first = found.first().and_then(|(part, _)| part.first());
        let last = found.last().and_then(|(part, _)| part.last());
        assert_eq!(first, last);
    }

    #[test]
    fn a_square_stays_one_closed_line() {
        let found = parts(&[(0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0)], true);
        let closed: Vec<bool> = found.iter().map(|(_, is_closed)| *is_closed).collect();
        assert_eq!(closed, [true]);
    }
}
