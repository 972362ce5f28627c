//! The shortest way between two places that keeps off ground by a given width.
//!
//! The corners of the ground, drawn out by that width, are joined where they see each other; the shortest way runs from
//! corner to corner (the visibility graph: T. Lozano-Pérez, M. A. Wesley, *An algorithm for planning collision-free
//! paths among polyhedral obstacles*, Communications of the ACM 22, 1979) and is found by E. W. Dijkstra's method.
//! Knows nothing of what the ground is. Metres.

use super::buffer::drawn_out_in_chords;
use super::sides::{Meeting, meeting};
use super::{Bounds, Outline, Point, Ring};

/// Chords of the boundary that is held against a way: miss the true arc by half a hundredth.
const HELD_CHORD_RAD: f64 = 0.2;
/// Chords of the boundary whose corners a way turns at.
const CORNER_CHORD_RAD: f64 = 0.7;
/// How much farther out than the boundary ways turn, metres: no way runs along a boundary and is taken for crossing it.
const BEYOND_M: f64 = 0.05;

/// A way from place to place.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// Its corners, both ends included.
    pub corners: Vec<Point>,
    /// Its length, metres.
    pub length_m: f64,
}

/// Ground to keep off, ready to have ways found round it.
#[derive(Debug, Clone, Default)]
pub struct WayFinder {
    held: Vec<Held>,
    corners: Vec<Point>,
    /// For each corner: those it sees, with the distance.
    links: Vec<Vec<(usize, f64)>>,
}

/// Ground drawn out by the width, with the box round it.
#[derive(Debug, Clone)]
struct Held {
    outline: Outline,
    bounds: Bounds,
}

/// A place that ways start from or end at, with the corners it sees.
#[derive(Debug, Clone)]
pub struct Station {
    place: Point,
    /// The corners it sees, with the distance; ground that already holds the place is not counted.
    sees: Vec<(usize, f64)>,
}

impl WayFinder {
    /// Ways that keep off every one of these outlines by `width_m`.
    ///
    /// # Assumptions
    /// `width_m` is above 0 and finite; an outline whose figures are not numbers is passed over.
    pub fn new<'a>(ground: impl IntoIterator<Item = &'a Outline>, width_m: f64) -> Self {
        let (mut held, mut all_corners) = (Vec::new(), Vec::new());
        for outline in ground {
            let near = drawn_out_in_chords(outline, width_m, HELD_CHORD_RAD);
            let Some(bounds) = near.bounds() else {
                continue;
            };
            let out_m = (width_m + BEYOND_M) / (CORNER_CHORD_RAD / 2.0).cos();
            let far = drawn_out_in_chords(outline, out_m, CORNER_CHORD_RAD);
            all_corners.extend(far.rings().flat_map(|ring| ring.corners.iter().copied()));
            held.push(Held {
                outline: near,
                bounds,
            });
        }
        let mut finder = Self {
            held,
            corners: Vec::new(),
            links: Vec::new(),
        };
        finder.corners = all_corners
            .into_iter()
            .filter(|corner| finder.holding(*corner).is_empty())
            .collect();
        finder.links = finder
            .corners
            .iter()
            .enumerate()
            .map(|(number, corner)| finder.seen_from(*corner, &[], Some(number)))
            .collect();
        finder
    }

    /// A place to start from or end at.
    pub fn station(&self, place: Point) -> Station {
        let within = self.holding(place);
        let sees = self.seen_from(place, &within, None);
        Station { place, sees }
    }

    /// The straight way between two places, where nothing lies in it.
    pub fn straight(&self, from: Point, to: Point) -> Option<Way> {
        let mut within = self.holding(from);
        within.extend(self.holding(to));
        self.is_clear(from, to, &within).then(|| Way {
            corners: vec![from, to],
            length_m: from.distance_m(to),
        })
    }

    /// The shortest way between two stations; none where there is no way round.
    pub fn way(&self, from: &Station, to: &Station) -> Option<Way> {
        if let Some(way) = self.straight(from.place, to.place) {
            return Some(way);
        }
        let count = self.corners.len();
        let mut length_m = vec![f64::INFINITY; count];
        let mut before: Vec<Option<usize>> = vec![None; count];
        let mut is_done = vec![false; count];
        for (corner, distance_m) in &from.sees {
            if let Some(length_m) = length_m.get_mut(*corner) {
                *length_m = *distance_m;
            }
        }
        while let Some(nearest) = nearest_open(&length_m, &is_done) {
            let here_m = length_m.get(nearest).copied().unwrap_or(f64::INFINITY);
            if let Some(done) = is_done.get_mut(nearest) {
                *done = true;
            }
            for (next, step_m) in self.links.get(nearest).into_iter().flatten() {
                if let (Some(next_m), Some(before)) =
                    (length_m.get_mut(*next), before.get_mut(*next))
                    && here_m + step_m < *next_m
                {
                    *next_m = here_m + step_m;
                    *before = Some(nearest);
                }
            }
        }
        let (last, whole_m) = to
            .sees
            .iter()
            .filter_map(|(corner, distance_m)| Some((*corner, length_m.get(*corner)? + distance_m)))
            .filter(|(_, whole_m)| whole_m.is_finite())
            .min_by(|one, other| one.1.total_cmp(&other.1))?;
        Some(Way {
            corners: self.corners_back(&before, last, from.place, to.place),
            length_m: whole_m,
        })
    }

    fn corners_back(
        &self,
        before: &[Option<usize>],
        last: usize,
        from: Point,
        to: Point,
    ) -> Vec<Point> {
        let mut corners = vec![to];
        let mut at = Some(last);
        while let Some(number) = at {
            corners.extend(self.corners.get(number));
            at = before.get(number).copied().flatten();
        }
        corners.push(from);
        corners.reverse();
        corners
    }

    fn holding(&self, place: Point) -> Vec<usize> {
        let holds = |held: &Held| held.bounds.contains(place) && held.outline.contains(place);
        self.held
            .iter()
            .enumerate()
            .filter(|(_, held)| holds(held))
            .map(|(number, _)| number)
            .collect()
    }

    fn seen_from(
        &self,
        place: Point,
        within: &[usize],
        itself: Option<usize>,
    ) -> Vec<(usize, f64)> {
        self.corners
            .iter()
            .enumerate()
            .filter(|(number, corner)| {
                Some(*number) != itself && self.is_clear(place, **corner, within)
            })
            .map(|(number, corner)| (number, place.distance_m(*corner)))
            .collect()
    }

    /// Whether the straight line between two places meets none of the ground, some of it not counted.
    fn is_clear(&self, from: Point, to: Point, uncounted: &[usize]) -> bool {
        let Some(bounds) = Bounds::of_points([from, to]) else {
            return true;
        };
        self.held
            .iter()
            .enumerate()
            .filter(|(number, held)| held.bounds.meets(bounds) && !uncounted.contains(number))
            .all(|(_, held)| from == to || !is_crossed(&held.outline, from, to))
    }
}

fn nearest_open(length_m: &[f64], is_done: &[bool]) -> Option<usize> {
    length_m
        .iter()
        .zip(is_done)
        .enumerate()
        .filter(|(_, (length_m, is_done))| length_m.is_finite() && !**is_done)
        .min_by(|(_, one), (_, other)| one.0.total_cmp(other.0))
        .map(|(number, _)| number)
}

/// Whether a straight line meets a side of the outline, or lies in it.
fn is_crossed(outline: &Outline, from: Point, to: Point) -> bool {
    let meets_side = outline
        .rings()
        .flat_map(Ring::sides)
        .filter(|(one, other)| one != other)
        .any(|(one, other)| meeting(from, to, one, other) != Meeting::Apart);
    meets_side || outline.contains(from)
}
