//! The pieces of a straight line that lie inside an outline, holes left out. Metres, bearings in degrees.

use super::{Outline, Point};

/// The pieces of the line through `at` along `bearing_deg` inside `outline`, in order along the bearing. A line along
/// a side may count that side or not.
pub fn chords(outline: &Outline, at: Point, bearing_deg: f64) -> Vec<(Point, Point)> {
    let (sine, cosine) = bearing_deg.to_radians().sin_cos();
    let turned = |point: Point| {
        let (east, north) = (point.east_m - at.east_m, point.north_m - at.north_m);
        (east * sine + north * cosine, east * cosine - north * sine)
    };
    let mut cuts: Vec<f64> = outline
        .rings()
        .flat_map(super::Ring::sides)
        .filter_map(|(from, to)| {
            let ((from_along, from_across), (to_along, to_across)) = (turned(from), turned(to));
            let crosses = (from_across <= 0.0) != (to_across <= 0.0);
            crosses.then(|| {
                from_along + (to_along - from_along) * from_across / (from_across - to_across)
            })
        })
        .filter(|along_m| along_m.is_finite())
        .collect();
    cuts.sort_by(f64::total_cmp);
    cuts.chunks_exact(2)
        .filter_map(|pair| match pair {
            [from, to] if to > from => {
                Some((at.towards(bearing_deg, *from), at.towards(bearing_deg, *to)))
            }
            _ => None,
        })
        .collect()
}

/// Least and most of the outline along and across a bearing, metres from the origin: `((along), (across))`, across to
/// the right. None where there are no corners.
pub fn reach_along_and_across(
    outline: &Outline,
    bearing_deg: f64,
) -> Option<((f64, f64), (f64, f64))> {
    let (sine, cosine) = bearing_deg.to_radians().sin_cos();
    let mut reach: Option<((f64, f64), (f64, f64))> = None;
    for corner in outline.rings().flat_map(|ring| &ring.corners) {
        let along = corner.east_m * sine + corner.north_m * cosine;
        let across = corner.east_m * cosine - corner.north_m * sine;
        let (a, b) = reach.unwrap_or(((along, along), (across, across)));
        reach = Some((
            (a.0.min(along), a.1.max(along)),
            (b.0.min(across), b.1.max(across)),
        ));
    }
    reach
}

/// The place so far along and across a bearing from the origin.
pub fn place_along_and_across(bearing_deg: f64, along_m: f64, across_m: f64) -> Point {
    Point::default()
        .towards(bearing_deg, along_m)
        .towards(bearing_deg + 90.0, across_m)
}
