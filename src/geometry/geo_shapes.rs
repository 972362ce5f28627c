//! Our shapes as those of the geometry library, and back. Metres.

use geo::{Coord, LineString, MultiPolygon};

use super::{Outline, Point, Polygon, Ring};

pub(super) fn to_geo(outline: &Outline) -> MultiPolygon<f64> {
    MultiPolygon::new(
        outline
            .parts
            .iter()
            .map(|part| {
                let holes = part.holes.iter().map(ring_to_geo).collect();
                geo::Polygon::new(ring_to_geo(&part.outer), holes)
            })
            .collect(),
    )
}

pub(super) fn line_to_geo(line: &[Point]) -> LineString<f64> {
    LineString::new(line.iter().map(|point| coord(*point)).collect())
}

/// Parts of fewer than three corners are dropped.
pub(super) fn from_geo(shapes: MultiPolygon<f64>) -> Outline {
    let parts = shapes.into_iter().map(|shape| {
        let (outer, holes) = shape.into_inner();
        Polygon {
            outer: ring_from_geo(&outer),
            holes: holes.iter().map(ring_from_geo).collect(),
        }
    });
    Outline {
        parts: parts.filter(|part| part.outer.corners.len() > 2).collect(),
    }
}

fn ring_to_geo(ring: &Ring) -> LineString<f64> {
    line_to_geo(&ring.corners)
}

fn ring_from_geo(line: &LineString<f64>) -> Ring {
    Ring::new(line.coords().map(|at| Point::new(at.x, at.y)).collect())
}

fn coord(point: Point) -> Coord<f64> {
    Coord {
        x: point.east_m,
        y: point.north_m,
    }
}
