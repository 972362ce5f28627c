//! Boundaries that neighbours share: common corners and stretches, overlaps and gaps, and keeping them one.
//!
//! Corners within 1 mm are one corner. Metres and square metres.

use super::buffer::{drawn_in, drawn_out};
use super::overlay::{all_joined, in_both, without};
use super::{Outline, Point, Polygon};

/// How near two corners are to be one, or a corner to a side to lie on it, metres.
pub const SAME_PLACE_M: f64 = 0.001;

/// A corner of one of several outlines.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct CornerOf {
    /// Which outline.
    pub outline: usize,
    /// Which part of it.
    pub part: usize,
    /// Which ring of that part: 0 is the outer one.
    pub ring: usize,
    /// Which corner of that ring; for a side the one it starts from.
    pub corner: usize,
}

/// A piece of ground where neighbours do not fit.
#[derive(Debug, Clone, PartialEq)]
pub struct Misfit {
    /// The ground.
    pub ground: Outline,
    /// Its area on the plane, square metres.
    pub area_m2: f64,
}

/// Every corner at a place, in order: what must move together.
pub fn corners_at(outlines: &[Outline], place: Point) -> Vec<CornerOf> {
    let at_place = |(from, _): (Point, Point)| from.distance_m(place) <= SAME_PLACE_M;
    all_sides(outlines)
        .filter(|(_, side)| at_place(*side))
        .map(|(corner, _)| corner)
        .collect()
}

/// Every side that passes a place without a corner there, in order.
pub fn sides_through(outlines: &[Outline], place: Point) -> Vec<CornerOf> {
    let passes = |(from, to): (Point, Point)| {
        from.distance_m(place) > SAME_PLACE_M
            && to.distance_m(place) > SAME_PLACE_M
            && place.distance_m(place.nearest_on_side(from, to)) <= SAME_PLACE_M
    };
    all_sides(outlines)
        .filter(|(_, side)| passes(*side))
        .map(|(corner, _)| corner)
        .collect()
}

/// Puts a corner at `place` into every side that passes it; how many were put in. Corners already there are set to
/// the very place, so that all share it to the last digit.
pub fn share_corner(outlines: &mut [Outline], place: Point) -> usize {
    for at in corners_at(outlines, place) {
        if let Some(corner) = ring_mut(outlines, at).and_then(|ring| ring.get_mut(at.corner)) {
            *corner = place;
        }
    }
    let mut sides = sides_through(outlines, place);
    // From the last side back, so that places earlier in a ring stay as they are.
    sides.sort_by(|one, two| two.cmp(one));
    for side in &sides {
        if let Some(ring) = ring_mut(outlines, *side) {
            ring.insert((side.corner + 1).min(ring.len()), place);
        }
    }
    sides.len()
}

/// Gives every outline the corners its neighbours have on its sides; how many were put in. Corners within 1 mm of each
/// other become one, the first.
pub fn share_all_corners(outlines: &mut [Outline]) -> usize {
    let places: Vec<Point> = all_sides(outlines).map(|(_, (from, _))| from).collect();
    let mut added = 0;
    let mut done: Vec<Point> = Vec::new();
    for place in places {
        if done
            .iter()
            .any(|earlier| earlier.distance_m(place) <= SAME_PLACE_M)
        {
            continue;
        }
        added += share_corner(outlines, place);
        done.push(place);
    }
    added
}

/// The stretches of boundary that two outlines share, as they run in the first.
pub fn shared_stretches(one: &Outline, two: &Outline) -> Vec<(Point, Point)> {
    let mut shared = Vec::new();
    for (from, to) in one.rings().flat_map(super::Ring::sides) {
        for (other_from, other_to) in two.rings().flat_map(super::Ring::sides) {
            shared.extend(common_stretch((from, to), (other_from, other_to)));
        }
    }
    shared
}

/// Length of boundary two outlines share, metres.
pub fn shared_length_m(one: &Outline, two: &Outline) -> f64 {
    let stretches = shared_stretches(one, two);
    stretches
        .iter()
        .map(|(from, to)| from.distance_m(*to))
        .sum()
}

/// The pieces where two outlines overlap, those of under `least_m2` left out.
pub fn overlaps(one: &Outline, two: &Outline, least_m2: f64) -> Vec<Misfit> {
    misfits(in_both(one, two), least_m2)
}

/// The pieces between outlines that are nowhere wider than `widest_m` and touch two of them or close a notch.
///
/// The ground is drawn out by half the width and in again, which closes what is narrower (closing, as in J. Serra,
/// *Image Analysis and Mathematical Morphology*, 1982); the roundings this leaves in corners, all under a tenth of
/// the width squared, are left out, and so is a true gap that small.
pub fn gaps(outlines: &[Outline], widest_m: f64) -> Vec<Misfit> {
    if !(widest_m > 0.0 && widest_m.is_finite()) {
        return Vec::new();
    }
    let ground = all_joined(outlines);
    let closed = drawn_in(&drawn_out(&ground, widest_m / 2.0), widest_m / 2.0);
    misfits(without(&closed, &ground), widest_m * widest_m / 10.0)
}

fn misfits(ground: Outline, least_m2: f64) -> Vec<Misfit> {
    let misfit = |part: Polygon| Misfit {
        area_m2: part.area_m2(),
        ground: Outline { parts: vec![part] },
    };
    let found = ground.parts.into_iter().map(misfit);
    found
        .filter(|misfit| misfit.area_m2 > 0.0 && misfit.area_m2 >= least_m2)
        .collect()
}

/// Where one side runs along another for more than a millimetre.
fn common_stretch(side: (Point, Point), other: (Point, Point)) -> Option<(Point, Point)> {
    let (from, to) = side;
    let length_m = from.distance_m(to);
    let near = |place: Point| {
        let foot = place.nearest_on_side(from, to);
        (
            place.share_along_side(from, to),
            foot.distance_m(place) <= SAME_PLACE_M,
        )
    };
    let on_other =
        |place: Point| place.distance_m(place.nearest_on_side(other.0, other.1)) <= SAME_PLACE_M;
    let ends = [near(other.0), near(other.1)];
    let mut shares: Vec<f64> = ends
        .iter()
        .filter(|(_, near)| *near)
        .map(|(share, _)| *share)
        .collect();
    shares.extend(
        [(0.0, from), (1.0, to)]
            .iter()
            .filter(|(_, end)| on_other(*end))
            .map(|(share, _)| *share),
    );
    let least = shares.iter().copied().fold(f64::INFINITY, f64::min);
    let most = shares.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    ((most - least) * length_m > SAME_PLACE_M)
        .then(|| (from.between(to, least), from.between(to, most)))
}

/// Every side of every outline with where it starts.
fn all_sides(outlines: &[Outline]) -> impl Iterator<Item = (CornerOf, (Point, Point))> + '_ {
    outlines.iter().enumerate().flat_map(|(outline, shape)| {
        shape
            .parts
            .iter()
            .enumerate()
            .flat_map(move |(part, polygon)| {
                polygon.rings().enumerate().flat_map(move |(ring, sides)| {
                    sides.sides().enumerate().map(move |(corner, side)| {
                        let at = CornerOf {
                            outline,
                            part,
                            ring,
                            corner,
                        };
                        (at, side)
                    })
                })
            })
    })
}

fn ring_mut(outlines: &mut [Outline], at: CornerOf) -> Option<&mut Vec<Point>> {
    let part = outlines.get_mut(at.outline)?.parts.get_mut(at.part)?;
    part.rings_mut().nth(at.ring).map(|ring| &mut ring.corners)
}
