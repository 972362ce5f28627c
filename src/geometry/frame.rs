//! The farm's own plane: metres about one origin on the earth.
//!
//! The plane is the azimuthal equidistant projection of the WGS 84 ellipsoid: a place lies at its geodesic distance
//! and bearing from the origin (J. P. Snyder, *Map Projections – A Working Manual*, US Geological Survey
//! Professional Paper 1395, 1987, chapter 25; the geodesics follow C. F. F. Karney, *Algorithms for geodesics*,
//! Journal of Geodesy 87, 2013, pages 43–55). Lengths and areas on it are off by about distance² / (6 · radius²),
//! 1e-7 at 5 km. Degrees and metres; knows nothing of national grids.

use std::sync::LazyLock;

use geographiclib_rs::{DirectGeodesic, Geodesic, InverseGeodesic};

use super::Point;

/// The ellipsoid of WGS 84, on which all geodesic figures are taken.
pub(super) static WGS84: LazyLock<Geodesic> = LazyLock::new(Geodesic::wgs84);

/// A place on the earth, WGS 84 degrees.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct LonLat {
    /// Degrees east of Greenwich.
    pub lon_deg: f64,
    /// Degrees north of the equator.
    pub lat_deg: f64,
}

/// Why a longitude and latitude name no place.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum PlaceError {
    /// A figure is infinite or not a number.
    #[error("the longitude or latitude is not a number")]
    NotANumber,
    /// The latitude lies beyond a pole.
    #[error("the latitude {lat_deg}° lies beyond a pole; it must be between −90° and 90°")]
    BeyondPole {
        /// What was given.
        lat_deg: f64,
    },
}

impl LonLat {
    /// A place by its degrees, as given.
    pub const fn new(lon_deg: f64, lat_deg: f64) -> Self {
        Self { lon_deg, lat_deg }
    }

    /// The same place with its longitude from −180 up to, not reaching, 180.
    ///
    /// # Errors
    /// A figure that is not finite; a latitude beyond a pole.
    pub fn checked(self) -> Result<Self, PlaceError> {
        if !self.lon_deg.is_finite() || !self.lat_deg.is_finite() {
            return Err(PlaceError::NotANumber);
        }
        if self.lat_deg.abs() > 90.0 {
            return Err(PlaceError::BeyondPole {
                lat_deg: self.lat_deg,
            });
        }
        Ok(Self::new(wrapped_lon_deg(self.lon_deg), self.lat_deg))
    }
}

/// A longitude brought into −180 up to 180; one already there keeps every digit.
fn wrapped_lon_deg(lon_deg: f64) -> f64 {
    if (-180.0..180.0).contains(&lon_deg) {
        return lon_deg;
    }
    let wrapped = (lon_deg + 180.0).rem_euclid(360.0) - 180.0;
    // A longitude a hair under −180 rounds up to 180 itself.
    if wrapped >= 180.0 { -180.0 } else { wrapped }
}

/// The farm's plane: east and north in metres about an origin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundFrame {
    origin: LonLat,
}

impl GroundFrame {
    /// A frame about `origin`.
    ///
    /// # Errors
    /// An origin that is no place: see [`PlaceError`].
    pub fn new(origin: LonLat) -> Result<Self, PlaceError> {
        Ok(Self {
            origin: origin.checked()?,
        })
    }

    /// Where the plane's zero lies.
    pub const fn origin(self) -> LonLat {
        self.origin
    }

    /// The point of the plane for a place on the earth; across the date line the short way is taken.
    ///
    /// # Errors
    /// A place that is none: see [`PlaceError`].
    pub fn point_from_lonlat(self, place: LonLat) -> Result<Point, PlaceError> {
        let place = place.checked()?;
        let (distance_m, azimuth_deg, _, _) = WGS84.inverse(
            self.origin.lat_deg,
            self.origin.lon_deg,
            place.lat_deg,
            place.lon_deg,
        );
        let (sine, cosine) = azimuth_deg.to_radians().sin_cos();
        Ok(Point::new(distance_m * sine, distance_m * cosine))
    }

    /// The place on the earth for a point of the plane, longitude from −180 up to 180.
    /// A point that is not finite gives figures that are not numbers.
    pub fn lonlat_from_point(self, point: Point) -> LonLat {
        let distance_m = point.east_m.hypot(point.north_m);
        let azimuth_deg = point.east_m.atan2(point.north_m).to_degrees();
        let (lat_deg, lon_deg) = WGS84.direct(
            self.origin.lat_deg,
            self.origin.lon_deg,
            azimuth_deg,
            distance_m,
        );
        LonLat::new(wrapped_lon_deg(lon_deg), lat_deg)
    }
}
