//! Oblongs on the ground (four square corners in order) against outlines and against each other.
//!
//! Knows nothing of what stands in them. Metres; what only touches, or laps over by under a millimetre, is apart.

use super::{Outline, Point, Ring};

/// A strip so narrow along a side does not count as shared ground: corners lie on whole millimetres.
const TOUCHING_M: f64 = 1.0e-3;

/// Four corners in order, each at a right angle.
pub type Oblong = [Point; 4];

/// Whether an oblong and an outline share ground.
pub fn shares_ground(oblong: &Oblong, outline: &Outline) -> bool {
    is_near(oblong, outline)
        && (outline.contains(middle_of(oblong)) || has_side_inside(oblong, outline))
}

/// Whether an oblong lies in an outline altogether.
pub fn lies_within(oblong: &Oblong, outline: &Outline) -> bool {
    outline.contains(middle_of(oblong)) && !has_side_inside(oblong, outline)
}

/// Whether a place lies in an oblong or within `reach_m` of it.
pub fn is_within_reach(oblong: &Oblong, place: Point, reach_m: f64) -> bool {
    let axes = axes_of(oblong);
    axes.iter().all(|axis| {
        let (least, most) = span(axis, oblong);
        let at = axis.along(place);
        at > least - reach_m && at < most + reach_m
    })
}

/// Whether two oblongs share ground: no line along a side of either parts them.
pub fn overlap(one: &Oblong, other: &Oblong) -> bool {
    !is_parted(one, other) && !is_parted(other, one)
}

/// The middle of an oblong.
pub fn middle_of(oblong: &Oblong) -> Point {
    let [a, _, c, _] = oblong;
    a.between(*c, 0.5)
}

/// A direction through a place.
struct Axis {
    from: Point,
    east: f64,
    north: f64,
}

impl Axis {
    fn through(from: Point, to: Point) -> Option<Self> {
        let length_m = from.distance_m(to);
        (length_m > 0.0).then(|| Self {
            from,
            east: (to.east_m - from.east_m) / length_m,
            north: (to.north_m - from.north_m) / length_m,
        })
    }

    fn along(&self, place: Point) -> f64 {
        (place.east_m - self.from.east_m) * self.east
            + (place.north_m - self.from.north_m) * self.north
    }
}

fn axes_of([a, b, c, _]: &Oblong) -> Vec<Axis> {
    [(a, b), (b, c)]
        .into_iter()
        .filter_map(|(from, to)| Axis::through(*from, *to))
        .collect()
}

fn span(axis: &Axis, corners: &[Point]) -> (f64, f64) {
    corners
        .iter()
        .map(|corner| axis.along(*corner))
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), at| {
            (least.min(at), most.max(at))
        })
}

fn is_parted(one: &Oblong, other: &Oblong) -> bool {
    axes_of(one).iter().any(|axis| {
        let ((least, most), (other_least, other_most)) = (span(axis, one), span(axis, other));
        most.min(other_most) - least.max(other_least) <= TOUCHING_M
    })
}

fn is_near(oblong: &Oblong, outline: &Outline) -> bool {
    let bounds = super::Bounds::of_points(oblong.iter().copied());
    matches!((bounds, outline.bounds()), (Some(one), Some(other)) if one.meets(other))
}

/// Whether a side of the outline runs through the oblong, a hair's breadth along its own sides left out.
fn has_side_inside(oblong: &Oblong, outline: &Outline) -> bool {
    let axes = axes_of(oblong);
    let spans: Vec<(f64, f64)> = axes
        .iter()
        .map(|axis| {
            let (least, most) = span(axis, oblong);
            (least + TOUCHING_M, most - TOUCHING_M)
        })
        .collect();
    outline
        .rings()
        .flat_map(Ring::sides)
        .any(|(from, to)| passes_through(&axes, &spans, from, to))
}

/// Whether some of the straight line between two places lies between the spans of both axes.
fn passes_through(axes: &[Axis], spans: &[(f64, f64)], from: Point, to: Point) -> bool {
    let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
    for (axis, (least, most)) in axes.iter().zip(spans) {
        let (start, end) = (axis.along(from), axis.along(to));
        if (end - start).abs() < f64::EPSILON {
            if start <= *least || start >= *most {
                return false;
            }
            continue;
        }
        let (one, other) = (
            (least - start) / (end - start),
            (most - start) / (end - start),
        );
        enters = enters.max(one.min(other));
        leaves = leaves.min(one.max(other));
    }
    enters < leaves
}
