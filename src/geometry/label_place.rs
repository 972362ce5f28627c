//! Where a name fits best: the place inside the ground farthest from its boundary, or the middle of a line. Metres.
//!
//! Cells of a grid are halved where they may still hold a better place, best hope first (the method published by
//! V. Agafonkin, *A new algorithm for finding a visual center of a polygon*, 2016). The search ends after a bounded
//! number of cells, so the answer for a strange shape may be a little short of the best, never outside the ground.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use super::line::{Station, length_m, station_at};
use super::{Bounds, Outline, Point, Polygon, Whereabouts};

/// A place for a name and the room there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LabelPlace {
    /// The place.
    pub place: Point,
    /// Distance from there to the nearest boundary, holes counted, metres.
    pub clearance_m: f64,
}

/// How much better a place may at most be than the one given, as a share of its clearance.
const GOOD_ENOUGH: f64 = 0.01;
/// About how many comparisons with a side one search makes at most.
const MOST_COMPARISONS: usize = 4_000_000;

/// The place of most room in the largest part; none where no ground is enclosed.
pub fn label_place(outline: &Outline) -> Option<LabelPlace> {
    let part = largest_part(outline)?;
    let bounds = part.outer.bounds()?;
    let sides: usize = part.rings().map(|ring| ring.corners.len()).sum();
    let most_cells = (MOST_COMPARISONS / sides.max(1)).clamp(300, 8000);
    let mut cells = first_cells(part, bounds);
    let mut best = cells.iter().fold(sure_place(part, bounds)?, better);
    let mut looked_at = cells.len();
    while let Some(cell) = cells.pop() {
        if cell.hope_m <= best.clearance_m * (1.0 + GOOD_ENOUGH) || looked_at >= most_cells {
            break;
        }
        let half_m = cell.half_m / 2.0;
        for (east, north) in [(-1.0, -1.0), (1.0, -1.0), (-1.0, 1.0), (1.0, 1.0)] {
            let centre = cell.centre.moved(east * half_m, north * half_m);
            let quarter = Cell::new(part, centre, half_m);
            best = better(best, &quarter);
            cells.push(quarter);
            looked_at += 1;
        }
    }
    Some(best)
}

/// The part of most ground, of equal ones the first.
fn largest_part(outline: &Outline) -> Option<&Polygon> {
    let parts = outline.parts.iter().rev();
    parts
        .filter(|part| part.rings().all(super::Ring::is_finite) && part.area_m2() > 0.0)
        .max_by(|one, two| one.area_m2().total_cmp(&two.area_m2()))
}

/// Where to write along a line: its middle by length, with the bearing there; none for fewer than two points.
pub fn label_place_of_line(line: &[Point]) -> Option<Station> {
    station_at(line, length_m(line) / 2.0)
}

/// A square of the plane and the most clearance any place in it may have.
struct Cell {
    centre: Point,
    half_m: f64,
    clearance_m: f64,
    hope_m: f64,
}

impl Cell {
    fn new(part: &Polygon, centre: Point, half_m: f64) -> Self {
        let clearance_m = clearance_m(part, centre);
        Self {
            centre,
            half_m,
            clearance_m,
            hope_m: clearance_m + half_m * std::f64::consts::SQRT_2,
        }
    }
}

impl Ord for Cell {
    fn cmp(&self, other: &Self) -> Ordering {
        self.hope_m
            .total_cmp(&other.hope_m)
            .then(other.centre.east_m.total_cmp(&self.centre.east_m))
            .then(other.centre.north_m.total_cmp(&self.centre.north_m))
    }
}

impl PartialOrd for Cell {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Cell {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Cell {}

fn better(best: LabelPlace, cell: &Cell) -> LabelPlace {
    if cell.clearance_m > best.clearance_m {
        LabelPlace {
            place: cell.centre,
            clearance_m: cell.clearance_m,
        }
    } else {
        best
    }
}

/// Cells as wide as the shorter side of the box, though at most a few hundred of them.
fn first_cells(part: &Polygon, bounds: Bounds) -> BinaryHeap<Cell> {
    let longer_m = bounds.width_m().max(bounds.height_m());
    let size_m = bounds.width_m().min(bounds.height_m()).max(longer_m / 64.0);
    let mut cells = BinaryHeap::new();
    let mut east_m = bounds.least.east_m;
    while east_m < bounds.most.east_m {
        let mut north_m = bounds.least.north_m;
        while north_m < bounds.most.north_m {
            let centre = Point::new(east_m + size_m / 2.0, north_m + size_m / 2.0);
            cells.push(Cell::new(part, centre, size_m / 2.0));
            north_m += size_m;
        }
        east_m += size_m;
    }
    cells
}

/// A place certain to be inside: the middle of the widest stretch of ground on a line from west to east.
fn sure_place(part: &Polygon, bounds: Bounds) -> Option<LabelPlace> {
    let mut best: Option<LabelPlace> = None;
    for step in [0.5, 0.25, 0.75, 0.1, 0.9, 0.01, 0.99] {
        let north_m = bounds.least.north_m + bounds.height_m() * step;
        let mut easts: Vec<f64> = part
            .rings()
            .flat_map(super::Ring::sides)
            .filter(|(from, to)| (from.north_m <= north_m) != (to.north_m <= north_m))
            .map(|(from, to)| {
                from.between(to, (north_m - from.north_m) / (to.north_m - from.north_m))
                    .east_m
            })
            .collect();
        easts.sort_by(f64::total_cmp);
        // Ground lies between the first and second, the third and fourth, and so on.
        let widest = easts
            .chunks_exact(2)
            .filter_map(|pair| <[f64; 2]>::try_from(pair).ok())
            .max_by(|one, two| (one[1] - one[0]).total_cmp(&(two[1] - two[0])));
        let Some([west_m, east_m]) = widest else {
            continue;
        };
        let place = Point::new(f64::midpoint(west_m, east_m), north_m);
        let clearance_m = clearance_m(part, place);
        if clearance_m > best.map_or(0.0, |best| best.clearance_m) {
            best = Some(LabelPlace { place, clearance_m });
        }
    }
    best
}

/// Distance from a place to the boundary, below 0 outside.
fn clearance_m(part: &Polygon, place: Point) -> f64 {
    let squared = part
        .rings()
        .flat_map(super::Ring::sides)
        .map(|(from, to)| squared_distance_m2(place, from, to))
        .fold(f64::INFINITY, f64::min);
    let distance_m = squared.sqrt();
    if part.whereabouts(place) == Whereabouts::Inside {
        distance_m
    } else {
        -distance_m
    }
}

/// The square of the distance from a place to a side. Without a root, since it is taken for every side of every cell.
fn squared_distance_m2(place: Point, from: Point, to: Point) -> f64 {
    let share = place.share_along_side(from, to);
    let east_m = from.east_m + (to.east_m - from.east_m) * share - place.east_m;
    let north_m = from.north_m + (to.north_m - from.north_m) * share - place.north_m;
    east_m * east_m + north_m * north_m
}
