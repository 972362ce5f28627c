//! Lines of points: length along them, places and bearings on them, lines beside them.
//!
//! Metres on the plane, bearings degrees clockwise from north. Used for tracks, hedges, tree lines, fences and pipes.

use super::Point;

/// A place on a line and the way the line runs there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Station {
    /// The place.
    pub place: Point,
    /// How far along the line, metres from its start.
    pub along_m: f64,
    /// Bearing of the line there, degrees; at a bend that of the stretch ahead.
    pub bearing_deg: f64,
}

/// The most stations set out along one line.
const MOST_STATIONS: usize = 1_000_000;

/// How far a mitred corner may reach, as a multiple of the offset, before it is cut off.
const LONGEST_MITRE: f64 = 4.0;

/// Length along a line, metres; 0 for fewer than two points.
pub fn length_m(line: &[Point]) -> f64 {
    stretches(line).map(|(from, to)| from.distance_m(to)).sum()
}

/// The place `along_m` from the start, held within the line's ends; none for a line of no length.
pub fn station_at(line: &[Point], along_m: f64) -> Option<Station> {
    let mut passed_m = 0.0;
    let mut last = None;
    for (from, to) in stretches(line) {
        let length_m = from.distance_m(to);
        if length_m <= 0.0 {
            continue;
        }
        let bearing_deg = from.bearing_deg(to);
        if along_m < passed_m + length_m {
            let on_stretch_m = (along_m - passed_m).max(0.0);
            return Some(Station {
                place: from.between(to, on_stretch_m / length_m),
                along_m: passed_m + on_stretch_m,
                bearing_deg,
            });
        }
        passed_m += length_m;
        last = Some(Station {
            place: to,
            along_m: passed_m,
            bearing_deg,
        });
    }
    last
}

/// Stations every `spacing_m` from `first_m` to the end of the line, as posts or trees are set out.
/// A station short of the end by mere rounding counts. None where the spacing is not above 0, or they would be more
/// than a million.
pub fn stations(line: &[Point], first_m: f64, spacing_m: f64) -> Vec<Station> {
    let whole_m = length_m(line);
    let count = ((whole_m - first_m) / spacing_m + 1e-9).floor();
    #[expect(clippy::cast_precision_loss, reason = "a million is exact")]
    let most = MOST_STATIONS as f64;
    if !(spacing_m > 0.0 && first_m >= 0.0 && count >= 0.0 && count < most) {
        return Vec::new();
    }
    let mut found = Vec::new();
    let mut index = 0.0;
    while index <= count {
        found.extend(station_at(
            line,
            spacing_m.mul_add(index, first_m).min(whole_m),
        ));
        index += 1.0;
    }
    found
}

/// The line `offset_m` to the right of this one, to the left below 0, corners mitred.
///
/// A very sharp corner is cut off at four times the offset. Where a line bends more tightly than the offset the result
/// may cross itself. Repeated points are passed over; fewer than two that differ give no line.
pub fn parallel_line(line: &[Point], offset_m: f64) -> Vec<Point> {
    let mut points = line.to_vec();
    points.dedup();
    if points.len() < 2 {
        return Vec::new();
    }
    let bearings: Vec<f64> = stretches(&points)
        .map(|(from, to)| from.bearing_deg(to))
        .collect();
    let before = std::iter::once(None).chain(bearings.iter().map(|bearing| Some(*bearing)));
    let after = bearings.iter().map(|bearing| Some(*bearing)).chain([None]);
    let mut beside = Vec::with_capacity(points.len());
    for (point, (before_deg, after_deg)) in points.iter().zip(before.zip(after)) {
        match (before_deg, after_deg) {
            (Some(before_deg), Some(after_deg)) => {
                beside.extend(mitred(*point, before_deg, after_deg, offset_m));
            }
            (Some(bearing_deg), None) | (None, Some(bearing_deg)) => {
                beside.push(point.towards(bearing_deg + 90.0, offset_m));
            }
            (None, None) => {}
        }
    }
    beside
}

/// The corner beside a bend: one point, or two where the bend is too sharp for a mitre.
fn mitred(corner: Point, before_deg: f64, after_deg: f64, offset_m: f64) -> Vec<Point> {
    let turn_deg = (after_deg - before_deg + 180.0).rem_euclid(360.0) - 180.0;
    let half = (turn_deg / 2.0).to_radians().cos();
    if half * LONGEST_MITRE < 1.0 {
        return vec![
            corner.towards(before_deg + 90.0, offset_m),
            corner.towards(after_deg + 90.0, offset_m),
        ];
    }
    vec![corner.towards(before_deg + turn_deg / 2.0 + 90.0, offset_m / half)]
}

/// The stretches from point to point.
pub(super) fn stretches(line: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    line.iter()
        .zip(line.iter().skip(1))
        .map(|(from, to)| (*from, *to))
}
