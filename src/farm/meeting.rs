//! Whether two areas can share ground, or come close without meeting: quick looks before the exact overlay. Metres.
//!
//! Most pieces of a farm lie beside each other along very same sides; they are told apart from those that overlap by
//! looking at corners and crossings alone.

use crate::geometry::sides::{Meeting, meeting};
use crate::geometry::{Bounds, Outline, Point, Ring, Whereabouts};

/// Whether two areas may share ground; false only where they surely do not.
pub(super) fn may_share(one: &Outline, two: &Outline) -> bool {
    let Some(room) = common_box(one, two, 0.0) else {
        return false;
    };
    let near_one = sides_in(one, room);
    let near_two = sides_in(two, room);
    let crosses = near_one.iter().any(|(a, b)| {
        near_two
            .iter()
            .any(|(c, d)| a != b && c != d && matches!(meeting(*a, *b, *c, *d), Meeting::Cross(_)))
    });
    crosses || reaches_in(&near_one, two) || reaches_in(&near_two, one) || is_same(one, two)
}

/// Whether a corner or the middle of a side lies well within an outline.
fn reaches_in(sides: &[(Point, Point)], outline: &Outline) -> bool {
    sides.iter().any(|(from, to)| {
        [*from, from.between(*to, 0.5)]
            .iter()
            .any(|place| outline.whereabouts(*place) == Whereabouts::Inside)
    })
}

/// Whether every corner of either lies on the boundary of the other: then they may be one and the same ground.
fn is_same(one: &Outline, two: &Outline) -> bool {
    let lies_on = |a: &Outline, b: &Outline| {
        a.rings()
            .flat_map(|ring| ring.corners.iter())
            .all(|corner| b.whereabouts(*corner) == Whereabouts::OnBoundary)
    };
    lies_on(one, two) && lies_on(two, one)
}

/// Whether two areas come within `reach_m` of each other somewhere where they do not meet.
pub(super) fn comes_close(one: &Outline, two: &Outline, reach_m: f64) -> bool {
    let Some(room) = common_box(one, two, reach_m) else {
        return false;
    };
    let (near_one, near_two) = (sides_in(one, room), sides_in(two, room));
    corner_close(&near_one, &near_two, reach_m) || corner_close(&near_two, &near_one, reach_m)
}

/// Whether a corner of some sides lies within reach of others, and further than a millimetre from all of them.
fn corner_close(sides: &[(Point, Point)], others: &[(Point, Point)], reach_m: f64) -> bool {
    sides.iter().any(|(corner, _)| {
        let off_m = others
            .iter()
            .map(|(from, to)| corner.distance_m(corner.nearest_on_side(*from, *to)))
            .fold(f64::INFINITY, f64::min);
        off_m <= reach_m && off_m > crate::geometry::neighbours::SAME_PLACE_M
    })
}

/// The box that both lie in, grown by a reach; none where they lie apart.
fn common_box(one: &Outline, two: &Outline, reach_m: f64) -> Option<Bounds> {
    let (one, two) = (one.bounds()?.grown(reach_m), two.bounds()?.grown(reach_m));
    one.meets(two).then(|| Bounds {
        least: Point::new(
            one.least.east_m.max(two.least.east_m),
            one.least.north_m.max(two.least.north_m),
        ),
        most: Point::new(
            one.most.east_m.min(two.most.east_m),
            one.most.north_m.min(two.most.north_m),
        ),
    })
}

/// The sides that come into a box.
fn sides_in(outline: &Outline, room: Bounds) -> Vec<(Point, Point)> {
    outline
        .rings()
        .flat_map(Ring::sides)
        .filter(|(from, to)| Bounds::of_points([*from, *to]).is_some_and(|side| side.meets(room)))
        .collect()
}
