//! Where on the ground the map looks, and how closely.
//!
//! The only place that turns metres into screen points. The middle is kept in `f64`, so no centimetre is lost far
//! from the origin; only the last step is `f32`.

use egui::{Pos2, Rect, Vec2};

use crate::geometry::{Bounds, Point};

/// A view of the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GroundView {
    /// The place in the middle of the map.
    pub middle: Point,
    /// Metres under one point of the screen.
    pub m_per_point: f64,
    /// The map on the screen.
    pub screen: Rect,
}

/// Closest view: a millimetre a point.
const LEAST_M_PER_POINT: f64 = 0.001;
/// Widest view: a whole map of a thousand kilometres.
const MOST_M_PER_POINT: f64 = 2000.0;

impl Default for GroundView {
    fn default() -> Self {
        Self {
            middle: Point::default(),
            m_per_point: 0.5,
            screen: Rect::from_min_size(Pos2::ZERO, Vec2::splat(600.0)),
        }
    }
}

impl GroundView {
    /// Where a place on the ground is on the screen.
    pub fn screen_from_ground(&self, place: Point) -> Pos2 {
        let east = (place.east_m - self.middle.east_m) / self.m_per_point;
        let north = (place.north_m - self.middle.north_m) / self.m_per_point;
        // Far-off corners are held near the screen's neighbourhood, where `f32` still parts points.
        let held = |value: f64| value.clamp(-1.0e6, 1.0e6);
        #[expect(
            clippy::cast_possible_truncation,
            reason = "screen points are f32; held above"
        )]
        let offset = Vec2::new(held(east) as f32, held(-north) as f32);
        self.screen.center() + offset
    }

    /// The place on the ground under a point of the screen.
    pub fn ground_from_screen(&self, pos: Pos2) -> Point {
        let offset = pos - self.screen.center();
        self.middle.moved(
            f64::from(offset.x) * self.m_per_point,
            -f64::from(offset.y) * self.m_per_point,
        )
    }

    /// Moves the ground with the pointer.
    pub fn pan(&mut self, by: Vec2) {
        self.middle = self.middle.moved(
            -f64::from(by.x) * self.m_per_point,
            f64::from(by.y) * self.m_per_point,
        );
    }

    /// Goes `factor` times closer, holding the place under `about` where it is.
    pub fn zoom(&mut self, factor: f64, about: Pos2) {
        let held = self.ground_from_screen(about);
        self.m_per_point = (self.m_per_point / factor).clamp(LEAST_M_PER_POINT, MOST_M_PER_POINT);
        let now = self.ground_from_screen(about);
        self.middle = self
            .middle
            .moved(held.east_m - now.east_m, held.north_m - now.north_m);
    }

    /// Shows all of `corners` clear of the tools; nothing happens without corners.
    pub fn fit(&mut self, corners: &[Point]) {
        self.fit_clear_of(corners, 92.0, 30.0);
    }

    /// Shows all of `corners`, leaving `left` and elsewhere `around` points of the screen free.
    pub fn fit_clear_of(&mut self, corners: &[Point], left: f32, around: f32) {
        let Some(first) = corners.first() else {
            return;
        };
        let (mut least, mut most) = (*first, *first);
        for corner in corners {
            least = Point::new(
                least.east_m.min(corner.east_m),
                least.north_m.min(corner.north_m),
            );
            most = Point::new(
                most.east_m.max(corner.east_m),
                most.north_m.max(corner.north_m),
            );
        }
        let width = f64::from((self.screen.width() - left - around).max(60.0));
        let height = f64::from((self.screen.height() - 2.0 * around).max(60.0));
        let needed =
            ((most.east_m - least.east_m) / width).max((most.north_m - least.north_m) / height);
        self.m_per_point = needed.clamp(0.02, MOST_M_PER_POINT);
        let aside_m = f64::from(left - around) / 2.0 * self.m_per_point;
        self.middle = least.between(most, 0.5).moved(-aside_m, 0.0);
    }

    /// Shows all of `corners` inside a part of the screen; nothing happens without corners.
    pub fn fit_in(&mut self, corners: &[Point], room: Rect) {
        let Some(bounds) = Bounds::of_points(corners.iter().copied()) else {
            return;
        };
        let (width, height) = (room.width().max(40.0), room.height().max(40.0));
        let needed = ((bounds.most.east_m - bounds.least.east_m) / f64::from(width))
            .max((bounds.most.north_m - bounds.least.north_m) / f64::from(height));
        self.m_per_point = needed.clamp(0.02, MOST_M_PER_POINT);
        let aside = room.center() - self.screen.center();
        self.middle = bounds.centre().moved(
            -f64::from(aside.x) * self.m_per_point,
            f64::from(aside.y) * self.m_per_point,
        );
    }

    /// Corners of the ground in view: south-west and north-east.
    pub fn ground_in_view(&self) -> (Point, Point) {
        (
            self.ground_from_screen(self.screen.left_bottom()),
            self.ground_from_screen(self.screen.right_top()),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn zooming_holds_the_place_under_the_pointer() {
        let mut view = GroundView {
            middle: Point::new(1234.5, -987.6),
            ..GroundView::default()
        };
        let pointer = Pos2::new(130.0, 470.0);
        let before = view.ground_from_screen(pointer);
        for factor in [1.3, 0.2, 7.0] {
            view.zoom(factor, pointer);
            let after = view.ground_from_screen(pointer);
            assert!(before.distance_m(after) < 1e-6, "{factor}");
        }
    }

    #[test]
    fn screen_and_ground_are_each_others_inverse() {
        let view = GroundView {
            middle: Point::new(5000.0, 5000.0),
            m_per_point: 0.37,
            ..GroundView::default()
        };
        let place = Point::new(5012.34, 4987.65);
        assert!(place.distance_m(view.ground_from_screen(view.screen_from_ground(place))) < 1e-3);
    }
}
