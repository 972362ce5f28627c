//! Ground in common, ground left over, ground joined.
//!
//! The library behind it works on a grid of some 1e-9 of the extent (a micrometre on a farm); corners that come from
//! the outlines given are put back to their own figures, and new ones onto the sides whose crossing they are, so that
//! ground taken from one piece and given to another measures the same on both.

use std::collections::BTreeSet;

use geo::{BooleanOps, MultiPolygon};

use super::geo_shapes::{from_geo, to_geo};
use super::place_key::PlaceKey;
use super::sides::{Meeting, meeting};
use super::{Outline, Point, Ring};

/// How far a corner may be from one given to be that one.
const GRID_M: f64 = 1e-5;

/// The ground that lies in both.
pub fn in_both(one: &Outline, two: &Outline) -> Outline {
    overlay(one, two, MultiPolygon::intersection)
}

/// The ground of the first that is not in the second.
pub fn without(one: &Outline, two: &Outline) -> Outline {
    overlay(one, two, MultiPolygon::difference)
}

/// The ground that lies in either; where the two share a boundary it falls away.
pub fn joined(one: &Outline, two: &Outline) -> Outline {
    overlay(one, two, MultiPolygon::union)
}

/// All the ground of several outlines.
pub fn all_joined<'a>(outlines: impl IntoIterator<Item = &'a Outline>) -> Outline {
    outlines
        .into_iter()
        .fold(Outline::default(), |sum, outline| joined(&sum, outline))
}

fn overlay(
    one: &Outline,
    two: &Outline,
    operation: impl Fn(&MultiPolygon<f64>, &MultiPolygon<f64>) -> MultiPolygon<f64>,
) -> Outline {
    if !(one.is_finite() && two.is_finite()) {
        return Outline::default();
    }
    let mut result = from_geo(operation(&to_geo(one), &to_geo(two)));
    let given = GivenCorners::new(one.rings().chain(two.rings()));
    for ring in result.rings_mut() {
        for corner in &mut ring.corners {
            *corner = given
                .nearest(*corner)
                .unwrap_or_else(|| on_sides(*corner, one, two));
        }
        ring.corners.dedup();
    }
    result
}

/// A new corner put onto the sides it came from: their crossing, or the nearest place of the one side it lies on.
fn on_sides(corner: Point, one: &Outline, two: &Outline) -> Point {
    let near = |outline: &Outline| {
        let sides = outline.rings().flat_map(Ring::sides);
        sides
            .filter(|(from, to)| from != to && in_reach(corner, *from, *to))
            .map(|(from, to)| (corner.nearest_on_side(from, to), (from, to)))
            .filter(|(foot, _)| foot.distance_m(corner) <= GRID_M)
            .min_by(|(a, _), (b, _)| a.distance_m(corner).total_cmp(&b.distance_m(corner)))
    };
    match (near(one), near(two)) {
        (Some((foot, (a, b))), Some((_, (c, d)))) => match meeting(a, b, c, d) {
            Meeting::Cross(place) if place.distance_m(corner) <= GRID_M => place,
            _ => foot,
        },
        (Some((foot, _)), None) | (None, Some((foot, _))) => foot,
        (None, None) => corner,
    }
}

/// Whether a corner lies in the box of a side, the grid's step forgiven.
fn in_reach(corner: Point, from: Point, to: Point) -> bool {
    corner.east_m >= from.east_m.min(to.east_m) - GRID_M
        && corner.east_m <= from.east_m.max(to.east_m) + GRID_M
        && corner.north_m >= from.north_m.min(to.north_m) - GRID_M
        && corner.north_m <= from.north_m.max(to.north_m) + GRID_M
}

/// The corners of the outlines given, to be found again.
struct GivenCorners {
    corners: BTreeSet<PlaceKey>,
}

impl GivenCorners {
    fn new<'a>(rings: impl Iterator<Item = &'a Ring>) -> Self {
        let corners = rings.flat_map(|ring| ring.corners.iter());
        Self {
            corners: corners.map(|corner| PlaceKey(*corner)).collect(),
        }
    }

    fn nearest(&self, place: Point) -> Option<Point> {
        let from = PlaceKey(Point::new(place.east_m - GRID_M, f64::NEG_INFINITY));
        let to = PlaceKey(Point::new(place.east_m + GRID_M, f64::INFINITY));
        self.corners
            .range(from..=to)
            .map(|key| key.0)
            .filter(|corner| corner.distance_m(place) <= GRID_M)
            .min_by(|one, two| one.distance_m(place).total_cmp(&two.distance_m(place)))
    }
}
