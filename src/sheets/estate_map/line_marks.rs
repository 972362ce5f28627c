//! How lines and single places are drawn: tracks, hedges, fences, tree lines, gates, troughs.
//!
//! Metres; strokes in points.

use super::patterns::{hedge_discs, places_along};
use super::{MapScale, Mark, built_marks};
use crate::farm::{Ground, Kind};
use crate::geometry::Point;
use crate::geometry::triangulate::FillMesh;
use crate::sheets::palette::Ink;

/// Marks of a line.
pub(super) fn line_marks(ground: &Ground, line: &[Point], scale: MapScale) -> Vec<Mark> {
    let width_m = ground.drawn_width_m();
    match ground.kind {
        Kind::Hedge => vec![hedge_discs(line, width_m, scale)],
        Kind::TreeLine => tree_line(ground, line, scale),
        Kind::Track => banded(line, width_m, scale, Ink::Rule, Ink::Track),
        Kind::Water => banded(line, width_m, scale, Ink::Ripple, Ink::Water),
        Kind::Gate => gate(line),
        Kind::Fence => {
            built_marks::posts(ground, line, scale).unwrap_or_else(|| fence(line, scale))
        }
        Kind::Note => measured(line, scale),
        _ => vec![stroke(line, Ink::Ink, 1.4)],
    }
}

/// Marks of a single place.
pub(super) fn place_marks(ground: &Ground, place: Point, scale: MapScale) -> Vec<Mark> {
    if ground.kind == Kind::Note {
        return vec![Mark::Discs {
            middles: vec![place],
            radius_m: scale.m_per_point * 2.0,
            ink: Ink::Soft,
            edge: Ink::Paper,
            edge_width: 1.0,
        }];
    }
    let half_m = scale.m_per_point * 4.0;
    let (ink, edge) = match ground.kind {
        Kind::Trough | Kind::Water => (Ink::Water, Ink::Ripple),
        Kind::Building => (Ink::Building, Ink::Roof),
        _ => (Ink::Paper, Ink::Ink),
    };
    let corners = [(-1.3, -0.8), (1.3, -0.8), (1.3, 0.8), (-1.3, 0.8)]
        .map(|(east, north)| place.moved(east * half_m, north * half_m))
        .to_vec();
    vec![
        Mark::Fill {
            mesh: FillMesh {
                positions: corners.clone(),
                triangles: vec![[0, 1, 2], [0, 2, 3]],
            },
            ink,
        },
        Mark::Stroke {
            line: corners,
            is_closed: true,
            ink: edge,
            width: 1.4,
            dash: None,
        },
    ]
}

fn stroke(line: &[Point], ink: Ink, width: f64) -> Mark {
    Mark::Stroke {
        line: line.to_vec(),
        is_closed: false,
        ink,
        width,
        dash: None,
    }
}

/// A band of a width on the ground with an edge on both sides.
fn banded(line: &[Point], width_m: f64, scale: MapScale, edge: Ink, fill: Ink) -> Vec<Mark> {
    let width = (width_m / scale.m_per_point).max(2.0);
    vec![stroke(line, edge, width + 1.8), stroke(line, fill, width)]
}

fn tree_line(ground: &Ground, line: &[Point], scale: MapScale) -> Vec<Mark> {
    let mut marks = Vec::new();
    if let Some(row) = &ground.trees {
        let radius_m = (row.crown_m / 2.0).max(scale.m_per_point * 2.0);
        // Crowns closer than they are wide on screen are thinned, so a far view stays a row and not a bar.
        let step_m = scale.spacing_m(row.spacing_m, 4.5);
        let middles: Vec<Point> = places_along(line, row.first_m, step_m)
            .into_iter()
            .map(|(place, _)| place)
            .collect();
        if scale.m_per_point < 0.25 {
            let stems = Mark::Discs {
                middles: middles.clone(),
                radius_m: 0.25,
                ink: Ink::TreeRing,
                edge: Ink::TreeRing,
                edge_width: 0.0,
            };
            marks.push(crown_discs(middles, radius_m));
            marks.push(stems);
        } else {
            marks.push(crown_discs(middles, radius_m));
        }
    } else {
        marks.push(stroke(line, Ink::TreeRing, 2.0));
        let middles = places_along(line, 0.0, scale.spacing_m(6.0, 12.0))
            .into_iter()
            .map(|(place, _)| place);
        marks.push(crown_discs(
            middles.collect(),
            (1.5f64).max(scale.m_per_point * 3.0),
        ));
    }
    marks
}

fn crown_discs(middles: Vec<Point>, radius_m: f64) -> Mark {
    Mark::Discs {
        middles,
        radius_m,
        ink: Ink::Tree,
        edge: Ink::TreeRing,
        edge_width: 1.0,
    }
}

fn fence(line: &[Point], scale: MapScale) -> Vec<Mark> {
    let tick_m = scale.m_per_point * 2.6;
    let strokes = places_along(line, 0.0, scale.spacing_m(5.0, 12.0))
        .into_iter()
        .map(|(place, bearing_deg)| {
            (
                place.towards(bearing_deg - 90.0, tick_m),
                place.towards(bearing_deg + 90.0, tick_m),
            )
        })
        .collect();
    vec![
        stroke(line, Ink::Ink, 1.1),
        Mark::Hatch {
            strokes,
            ink: Ink::Ink,
            width: 1.1,
        },
    ]
}

/// A kept measurement: a thin line with a bar across each end and corner.
fn measured(line: &[Point], scale: MapScale) -> Vec<Mark> {
    let bar_m = scale.m_per_point * 4.0;
    let mut strokes = Vec::new();
    for (from, to) in line.iter().zip(line.iter().skip(1)) {
        let across_deg = from.bearing_deg(*to) + 90.0;
        for end in [from, to] {
            strokes.push((
                end.towards(across_deg, bar_m),
                end.towards(across_deg, -bar_m),
            ));
        }
    }
    vec![
        stroke(line, Ink::Soft, 1.0),
        Mark::Hatch {
            strokes,
            ink: Ink::Soft,
            width: 1.0,
        },
    ]
}

fn gate(line: &[Point]) -> Vec<Mark> {
    vec![stroke(line, Ink::Paper, 5.0), stroke(line, Ink::Act, 2.4)]
}
