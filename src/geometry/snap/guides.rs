//! Lines that nothing drawn lies on: beyond the ends of sides, and from the last point square, parallel or at a fixed
//! bearing; and where these meet each other or a side.

use super::super::Point;
use super::{Candidate, SideOrder, Snap, SnapIndex, SnapKind, SnapRequest, SnapSide};

/// Sides within so many tolerances of the pointer or the last point lend their direction.
const REACH_TOLERANCES: f64 = 40.0;
/// How many guides near the pointer are crossed with each other and with sides.
const MOST_GUIDES: usize = 24;
/// Guides that meet at less than this angle give no firm place, radians.
const LEAST_ANGLE: f64 = 0.02;

/// An endless line through a place.
#[derive(Clone, Copy)]
struct Guide {
    kind: SnapKind,
    through: Point,
    /// Its bearing where no side lends its direction, degrees.
    bearing_deg: f64,
    /// The side that lends it its direction.
    side: Option<SnapSide>,
}

/// The places on guides that may be meant.
pub(super) fn candidates(index: &SnapIndex, request: &SnapRequest) -> Vec<Candidate> {
    let guides = guides_near(index, request);
    let mut found: Vec<Candidate> = guides
        .iter()
        .map(|guide| candidate(guide, guide.foot(request.pointer), None, request))
        .collect();
    for (at, one) in guides.iter().enumerate() {
        for two in guides.iter().skip(at + 1) {
            // All guides through the last point meet there, which is no place to go to.
            let is_away = |place: &Point| {
                request
                    .from
                    .is_none_or(|from| from.distance_m(*place) > 1e-6)
            };
            if let Some(place) = meet(one, two).filter(is_away) {
                found.push(candidate(one, place, Some((two.through, place)), request));
            }
        }
    }
    for side in index.near(request.pointer, request.tolerance_m, request) {
        let Some(line) = Guide::along(SnapKind::AlongSide, &side) else {
            continue;
        };
        for guide in &guides {
            let on_side =
                |place: &Point| place.distance_m(place.nearest_on_side(side.from, side.to)) < 1e-9;
            if let Some(place) = meet(guide, &line).filter(on_side) {
                let mut both = candidate(guide, place, Some((side.from, side.to)), request);
                both.snap.target = Some((side.owner, side.corner));
                found.push(both);
            }
        }
    }
    found
}

/// Guides that pass within the tolerance of the pointer, the nearest first.
fn guides_near(index: &SnapIndex, request: &SnapRequest) -> Vec<Guide> {
    let mut guides: Vec<Guide> = Vec::new();
    for side in lending_sides(index, request) {
        guides.extend(Guide::along(SnapKind::InLine, &side));
        let Some(from) = request.from else {
            continue;
        };
        for kind in [SnapKind::Square, SnapKind::Parallel] {
            let line = Guide::along(kind, &side);
            guides.extend(line.map(|line| Guide {
                through: from,
                ..line
            }));
        }
    }
    guides.extend(fixed_angle(request));
    let off_m = |guide: &Guide| request.pointer.distance_m(guide.foot(request.pointer));
    guides.retain(|guide| {
        request.kinds.contains(&guide.kind)
            && off_m(guide) <= request.tolerance_m
            && guide.is_beyond(request)
    });
    guides.sort_by(|one, two| {
        off_m(one)
            .total_cmp(&off_m(two))
            .then(one.kind.cmp(&two.kind))
            .then(one.order().cmp(&two.order()))
    });
    guides.truncate(MOST_GUIDES);
    guides
}

/// The sides near the pointer or the last point, which lend their direction.
fn lending_sides(index: &SnapIndex, request: &SnapRequest) -> Vec<SnapSide> {
    let reach_m = request.tolerance_m * REACH_TOLERANCES;
    let mut sides = index.near(request.pointer, reach_m, request);
    for side in request
        .from
        .iter()
        .flat_map(|from| index.near(*from, reach_m, request))
    {
        if sides.iter().all(|known| known.order != side.order) {
            sides.push(side);
        }
    }
    sides
}

/// The fixed bearing nearest to the way the pointer lies.
fn fixed_angle(request: &SnapRequest) -> Option<Guide> {
    let from = request
        .from
        .filter(|from| from.distance_m(request.pointer) > 0.0)?;
    let step_deg = request.angle_step_deg;
    if !(step_deg > 0.0 && step_deg.is_finite()) {
        return None;
    }
    Some(Guide {
        kind: SnapKind::FixedAngle,
        through: from,
        bearing_deg: (from.bearing_deg(request.pointer) / step_deg).round() * step_deg,
        side: None,
    })
}

impl Guide {
    fn along(kind: SnapKind, side: &SnapSide) -> Option<Self> {
        (side.from.distance_m(side.to) > 0.0).then_some(Self {
            kind,
            through: side.from,
            bearing_deg: 0.0,
            side: Some(*side),
        })
    }

    fn order(&self) -> SideOrder {
        self.side.map_or(super::LAST, |side| side.order)
    }

    /// East and north of a metre along it.
    fn direction(&self) -> (f64, f64) {
        match self.side {
            // From the side itself, which is exacter than by the bearing.
            Some(side) if self.kind != SnapKind::Square => {
                let length_m = side.from.distance_m(side.to);
                (
                    (side.to.east_m - side.from.east_m) / length_m,
                    (side.to.north_m - side.from.north_m) / length_m,
                )
            }
            Some(side) => {
                let length_m = side.from.distance_m(side.to);
                (
                    (side.to.north_m - side.from.north_m) / length_m,
                    (side.from.east_m - side.to.east_m) / length_m,
                )
            }
            None => self.bearing_deg.to_radians().sin_cos(),
        }
    }

    /// The place on it nearest to another.
    fn foot(&self, place: Point) -> Point {
        let (east, north) = self.direction();
        let along_m = (place.east_m - self.through.east_m) * east
            + (place.north_m - self.through.north_m) * north;
        self.through.moved(east * along_m, north * along_m)
    }

    /// A side's own line counts as a guide only beyond its ends; the side itself is another kind.
    fn is_beyond(&self, request: &SnapRequest) -> bool {
        match self.side {
            Some(side) if self.kind == SnapKind::InLine => {
                let share = self
                    .foot(request.pointer)
                    .share_along_side(side.from, side.to);
                share <= 0.0 || share >= 1.0
            }
            _ => true,
        }
    }
}

/// Where two guides meet, unless they run all but the same way.
fn meet(one: &Guide, two: &Guide) -> Option<Point> {
    let ((east, north), (other_east, other_north)) = (one.direction(), two.direction());
    let sine = east * other_north - north * other_east;
    if sine.abs() < LEAST_ANGLE {
        return None;
    }
    let (away_east, away_north) = (
        two.through.east_m - one.through.east_m,
        two.through.north_m - one.through.north_m,
    );
    let along_m = (away_east * other_north - away_north * other_east) / sine;
    Some(one.through.moved(east * along_m, north * along_m))
}

fn candidate(
    guide: &Guide,
    place: Point,
    other: Option<(Point, Point)>,
    request: &SnapRequest,
) -> Candidate {
    let start = match guide.side {
        // From the end of the side that is nearer.
        Some(side)
            if guide.kind == SnapKind::InLine
                && side.to.distance_m(place) < side.from.distance_m(place) =>
        {
            side.to
        }
        _ => guide.through,
    };
    let mut guides = vec![(start, place)];
    guides.extend(other);
    Candidate {
        off_m: request.pointer.distance_m(place),
        doubly: other.is_some(),
        tie: guide.order(),
        snap: Snap {
            place,
            kind: guide.kind,
            target: guide.side.map(|side| (side.owner, side.corner)),
            guides,
        },
    }
}
