//! Rings, polygons with holes, and outlines of one or more polygons.
//!
//! A ring is an open list of corners: the last one is joined to the first and is not repeated. Metres and square
//! metres on the plane; the figures that are reported to people come from `geodesic`.

use super::Point;

/// Corners in order, closed without repeating the first; either winding.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ring {
    /// The corners.
    pub corners: Vec<Point>,
}

/// One outer ring and the holes cut out of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Polygon {
    /// The outside.
    pub outer: Ring,
    /// What is left out.
    pub holes: Vec<Ring>,
}

/// A piece of ground of one or more polygons that do not overlap.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Outline {
    /// The pieces.
    pub parts: Vec<Polygon>,
}

impl Ring {
    /// A ring of these corners; a repeated closing corner is dropped.
    pub fn new(mut corners: Vec<Point>) -> Self {
        while corners.len() > 1 && corners.first() == corners.last() {
            corners.pop();
        }
        Self { corners }
    }

    /// Every side, from corner to next corner, the closing one included.
    pub fn sides(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let next = self.corners.iter().cycle().skip(1);
        self.corners.iter().zip(next).map(|(a, b)| (*a, *b))
    }

    /// Area on the plane, square metres; above 0 where the ring runs anticlockwise.
    /// Shifted to the first corner before summing, so far-off rings lose no digits.
    pub fn signed_area_m2(&self) -> f64 {
        let Some(&base) = self.corners.first() else {
            return 0.0;
        };
        let twice: f64 = self
            .sides()
            .map(|(a, b)| {
                let (a_east, a_north) = (a.east_m - base.east_m, a.north_m - base.north_m);
                let (b_east, b_north) = (b.east_m - base.east_m, b.north_m - base.north_m);
                a_east.mul_add(b_north, -(b_east * a_north))
            })
            .sum();
        twice / 2.0
    }

    /// Area on the plane, square metres.
    pub fn area_m2(&self) -> f64 {
        self.signed_area_m2().abs()
    }

    /// Whether all figures are numbers.
    pub fn is_finite(&self) -> bool {
        self.corners.iter().all(|corner| corner.is_finite())
    }

    /// Length round on the plane, metres.
    pub fn perimeter_m(&self) -> f64 {
        self.sides().map(|(a, b)| a.distance_m(b)).sum()
    }
}

impl Polygon {
    /// A polygon without holes.
    pub fn simple(corners: Vec<Point>) -> Self {
        Self {
            outer: Ring::new(corners),
            holes: Vec::new(),
        }
    }

    /// The outer ring, then the holes.
    pub fn rings(&self) -> impl Iterator<Item = &Ring> {
        std::iter::once(&self.outer).chain(self.holes.iter())
    }

    /// The outer ring, then the holes, to be changed.
    pub fn rings_mut(&mut self) -> impl Iterator<Item = &mut Ring> {
        std::iter::once(&mut self.outer).chain(self.holes.iter_mut())
    }

    /// Area on the plane less holes, square metres.
    pub fn area_m2(&self) -> f64 {
        self.outer.area_m2() - self.holes.iter().map(Ring::area_m2).sum::<f64>()
    }
}

impl Outline {
    /// An outline of one polygon without holes.
    pub fn simple(corners: Vec<Point>) -> Self {
        Self {
            parts: vec![Polygon::simple(corners)],
        }
    }

    /// Every ring of every part.
    pub fn rings(&self) -> impl Iterator<Item = &Ring> {
        self.parts.iter().flat_map(Polygon::rings)
    }

    /// Every ring of every part, to be changed.
    pub fn rings_mut(&mut self) -> impl Iterator<Item = &mut Ring> {
        self.parts.iter_mut().flat_map(Polygon::rings_mut)
    }

    /// The balance point of the ground, holes left out; none where no ground is enclosed. It may lie outside a bent
    /// outline.
    pub fn centroid(&self) -> Option<Point> {
        let base = *self.parts.first()?.outer.corners.first()?;
        let (mut area_m2, mut east, mut north) = (0.0, 0.0, 0.0);
        for part in &self.parts {
            for (place, ring) in part.rings().enumerate() {
                // Rings count by their size, whichever way they run; holes are taken off.
                let sign = ring.signed_area_m2().signum() * if place == 0 { 1.0 } else { -1.0 };
                for (a, b) in ring.sides() {
                    let (a, b) = (
                        a.moved(-base.east_m, -base.north_m),
                        b.moved(-base.east_m, -base.north_m),
                    );
                    let cross = sign * (a.east_m * b.north_m - b.east_m * a.north_m);
                    area_m2 += cross / 2.0;
                    east += cross * (a.east_m + b.east_m) / 6.0;
                    north += cross * (a.north_m + b.north_m) / 6.0;
                }
            }
        }
        (area_m2 > 0.0).then(|| base.moved(east / area_m2, north / area_m2))
    }

    /// Whether all figures are numbers.
    pub fn is_finite(&self) -> bool {
        self.rings().all(Ring::is_finite)
    }

    /// Area on the plane less holes, square metres.
    pub fn area_m2(&self) -> f64 {
        self.parts.iter().map(Polygon::area_m2).sum()
    }
}
