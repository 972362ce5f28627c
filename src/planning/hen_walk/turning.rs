//! Turning a house about that is towed from one end: from the way it is drawn on one place to that on the next, on no
//! smaller a circle than it can turn on.
//!
//! Where nothing lies between the places, one bent way leads from one to the other. Where something does, the way round
//! it is taken, left and joined on bent ways; its own corners between are bent as the ground asks. Knows nothing of why
//! a house turns. Metres.

use crate::geometry::Point;
use crate::geometry::bent_way::{BentWay, Headed, bent_ways};
use crate::geometry::line::station_at;
use crate::geometry::way_round::{Way, WayFinder};

/// How far from its ends a way round is left and joined, in radii.
const JOINED_AT_RADII: [f64; 6] = [1.0, 2.0, 3.0, 4.0, 6.0, 8.0];

/// The shortest bent way between two places that meets no ground; none where each of those tried does.
pub(super) fn turned_way(ways: &WayFinder, from: Headed, to: Headed, radius_m: f64) -> Option<Way> {
    let open = |way: &BentWay| {
        let corners = way.corners();
        ways.is_open(&corners).then(|| Way {
            corners,
            length_m: way.length_m(),
        })
    };
    bent_ways(from, to, radius_m).iter().find_map(open)
}

/// A way round what lies between, left and joined on bent ways; none where there is no room for one of them.
pub(super) fn turned_into(
    ways: &WayFinder,
    round: &Way,
    (from, to): (Headed, Headed),
    radius_m: f64,
) -> Option<Way> {
    let (left_m, leaves) = leave(ways, &round.corners, from, radius_m)?;
    let mut back = round.corners.clone();
    back.reverse();
    let (joined_m, joins) = leave(ways, &back, to.back(), radius_m)?;
    let mut corners = leaves.corners;
    corners.extend(between(&round.corners, left_m, round.length_m - joined_m));
    corners.extend(joins.corners.into_iter().rev());
    Some(Way {
        corners,
        length_m: leaves.length_m + (round.length_m - left_m - joined_m) + joins.length_m,
    })
}

/// The bent way from a place into a way that begins there which adds least, and how far along the way it joins it.
fn leave(ways: &WayFinder, way: &[Point], from: Headed, radius_m: f64) -> Option<(f64, Way)> {
    let half_m = crate::geometry::line::length_m(way) / 2.0;
    let mut best: Option<(f64, Way)> = None;
    for radii in JOINED_AT_RADII {
        let along_m = radii * radius_m;
        let Some(station) = station_at(way, along_m).filter(|_| along_m <= half_m) else {
            break;
        };
        let onto = Headed {
            at: station.place,
            bearing_deg: station.bearing_deg,
        };
        let Some(found) = turned_way(ways, from, onto, radius_m) else {
            continue;
        };
        let adds_m = found.length_m - along_m;
        if best
            .as_ref()
            .is_none_or(|(least_m, least)| adds_m < least.length_m - least_m)
        {
            best = Some((along_m, found));
        }
    }
    best
}

/// The corners of a line that lie between two lengths along it.
fn between(line: &[Point], from_m: f64, to_m: f64) -> Vec<Point> {
    let mut along_m = 0.0;
    let mut inner = Vec::new();
    for (one, other) in line.iter().zip(line.iter().skip(1)) {
        along_m += one.distance_m(*other);
        if along_m > from_m && along_m < to_m {
            inner.push(*other);
        }
    }
    inner
}
