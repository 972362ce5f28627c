//! Which way a corner turns, and how two sides meet, without rounding error.
//!
//! The turn is decided by the adaptive exact predicate of J. R. Shewchuk, *Adaptive Precision Floating-Point
//! Arithmetic and Fast Robust Geometric Predicates*, Discrete & Computational Geometry 18, 1997, so that touching is
//! told from crossing for figures as they stand. Metres.

use geo::Coord;
use geo::kernels::{Kernel, Orientation, RobustKernel};

use super::Point;

/// The way from one point over a second to a third.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Turn {
    /// Anticlockwise.
    Left,
    /// Clockwise.
    Right,
    /// The three lie on one line.
    Straight,
}

/// How two sides meet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Meeting {
    /// Not at all.
    Apart,
    /// Inside both; the place is rounded.
    Cross(Point),
    /// At an end of one of them, which is the place.
    Touch(Point),
    /// Along a stretch, between two of their ends.
    Along(Point, Point),
}

/// Which way the walk `from`, `over`, `to` turns: exact.
pub fn turn(from: Point, over: Point, to: Point) -> Turn {
    match RobustKernel::orient2d(coord(from), coord(over), coord(to)) {
        Orientation::CounterClockwise => Turn::Left,
        Orientation::Clockwise => Turn::Right,
        Orientation::Collinear => Turn::Straight,
    }
}

/// How the side from `a` to `b` meets the side from `c` to `d`.
///
/// # Assumptions
/// Neither side is of no length.
pub fn meeting(a: Point, b: Point, c: Point, d: Point) -> Meeting {
    let (c_turn, d_turn) = (turn(a, b, c), turn(a, b, d));
    if c_turn == Turn::Straight && d_turn == Turn::Straight {
        return meeting_on_one_line(a, b, c, d);
    }
    if c_turn == d_turn {
        return Meeting::Apart;
    }
    let (a_turn, b_turn) = (turn(c, d, a), turn(c, d, b));
    if a_turn == b_turn {
        return Meeting::Apart;
    }
    let ends = [
        (c_turn, c, a, b),
        (d_turn, d, a, b),
        (a_turn, a, c, d),
        (b_turn, b, c, d),
    ];
    for (end_turn, end, from, to) in ends {
        if end_turn == Turn::Straight {
            return if in_box(end, from, to) {
                Meeting::Touch(end)
            } else {
                Meeting::Apart
            };
        }
    }
    Meeting::Cross(crossing_place(a, b, c, d))
}

/// Where two sides that are known to cross do so. Held within the boxes of both: of sides that run all but the same
/// way the quotient may name a place far along one of them.
fn crossing_place(a: Point, b: Point, c: Point, d: Point) -> Point {
    let (along_east, along_north) = (b.east_m - a.east_m, b.north_m - a.north_m);
    let (other_east, other_north) = (d.east_m - c.east_m, d.north_m - c.north_m);
    let cross = along_east * other_north - along_north * other_east;
    let share =
        ((c.east_m - a.east_m) * other_north - (c.north_m - a.north_m) * other_east) / cross;
    let place = a.between(b, share);
    Point::new(
        held_between(place.east_m, (a.east_m, b.east_m), (c.east_m, d.east_m)),
        held_between(
            place.north_m,
            (a.north_m, b.north_m),
            (c.north_m, d.north_m),
        ),
    )
}

/// A figure held within two ranges that have some figure in common.
fn held_between(value: f64, one: (f64, f64), two: (f64, f64)) -> f64 {
    let least = one.0.min(one.1).max(two.0.min(two.1));
    let most = one.0.max(one.1).min(two.0.max(two.1));
    // Not `clamp`, which stops the program where the figures are not numbers.
    value.max(least).min(most)
}

fn meeting_on_one_line(a: Point, b: Point, c: Point, d: Point) -> Meeting {
    let by_east = (b.east_m - a.east_m).abs() >= (b.north_m - a.north_m).abs();
    let key = |point: &Point| if by_east { point.east_m } else { point.north_m };
    let ordered = |one: Point, two: Point| {
        if key(&one) <= key(&two) {
            (one, two)
        } else {
            (two, one)
        }
    };
    let (first, last) = ordered(a, b);
    let (other_first, other_last) = ordered(c, d);
    let from = ordered(first, other_first).1;
    let to = ordered(last, other_last).0;
    match key(&from).total_cmp(&key(&to)) {
        std::cmp::Ordering::Less => Meeting::Along(from, to),
        std::cmp::Ordering::Equal => Meeting::Touch(from),
        std::cmp::Ordering::Greater => Meeting::Apart,
    }
}

/// Whether a point known to lie on the line through two others lies between them, ends included.
pub fn in_box(point: Point, from: Point, to: Point) -> bool {
    let between = |value: f64, one: f64, two: f64| value >= one.min(two) && value <= one.max(two);
    between(point.east_m, from.east_m, to.east_m)
        && between(point.north_m, from.north_m, to.north_m)
}

fn coord(point: Point) -> Coord<f64> {
    Coord {
        x: point.east_m,
        y: point.north_m,
    }
}
