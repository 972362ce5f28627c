//! The box round a shape, sides along east and north. Metres.

use super::{Outline, Point, Ring};

/// A box: least and most east and north.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// The south-west corner.
    pub least: Point,
    /// The north-east corner.
    pub most: Point,
}

impl Bounds {
    /// The box round these points; none where there are none. Figures that are not numbers are passed over.
    pub fn of_points(points: impl IntoIterator<Item = Point>) -> Option<Self> {
        points.into_iter().fold(None, |bounds, point| {
            Some(bounds.map_or(
                Self {
                    least: point,
                    most: point,
                },
                |bounds: Self| bounds.with(point),
            ))
        })
    }

    /// The box that holds this one and `point`.
    #[must_use]
    pub fn with(self, point: Point) -> Self {
        Self {
            least: Point::new(
                self.least.east_m.min(point.east_m),
                self.least.north_m.min(point.north_m),
            ),
            most: Point::new(
                self.most.east_m.max(point.east_m),
                self.most.north_m.max(point.north_m),
            ),
        }
    }

    /// The box that holds both.
    #[must_use]
    pub fn joined(self, other: Self) -> Self {
        self.with(other.least).with(other.most)
    }

    /// The box with every side moved out by `margin_m`; below 0 moves them in.
    #[must_use]
    pub fn grown(self, margin_m: f64) -> Self {
        Self {
            least: self.least.moved(-margin_m, -margin_m),
            most: self.most.moved(margin_m, margin_m),
        }
    }

    /// The middle.
    pub fn centre(self) -> Point {
        self.least.between(self.most, 0.5)
    }

    /// Metres from west to east.
    pub fn width_m(self) -> f64 {
        self.most.east_m - self.least.east_m
    }

    /// Metres from south to north.
    pub fn height_m(self) -> f64 {
        self.most.north_m - self.least.north_m
    }

    /// Whether `point` lies in the box or on its sides.
    pub fn contains(self, point: Point) -> bool {
        point.east_m >= self.least.east_m
            && point.east_m <= self.most.east_m
            && point.north_m >= self.least.north_m
            && point.north_m <= self.most.north_m
    }

    /// Whether the two boxes have a point in common.
    pub fn meets(self, other: Self) -> bool {
        self.least.east_m <= other.most.east_m
            && other.least.east_m <= self.most.east_m
            && self.least.north_m <= other.most.north_m
            && other.least.north_m <= self.most.north_m
    }
}

impl Ring {
    /// The box round this ring; none where it has no corners.
    pub fn bounds(&self) -> Option<Bounds> {
        Bounds::of_points(self.corners.iter().copied())
    }
}

impl Outline {
    /// The box round all outer rings; none where there are no corners.
    pub fn bounds(&self) -> Option<Bounds> {
        Bounds::of_points(
            self.parts
                .iter()
                .flat_map(|part| part.outer.corners.iter().copied()),
        )
    }
}
