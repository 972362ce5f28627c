//! Shapes made from figures, and copies of shapes: rectangles, rows, mirrored and turned. Metres and degrees.

use super::{Outline, Point};

/// The most copies one row makes.
const MOST_COPIES: usize = 10_000;

/// A rectangle with one side from `from` to `to`, reaching as far to the side as `reach` lies from that line.
/// None where the two are one place or the third lies on their line.
pub fn rectangle_by_three_points(from: Point, to: Point, reach: Point) -> Option<Outline> {
    let length_m = from.distance_m(to);
    let (east, north) = (to.east_m - from.east_m, to.north_m - from.north_m);
    let cross = east * (reach.north_m - from.north_m) - north * (reach.east_m - from.east_m);
    let depth_m = cross / length_m;
    if !(depth_m.is_finite() && depth_m.abs() > 0.0) {
        return None;
    }
    // Square to the side, to the left where the depth is above 0.
    let (over_east_m, over_north_m) = (-north / length_m * depth_m, east / length_m * depth_m);
    Some(Outline::simple(vec![
        from,
        to,
        to.moved(over_east_m, over_north_m),
        from.moved(over_east_m, over_north_m),
    ]))
}

/// A rectangle from a corner: `length_m` along the bearing, `width_m` to its right. None where either is not above 0.
pub fn rectangle(corner: Point, bearing_deg: f64, length_m: f64, width_m: f64) -> Option<Outline> {
    let sizes = [length_m, width_m];
    if !(bearing_deg.is_finite()
        && sizes
            .iter()
            .all(|size_m| *size_m > 0.0 && size_m.is_finite()))
    {
        return None;
    }
    let along = corner.towards(bearing_deg, length_m);
    let right_deg = bearing_deg + 90.0;
    Some(Outline::simple(vec![
        corner,
        along,
        along.towards(right_deg, width_m),
        corner.towards(right_deg, width_m),
    ]))
}

/// A regular ring of `corners` corners round a centre. None for fewer than three corners or a radius not above 0.
/// Its area falls short of the circle's by a share of about 6.6 / corners².
pub fn circle(centre: Point, radius_m: f64, corners: u32) -> Option<Outline> {
    if !(corners >= 3 && radius_m > 0.0 && radius_m.is_finite()) {
        return None;
    }
    let step_deg = 360.0 / f64::from(corners);
    let corner = |index: u32| centre.towards(step_deg * f64::from(index), radius_m);
    Some(Outline::simple((0..corners).map(corner).collect()))
}

/// `count` outlines in a row: the one given, then copies of it each `spacing_m` farther along the bearing, counted
/// from a corner to the same corner of the next. At most 10,000.
pub fn row_of_copies(
    outline: &Outline,
    bearing_deg: f64,
    spacing_m: f64,
    count: usize,
) -> Vec<Outline> {
    let mut copies = Vec::new();
    let mut away_m = 0.0;
    for _ in 0..count.min(MOST_COPIES) {
        let by = Point::default().towards(bearing_deg, away_m);
        copies.push(moved(outline, by.east_m, by.north_m));
        away_m += spacing_m;
    }
    copies
}

/// The outline moved by metres east and north.
pub fn moved(outline: &Outline, by_east_m: f64, by_north_m: f64) -> Outline {
    changed(outline, |corner| corner.moved(by_east_m, by_north_m))
}

/// The outline turned clockwise about a place.
pub fn turned(outline: &Outline, about: Point, by_deg: f64) -> Outline {
    let (sine, cosine) = by_deg.to_radians().sin_cos();
    changed(outline, |corner| {
        let (east, north) = (corner.east_m - about.east_m, corner.north_m - about.north_m);
        about.moved(east * cosine + north * sine, north * cosine - east * sine)
    })
}

/// The outline mirrored about the line through two places, wound as before; none where they are one place.
pub fn mirrored(outline: &Outline, from: Point, to: Point) -> Option<Outline> {
    let (east, north) = (to.east_m - from.east_m, to.north_m - from.north_m);
    let squared = east * east + north * north;
    if !(squared > 0.0 && squared.is_finite()) {
        return None;
    }
    let mut mirrored = changed(outline, |corner| {
        let dot = (corner.east_m - from.east_m) * east + (corner.north_m - from.north_m) * north;
        let foot = from.moved(east * dot / squared, north * dot / squared);
        corner.between(foot, 2.0)
    });
    for ring in mirrored.rings_mut() {
        ring.corners.reverse();
    }
    Some(mirrored)
}

fn changed(outline: &Outline, change: impl Fn(Point) -> Point) -> Outline {
    let mut changed = outline.clone();
    for ring in changed.rings_mut() {
        for corner in &mut ring.corners {
            *corner = change(*corner);
        }
    }
    changed
}
