//! Triangles that fill an outline of any form, holes left out.
//!
//! Knows no colour. Metres.

use earcut::Earcut;

use super::{Outline, Point};

/// Corners and corner indices, three a triangle, that fill `outline`.
pub fn fill_triangles(outline: &Outline) -> (Vec<Point>, Vec<u32>) {
    let mut corners: Vec<Point> = Vec::new();
    let mut triangles: Vec<u32> = Vec::new();
    let mut cutter = Earcut::new();
    for part in &outline.parts {
        let base = u32::try_from(corners.len()).unwrap_or(u32::MAX);
        let first = corners.len();
        let mut hole_starts: Vec<u32> = Vec::new();
        for (place, ring) in part.rings().enumerate() {
            if place > 0 {
                hole_starts.push(u32::try_from(corners.len() - first).unwrap_or(u32::MAX));
            }
            corners.extend(ring.corners.iter().copied());
        }
        let shift = corners.get(first).copied().unwrap_or_default();
        let mut part_triangles: Vec<u32> = Vec::new();
        let data = corners
            .iter()
            .skip(first)
            .map(|c| [c.east_m - shift.east_m, c.north_m - shift.north_m]);
        cutter.earcut(data, &hole_starts, &mut part_triangles);
        triangles.extend(part_triangles.into_iter().map(|index| base + index));
    }
    (corners, triangles)
}
