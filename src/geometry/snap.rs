//! Where a drawn point wants to be: on corners, middles, sides and crossings near the pointer, and in line with,
//! square or parallel to what is drawn already.
//!
//! Of the candidates within the tolerance the best kind wins, by the order of [`SnapKind`]; within a kind one that
//! meets two conditions at once, then the nearest, then the first drawn. Metres on the plane; bearings degrees.

mod candidates;
mod guides;

use std::collections::{BTreeMap, BTreeSet};

use rstar::{AABB, PointDistance, RTree, RTreeObject};

use super::{Outline, Point};

/// The kinds of place to snap to, the most wanted first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SnapKind {
    /// A corner, an end of a line, or a point.
    Corner,
    /// Where two sides cross.
    Crossing,
    /// The middle of a side.
    Middle,
    /// Where the new stretch would meet or leave a side at a right angle.
    Square,
    /// On the line of a side, beyond its end.
    InLine,
    /// Where the new stretch would run parallel to a side.
    Parallel,
    /// Where the new stretch would run at one of the fixed bearings.
    FixedAngle,
    /// On a side.
    AlongSide,
    /// A point of the grid.
    Grid,
}

/// What can be snapped to: a ring, a line or a point, with the caller's own number for it.
#[derive(Debug, Clone, PartialEq)]
pub struct SnapShape {
    /// The caller's number for the thing.
    pub owner: u64,
    /// Its corners; one alone is a point.
    pub places: Vec<Point>,
    /// Whether the last corner is joined to the first.
    pub closed: bool,
}

/// What is asked of the index.
#[derive(Debug, Clone, PartialEq)]
pub struct SnapRequest {
    /// Where the pointer is.
    pub pointer: Point,
    /// The point the new stretch starts from, where one is being drawn.
    pub from: Option<Point>,
    /// How far from the pointer the place may be, metres.
    pub tolerance_m: f64,
    /// The kinds wanted.
    pub kinds: BTreeSet<SnapKind>,
    /// Step of the fixed bearings, degrees; 0 for none.
    pub angle_step_deg: f64,
    /// Spacing of the grid, metres; 0 for none.
    pub grid_m: f64,
    /// Owners that do not hold still, and so are not snapped to.
    pub without: BTreeSet<u64>,
}

impl SnapRequest {
    /// A request for all kinds, at bearings of 15° and with no grid.
    pub fn new(pointer: Point, from: Option<Point>, tolerance_m: f64) -> Self {
        Self {
            pointer,
            from,
            tolerance_m,
            kinds: ALL_KINDS.into_iter().collect(),
            angle_step_deg: 15.0,
            grid_m: 0.0,
            without: BTreeSet::new(),
        }
    }
}

/// Every kind, the most wanted first.
pub const ALL_KINDS: [SnapKind; 9] = [
    SnapKind::Corner,
    SnapKind::Crossing,
    SnapKind::Middle,
    SnapKind::Square,
    SnapKind::InLine,
    SnapKind::Parallel,
    SnapKind::FixedAngle,
    SnapKind::AlongSide,
    SnapKind::Grid,
];

/// Where the point snaps to.
#[derive(Debug, Clone, PartialEq)]
pub struct Snap {
    /// The place.
    pub place: Point,
    /// Why there.
    pub kind: SnapKind,
    /// The owner and side, by its first corner, it belongs to; none for fixed bearings and the grid.
    pub target: Option<(u64, usize)>,
    /// Lines to draw that show why, each from and to.
    pub guides: Vec<(Point, Point)>,
}

/// An owner's number, and the place of a side among all sides of that owner.
type SideOrder = (u64, usize);

/// Behind every side.
const LAST: SideOrder = (u64::MAX, usize::MAX);

/// A side to snap to.
#[derive(Debug, Clone, Copy, PartialEq)]
struct SnapSide {
    /// Its owner and its place among the owner's sides, to settle ties.
    order: SideOrder,
    owner: u64,
    corner: usize,
    from: Point,
    to: Point,
}

impl RTreeObject for SnapSide {
    type Envelope = AABB<[f64; 2]>;

    fn envelope(&self) -> Self::Envelope {
        AABB::from_corners(
            [self.from.east_m, self.from.north_m],
            [self.to.east_m, self.to.north_m],
        )
    }
}

impl PointDistance for SnapSide {
    fn distance_2(&self, at: &[f64; 2]) -> f64 {
        let [east_m, north_m] = *at;
        let place = Point::new(east_m, north_m);
        place
            .distance_m(place.nearest_on_side(self.from, self.to))
            .powi(2)
    }
}

/// All that can be snapped to, by place.
#[derive(Debug, Clone)]
pub struct SnapIndex {
    tree: RTree<SnapSide>,
    by_owner: BTreeMap<u64, Vec<SnapSide>>,
}

impl SnapShape {
    /// The rings of an outline, each a shape.
    pub fn of_outline(owner: u64, outline: &Outline) -> Vec<Self> {
        let shape = |ring: &super::Ring| Self {
            owner,
            places: ring.corners.clone(),
            closed: true,
        };
        outline.rings().map(shape).collect()
    }
}

impl SnapIndex {
    /// An index of these shapes. Places that are not numbers are left out. A point stands as a side of no length.
    pub fn build(shapes: &[SnapShape]) -> Self {
        let mut by_owner: BTreeMap<u64, Vec<SnapSide>> = BTreeMap::new();
        for shape in shapes {
            push_sides(by_owner.entry(shape.owner).or_default(), shape);
        }
        let sides = by_owner.values().flatten().copied().collect();
        Self {
            tree: RTree::bulk_load(sides),
            by_owner,
        }
    }

    /// Puts these shapes of an owner in place of those it had.
    pub fn replace(&mut self, owner: u64, shapes: &[SnapShape]) {
        for side in self.by_owner.remove(&owner).unwrap_or_default() {
            self.tree.remove(&side);
        }
        let mut sides = Vec::new();
        for shape in shapes.iter().filter(|shape| shape.owner == owner) {
            push_sides(&mut sides, shape);
        }
        for side in &sides {
            self.tree.insert(*side);
        }
        if !sides.is_empty() {
            self.by_owner.insert(owner, sides);
        }
    }

    /// Where the pointer snaps to, if anywhere.
    pub fn snap(&self, request: &SnapRequest) -> Option<Snap> {
        let sound = request.pointer.is_finite() && request.from.is_none_or(Point::is_finite);
        if !(sound && request.tolerance_m > 0.0 && request.tolerance_m.is_finite()) {
            return None;
        }
        let mut found = candidates::on_sides(
            &self.near(request.pointer, request.tolerance_m, request),
            request,
        );
        found.extend(guides::candidates(self, request));
        found.extend(candidates::on_grid(request));
        found
            .into_iter()
            .filter(|found| request.kinds.contains(&found.snap.kind))
            .filter(|found| found.off_m <= request.tolerance_m)
            .min_by(|one, two| {
                one.order()
                    .cmp(&two.order())
                    .then(one.off_m.total_cmp(&two.off_m))
                    .then(one.tie.cmp(&two.tie))
            })
            .map(|found| found.snap)
    }

    /// The sides within a distance that hold still, in the order of their owners; at most so many of the nearest that
    /// pairs of them stay few.
    fn near(&self, place: Point, within_m: f64, request: &SnapRequest) -> Vec<SnapSide> {
        const MOST: usize = 48;
        let mut near: Vec<(f64, SnapSide)> = Vec::new();
        for side in self
            .tree
            .nearest_neighbor_iter([place.east_m, place.north_m])
            .filter(|side| !request.without.contains(&side.owner))
        {
            let off_m = place.distance_m(place.nearest_on_side(side.from, side.to));
            // Of sides equally far off all are taken first, so that the order of the tree decides nothing.
            let is_behind = near
                .get(MOST - 1)
                .is_some_and(|(last_m, _)| off_m > *last_m);
            if off_m > within_m || is_behind {
                break;
            }
            near.push((off_m, *side));
        }
        near.sort_by(|one, two| one.0.total_cmp(&two.0).then(one.1.order.cmp(&two.1.order)));
        near.truncate(MOST);
        near.sort_by_key(|(_, side)| side.order);
        near.into_iter().map(|(_, side)| side).collect()
    }
}

/// A place that may be snapped to.
struct Candidate {
    snap: Snap,
    off_m: f64,
    /// Whether it meets two conditions at once.
    doubly: bool,
    tie: SideOrder,
}

impl Candidate {
    /// Kind first, but a place on a side that also meets another condition comes before either alone.
    fn order(&self) -> (u8, SnapKind, bool) {
        let firm = self.snap.kind <= SnapKind::Middle;
        let class = match (firm, self.doubly, self.snap.kind) {
            (true, ..) => 0,
            (false, true, _) => 1,
            // A side under the pointer, and the grid where it is asked for, are wanted before a mere direction.
            (false, false, SnapKind::AlongSide | SnapKind::Grid) => 2,
            (false, false, _) => 3,
        };
        let kind = if class == 2 && self.snap.kind == SnapKind::AlongSide {
            SnapKind::Corner
        } else {
            self.snap.kind
        };
        (class, kind, !self.doubly)
    }
}

/// The sides of a shape, behind those that its owner has already.
fn push_sides(sides: &mut Vec<SnapSide>, shape: &SnapShape) {
    let count = shape.places.len();
    let side_count = if shape.closed || count == 1 {
        count
    } else {
        count.saturating_sub(1)
    };
    let next = shape.places.iter().cycle().skip(1);
    for (corner, (from, to)) in shape.places.iter().zip(next).take(side_count).enumerate() {
        if from.is_finite() && to.is_finite() {
            sides.push(SnapSide {
                order: (shape.owner, sides.len()),
                owner: shape.owner,
                corner,
                from: *from,
                to: *to,
            });
        }
    }
}
