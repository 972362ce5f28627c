//! A sliver between two boundaries, parted along its middle. Metres.
//!
//! The sliver's ring is a way along the one boundary and a way back along the other; the middle line runs half-way
//! between places that are as far along both.

use super::neighbours::SAME_PLACE_M;
use super::{Outline, Point, Polygon, Ring};

/// The half of a sliver beside `one` and the half beside `two`; none where it has holes or parts, or does not lie
/// between the two as one way along each.
pub fn halves(sliver: &Outline, one: &Outline, two: &Outline) -> Option<(Outline, Outline)> {
    let [part] = sliver.parts.as_slice() else {
        return None;
    };
    if !part.holes.is_empty() {
        return None;
    }
    let (along_one, mut along_two) = two_ways(&part.outer, one, two)?;
    along_two.reverse();
    let middle = middle_line(&along_one, &along_two);
    let half = |along: &[Point]| {
        let mut ring = along.to_vec();
        ring.extend(middle.iter().rev());
        let mut ring = Ring::new(ring);
        ring.corners.dedup();
        Outline::simple(ring.corners)
    };
    Some((half(&along_one), half(&along_two)))
}

/// A sliver with its mouths drawn straight: where both boundaries have a corner within `reach_m` of its end, from the one
/// corner to the other. The sliver as it is where it does not lie between the two as one way along each.
pub fn with_straight_mouths(
    sliver: &Polygon,
    one: &Outline,
    two: &Outline,
    reach_m: f64,
) -> Polygon {
    let Some((mut along_one, mut along_two)) =
        two_ways(&sliver.outer, one, two).filter(|_| sliver.holes.is_empty())
    else {
        return sliver.clone();
    };
    straighten(&mut along_one, one, &mut along_two, two, reach_m);
    straighten(&mut along_two, two, &mut along_one, one, reach_m);
    let mut ring = along_one;
    ring.extend(along_two);
    ring.dedup();
    Polygon::simple(ring)
}

/// Draws the mouth straight at which the one way ends and the other begins.
fn straighten(
    way: &mut Vec<Point>,
    outline: &Outline,
    next: &mut Vec<Point>,
    beside: &Outline,
    reach_m: f64,
) {
    let (Some(from), Some(to)) = (way.last().copied(), next.first().copied()) else {
        return;
    };
    if from.distance_m(to) <= SAME_PLACE_M {
        return;
    }
    let corners = corner_near(outline, from, reach_m).zip(corner_near(beside, to, reach_m));
    if let Some((corner, other)) = corners {
        with_end(way, corner);
        next.reverse();
        with_end(next, other);
        next.reverse();
    }
}

/// Leads a way to a corner; places short of it that lie within a hand's breadth are passed over.
fn with_end(way: &mut Vec<Point>, corner: Point) {
    while way.len() > 1
        && way
            .last()
            .is_some_and(|place| place.distance_m(corner) <= 0.05)
    {
        way.pop();
    }
    way.push(corner);
}

/// The corner of an outline nearest to a place, within reach.
fn corner_near(outline: &Outline, place: Point, reach_m: f64) -> Option<Point> {
    outline
        .rings()
        .flat_map(|ring| ring.corners.iter().copied())
        .map(|corner| (corner.distance_m(place), corner))
        .filter(|(off_m, _)| *off_m <= reach_m)
        .min_by(|(a, _), (b, _)| a.total_cmp(b))
        .map(|(_, corner)| corner)
}

/// The way along the first outline and the way on along the second, as they follow each other round a ring.
fn two_ways(ring: &Ring, one: &Outline, two: &Outline) -> Option<(Vec<Point>, Vec<Point>)> {
    let sides: Vec<(Point, Point)> = ring.sides().collect();
    let beside: Vec<Option<bool>> = sides
        .iter()
        .map(|side| beside_one(*side, one, two))
        .collect();
    Some((
        chain(&sides, &beside, true)?,
        chain(&sides, &beside, false)?,
    ))
}

/// Whether a side lies on the boundary of the first (or of the second) outline; none where it lies on neither.
fn beside_one((from, to): (Point, Point), one: &Outline, two: &Outline) -> Option<bool> {
    let middle = from.between(to, 0.5);
    let lies_on = |outline: &Outline| {
        [from, middle, to].iter().all(|place| {
            outline
                .nearest_side(*place)
                .is_some_and(|near| near.distance_m <= SAME_PLACE_M)
        })
    };
    match (lies_on(one), lies_on(two)) {
        (true, false) => Some(true),
        (false, true) => Some(false),
        _ => None,
    }
}

/// The one run of sides beside an outline, as places; none where there are several runs or no run.
fn chain(sides: &[(Point, Point)], beside: &[Option<bool>], wanted: bool) -> Option<Vec<Point>> {
    let count = sides.len();
    let is_wanted = |place: usize| beside.get(place % count).copied().flatten() == Some(wanted);
    let mut starts = (0..count).filter(|place| is_wanted(*place) && !is_wanted(place + count - 1));
    let start = starts.next()?;
    if starts.next().is_some() {
        return None;
    }
    let mut line = vec![sides.get(start)?.0];
    for place in (start..start + count).take_while(|place| is_wanted(*place)) {
        line.push(sides.get(place % count)?.1);
    }
    Some(line)
}

/// Half-way between two lines that run the same way, with a place for every corner of either.
fn middle_line(one: &[Point], two: &[Point]) -> Vec<Point> {
    let mut shares: Vec<f64> = shares_of(one).into_iter().chain(shares_of(two)).collect();
    shares.sort_by(f64::total_cmp);
    shares.dedup_by(|next, kept| *next - *kept < 1e-9);
    shares
        .into_iter()
        .map(|share| at_share(one, share).between(at_share(two, share), 0.5))
        .collect()
}

/// How far along a line each of its corners lies, 0 to 1.
fn shares_of(line: &[Point]) -> Vec<f64> {
    let whole_m = super::line::length_m(line);
    let mut passed_m = 0.0;
    let mut shares = vec![0.0];
    for (from, to) in line.iter().zip(line.iter().skip(1)) {
        passed_m += from.distance_m(*to);
        shares.push(if whole_m > 0.0 {
            (passed_m / whole_m).min(1.0)
        } else {
            1.0
        });
    }
    shares
}

fn at_share(line: &[Point], share: f64) -> Point {
    let (first, last) = (
        line.first().copied().unwrap_or_default(),
        line.last().copied().unwrap_or_default(),
    );
    // The ends to the last digit, so that both halves keep them.
    if share <= 0.0 {
        return first;
    }
    if share >= 1.0 {
        return last;
    }
    super::line::station_at(line, share * super::line::length_m(line))
        .map_or(last, |station| station.place)
}
