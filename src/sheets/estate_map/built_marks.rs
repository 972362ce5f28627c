//! What is built, drawn to scale where it can be told apart: hoops at their spacing, beds, posts, the floor of a pond.
//!
//! Each gives nothing where the scale is too small for it or nothing is said, and the pattern of the kind stands
//! instead. Metres; strokes in points.

use super::{MapScale, Mark};
use crate::farm::{
    BedLayout, Beds, Ground, TunnelFrame, fence_posts, gaps_along, lay_out_beds, tunnel_floor,
};
use crate::geometry::buffer::drawn_in;
use crate::geometry::chord::{chords, place_along_and_across, reach_along_and_across};
use crate::geometry::triangulate::fill_mesh;
use crate::geometry::{FourSided, Outline, Point};
use crate::sheets::palette::Ink;

/// Things closer than this on screen are not told apart, points.
const HOOPS_APART: f64 = 4.0;
const BEDS_APART: f64 = 5.0;
const ROWS_APART: f64 = 4.5;
const POSTS_APART: f64 = 7.0;

/// Hoops at their places and the ridge over them.
pub(super) fn hoops(outline: &Outline, frame: TunnelFrame, scale: MapScale) -> Option<Vec<Mark>> {
    if frame.hoop_spacing_m < HOOPS_APART * scale.m_per_point {
        return None;
    }
    let floor = tunnel_floor(outline)?;
    let gaps = gaps_along(floor.length_m, frame.hoop_spacing_m);
    let shares = (0..=gaps).map(|hoop| f64::from(hoop) / f64::from(gaps));
    let (strokes, ridge): (Vec<_>, Vec<_>) = if let Some(four) = FourSided::of(outline) {
        let [(from, to), (beside_from, beside_to)] = four.long_sides();
        let across = shares.map(|share| {
            (
                from.between(to, share),
                beside_from.between(beside_to, share),
            )
        });
        let ridge = (from.between(beside_from, 0.5), to.between(beside_to, 0.5));
        (across.collect(), vec![ridge])
    } else {
        let (along, across) = reach_along_and_across(outline, floor.bearing_deg)?;
        let place =
            |along_m, across_m| place_along_and_across(floor.bearing_deg, along_m, across_m);
        let hoops = shares.flat_map(|share| {
            // A hair inward, so that the first and last hoop lie on the floor.
            let share = share.clamp(1e-6, 1.0 - 1e-6);
            let at = place(along.0 + (along.1 - along.0) * share, across.0);
            chords(outline, at, floor.bearing_deg + 90.0)
        });
        let middle = place(along.0, f64::midpoint(across.0, across.1));
        let ridge = chords(outline, middle, floor.bearing_deg);
        (hoops.collect(), ridge)
    };
    Some(vec![
        hatch(strokes, Ink::Hoop, 1.3),
        hatch(ridge, Ink::Hoop, 0.7),
    ])
}

/// Beds with their edges, and the rows of plants where those can be told apart.
pub(super) fn beds(outline: &Outline, beds: Beds, scale: MapScale) -> Option<Vec<Mark>> {
    if beds.bed_width_m + beds.path_width_m < BEDS_APART * scale.m_per_point {
        return None;
    }
    let layout = lay_out_beds(outline, beds).ok()?;
    let mut marks = vec![Mark::Fill {
        mesh: fill_mesh(&layout.ground),
        ink: Ink::Bed,
    }];
    let row_m = beds.bed_width_m / f64::from(beds.rows.max(1));
    if row_m >= ROWS_APART * scale.m_per_point {
        let rows = (0..beds.rows).map(|row| (f64::from(row) + 0.5) * row_m);
        let rows = rows.collect::<Vec<_>>();
        marks.push(hatch(along_beds(outline, &layout, &rows), Ink::Blade, 0.8));
    }
    // A hair inside, so that an edge on the boundary is there too.
    let edges = [1e-4, beds.bed_width_m - 1e-4];
    marks.push(hatch(
        along_beds(outline, &layout, &edges),
        Ink::Furrow,
        0.9,
    ));
    Some(marks)
}

/// Lines along every bed, so far from its left edge.
fn along_beds(outline: &Outline, layout: &BedLayout, from_left_m: &[f64]) -> Vec<(Point, Point)> {
    let mut lines = Vec::new();
    for left_m in &layout.left_edges_m {
        for aside_m in from_left_m {
            let at = place_along_and_across(layout.bearing_deg, 0.0, left_m + aside_m);
            lines.extend(chords(outline, at, layout.bearing_deg));
        }
    }
    lines
}

/// The line of a fence with a dot at each post.
pub(super) fn posts(ground: &Ground, line: &[Point], scale: MapScale) -> Option<Vec<Mark>> {
    let posts = ground.posts?;
    if posts.spacing_m < POSTS_APART * scale.m_per_point {
        return None;
    }
    Some(vec![
        Mark::Stroke {
            line: line.to_vec(),
            is_closed: false,
            ink: Ink::Ink,
            width: 1.1,
            dash: None,
        },
        Mark::Discs {
            middles: fence_posts(line, posts.spacing_m),
            radius_m: (0.06f64).max(scale.m_per_point * 2.0),
            ink: Ink::Ink,
            edge: Ink::Ink,
            edge_width: 0.0,
        },
    ])
}

/// The floor of a pond, and half-way down to it; nothing where the sides meet before.
pub(super) fn basin(ground: &Ground, outline: &Outline) -> Vec<Mark> {
    let Some(basin) = ground.basin.filter(|basin| basin.side_run > 0.0) else {
        return Vec::new();
    };
    let mut marks = Vec::new();
    for (share, width) in [(0.5, 0.8), (1.0, 1.2)] {
        let level = drawn_in(outline, basin.depth_m * basin.side_run * share);
        marks.extend(level.rings().map(|ring| Mark::Stroke {
            line: ring.corners.clone(),
            is_closed: true,
            ink: Ink::Ripple,
            width,
            dash: Some((4.0, 3.0)),
        }));
    }
    marks
}

fn hatch(strokes: Vec<(Point, Point)>, ink: Ink, width: f64) -> Mark {
    Mark::Hatch {
        strokes,
        ink,
        width,
    }
}
