//! A line measured from its beginning, and the stretches of it that are left out.
//!
//! Knows nothing of houses. Metres on the farm's plane.

use crate::farm::{Farm, Ground, LeftStretch};
use crate::geometry::Point;

/// A line with the way from its beginning to each corner.
pub(super) struct Track {
    corners: Vec<(f64, Point)>,
}

pub(super) fn track_of(ground: &Ground) -> Option<Track> {
    Some(Track::of(ground.line()?.iter().copied()))
}

impl Track {
    pub(super) fn of(points: impl IntoIterator<Item = Point>) -> Self {
        let mut corners: Vec<(f64, Point)> = Vec::new();
        for corner in points.into_iter().filter(|corner| corner.is_finite()) {
            match corners.last() {
                None => corners.push((0.0, corner)),
                Some((way_m, last)) if last.distance_m(corner) > 0.0 => {
                    corners.push((way_m + last.distance_m(corner), corner));
                }
                Some(_) => {}
            }
        }
        Self { corners }
    }

    pub(super) fn length_m(&self) -> f64 {
        self.corners.last().map_or(0.0, |(way_m, _)| *way_m)
    }

    /// The place `along_m` from the beginning; past the end, the last side goes on.
    pub(super) fn at(&self, along_m: f64) -> Point {
        let next = self.corners.partition_point(|(way_m, _)| *way_m < along_m);
        let next = next.clamp(1, self.corners.len().saturating_sub(1).max(1));
        let (Some((from_m, from)), Some((to_m, to))) =
            (self.corners.get(next - 1), self.corners.get(next))
        else {
            return self
                .corners
                .first()
                .map_or_else(Point::default, |(_, first)| *first);
        };
        from.between(*to, (along_m - from_m) / (to_m - from_m))
    }

    /// The corners of the part between two ways from the beginning; empty where it lies past the end.
    fn part(&self, from_m: f64, to_m: f64) -> Vec<Point> {
        let (from_m, to_m) = (from_m.max(0.0), to_m.min(self.length_m()));
        if from_m >= to_m {
            return Vec::new();
        }
        let between = self
            .corners
            .iter()
            .filter(|(way_m, _)| (from_m..to_m).contains(way_m) && *way_m > from_m);
        std::iter::once(self.at(from_m))
            .chain(between.map(|(_, corner)| *corner))
            .chain(std::iter::once(self.at(to_m)))
            .collect()
    }
}

/// Where a stretch that is left out lies; empty where its line is gone or ends before it.
pub fn stretch_way(farm: &Farm, stretch: &LeftStretch) -> Vec<Point> {
    let track = farm.ground.get(&stretch.line).and_then(track_of);
    track.map_or_else(Vec::new, |track| track.part(stretch.from_m, stretch.to_m))
}
