//! What each act of reshaping asks for, and what clicks and drags on the map mean to it.
//!
//! Figures are kept as they are typed. Metres and degrees on the ground.

use std::collections::BTreeSet;

use super::super::Scene;
use crate::farm::{
    Farm, HeadlandBecomes, HeadlandWish, HoleFill, Kind, MendChoice, NeighbourMisfit,
    Neighbourhood, Reshaped, cut_out, headland, holes_filled, join, keep_out_round, mends,
    mirrored_across, turned_about,
};
use crate::farm::{Ground, GroundId};
use crate::geometry::{Bounds, Point};
use crate::quantity::{UnitSystem, parse_length_m};

/// Whether a headland becomes ground of its own or lies over the edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Becomes {
    /// The ground is drawn in.
    OwnPiece,
    /// The ground keeps its outline.
    LaidOver,
}

/// One act, with what is asked for.
#[derive(Debug, Clone)]
pub enum ReshapeAct {
    /// An overlap or gap is mended.
    Mend {
        /// What is wrong.
        misfit: NeighbourMisfit,
        /// The ways to mend it.
        choices: Vec<MendChoice>,
        /// The way chosen.
        chosen: usize,
    },
    /// Areas become one.
    Join {
        /// The areas.
        ids: BTreeSet<GroundId>,
        /// The one that keeps its name.
        kept: GroundId,
    },
    /// A headland is set out.
    Headland {
        /// The ground.
        id: GroundId,
        /// How wide, as typed.
        width_text: String,
        /// Sides chosen by clicking; all where none is.
        sides: BTreeSet<usize>,
        /// Its corners, for the sides.
        ground: Box<Ground>,
        /// What it becomes.
        becomes: Becomes,
        /// Its kind.
        kind: Kind,
    },
    /// Ground is kept clear round lines.
    KeepClear {
        /// The lines and areas.
        ids: BTreeSet<GroundId>,
        /// How far on each side, as typed.
        width_text: String,
        /// Whether beyond the ends too.
        is_round: bool,
        /// What the ground becomes.
        kind: Kind,
    },
    /// Areas are taken out of the ground under them.
    CutOut {
        /// The areas.
        ids: BTreeSet<GroundId>,
    },
    /// A hole is filled.
    FillHole {
        /// The ground.
        id: GroundId,
        /// Its corners, for its holes.
        ground: Box<Ground>,
        /// Which hole; all where absent.
        which: Option<usize>,
        /// What the ground in the hole becomes; the piece's own where absent.
        kind: Option<Kind>,
    },
    /// Everything selected is mirrored.
    Mirror {
        /// What is selected.
        ids: BTreeSet<GroundId>,
        /// Whether the line is a side that is clicked.
        by_side: bool,
        /// The ends of the line so far.
        ends: Vec<Point>,
    },
    /// Everything selected is turned.
    Turn {
        /// What is selected.
        ids: BTreeSet<GroundId>,
        /// The place it turns about.
        about: Point,
        /// Degrees clockwise, as typed or dragged.
        degrees_text: String,
        /// Where the drag under way took hold: the bearing, and the turn then.
        held: Option<(f64, f64)>,
    },
}

impl ReshapeAct {
    /// Mending the overlap or gap.
    pub fn mend(farm: &Farm, misfit: NeighbourMisfit) -> Self {
        Self::Mend {
            choices: mends(farm, &misfit),
            misfit,
            chosen: 0,
        }
    }

    /// Brings what was read from the farm up to date with it.
    pub(super) fn hold_true(&mut self, farm: &Farm) {
        match self {
            Self::Mend {
                misfit, choices, ..
            } => {
                let now = Neighbourhood::of(farm).misfit(misfit.kind, misfit.between);
                *choices = now
                    .as_ref()
                    .map_or_else(Vec::new, |misfit| mends(farm, misfit));
                if let Some(now) = now {
                    *misfit = now;
                }
            }
            Self::Headland {
                id, ground, sides, ..
            } => {
                if let Some(now) = farm.ground.get(id).filter(|now| *now != ground.as_ref()) {
                    **ground = now.clone();
                    sides.clear();
                }
            }
            Self::FillHole {
                id, ground, which, ..
            } => {
                if let Some(now) = farm.ground.get(id).filter(|now| *now != ground.as_ref()) {
                    **ground = now.clone();
                    *which = None;
                }
            }
            _ => {}
        }
    }

    /// What would be done.
    ///
    /// # Errors
    /// A sentence; an empty one where something is still to be said or clicked.
    pub(super) fn outcome(&self, farm: &Farm, units: UnitSystem) -> Result<Reshaped, String> {
        let length_m = |text: &str| {
            if text.trim().is_empty() {
                return Err(String::new());
            }
            parse_length_m(text, units).map_err(|error| error.to_string())
        };
        match self {
            Self::Mend {
                choices, chosen, ..
            } => choices
                .get(*chosen)
                .map(|choice| choice.reshaped.clone())
                .ok_or_else(|| "There is nothing left to mend here.".to_owned()),
            Self::Join { ids, kept } => join(farm, ids, *kept),
            Self::Headland {
                id,
                width_text,
                sides,
                becomes,
                kind,
                ..
            } => {
                let wish = HeadlandWish {
                    id: *id,
                    width_m: length_m(width_text)?,
                    sides: sides.clone(),
                    becomes: match becomes {
                        Becomes::OwnPiece => HeadlandBecomes::OwnPiece(*kind),
                        Becomes::LaidOver => HeadlandBecomes::LaidOver(*kind),
                    },
                };
                headland(farm, &wish)
            }
            Self::KeepClear {
                ids,
                width_text,
                is_round,
                kind,
            } => keep_out_round(farm, ids, length_m(width_text)?, *is_round, *kind),
            Self::CutOut { ids } => cut_out(farm, ids),
            Self::FillHole {
                id, which, kind, ..
            } => {
                let fill = kind.map_or(HoleFill::Given, HoleFill::Drawn);
                holes_filled(farm, *id, *which, fill)
            }
            Self::Mirror { ids, ends, .. } => match ends.as_slice() {
                [from, to] => mirrored_across(farm, ids, *from, *to),
                _ => Err(String::new()),
            },
            Self::Turn {
                ids,
                about,
                degrees_text,
                ..
            } => {
                if degrees_text.trim().is_empty() {
                    return Err(String::new());
                }
                turned_about(farm, ids, *about, degrees(degrees_text)?)
            }
        }
    }

    pub(super) fn click(&mut self, at: Point, scene: Scene<'_>) {
        match self {
            Self::Headland { ground, sides, .. } => {
                if let Some(side) = side_at(ground, at, scene.reach_m)
                    && !sides.remove(&side)
                {
                    sides.insert(side);
                }
            }
            Self::FillHole { ground, which, .. } => {
                let rings = ground
                    .outline()
                    .into_iter()
                    .flat_map(|outline| &outline.parts);
                let holes = rings.flat_map(|part| &part.holes);
                *which = holes
                    .enumerate()
                    .find(|(_, hole)| hole.whereabouts(at) != crate::geometry::Whereabouts::Outside)
                    .map(|(place, _)| place)
                    .or(*which);
            }
            Self::Mirror {
                by_side: true,
                ends,
                ..
            } => {
                if let Some(side) = any_side_at(scene.farm, at, scene.reach_m) {
                    *ends = vec![side.0, side.1];
                }
            }
            Self::Mirror { ends, .. } => {
                if ends.len() >= 2 {
                    ends.clear();
                }
                if ends.last() != Some(&at) {
                    ends.push(at);
                }
            }
            Self::Turn { ids, about, .. } => {
                let corners = ids
                    .iter()
                    .filter_map(|id| scene.farm.ground.get(id))
                    .flat_map(|ground| ground.shape.corners());
                let nearest = corners.min_by(|a, b| a.distance_m(at).total_cmp(&b.distance_m(at)));
                if let Some(corner) =
                    nearest.filter(|corner| corner.distance_m(at) <= scene.reach_m * 1.5)
                {
                    *about = corner;
                }
            }
            Self::Mend { .. }
            | Self::Join { .. }
            | Self::KeepClear { .. }
            | Self::CutOut { .. } => {}
        }
    }

    pub(super) fn drag_from(&mut self, at: Point) {
        if let Self::Turn {
            about,
            degrees_text,
            held,
            ..
        } = self
        {
            *held = Some((about.bearing_deg(at), degrees(degrees_text).unwrap_or(0.0)));
        }
    }

    pub(super) fn drag_to(&mut self, at: Point, scene: Scene<'_>) {
        if let Self::Turn {
            about,
            degrees_text,
            held: Some((from_deg, turn_deg)),
            ..
        } = self
            && about.distance_m(at) > scene.reach_m
        {
            let turned_deg = about.bearing_deg(at) - *from_deg + *turn_deg;
            // Half degrees are as fine as a hand can hold.
            let turned_deg = (turned_deg * 2.0).round() / 2.0;
            *degrees_text = format!("{}", (turned_deg + 180.0).rem_euclid(360.0) - 180.0);
        }
    }

    pub(super) fn let_go(&mut self) {
        if let Self::Turn { held, .. } = self {
            *held = None;
        }
    }

    /// Takes the last click back.
    pub(super) fn take_back(&mut self) {
        match self {
            Self::Mirror { ends, .. } => {
                ends.pop();
            }
            Self::Headland { sides, .. } => sides.clear(),
            _ => {}
        }
    }

    /// Lines to be shown over the map.
    pub(super) fn strokes(&self, pointer: Option<Point>) -> Vec<Vec<Point>> {
        match self {
            Self::Headland { ground, sides, .. } => {
                let corners = ground.shape.corners();
                let ends = |(from, to): &(usize, usize)| {
                    Some(vec![*corners.get(*from)?, *corners.get(*to)?])
                };
                let all = ground.shape.sides();
                all.iter()
                    .filter(|(from, _)| sides.contains(from))
                    .filter_map(ends)
                    .collect()
            }
            Self::Mirror { ends, .. } => match (ends.as_slice(), pointer) {
                ([from], Some(to)) => vec![vec![*from, to]],
                ([from, to], _) => vec![vec![*from, *to]],
                _ => Vec::new(),
            },
            // While a drag is under way, the way it holds.
            Self::Turn {
                about,
                held: Some(_),
                ..
            } => pointer.map_or_else(Vec::new, |to| vec![vec![*about, to]]),
            _ => Vec::new(),
        }
    }

    /// Whether clicks mean very places, which want to snap.
    pub(super) fn wants_places(&self) -> bool {
        matches!(self, Self::Mirror { by_side: false, .. })
    }

    pub(super) fn hint(&self) -> &'static str {
        match self {
            Self::Headland { .. } => {
                "Click the sides it runs along; none means all round. Enter sets it out."
            }
            Self::Mirror { by_side: true, .. } => "Click the side to mirror across; Enter does it.",
            Self::Mirror { ends, .. } if ends.len() == 1 => "Click the other end of the line.",
            Self::Mirror { .. } => "Click two places on the line to mirror across; Enter does it.",
            Self::Turn { .. } => {
                "Drag round the middle, or type degrees; a click on a corner turns about it."
            }
            Self::FillHole { .. } => "Click the hole to fill; Enter does it.",
            _ => "Enter does it; Escape leaves everything as it was.",
        }
    }

    /// The middle of what is selected: what a turn is about at first.
    pub fn middle_of(farm: &Farm, ids: &BTreeSet<GroundId>) -> Option<Point> {
        let corners = ids
            .iter()
            .filter_map(|id| farm.ground.get(id))
            .flat_map(|ground| ground.shape.corners());
        Bounds::of_points(corners).map(Bounds::centre)
    }
}

/// Degrees as typed: any number, below 0 to the left.
fn degrees(text: &str) -> Result<f64, String> {
    let plain = text
        .trim()
        .trim_end_matches(['°'])
        .trim()
        .replace(',', ".")
        .replace('−', "-");
    let figure: f64 = plain.parse().map_err(|_| {
        format!(
            "\"{}\" is not a number of degrees: write it like 15 or -7.5.",
            text.trim()
        )
    })?;
    if figure.is_finite() && figure.abs() <= 3600.0 {
        Ok(figure)
    } else {
        Err("Turn by 3600 degrees at most.".to_owned())
    }
}

/// The side of a piece that lies at a place, by the corner it starts from.
fn side_at(ground: &Ground, at: Point, reach_m: f64) -> Option<usize> {
    let corners = ground.shape.corners();
    ground
        .shape
        .sides()
        .into_iter()
        .filter_map(|(from, to)| {
            let (a, b) = (*corners.get(from)?, *corners.get(to)?);
            Some((at.distance_m(at.nearest_on_side(a, b)), from))
        })
        .filter(|(off_m, _)| *off_m <= reach_m * 1.5)
        .min_by(|(a, _), (b, _)| a.total_cmp(b))
        .map(|(_, side)| side)
}

/// The nearest side of anything drawn.
fn any_side_at(farm: &Farm, at: Point, reach_m: f64) -> Option<(Point, Point)> {
    farm.ground
        .values()
        .filter_map(|ground| {
            let corners = ground.shape.corners();
            let start = side_at(ground, at, reach_m)?;
            let (_, end) = ground
                .shape
                .sides()
                .into_iter()
                .find(|(from, _)| *from == start)?;
            let (a, b) = (*corners.get(start)?, *corners.get(end)?);
            Some((at.distance_m(at.nearest_on_side(a, b)), (a, b)))
        })
        .min_by(|(a, _), (b, _)| a.total_cmp(b))
        .map(|(_, side)| side)
}
