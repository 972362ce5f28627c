//! What a hen house may not stand on, and what it may not be towed over.
//!
//! Water, buildings, tunnels, woods, keep-outs, hedges, fences, trunks and troughs are always in the way. A plot whose
//! crops stand in the course is closed on their days and open on others (see `closed`); one without a course counts as
//! under crop. Nothing is towed over plots, nor through a row of trees; gates open fences and
//! hedges. Slope is known only as stretches that the grower leaves out (see `track`). Metres.

use std::collections::BTreeSet;

use crate::farm::{Farm, Ground, GroundId, HenHouse, Kind, Shape, trees_on};
use crate::geometry::buffer::{LineEnds, line_with_width};
use crate::geometry::oblong::{self, Oblong};
use crate::geometry::way_round::WayFinder;
use crate::geometry::{Bounds, Outline, Point, overlay};

/// Half of what a trunk takes up with the bark left whole (common practice, no source).
const TRUNK_M: f64 = 0.25;
/// Half of what a fence takes up.
const FENCE_M: f64 = 0.05;
/// Half of what a trough takes up.
const TROUGH_M: f64 = 0.75;
/// Half of what a building or pond drawn as one place takes up.
const PLACE_M: f64 = 2.0;
/// Half the width of a gate drawn as one place, a field gate (common practice, no source).
const GATE_M: f64 = 2.0;
/// How far across its fence a gate drawn as a line opens it.
const GATE_DEEP_M: f64 = 2.0;
/// What lies farther than this from every place is left out of the search for ways.
const FAR_M: f64 = 100.0;

/// Something a house may not stand on.
#[derive(Debug, Clone)]
pub(super) struct InTheWay {
    /// What it is, in words with its name.
    pub(super) what: String,
    outline: Outline,
}

impl InTheWay {
    /// Whether a place lies partly on it.
    pub(super) fn is_under(&self, place: &Oblong) -> bool {
        oblong::shares_ground(place, &self.outline)
    }
}

/// Everything a house may not stand on.
pub(super) fn in_the_way_of_places(farm: &Farm, in_course: &BTreeSet<GroundId>) -> Vec<InTheWay> {
    let mut found = Vec::new();
    for (id, ground) in &farm.ground {
        let what = || format!("{} \"{}\"", ground.kind.name(), ground.name.trim());
        let is_kept = match ground.kind {
            Kind::Plot => !in_course.contains(id),
            kind => is_always_in_the_way(kind),
        };
        if is_kept && let Some(outline) = ground_taken(ground) {
            found.push(InTheWay {
                what: what(),
                outline,
            });
        }
        found.extend(trees_on(farm, ground).into_iter().map(|tree| InTheWay {
            what: format!("a trunk of {}", what()),
            outline: square(tree.place, TRUNK_M),
        }));
    }
    found
}

const fn is_always_in_the_way(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Water
            | Kind::Building
            | Kind::Tunnel
            | Kind::Wood
            | Kind::KeepOut
            | Kind::Hedge
            | Kind::Fence
            | Kind::Trough
    )
}

/// The ground that a thing takes up.
fn ground_taken(ground: &Ground) -> Option<Outline> {
    match &ground.shape {
        Shape::Area(outline) => Some(outline.clone()),
        Shape::Line(line) => {
            let width_m = match ground.kind {
                Kind::Fence => 2.0 * FENCE_M,
                // The row of trunks, not the grass that is kept beside them.
                Kind::TreeLine => 2.0 * TRUNK_M,
                kind => ground.width_m.unwrap_or(kind.usual_width_m()),
            };
            Some(line_with_width(line, width_m.max(0.02), LineEnds::Flat))
        }
        Shape::Place(place) => {
            let half_m = if ground.kind == Kind::Trough {
                TROUGH_M
            } else {
                PLACE_M
            };
            Some(square(*place, half_m))
        }
    }
    .filter(|outline| outline.is_finite() && !outline.parts.is_empty())
}

fn square(at: Point, half_m: f64) -> Outline {
    Outline::simple(vec![
        at.moved(-half_m, -half_m),
        at.moved(half_m, -half_m),
        at.moved(half_m, half_m),
        at.moved(-half_m, half_m),
    ])
}

/// Ways for this house among what lies near its places, kept off by half its width.
pub(super) fn ways_of(farm: &Farm, house: &HenHouse, places: &[Point]) -> WayFinder {
    let Some(near) = Bounds::of_points(places.iter().copied()).map(|bounds| bounds.grown(FAR_M))
    else {
        return WayFinder::default();
    };
    let gates: Vec<Outline> = farm.ground.values().filter_map(gate_opening).collect();
    let mut ground: Vec<Outline> = Vec::new();
    for thing in farm.ground.values() {
        let is_kept = matches!(thing.kind, Kind::Plot | Kind::TreeLine);
        let taken = if is_kept || is_always_in_the_way(thing.kind) {
            ground_taken(thing)
        } else {
            None
        };
        match taken {
            Some(taken) if matches!(thing.kind, Kind::Fence | Kind::Hedge) => {
                ground.push(opened(taken, &gates));
            }
            Some(taken) => ground.push(taken),
            None => {}
        }
    }
    ground.retain(|taken| is_near(taken, near));
    WayFinder::new(&ground, house.towed_width_m() / 2.0)
}

fn gate_opening(ground: &Ground) -> Option<Outline> {
    if ground.kind != Kind::Gate {
        return None;
    }
    match &ground.shape {
        Shape::Place(place) => Some(square(*place, GATE_M)),
        Shape::Line(line) => Some(line_with_width(line, 2.0 * GATE_DEEP_M, LineEnds::Flat)),
        Shape::Area(outline) => Some(outline.clone()),
    }
}

fn opened(taken: Outline, gates: &[Outline]) -> Outline {
    let meets = |one: &Outline, other: &Outline| matches!((one.bounds(), other.bounds()), (Some(one), Some(other)) if one.meets(other));
    gates.iter().fold(taken, |left, gate| {
        if meets(&left, gate) {
            overlay::without(&left, gate)
        } else {
            left
        }
    })
}

fn is_near(outline: &Outline, near: Bounds) -> bool {
    outline.bounds().is_some_and(|bounds| bounds.meets(near))
}
