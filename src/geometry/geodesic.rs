//! The measures people are told: areas and lengths on the earth itself, not on the plane.
//!
//! Corners are taken back to longitude and latitude and sides are geodesics of the WGS 84 ellipsoid (C. F. F. Karney,
//! *Algorithms for geodesics*, Journal of Geodesy 87, 2013, section 6 for areas). Metres, square metres, degrees.
//! That method sums areas down to the equator and so leaves some 1e-4 m² of rounding whatever the size of a field; near
//! the origin a series about the origin is used instead, which is good to a part in 1e10 for a bed as for a farm.

use geographiclib_rs::{InverseGeodesic, PolygonArea, Winding};

use super::frame::WGS84;
use super::{GroundFrame, LonLat, Outline, Point, Ring};

/// How far from the origin the series for areas is used, metres: its error there is below 1e-10 of the area.
const SERIES_REACH_M: f64 = 10_000.0;

/// What an outline measures on the earth.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct OutlineMeasures {
    /// Area of all parts, less their holes, square metres.
    pub area_m2: f64,
    /// Length round the outer rings of all parts, metres.
    pub outer_perimeter_m: f64,
    /// Length round all holes, metres.
    pub hole_perimeter_m: f64,
}

/// What one ring of places measures on the earth.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct RingMeasures {
    /// Square metres, above 0 where the ring runs anticlockwise; below half of the earth's area.
    pub signed_area_m2: f64,
    /// Metres round, the closing side included.
    pub perimeter_m: f64,
}

/// Area and perimeters of an outline, either winding.
///
/// # Assumptions
/// The outline is valid: holes inside their outer ring, nothing overlapping (see [`super::validity`]).
pub fn outline_measures(frame: GroundFrame, outline: &Outline) -> OutlineMeasures {
    let mut sum = OutlineMeasures::default();
    for part in &outline.parts {
        let outer = ring_of_frame(frame, &part.outer);
        sum.area_m2 += outer.signed_area_m2.abs();
        sum.outer_perimeter_m += outer.perimeter_m;
        for hole in &part.holes {
            let hole = ring_of_frame(frame, hole);
            sum.area_m2 -= hole.signed_area_m2.abs();
            sum.hole_perimeter_m += hole.perimeter_m;
        }
    }
    sum
}

/// Area of an outline less its holes, square metres.
pub fn area_m2(frame: GroundFrame, outline: &Outline) -> f64 {
    outline_measures(frame, outline).area_m2
}

/// Length along a line of points, metres; 0 for fewer than two.
pub fn length_m(frame: GroundFrame, line: &[Point]) -> f64 {
    let places: Vec<LonLat> = places_of(frame, line);
    places
        .iter()
        .zip(places.iter().skip(1))
        .map(|(from, to)| distance_between_m(*from, *to))
        .sum()
}

/// Length of every side of a ring from its first corner on, the closing side last, metres.
pub fn side_lengths_m(frame: GroundFrame, ring: &Ring) -> Vec<f64> {
    let places = places_of(frame, &ring.corners);
    let next = places.iter().cycle().skip(1);
    places
        .iter()
        .zip(next)
        .map(|(from, to)| distance_between_m(*from, *to))
        .collect()
}

/// Shortest distance over the earth between two points of the plane, metres.
pub fn distance_m(frame: GroundFrame, from: Point, to: Point) -> f64 {
    distance_between_m(frame.lonlat_from_point(from), frame.lonlat_from_point(to))
}

/// Bearing at `from` of the geodesic to `to`, degrees clockwise from true north, 0 to 360.
pub fn bearing_deg(frame: GroundFrame, from: Point, to: Point) -> f64 {
    let (from, to) = (frame.lonlat_from_point(from), frame.lonlat_from_point(to));
    let (azimuth_deg, _, _) = WGS84.inverse(from.lat_deg, from.lon_deg, to.lat_deg, to.lon_deg);
    let azimuth_deg: f64 = azimuth_deg;
    azimuth_deg.rem_euclid(360.0)
}

/// Shortest distance over the earth between two places, metres.
pub fn distance_between_m(from: LonLat, to: LonLat) -> f64 {
    WGS84.inverse(from.lat_deg, from.lon_deg, to.lat_deg, to.lon_deg)
}

/// Signed area and perimeter of a ring of places, open or with the first one repeated at the end.
pub fn ring_measures(places: &[LonLat]) -> RingMeasures {
    if places.is_empty() {
        return RingMeasures::default();
    }
    let mut sum = PolygonArea::new(&WGS84, Winding::CounterClockwise);
    for place in places {
        sum.add_point(place.lat_deg, place.lon_deg);
    }
    let (perimeter_m, signed_area_m2, _) = sum.compute(true);
    RingMeasures {
        signed_area_m2,
        perimeter_m,
    }
}

fn ring_of_frame(frame: GroundFrame, ring: &Ring) -> RingMeasures {
    let near = |corner: &Point| corner.distance_m(Point::default()) <= SERIES_REACH_M;
    if ring.corners.iter().all(near) {
        return RingMeasures {
            signed_area_m2: signed_area_near_origin_m2(frame, ring),
            perimeter_m: side_lengths_m(frame, ring).iter().sum(),
        };
    }
    ring_measures(&places_of(frame, &ring.corners))
}

/// Area of a ring of geodesics near the origin, square metres, above 0 anticlockwise.
///
/// On the plane of the frame (normal coordinates of the surface) an area is too large by a share of
/// curvature · distance² / 6, and a geodesic bows out from the straight side between its ends by
/// curvature · offset · length³ / 18. Added up over the triangle from the origin to each side, `p` to `q`, that gives
/// (p × q) · (1/2 + curvature · (p² + q² − 3 p·q) / 24). Own derivation; for a right-angled triangle at the origin it
/// agrees with the spherical excess, tan(E/2) = tan(a/2) · tan(b/2), and the tests hold it against the method of Karney.
fn signed_area_near_origin_m2(frame: GroundFrame, ring: &Ring) -> f64 {
    let curvature = curvature_per_m2(frame.origin().lat_deg);
    let bent: f64 = ring
        .sides()
        .map(|(p, q)| {
            let cross = p.east_m * q.north_m - q.east_m * p.north_m;
            let dot = p.east_m * q.east_m + p.north_m * q.north_m;
            let squares =
                p.east_m.powi(2) + p.north_m.powi(2) + q.east_m.powi(2) + q.north_m.powi(2);
            cross * (squares - 3.0 * dot)
        })
        .sum();
    ring.signed_area_m2() + curvature / 24.0 * bent
}

/// Gaussian curvature of the ellipsoid, 1 over the product of its two radii of curvature.
fn curvature_per_m2(lat_deg: f64) -> f64 {
    let (radius_m, flattening) = (WGS84.equatorial_radius(), WGS84.flattening());
    let eccentricity_squared = flattening * (2.0 - flattening);
    let sine = lat_deg.to_radians().sin();
    let share = 1.0 - eccentricity_squared * sine * sine;
    share * share / (radius_m * radius_m * (1.0 - eccentricity_squared))
}

fn places_of(frame: GroundFrame, points: &[Point]) -> Vec<LonLat> {
    points
        .iter()
        .map(|point| frame.lonlat_from_point(*point))
        .collect()
}
