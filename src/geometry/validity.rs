//! What is wrong with a drawn outline: every fault as a value with its place and a plain sentence.
//!
//! The rules are those of a valid (multi)polygon in *Simple feature access – Part 1: Common architecture*, Open Geospatial
//! Consortium, document 06-103r4, 2011, section 6.1.11 and 6.1.14; beside them a corner drawn twice running is named, which
//! harms nothing. Exact for the figures as they stand. One fault can hide another: a ring whose figures are not
//! numbers, or with too few corners, is not looked at further. Metres.

mod nesting;
mod ring_checks;
mod side_meetings;
mod touches;

use super::{Outline, Point};

/// One fault of an outline.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{kind}{}", at_text(*.place))]
pub struct ShapeFault {
    /// What is wrong.
    pub kind: FaultKind,
    /// Which part of the outline, from 0.
    pub part: usize,
    /// Which ring of that part: 0 is the outer one, then the holes.
    pub ring: usize,
    /// The corner at, or before, the fault, counted along the ring as drawn, from 0.
    pub corner: usize,
    /// Where.
    pub place: Point,
}

/// The kinds of fault.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, thiserror::Error)]
pub enum FaultKind {
    /// The outline has no parts.
    #[error("nothing is drawn")]
    NothingDrawn,
    /// A figure is infinite or not a number.
    #[error("a corner has no place: one of its figures is not a number")]
    NotFinite,
    /// Fewer than three corners that differ.
    #[error("there are fewer than three corners")]
    TooFewCorners,
    /// The corners lie on one line, or the ring covers no ground.
    #[error("the boundary encloses no ground")]
    NoArea,
    /// The same corner twice running: harmless.
    #[error("the same corner is drawn twice")]
    RepeatedCorner,
    /// The boundary runs out and back over itself.
    #[error("the boundary runs out and back over itself, a spike")]
    Spike,
    /// A ring crosses itself.
    #[error("the boundary crosses itself")]
    CrossesItself,
    /// A ring passes through one place twice, or runs along itself.
    #[error("the boundary touches itself")]
    TouchesItself,
    /// A hole lies outside its outer ring.
    #[error("a hole lies outside the ground it is cut from")]
    HoleOutside,
    /// A hole crosses its outer ring.
    #[error("a hole crosses the outside boundary")]
    HoleCrosses,
    /// A hole runs along its outer ring.
    #[error("a hole runs along the outside boundary")]
    HoleAlongBoundary,
    /// Two holes overlap, or share a stretch of boundary.
    #[error("two holes overlap or share a side")]
    HolesOverlap,
    /// Holes that touch cut the ground into pieces.
    #[error("holes that touch cut the ground apart")]
    CutApart,
    /// Two parts overlap.
    #[error("two parts overlap")]
    PartsOverlap,
    /// Two parts share a stretch of boundary; they should be one.
    #[error("two parts share a side and should be one")]
    PartsShareSide,
}

impl FaultKind {
    /// Whether measures, cutting and drawing are right in spite of it.
    pub fn is_harmless(self) -> bool {
        self == Self::RepeatedCorner
    }
}

fn at_text(place: Point) -> String {
    if !place.is_finite() {
        return String::new();
    }
    let (east_m, north_m) = (place.east_m, place.north_m);
    let east = if east_m < 0.0 { "west" } else { "east" };
    let north = if north_m < 0.0 { "south" } else { "north" };
    format!(
        ", {:.1} m {east} and {:.1} m {north} of the farm's zero point",
        east_m.abs(),
        north_m.abs()
    )
}

/// Every fault found, by part, ring and corner; none where the outline is sound.
pub fn faults(outline: &Outline) -> Vec<ShapeFault> {
    if outline.parts.is_empty() {
        return vec![ShapeFault {
            kind: FaultKind::NothingDrawn,
            part: 0,
            ring: 0,
            corner: 0,
            place: Point::default(),
        }];
    }
    let mut faults = Vec::new();
    let rings = ring_checks::sound_rings(outline, &mut faults);
    let found = side_meetings::find(&rings, &mut faults);
    let contacts = touches::sort_out(&rings, found, &mut faults);
    nesting::check(&rings, &contacts, &mut faults);
    faults.sort_by(|a, b| {
        (a.part, a.ring, a.corner, a.kind)
            .cmp(&(b.part, b.ring, b.corner, b.kind))
            .then(a.place.east_m.total_cmp(&b.place.east_m))
            .then(a.place.north_m.total_cmp(&b.place.north_m))
    });
    faults.dedup_by(|a, b| {
        (a.kind, a.part, a.ring) == (b.kind, b.part, b.ring)
            && a.place.distance_m(b.place).total_cmp(&0.0).is_eq()
    });
    faults
}

/// Whether nothing is wrong but what is harmless.
pub fn is_sound(outline: &Outline) -> bool {
    faults(outline).iter().all(|fault| fault.kind.is_harmless())
}

/// A ring fit for comparing sides: its corners without repeats.
struct CheckedRing {
    part: usize,
    ring: usize,
    corners: Vec<Point>,
    /// For each corner its place in the ring as drawn.
    drawn_corners: Vec<usize>,
}

impl CheckedRing {
    fn fault(&self, kind: FaultKind, corner: usize, place: Point) -> ShapeFault {
        ShapeFault {
            kind,
            part: self.part,
            ring: self.ring,
            corner: self.drawn_corners.get(corner).copied().unwrap_or(0),
            place,
        }
    }

    fn corner(&self, index: usize) -> Option<Point> {
        self.corners.get(index % self.corners.len().max(1)).copied()
    }

    /// What is wrong where this ring crosses, or runs along, another ring or itself.
    fn fault_kind_with(&self, other: &Self, along: bool) -> FaultKind {
        if self.part != other.part {
            return if along {
                FaultKind::PartsShareSide
            } else {
                FaultKind::PartsOverlap
            };
        }
        match (self.ring == other.ring, self.ring == 0 || other.ring == 0) {
            (true, _) if along => FaultKind::TouchesItself,
            (true, _) => FaultKind::CrossesItself,
            (false, true) if along => FaultKind::HoleAlongBoundary,
            (false, true) => FaultKind::HoleCrosses,
            (false, false) => FaultKind::HolesOverlap,
        }
    }
}
