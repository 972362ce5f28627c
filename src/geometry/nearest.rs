//! What of a shape is nearest to a place: a corner, a place on a side, and how far off it is. Metres.

use super::{Outline, Point, Whereabouts};

/// A place on the boundary of an outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoundaryPlace {
    /// Which part, from 0.
    pub part: usize,
    /// Which ring of it: 0 is the outer one, then the holes.
    pub ring: usize,
    /// The side, by the corner it starts from; or the corner itself.
    pub corner: usize,
    /// The place.
    pub place: Point,
    /// How far it is from what was asked, metres.
    pub distance_m: f64,
}

/// A place on a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LinePlace {
    /// The stretch of the line, by the point it starts from.
    pub stretch: usize,
    /// How far along that stretch, 0 to 1.
    pub share: f64,
    /// The place.
    pub place: Point,
    /// How far it is from what was asked, metres.
    pub distance_m: f64,
}

impl Point {
    /// The place nearest to here on the straight side between two points, its ends included.
    #[must_use]
    pub fn nearest_on_side(self, from: Self, to: Self) -> Self {
        from.at_share(to, self.share_along_side(from, to))
    }

    /// The share of the way from `from` to `to` at which the side is nearest to here, 0 to 1.
    pub fn share_along_side(self, from: Self, to: Self) -> f64 {
        let (east, north) = (to.east_m - from.east_m, to.north_m - from.north_m);
        let squared = east * east + north * north;
        if squared <= 0.0 {
            return 0.0;
        }
        let dot = (self.east_m - from.east_m) * east + (self.north_m - from.north_m) * north;
        (dot / squared).clamp(0.0, 1.0)
    }

    /// As `between`, with the ends themselves at 0 and 1.
    fn at_share(self, to: Self, share: f64) -> Self {
        if share >= 1.0 {
            to
        } else {
            self.between(to, share)
        }
    }
}

impl Outline {
    /// Distance from a place to this ground, metres; 0 within it.
    /// An outline with nothing drawn is infinitely far.
    pub fn distance_m(&self, place: Point) -> f64 {
        if self.whereabouts(place) != Whereabouts::Outside {
            return 0.0;
        }
        self.nearest_side(place)
            .map_or(f64::INFINITY, |found| found.distance_m)
    }

    /// The place on the boundary nearest to `place`; of equal ones the first.
    pub fn nearest_side(&self, place: Point) -> Option<BoundaryPlace> {
        self.nearest_by(place, |from, to| place.nearest_on_side(from, to))
    }

    /// The corner nearest to `place`; of equal ones the first.
    pub fn nearest_corner(&self, place: Point) -> Option<BoundaryPlace> {
        self.nearest_by(place, |from, _| from)
    }

    /// The nearest corner no farther than `tolerance_m`.
    pub fn corner_within(&self, place: Point, tolerance_m: f64) -> Option<BoundaryPlace> {
        self.nearest_corner(place)
            .filter(|found| found.distance_m <= tolerance_m)
    }

    /// The nearest place on a side no farther than `tolerance_m`.
    pub fn side_within(&self, place: Point, tolerance_m: f64) -> Option<BoundaryPlace> {
        self.nearest_side(place)
            .filter(|found| found.distance_m <= tolerance_m)
    }

    fn nearest_by(
        &self,
        asked: Point,
        choose: impl Fn(Point, Point) -> Point,
    ) -> Option<BoundaryPlace> {
        let mut nearest: Option<BoundaryPlace> = None;
        for (part, polygon) in self.parts.iter().enumerate() {
            for (ring, sides) in polygon.rings().enumerate() {
                for (corner, (from, to)) in sides.sides().enumerate() {
                    let place = choose(from, to);
                    let distance_m = asked.distance_m(place);
                    if nearest.is_none_or(|nearest| distance_m < nearest.distance_m) {
                        nearest = Some(BoundaryPlace {
                            part,
                            ring,
                            corner,
                            place,
                            distance_m,
                        });
                    }
                }
            }
        }
        nearest
    }
}

/// The place on a line of points nearest to `asked`; none for an empty line. A single point is a line of no length.
pub fn nearest_on_line(line: &[Point], asked: Point) -> Option<LinePlace> {
    let first = *line.first()?;
    let mut nearest = LinePlace {
        stretch: 0,
        share: 0.0,
        place: first,
        distance_m: asked.distance_m(first),
    };
    for (stretch, (from, to)) in line.iter().zip(line.iter().skip(1)).enumerate() {
        let share = asked.share_along_side(*from, *to);
        let place = from.at_share(*to, share);
        let distance_m = asked.distance_m(place);
        if distance_m < nearest.distance_m {
            nearest = LinePlace {
                stretch,
                share,
                place,
                distance_m,
            };
        }
    }
    Some(nearest)
}
