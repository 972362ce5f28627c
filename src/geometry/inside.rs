//! Whether a place lies inside, on the boundary of, or outside a shape: exact for the figures as they stand.
//!
//! Crossing count with an exact turn (K. Hormann, A. Agathos, *The point in polygon problem for arbitrary polygons*,
//! Computational Geometry 20, 2001). Either winding; a ring that crosses itself is taken by odd and even. Metres.

use super::sides::{Turn, in_box, turn};
use super::{Outline, Point, Polygon, Ring};

/// Where a place lies in regard to a shape.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Whereabouts {
    /// Within, and not in a hole.
    Inside,
    /// On a side or corner, of a hole too.
    OnBoundary,
    /// Elsewhere.
    Outside,
}

impl Ring {
    /// Where `place` lies in regard to the ground within this ring.
    pub fn whereabouts(&self, place: Point) -> Whereabouts {
        let mut inside = false;
        for (from, to) in self.sides() {
            let (low, high) = if from.north_m <= to.north_m {
                (from, to)
            } else {
                (to, from)
            };
            if place.north_m < low.north_m || place.north_m > high.north_m {
                continue;
            }
            if place.east_m > low.east_m.max(high.east_m) {
                continue;
            }
            let side = turn(low, high, place);
            if side == Turn::Straight && in_box(place, low, high) {
                return Whereabouts::OnBoundary;
            }
            // A ray to the east meets sides whose lower end is at or below the place and whose upper end is above.
            if low.north_m <= place.north_m && place.north_m < high.north_m && side == Turn::Left {
                inside = !inside;
            }
        }
        if inside {
            Whereabouts::Inside
        } else {
            Whereabouts::Outside
        }
    }
}

impl Polygon {
    /// Where `place` lies in regard to this polygon; in a hole is outside.
    pub fn whereabouts(&self, place: Point) -> Whereabouts {
        let outer = self.outer.whereabouts(place);
        if outer != Whereabouts::Inside {
            return outer;
        }
        for hole in &self.holes {
            match hole.whereabouts(place) {
                Whereabouts::Inside => return Whereabouts::Outside,
                Whereabouts::OnBoundary => return Whereabouts::OnBoundary,
                Whereabouts::Outside => {}
            }
        }
        Whereabouts::Inside
    }
}

impl Outline {
    /// Where `place` lies in regard to all parts; on the common side of two parts is on the boundary.
    pub fn whereabouts(&self, place: Point) -> Whereabouts {
        let mut found = Whereabouts::Outside;
        for part in &self.parts {
            match part.whereabouts(place) {
                Whereabouts::Inside => return Whereabouts::Inside,
                Whereabouts::OnBoundary => found = Whereabouts::OnBoundary,
                Whereabouts::Outside => {}
            }
        }
        found
    }

    /// Whether `place` lies in this ground or on its boundary.
    pub fn contains(&self, place: Point) -> bool {
        self.whereabouts(place) != Whereabouts::Outside
    }
}
