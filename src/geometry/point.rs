//! A place on the farm's own plane.
//!
//! Metres east and north of the farm's origin. Knows nothing of longitude and latitude.

/// A place: metres east and north of the origin of the frame it belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// Metres east of the origin.
    pub east_m: f64,
    /// Metres north of the origin.
    pub north_m: f64,
}

impl Point {
    /// The place `east_m` east and `north_m` north of the origin.
    pub const fn new(east_m: f64, north_m: f64) -> Self {
        Self { east_m, north_m }
    }

    /// Straight distance on the plane, metres.
    pub fn distance_m(self, other: Self) -> f64 {
        (self.east_m - other.east_m).hypot(self.north_m - other.north_m)
    }

    /// Bearing from here to `other`, degrees clockwise from north, 0 to 360.
    pub fn bearing_deg(self, other: Self) -> f64 {
        (other.east_m - self.east_m)
            .atan2(other.north_m - self.north_m)
            .to_degrees()
            .rem_euclid(360.0)
    }

    /// The place `distance_m` from here along `bearing_deg`.
    #[must_use]
    pub fn towards(self, bearing_deg: f64, distance_m: f64) -> Self {
        let (sine, cosine) = bearing_deg.to_radians().sin_cos();
        Self::new(
            sine.mul_add(distance_m, self.east_m),
            cosine.mul_add(distance_m, self.north_m),
        )
    }

    /// The place a share `t` of the way to `other`: 0 is here, 1 is there.
    #[must_use]
    pub fn between(self, other: Self, t: f64) -> Self {
        Self::new(
            (other.east_m - self.east_m).mul_add(t, self.east_m),
            (other.north_m - self.north_m).mul_add(t, self.north_m),
        )
    }

    /// Moved by metres east and north.
    #[must_use]
    pub fn moved(self, by_east_m: f64, by_north_m: f64) -> Self {
        Self::new(self.east_m + by_east_m, self.north_m + by_north_m)
    }

    /// The same place on whole millimetres, as drawn corners lie.
    #[must_use]
    pub fn on_whole_mm(self) -> Self {
        Self::new(
            (self.east_m * 1000.0).round() / 1000.0,
            (self.north_m * 1000.0).round() / 1000.0,
        )
    }

    /// Whether both figures are numbers.
    pub fn is_finite(self) -> bool {
        self.east_m.is_finite() && self.north_m.is_finite()
    }
}
