//! Ground of four corners: its length and width, and the true rectangle it becomes when one of them is given.
//!
//! Metres; bearings in degrees. Length is along the longer pair of sides, the first pair where both are as long.

use super::{Outline, Point};

/// Four corners in order round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FourSided {
    corners: [Point; 4],
}

impl FourSided {
    /// The four corners of an outline in one part without holes; none of any other.
    pub fn of(outline: &Outline) -> Option<Self> {
        let [part] = outline.parts.as_slice() else {
            return None;
        };
        let corners: [Point; 4] = part.outer.corners.as_slice().try_into().ok()?;
        let four = Self { corners };
        (part.holes.is_empty() && four.width_m() > 0.0 && outline.is_finite()).then_some(four)
    }

    /// Mean of the longer two sides, metres.
    pub fn length_m(self) -> f64 {
        self.first_pair_m().max(self.second_pair_m())
    }

    /// Mean of the shorter two sides, metres.
    pub fn width_m(self) -> f64 {
        self.first_pair_m().min(self.second_pair_m())
    }

    /// Bearing along the longer sides, degrees, 0 to 180.
    pub fn bearing_deg(self) -> f64 {
        let [(from, to), (beside_from, beside_to)] = self.long_sides();
        let middle = from.between(beside_from, 0.5);
        let bearing_deg = middle
            .bearing_deg(to.between(beside_to, 0.5))
            .rem_euclid(180.0);
        // Due south is due north here; a hair below it too.
        if bearing_deg > 180.0 - 1e-6 {
            0.0
        } else {
            bearing_deg
        }
    }

    /// Both longer sides, running the same way, the one with the first corner first.
    pub fn long_sides(self) -> [(Point, Point); 2] {
        let [a, b, c, d] = self.corners;
        if self.is_long_first() {
            [(a, b), (d, c)]
        } else {
            [(a, d), (b, c)]
        }
    }

    /// The farthest that a corner is from square, degrees.
    pub fn out_of_square_deg(self) -> f64 {
        let [a, b, c, d] = self.corners;
        [(d, a, b), (a, b, c), (b, c, d), (c, d, a)]
            .into_iter()
            .map(|(before, corner, after)| {
                let turn_deg = corner.bearing_deg(before) - corner.bearing_deg(after);
                let inside_deg = turn_deg.rem_euclid(360.0);
                (inside_deg.min(360.0 - inside_deg) - 90.0).abs()
            })
            .fold(0.0, f64::max)
    }

    /// A true rectangle of these sizes with the same first corner, its long side running as before, corners on whole
    /// millimetres.
    #[must_use]
    pub fn with_sizes(self, length_m: f64, width_m: f64) -> Outline {
        let [(from, to), (beside, _)] = self.long_sides();
        let along_deg = from.bearing_deg(to);
        let to_side_deg = (from.bearing_deg(beside) - along_deg).rem_euclid(360.0);
        let across_deg = along_deg + if to_side_deg < 180.0 { 90.0 } else { -90.0 };
        let end = from.towards(along_deg, length_m);
        let corners = [
            from,
            end,
            end.towards(across_deg, width_m),
            from.towards(across_deg, width_m),
        ]
        .map(Point::on_whole_mm);
        let [a, b, c, d] = corners;
        let in_order = if self.is_long_first() {
            [a, b, c, d]
        } else {
            [a, d, c, b]
        };
        Outline::simple(in_order.to_vec())
    }

    /// The same shape turned about its middle, the shorter way, until its long sides run along `bearing_deg`; corners on
    /// whole millimetres.
    #[must_use]
    pub fn turned_to(self, bearing_deg: f64) -> Outline {
        let by_deg = (bearing_deg - self.bearing_deg() + 90.0).rem_euclid(180.0) - 90.0;
        let [a, b, c, d] = self.corners;
        let middle = a.between(c, 0.5).between(b.between(d, 0.5), 0.5);
        let turned = self.corners.map(|corner| {
            let bearing_deg = middle.bearing_deg(corner) + by_deg;
            middle
                .towards(bearing_deg, middle.distance_m(corner))
                .on_whole_mm()
        });
        Outline::simple(turned.to_vec())
    }

    fn is_long_first(self) -> bool {
        self.first_pair_m() >= self.second_pair_m()
    }

    fn first_pair_m(self) -> f64 {
        let [a, b, c, d] = self.corners;
        f64::midpoint(a.distance_m(b), d.distance_m(c))
    }

    fn second_pair_m(self) -> f64 {
        let [a, b, c, d] = self.corners;
        f64::midpoint(a.distance_m(d), b.distance_m(c))
    }
}
