//! How the pieces of a farm lie to each other: where neighbours overlap or leave a gap, and what is taken off each
//! piece's area. Kept up to date piece by piece, so that an edit costs by what it touches and not by the farm.
//!
//! Metres; areas on the plane, those of `NetArea` on the earth.

use std::collections::{BTreeMap, BTreeSet};

use super::ground_index::GroundIndex;
use super::lying::{are_to_meet, are_to_part, takes_ground_off};
use super::meeting::{comes_close, may_share};
use super::net_area::{Covered, NetArea, net_area};
use super::{Farm, Ground, GroundId, Shape};
use crate::geometry::buffer::{LineEnds, line_with_width};
use crate::geometry::midway::with_straight_mouths;
use crate::geometry::neighbours::{gaps, overlaps, shared_length_m};
use crate::geometry::{Bounds, Outline, overlay};

/// Neighbours may overlap or part by this much before it is said, square metres.
pub(super) const FORGIVEN_M2: f64 = 1.0;
/// The same as a share of the smaller piece, for pieces so small that a square metre counts.
pub(super) const FORGIVEN_SHARE: f64 = 0.001;
/// A gap is looked for where neighbours come this close, metres: narrower than a path to walk or drive.
const WIDEST_GAP_M: f64 = 0.5;
/// A gap as wide as this all along is taken for a path between beds and not told, metres (common practice, no source).
const PATH_M: f64 = 0.3;

/// What is wrong between two neighbours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum MisfitKind {
    /// Both have this ground.
    Overlap,
    /// Neither has it.
    Gap,
}

/// Ground that two neighbours both have, or that lies between them.
#[derive(Debug, Clone, PartialEq)]
pub struct NeighbourMisfit {
    /// Overlap or gap.
    pub kind: MisfitKind,
    /// The two, the smaller number first.
    pub between: [GroundId; 2],
    /// The ground, in one piece or several.
    pub ground: Outline,
}

/// How the pieces of a farm lie to each other.
#[derive(Debug, Clone, Default)]
pub struct Neighbourhood {
    index: GroundIndex,
    covered: Covered,
    net: BTreeMap<GroundId, NetArea>,
    /// Overlaps, by the two.
    overlaps: BTreeMap<[GroundId; 2], Outline>,
    /// Gaps between two, whatever else lies in them.
    raw_gaps: BTreeMap<[GroundId; 2], Outline>,
    /// Gaps in which nothing lies.
    gaps: BTreeMap<[GroundId; 2], Outline>,
}

impl Neighbourhood {
    /// Looks at the whole farm.
    pub fn of(farm: &Farm) -> Self {
        let mut all = Self {
            index: GroundIndex::of(farm),
            ..Self::default()
        };
        for id in farm.ground.keys() {
            all.look_at_pairs(farm, *id, |other| other > *id);
        }
        let pairs: Vec<[GroundId; 2]> = all.raw_gaps.keys().copied().collect();
        for pair in pairs {
            all.look_into_gap(farm, pair);
        }
        for id in farm.ground.keys() {
            all.renew_net(farm, *id);
        }
        all
    }

    /// Takes in what an edit touched.
    pub fn renew(&mut self, farm: &Farm, touched: &[GroundId]) {
        let mut boxes: Vec<Bounds> = Vec::new();
        for id in touched {
            self.covered.forget(*id);
            boxes.extend(self.index.renew(farm, *id).into_iter().flatten());
        }
        let is_touched: BTreeSet<GroundId> = touched.iter().copied().collect();
        let stands = |pair: &[GroundId; 2]| !pair.iter().any(|id| is_touched.contains(id));
        self.overlaps.retain(|pair, _| stands(pair));
        self.raw_gaps.retain(|pair, _| stands(pair));
        self.gaps.retain(|pair, _| stands(pair));
        for id in &is_touched {
            self.look_at_pairs(farm, *id, |other| {
                other > *id || !is_touched.contains(&other)
            });
        }
        let pairs: Vec<[GroundId; 2]> = self
            .raw_gaps
            .iter()
            .filter(|(pair, gap)| !stands(pair) || meets_any(gap, &boxes))
            .map(|(pair, _)| *pair)
            .collect();
        for pair in pairs {
            self.look_into_gap(farm, pair);
        }
        let mut changed = is_touched;
        for bounds in boxes {
            changed.extend(self.index.near(bounds));
        }
        for id in changed {
            self.renew_net(farm, id);
        }
    }

    /// Every overlap and gap, overlaps first, by the numbers of the two.
    pub fn misfits(&self) -> impl Iterator<Item = NeighbourMisfit> + '_ {
        let as_misfit = |kind: MisfitKind| {
            move |(between, ground): (&[GroundId; 2], &Outline)| NeighbourMisfit {
                kind,
                between: *between,
                ground: ground.clone(),
            }
        };
        let overlaps = self.overlaps.iter().map(as_misfit(MisfitKind::Overlap));
        overlaps.chain(self.gaps.iter().map(as_misfit(MisfitKind::Gap)))
    }

    /// The overlap or gap between two, where there is one.
    pub fn misfit(&self, kind: MisfitKind, between: [GroundId; 2]) -> Option<NeighbourMisfit> {
        let found = match kind {
            MisfitKind::Overlap => &self.overlaps,
            MisfitKind::Gap => &self.gaps,
        };
        let ground = found.get(&between)?.clone();
        Some(NeighbourMisfit {
            kind,
            between,
            ground,
        })
    }

    /// The net area of a plot, ley or strip.
    pub fn net_area(&self, id: GroundId) -> Option<&NetArea> {
        self.net.get(&id)
    }

    /// The box of a piece of ground, a line's width counted; none where it has no place.
    pub fn bounds(&self, id: GroundId) -> Option<Bounds> {
        self.index.bounds(id)
    }

    /// Ground whose box meets this one.
    pub fn near(&self, bounds: Bounds) -> Vec<GroundId> {
        self.index.near(bounds)
    }

    fn renew_net(&mut self, farm: &Farm, id: GroundId) {
        match net_area(farm, &self.index, &mut self.covered, id) {
            Some(net) => self.net.insert(id, net),
            None => self.net.remove(&id),
        };
    }

    /// Notes overlaps and gaps between a piece and those beside it that are wanted.
    fn look_at_pairs(&mut self, farm: &Farm, id: GroundId, wanted: impl Fn(GroundId) -> bool) {
        let Some((ground, outline)) = area_of(farm, id) else {
            return;
        };
        let Some(bounds) = self.index.bounds(id) else {
            return;
        };
        for other_id in self.index.near(bounds.grown(WIDEST_GAP_M)) {
            let Some((other, other_outline)) = area_of(farm, other_id).filter(|_| wanted(other_id))
            else {
                continue;
            };
            if other_id == id || !are_to_part((id, ground), (other_id, other)) {
                continue;
            }
            let between = [id.min(other_id), id.max(other_id)];
            let least_m2 = told_from_m2(outline, other_outline);
            if may_share(outline, other_outline) {
                let found = all_parts(overlaps(outline, other_outline, 0.0));
                if found.area_m2() > least_m2 {
                    self.overlaps.insert(between, found);
                }
            }
            if are_to_meet((id, ground), (other_id, other))
                && comes_close(outline, other_outline, WIDEST_GAP_M)
            {
                let found = gap_between(outline, other_outline);
                if found.area_m2() > least_m2 {
                    self.raw_gaps.insert(between, found);
                }
            }
        }
    }

    /// Takes what lies in a gap out of it, and keeps what is left, if it counts.
    fn look_into_gap(&mut self, farm: &Farm, between: [GroundId; 2]) {
        self.gaps.remove(&between);
        let [Some((_, one)), Some((_, two))] = between.map(|id| area_of(farm, id)) else {
            return;
        };
        let Some(gap) = self.raw_gaps.get(&between) else {
            return;
        };
        let mut left = gap.clone();
        let Some(bounds) = gap.bounds() else { return };
        for id in self.index.near(bounds) {
            let Some(ground) = farm.ground.get(&id).filter(|_| !between.contains(&id)) else {
                continue;
            };
            match &ground.shape {
                Shape::Area(outline) if may_share(&left, outline) => {
                    left = overlay::without(&left, outline);
                }
                Shape::Line(line) if takes_ground_off(ground.kind) => {
                    let over = line_with_width(line, ground.drawn_width_m(), LineEnds::Flat);
                    left = overlay::without(&left, &over);
                }
                _ => {}
            }
        }
        let left = between_both(&left, one, two);
        if left.area_m2() > told_from_m2(one, two) {
            self.gaps.insert(between, left);
        }
    }
}

fn area_of(farm: &Farm, id: GroundId) -> Option<(&Ground, &Outline)> {
    let ground = farm.ground.get(&id)?;
    Some((
        ground,
        ground.outline().filter(|outline| outline.is_finite())?,
    ))
}

fn meets_any(outline: &Outline, boxes: &[Bounds]) -> bool {
    outline
        .bounds()
        .is_some_and(|bounds| boxes.iter().any(|other| other.meets(bounds)))
}

/// What counts between two pieces, square metres.
fn told_from_m2(one: &Outline, two: &Outline) -> f64 {
    FORGIVEN_M2.min(one.area_m2().min(two.area_m2()) * FORGIVEN_SHARE)
}

/// The ground between two that is too narrow for a path.
fn gap_between(one: &Outline, two: &Outline) -> Outline {
    let found = all_parts(gaps(&[one.clone(), two.clone()], WIDEST_GAP_M));
    let mut found = between_both(&found, one, two);
    for part in &mut found.parts {
        // Closing leaves rounded mouths; the ground is wanted from corner to corner.
        *part = with_straight_mouths(part, one, two, WIDEST_GAP_M);
    }
    for outline in [one, two] {
        if may_share(&found, outline) {
            found = overlay::without(&found, outline);
        }
    }
    found
}

/// The parts that lie along both outlines and are no path.
fn between_both(ground: &Outline, one: &Outline, two: &Outline) -> Outline {
    let lies_along =
        |part: &Outline, outline: &Outline| shared_length_m(part, outline) > WIDEST_GAP_M;
    let parts = ground.parts.iter().filter(|part| {
        let alone = Outline {
            parts: vec![(*part).clone()],
        };
        let mean_width_m = 2.0 * part.area_m2() / part.outer.perimeter_m();
        mean_width_m < PATH_M && lies_along(&alone, one) && lies_along(&alone, two)
    });
    Outline {
        parts: parts.cloned().collect(),
    }
}

fn all_parts(misfits: Vec<crate::geometry::neighbours::Misfit>) -> Outline {
    Outline {
        parts: misfits
            .into_iter()
            .flat_map(|misfit| misfit.ground.parts)
            .collect(),
    }
}
