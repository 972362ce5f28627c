//! The shortest way between two places that keeps off ground by a given width.
//!
//! The corners of the ground, drawn out by that width, are joined where they see each other; the shortest way runs from
//! corner to corner (the visibility graph: T. Lozano-Pérez, M. A. Wesley, *An algorithm for planning collision-free
//! paths among polyhedral obstacles*, Communications of the ACM 22, 1979) and is found with the straight distance as a
//! guide (P. E. Hart, N. J. Nilsson, B. Raphael, *A formal basis for the heuristic determination of minimum cost paths*,
//! IEEE Transactions on Systems Science and Cybernetics 4, 1968). What a corner sees is looked up when a way comes there.
//! Knows nothing of what the ground is. Metres.

use std::cell::RefCell;
use std::rc::Rc;

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
    /// For each corner that a way came to: those it sees.
    links: RefCell<Vec<Option<Seen>>>,
}

/// Corners in sight, with the distance.
type Seen = Rc<[(usize, f64)]>;

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
            links: RefCell::default(),
        };
        finder.corners = all_corners
            .into_iter()
            .filter(|corner| finder.holding(*corner).is_empty())
            .collect();
        finder.links = RefCell::new(vec![None; finder.corners.len()]);
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

    /// Whether the way along these corners meets no ground but what holds one of its ends.
    pub fn is_open(&self, corners: &[Point]) -> bool {
        let (Some(first), Some(last)) = (corners.first(), corners.last()) else {
            return true;
        };
        let mut within = self.holding(*first);
        within.extend(self.holding(*last));
        let mut legs = corners.iter().zip(corners.iter().skip(1));
        legs.all(|(from, to)| self.is_clear(*from, *to, &within))
    }

    /// The shortest way between two stations; none where there is no way round.
    pub fn way(&self, from: &Station, to: &Station) -> Option<Way> {
        if let Some(way) = self.straight(from.place, to.place) {
            return Some(way);
        }
        let mut search = Search::new(self.corners.len());
        for (corner, distance_m) in &from.sees {
            search.reach(*corner, *distance_m, None);
        }
        let mut best: Option<(usize, f64)> = None;
        while let Some((nearest, least_m)) = search.next(&self.corners, to.place) {
            if best.is_some_and(|(_, whole_m)| whole_m <= least_m) {
                break;
            }
            let here_m = search.length_m(nearest);
            if let Some((_, last_m)) = to.sees.iter().find(|(corner, _)| *corner == nearest)
                && best.is_none_or(|(_, whole_m)| here_m + last_m < whole_m)
            {
                best = Some((nearest, here_m + last_m));
            }
            for (next, step_m) in self.links_of(nearest).iter() {
                search.reach(*next, here_m + step_m, Some(nearest));
            }
        }
        let (last, length_m) = best?;
        Some(Way {
            corners: self.corners_back(&search.before, last, from.place, to.place),
            length_m,
        })
    }

    fn links_of(&self, number: usize) -> Seen {
        let known = self.links.borrow().get(number).cloned().flatten();
        known.unwrap_or_else(|| {
            let seen: Seen = self
                .corners
                .get(number)
                .map_or_else(Vec::new, |corner| {
                    self.seen_from(*corner, &[], Some(number))
                })
                .into();
            if let Some(slot) = self.links.borrow_mut().get_mut(number) {
                *slot = Some(Rc::clone(&seen));
            }
            seen
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

/// Corners reached so far.
struct Search {
    length_m: Vec<f64>,
    before: Vec<Option<usize>>,
    is_done: Vec<bool>,
}

impl Search {
    fn new(count: usize) -> Self {
        Self {
            length_m: vec![f64::INFINITY; count],
            before: vec![None; count],
            is_done: vec![false; count],
        }
    }

    fn length_m(&self, corner: usize) -> f64 {
        self.length_m.get(corner).copied().unwrap_or(f64::INFINITY)
    }

    fn reach(&mut self, corner: usize, length_m: f64, before: Option<usize>) {
        if let (Some(least_m), Some(slot)) =
            (self.length_m.get_mut(corner), self.before.get_mut(corner))
            && length_m < *least_m
        {
            *least_m = length_m;
            *slot = before;
        }
    }

    /// The open corner over which the way could be shortest, and how short: marked as done.
    fn next(&mut self, corners: &[Point], to: Point) -> Option<(usize, f64)> {
        let open = self.length_m.iter().zip(&self.is_done).zip(corners);
        let (number, least_m) = open
            .enumerate()
            .filter(|(_, ((length_m, is_done), _))| length_m.is_finite() && !**is_done)
            .map(|(number, ((length_m, _), corner))| (number, length_m + corner.distance_m(to)))
            .min_by(|one, other| one.1.total_cmp(&other.1))?;
        if let Some(done) = self.is_done.get_mut(number) {
            *done = true;
        }
        Some((number, least_m))
    }
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
