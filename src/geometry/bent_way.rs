//! Ways between two places that leave the one and reach the other in a given direction and never bend more sharply than
//! a circle.
//!
//! Two arcs with a straight line or an arc between them hold the shortest such way (L. E. Dubins, *On curves of minimal
//! length with a constraint on average curvature*, American Journal of Mathematics 79, 1957); a library lays them. Each
//! may be drawn straight on before its first arc and after its last. Knows nothing of what lies in the way. Metres,
//! bearings in degrees clockwise from north.

use std::f64::consts::{PI, TAU};

use dubins_paths::f64::{DubinsPath, PosRot};
use dubins_paths::{PathType, SegmentType};

use super::Point;

/// How far a way is drawn straight on before its first arc and after its last, in radii.
const STRAIGHT_RADII: [f64; 6] = [0.0, 0.5, 1.0, 1.5, 2.0, 3.0];
/// Chords of an arc: they miss it by under a hundredth of the radius.
const CHORD_RAD: f64 = PI / 12.0;
/// An arc this near to a whole circle is none at all, but for the last digits.
const WHOLE_CIRCLE_RAD: f64 = TAU - 1.0e-7;

/// A place, and the direction in which it is passed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Headed {
    /// The place.
    pub at: Point,
    /// The direction.
    pub bearing_deg: f64,
}

/// A way that bends on circles.
#[derive(Debug, Clone, Copy)]
pub struct BentWay {
    from: Point,
    to: Point,
    path: DubinsPath,
    length_m: f64,
}

impl Headed {
    /// The same place, passed the other way.
    #[must_use]
    pub fn back(self) -> Self {
        Self {
            bearing_deg: self.bearing_deg + 180.0,
            ..self
        }
    }

    /// The same, so far on.
    fn ahead(self, way_m: f64) -> Self {
        Self {
            at: self.at.towards(self.bearing_deg, way_m),
            ..self
        }
    }

    fn turned_from_east(self) -> PosRot {
        let turned_rad = (90.0 - self.bearing_deg).to_radians();
        PosRot::from_floats(self.at.east_m, self.at.north_m, turned_rad)
    }
}

/// Every way that is tried between two places, the shortest first.
///
/// # Assumptions
/// `radius_m` is above 0; figures are finite.
pub fn bent_ways(from: Headed, to: Headed, radius_m: f64) -> Vec<BentWay> {
    let mut ways = Vec::new();
    for before in STRAIGHT_RADII {
        for after in STRAIGHT_RADII {
            let (before_m, after_m) = (before * radius_m, after * radius_m);
            let begin = from.ahead(before_m).turned_from_east();
            let end = to.ahead(-after_m).turned_from_east();
            let laid = PathType::ALL
                .into_iter()
                .filter_map(|kind| DubinsPath::new(begin, end, radius_m, kind).ok());
            ways.extend(laid.map(|path| {
                let path = without_whole_circles(path);
                BentWay {
                    from: from.at,
                    to: to.at,
                    length_m: before_m + path.length() + after_m,
                    path,
                }
            }));
        }
    }
    ways.retain(|way| way.length_m.is_finite());
    ways.sort_by(|one, other| one.length_m.total_cmp(&other.length_m));
    ways
}

impl BentWay {
    /// Length along its arcs, metres.
    pub const fn length_m(&self) -> f64 {
        self.length_m
    }

    /// Its corners, both ends included; arcs in chords.
    pub fn corners(&self) -> Vec<Point> {
        let mut corners = vec![self.from];
        let mut along_m = 0.0;
        corners.push(self.place(along_m));
        let kinds = self.path.path_type.to_segment_types();
        for (kind, size) in kinds.into_iter().zip(self.path.param) {
            let steps = match kind {
                SegmentType::S => 1.0,
                SegmentType::L | SegmentType::R => (size / CHORD_RAD).ceil().clamp(1.0, 24.0),
            };
            let step_m = size * self.path.rho / steps;
            let mut step = 0.0;
            while step < steps {
                step += 1.0;
                corners.push(self.place(along_m + step * step_m));
            }
            along_m += size * self.path.rho;
        }
        corners.push(self.to);
        corners.dedup_by(|one, other| one.distance_m(*other) < 1.0e-6);
        corners
    }

    fn place(&self, along_m: f64) -> Point {
        let place = self.path.sample(along_m);
        Point::new(place.x(), place.y())
    }
}

/// Rounding makes a whole circle of an arc that is not there.
fn without_whole_circles(mut path: DubinsPath) -> DubinsPath {
    let kinds = path.path_type.to_segment_types();
    for (size, kind) in path.param.iter_mut().zip(kinds) {
        if kind != SegmentType::S && *size > WHOLE_CIRCLE_RAD {
            *size = 0.0;
        }
    }
    path
}
