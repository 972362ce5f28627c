//! Outlines as an overlay leaves them, made fit to keep: specks, spikes and repeated corners fall away. Metres.

use crate::geometry::cut::parted_at_touches;
use crate::geometry::validity::{self, FaultKind, ShapeFault};
use crate::geometry::{Outline, Point, Polygon, Ring};

/// Parts and holes smaller than this are what rounding leaves, square metres.
const SPECK_M2: f64 = 1e-4;
/// A corner this near the straight line between its neighbours does not bend it, and a spike this thin is none, metres.
const STRAIGHT_M: f64 = 1e-6;

/// The outline without specks; pieces that hang together at single places are parts of their own.
pub(super) fn tidied(outline: Outline) -> Outline {
    let outline = without_specks(outline);
    let touches =
        |fault: &ShapeFault| matches!(fault.kind, FaultKind::CutApart | FaultKind::TouchesItself);
    if validity::faults(&outline).iter().any(touches) {
        return without_specks(parted_at_touches(&outline));
    }
    outline
}

fn without_specks(outline: Outline) -> Outline {
    let parts = outline.parts.into_iter().filter_map(|part| {
        let part = Polygon {
            outer: without_repeats(part.outer),
            holes: part
                .holes
                .into_iter()
                .map(without_repeats)
                .filter(|hole| hole.area_m2() > SPECK_M2)
                .collect(),
        };
        (part.outer.area_m2() > SPECK_M2).then_some(part)
    });
    Outline {
        parts: parts.collect(),
    }
}

/// The ring without repeated corners and without spikes, which rounding leaves where two boundaries run along each
/// other.
fn without_repeats(ring: Ring) -> Ring {
    let mut ring = Ring::new(ring.corners);
    let mut place = 0;
    while ring.corners.len() > 2 && place < ring.corners.len() {
        let count = ring.corners.len();
        let corner = |place: usize| ring.corners.get(place % count).copied().unwrap_or_default();
        let (before, at, after) = (corner(place + count - 1), corner(place), corner(place + 1));
        if at == after || is_spike(before, at, after) {
            ring.corners.remove(place);
            place = place.saturating_sub(2);
        } else {
            place += 1;
        }
    }
    ring
}

/// Whether the way runs out to a corner and back over itself.
fn is_spike(before: Point, at: Point, after: Point) -> bool {
    let (out_east_m, out_north_m) = (before.east_m - at.east_m, before.north_m - at.north_m);
    let (on_east_m, on_north_m) = (after.east_m - at.east_m, after.north_m - at.north_m);
    let same_way = out_east_m * on_east_m + out_north_m * on_north_m > 0.0;
    let (out_m, on_m) = (at.distance_m(before), at.distance_m(after));
    let off_m = if out_m < on_m {
        before.distance_m(before.nearest_on_side(at, after))
    } else {
        after.distance_m(after.nearest_on_side(at, before))
    };
    same_way && off_m < STRAIGHT_M
}

/// The outline without corners that bend nothing, those for which `keeps` speaks excepted.
pub(super) fn without_straight_corners(
    outline: &Outline,
    keeps: impl Fn(Point) -> bool,
) -> Outline {
    let mut outline = outline.clone();
    for ring in outline.rings_mut() {
        let mut place = 0;
        while ring.corners.len() > 3 && place < ring.corners.len() {
            let count = ring.corners.len();
            let corner =
                |place: usize| ring.corners.get(place % count).copied().unwrap_or_default();
            let (before, at, after) = (corner(place + count - 1), corner(place), corner(place + 1));
            let bends = at.distance_m(at.nearest_on_side(before, after)) > STRAIGHT_M;
            if bends || keeps(at) {
                place += 1;
            } else {
                ring.corners.remove(place);
            }
        }
    }
    outline
}
