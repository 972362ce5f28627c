//! The places of a round, laid end to end along each line, to one side of it.
//!
//! Metres on the farm's plane.

use super::{HenPlace, MOST_PLACES};
use crate::farm::{Farm, Ground, GroundId, HenHouse, LineSide};
use crate::geometry::Point;
use crate::quantity::{UnitSystem, length_text};

/// How far a line may be too short for one more place: corners lie on whole millimetres.
const FORGIVEN_M: f64 = 0.001;
/// Places may share a strip of this width before they overlap: rounding, not ground.
const TOUCHING_M: f64 = 1.0e-6;
/// How far a place is pushed along a bend at a time until it lies clear of those before it.
const PUSH_M: f64 = 0.1;

/// The places found, and what was in the way.
pub(super) struct Laid {
    pub(super) places: Vec<HenPlace>,
    /// Why a line gave no place, in words.
    pub(super) reasons: Vec<String>,
    pub(super) is_too_many: bool,
}

/// Lays the places along every line of the house in order.
///
/// # Assumptions
/// Length and width above 0, gap and offset 0 or more, all finite.
pub(super) fn lay(farm: &Farm, house: &HenHouse) -> Laid {
    let mut laid = Laid {
        places: Vec::new(),
        reasons: Vec::new(),
        is_too_many: false,
    };
    if house.lines.is_empty() {
        laid.reasons
            .push("no line is chosen; choose a tree line, hedge or fence".to_owned());
    }
    for id in &house.lines {
        let Some(ground) = farm.ground.get(id) else {
            laid.reasons
                .push("one of its lines is gone; choose another".to_owned());
            continue;
        };
        let before = laid.places.len();
        match track_of(ground) {
            Some(track) => lay_along(&track, *id, house, &mut laid),
            None => laid.reasons.push(format!(
                "\"{}\" is not a line; choose a tree line, hedge or fence",
                ground.name
            )),
        }
        if let (true, Some(track)) = (laid.places.len() == before, track_of(ground)) {
            laid.reasons.push(format!(
                "\"{}\" is too short: it is {} long and one place takes {}",
                ground.name,
                length_text(track.length_m(), UnitSystem::Metric),
                length_text(house.length_m, UnitSystem::Metric)
            ));
        }
    }
    laid
}

/// Says which places lie partly on ground that another line's places use in the same round.
pub(super) fn overlap_note(places: &[HenPlace]) -> Option<String> {
    let clash = |later: &HenPlace| {
        places
            .iter()
            .take_while(|earlier| earlier.number < later.number)
            .find(|earlier| earlier.line != later.line && overlap(earlier, later))
            .map(|earlier| (earlier.number, later.number))
    };
    let clashes: Vec<(usize, usize)> = places.iter().filter_map(clash).collect();
    let (earlier, later) = *clashes.first()?;
    let more = match clashes.len() {
        1 => String::new(),
        count => format!(" (and {} more)", count - 1),
    };
    Some(format!(
        "place {later} lies partly on place {earlier} of another line{more}: that ground rests less than the round says"
    ))
}

fn lay_along(track: &Track, line: GroundId, house: &HenHouse, laid: &mut Laid) {
    let first_here = laid.places.len();
    let step_m = house.length_m + house.gap_m;
    let mut base_m = 0.0;
    // Counting steps from the last push keeps a long straight line free of summed rounding.
    let mut steps = 0.0;
    loop {
        let along_m = step_m * steps + base_m;
        if along_m + house.length_m > track.length_m() + FORGIVEN_M {
            return;
        }
        if laid.places.len() >= MOST_PLACES {
            laid.is_too_many = true;
            return;
        }
        let number = laid.places.len() + 1;
        let place = place_at(track, (number, line), along_m, house);
        let is_clear = laid
            .places
            .iter()
            .skip(first_here)
            .all(|earlier| !overlap(earlier, &place));
        if is_clear {
            laid.places.push(place);
            steps += 1.0;
        } else {
            base_m = along_m + PUSH_M;
            steps = 0.0;
        }
    }
}

fn place_at(
    track: &Track,
    (number, line): (usize, GroundId),
    along_m: f64,
    house: &HenHouse,
) -> HenPlace {
    let (from, to) = (track.at(along_m), track.at(along_m + house.length_m));
    let bearing_deg = from.bearing_deg(to);
    let aside_deg = match house.side {
        LineSide::Left => bearing_deg - 90.0,
        LineSide::Right => bearing_deg + 90.0,
    };
    let middle = from.between(to, 0.5).towards(aside_deg, house.offset_m);
    let corner = |ahead_m: f64, right_m: f64| {
        middle
            .towards(bearing_deg, ahead_m)
            .towards(bearing_deg + 90.0, right_m)
    };
    let (half_length_m, half_width_m) = (house.length_m / 2.0, house.width_m / 2.0);
    HenPlace {
        number,
        line,
        along_m,
        middle,
        outline: [
            corner(-half_length_m, half_width_m),
            corner(half_length_m, half_width_m),
            corner(half_length_m, -half_width_m),
            corner(-half_length_m, -half_width_m),
        ],
        bearing_deg,
    }
}

/// A line with the way from its beginning to each corner.
struct Track {
    corners: Vec<(f64, Point)>,
}

fn track_of(ground: &Ground) -> Option<Track> {
    let mut corners: Vec<(f64, Point)> = Vec::new();
    for corner in ground.line()?.iter().filter(|corner| corner.is_finite()) {
        match corners.last() {
            None => corners.push((0.0, *corner)),
            Some((way_m, last)) if last.distance_m(*corner) > 0.0 => {
                corners.push((way_m + last.distance_m(*corner), *corner));
            }
            Some(_) => {}
        }
    }
    Some(Track { corners })
}

impl Track {
    fn length_m(&self) -> f64 {
        self.corners.last().map_or(0.0, |(way_m, _)| *way_m)
    }

    /// The place `along_m` from the beginning; past the end, the last side goes on.
    fn at(&self, along_m: f64) -> Point {
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
}

/// Whether two places share ground: no line along a side of either parts them.
fn overlap(one: &HenPlace, other: &HenPlace) -> bool {
    let [start, _, across, _] = one.outline;
    // Rectangles of one size whose middles are a diagonal apart are clear of each other; most pairs are.
    one.middle.distance_m(other.middle) < start.distance_m(across)
        && !is_parted(&one.outline, &other.outline)
        && !is_parted(&other.outline, &one.outline)
}

/// Whether a line along one of the first two sides of `one` has the two apart.
fn is_parted(one: &[Point; 4], other: &[Point; 4]) -> bool {
    let [a, b, c, _] = one;
    [(a, b), (b, c)].into_iter().any(|(from, to)| {
        let length_m = from.distance_m(*to);
        let along = |point: &Point| {
            ((point.east_m - from.east_m) * (to.east_m - from.east_m)
                + (point.north_m - from.north_m) * (to.north_m - from.north_m))
                / length_m
        };
        let span = |corners: &[Point; 4]| {
            corners.iter().map(along).fold(
                (f64::INFINITY, f64::NEG_INFINITY),
                |(least, most), way_m| (least.min(way_m), most.max(way_m)),
            )
        };
        let ((least, most), (other_least, other_most)) = (span(one), span(other));
        most.min(other_most) - least.max(other_least) <= TOUCHING_M
    })
}
