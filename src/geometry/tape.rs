//! Places from a tape and a compass: two tapes, offsets from a base line, a walk round by sides and bearings.
//!
//! Metres and degrees clockwise from north, on the plane.

use super::Point;

/// Why tapes or sides give no place.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum TapeError {
    /// A figure is below 0 or not a number.
    #[error("a measured length must be a figure, not below nothing")]
    NotALength,
    /// The two known corners are one place.
    #[error("the two known corners are the same place")]
    SamePlace,
    /// The two tapes together do not reach from one corner to the other.
    #[error("the two tapes do not meet: together they are {shortfall_m:.2} m too short")]
    TooShort {
        /// How much is missing, metres.
        shortfall_m: f64,
    },
    /// One tape reaches past the other corner by more than the other tape.
    #[error(
        "the two tapes do not meet: the longer one is {excess_m:.2} m too long, or the other too short"
    )]
    TooLong {
        /// How much too long, metres.
        excess_m: f64,
    },
    /// A walk round needs three sides at least, and some length.
    #[error("a walk round needs three sides at least")]
    TooFewSides,
}

/// The two corners that lie at the taped distances from two known ones: first the one on the left of a person looking
/// from `a` to `b`, then the one on the right. Tapes that just meet give the same place twice.
///
/// # Errors
/// Tapes that do not meet, with what is missing; known corners at one place; lengths below 0.
pub fn corners_from_two_tapes(
    a: Point,
    b: Point,
    from_a_m: f64,
    from_b_m: f64,
) -> Result<[Point; 2], TapeError> {
    let lengths = [from_a_m, from_b_m];
    if !lengths
        .iter()
        .all(|length_m| *length_m >= 0.0 && length_m.is_finite())
    {
        return Err(TapeError::NotALength);
    }
    let base_m = a.distance_m(b);
    if base_m <= 0.0 || !base_m.is_finite() {
        return Err(TapeError::SamePlace);
    }
    // Rounding of tapes that just meet is not told as a fault.
    let rounding_m = 1e-9 * (base_m + from_a_m + from_b_m);
    let shortfall_m = base_m - from_a_m - from_b_m;
    if shortfall_m > rounding_m {
        return Err(TapeError::TooShort { shortfall_m });
    }
    let excess_m = (from_a_m - from_b_m).abs() - base_m;
    if excess_m > rounding_m {
        return Err(TapeError::TooLong { excess_m });
    }
    // The foot of the corner on the base line, by Pythagoras on both triangles.
    let along_m =
        (base_m * base_m + (from_a_m - from_b_m) * (from_a_m + from_b_m)) / (2.0 * base_m);
    let aside_m = ((from_a_m - along_m) * (from_a_m + along_m))
        .max(0.0)
        .sqrt();
    Ok([
        place_from_base_line(a, b, along_m, -aside_m).unwrap_or(a),
        place_from_base_line(a, b, along_m, aside_m).unwrap_or(a),
    ])
}

/// The place `along_m` from `from` on the line to `to` and `aside_m` to its right, to the left below 0.
/// None where the two are one place.
pub fn place_from_base_line(from: Point, to: Point, along_m: f64, aside_m: f64) -> Option<Point> {
    let length_m = from.distance_m(to);
    let (east, north) = (
        (to.east_m - from.east_m) / length_m,
        (to.north_m - from.north_m) / length_m,
    );
    let place = from.moved(
        east * along_m + north * aside_m,
        north * along_m - east * aside_m,
    );
    (length_m > 0.0 && place.is_finite()).then_some(place)
}

/// One side of a walk round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasuredSide {
    /// Its bearing, degrees clockwise from north.
    pub bearing_deg: f64,
    /// Its length, metres.
    pub length_m: f64,
}

/// A walk round, and how well it came back to its start.
#[derive(Debug, Clone, PartialEq)]
pub struct ClosedWalk {
    /// The corners as measured, the start first, the end of the last side last.
    pub measured: Vec<Point>,
    /// The corners with the misclosure spread over the sides; the start first, not repeated.
    pub adjusted: Vec<Point>,
    /// From the start to where the walk ended, metres east.
    pub misclosure_east_m: f64,
    /// From the start to where the walk ended, metres north.
    pub misclosure_north_m: f64,
    /// All sides together, metres.
    pub length_m: f64,
}

impl ClosedWalk {
    /// How far the walk missed its start, metres.
    pub fn misclosure_m(&self) -> f64 {
        self.misclosure_east_m.hypot(self.misclosure_north_m)
    }

    /// The length walked for each metre missed, as in "1 in 3000"; infinite for a walk that closes exactly.
    pub fn closes_one_in(&self) -> f64 {
        self.length_m / self.misclosure_m()
    }
}

/// A walk round by sides and bearings, the misclosure spread by the compass rule: each corner is moved in proportion
/// to the length walked so far.
///
/// Source: the rule of N. Bowditch, 1808, as in C. D. Ghilani and P. R. Wolf, *Elementary Surveying*, chapter 10
/// (compass rule). From memory; their worked example stands in the tests.
///
/// # Errors
/// Fewer than three sides, a length below 0, a figure that is not a number, no length at all.
pub fn closed_walk(start: Point, sides: &[MeasuredSide]) -> Result<ClosedWalk, TapeError> {
    let sound = |side: &MeasuredSide| {
        side.bearing_deg.is_finite() && side.length_m.is_finite() && side.length_m >= 0.0
    };
    if !sides.iter().all(sound) || !start.is_finite() {
        return Err(TapeError::NotALength);
    }
    let length_m: f64 = sides.iter().map(|side| side.length_m).sum();
    if sides.len() < 3 || length_m <= 0.0 {
        return Err(TapeError::TooFewSides);
    }
    let mut measured = vec![start];
    let mut end = start;
    for side in sides {
        end = end.towards(side.bearing_deg, side.length_m);
        measured.push(end);
    }
    let (east_m, north_m) = (end.east_m - start.east_m, end.north_m - start.north_m);
    let mut walked_m = 0.0;
    let mut adjusted = Vec::with_capacity(sides.len());
    for (corner, side) in measured.iter().zip(sides) {
        let share = walked_m / length_m;
        adjusted.push(corner.moved(-east_m * share, -north_m * share));
        walked_m += side.length_m;
    }
    Ok(ClosedWalk {
        measured,
        adjusted,
        misclosure_east_m: east_m,
        misclosure_north_m: north_m,
        length_m,
    })
}
