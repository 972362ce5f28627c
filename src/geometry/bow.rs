//! A bow: the part of a circle that stands over a straight line, as a hoop stands over the ground.
//!
//! Knows nothing of tunnels. Metres and square metres. With a width `w` and a rise `h` the circle's radius is
//! `(w² / 4 + h²) / 2h`; half the angle of the bow is the one whose sine is `w / 2` and whose cosine is `radius − h`.

/// A bow by its width at the foot and its rise in the middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bow {
    width_m: f64,
    rise_m: f64,
}

impl Bow {
    /// A bow of a width and a rise; none where either is not above 0.
    /// A rise above half the width is more than half a circle: such a bow is wider above than at its feet.
    pub fn new(width_m: f64, rise_m: f64) -> Option<Self> {
        let is_sound = |size_m: f64| size_m > 0.0 && size_m.is_finite();
        (is_sound(width_m) && is_sound(rise_m)).then_some(Self { width_m, rise_m })
    }

    /// Radius of the circle, metres.
    pub fn radius_m(self) -> f64 {
        (self.width_m * self.width_m / 4.0 + self.rise_m * self.rise_m) / (2.0 * self.rise_m)
    }

    /// Length along the bow from foot to foot, metres.
    pub fn arc_m(self) -> f64 {
        2.0 * self.radius_m() * self.half_angle_rad()
    }

    /// Area between the bow and the line through its feet, square metres.
    pub fn area_m2(self) -> f64 {
        let (radius_m, half) = (self.radius_m(), self.half_angle_rad());
        radius_m * radius_m * half - self.width_m / 2.0 * (radius_m - self.rise_m)
    }

    /// Whether it is more than half a circle.
    pub fn bulges(self) -> bool {
        self.rise_m > self.width_m / 2.0
    }

    fn half_angle_rad(self) -> f64 {
        (self.width_m / 2.0).atan2(self.radius_m() - self.rise_m)
    }
}
