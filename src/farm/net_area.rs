//! The ground of a plot, ley or strip that is left for crop or sheep: its area less what lies on it.
//!
//! What lies on another thing that was taken off already is taken off once only. Square metres on the earth itself.

use std::collections::BTreeMap;

use super::ground_index::GroundIndex;
use super::lying::{is_used, takes_ground_off};
use super::{Farm, Ground, GroundId, Kind, Shape};
use crate::geometry::buffer::{LineEnds, line_with_width};
use crate::geometry::{Bounds, Outline, Point, geodesic, overlay};

/// Less than this is not told, square metres: a boundary hedge drawn on the very edge.
const FORGIVEN_M2: f64 = 0.05;

/// The net area of a piece of ground, and what was taken off.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct NetArea {
    /// Area that is grazed or cropped, square metres.
    pub net_m2: f64,
    /// What was taken off, in the order of the ground's numbers.
    pub taken: Vec<TakenOff>,
}

/// Ground taken off the area of a piece.
#[derive(Debug, Clone, PartialEq)]
pub struct TakenOff {
    /// What lies there.
    pub id: GroundId,
    /// Its name.
    pub name: String,
    /// Its kind.
    pub kind: Kind,
    /// Ground it takes that nothing before it took, square metres.
    pub area_m2: f64,
}

/// The net area of every plot, ley and strip that is an area.
pub fn net_areas(farm: &Farm) -> BTreeMap<GroundId, NetArea> {
    let index = GroundIndex::of(farm);
    let mut covered = Covered::default();
    farm.ground
        .keys()
        .filter_map(|id| Some((*id, net_area(farm, &index, &mut covered, *id)?)))
        .collect()
}

/// The ground that lines of a width cover, worked out once.
#[derive(Debug, Clone, Default)]
pub(super) struct Covered {
    lines: BTreeMap<GroundId, Outline>,
}

impl Covered {
    /// Forgets a line that may have changed.
    pub(super) fn forget(&mut self, id: GroundId) {
        self.lines.remove(&id);
    }

    fn of<'a>(&'a mut self, id: GroundId, ground: &'a Ground) -> Option<&'a Outline> {
        match &ground.shape {
            Shape::Area(outline) => Some(outline),
            Shape::Line(line) => {
                Some(self.lines.entry(id).or_insert_with(|| {
                    line_with_width(line, ground.drawn_width_m(), LineEnds::Flat)
                }))
            }
            Shape::Place(_) => None,
        }
    }
}

/// The net area of one piece; none where it is not used, or no area.
pub(super) fn net_area(
    farm: &Farm,
    index: &GroundIndex,
    covered: &mut Covered,
    id: GroundId,
) -> Option<NetArea> {
    let ground = farm.ground.get(&id).filter(|ground| is_used(ground.kind))?;
    let outline = ground.outline()?;
    let whole_m2 = geodesic::area_m2(farm.frame, outline);
    let mut left_m2 = whole_m2;
    let mut left: Option<Outline> = None;
    let mut taken = Vec::new();
    let near = index
        .bounds(id)
        .map_or_else(Vec::new, |bounds| index.near(bounds));
    for (other_id, other) in near
        .into_iter()
        .filter_map(|other| Some((other, farm.ground.get(&other)?)))
    {
        if other_id == id || !takes_ground_off(other.kind) || !may_reach(other, index.bounds(id)) {
            continue;
        }
        let Some(over) = covered.of(other_id, other) else {
            continue;
        };
        let before = left.as_ref().unwrap_or(outline);
        if !super::meeting::may_share(before, over) {
            continue;
        }
        let after = overlay::without(before, over);
        let after_m2 = geodesic::area_m2(farm.frame, &after);
        let area_m2 = left_m2 - after_m2;
        if !(area_m2 > FORGIVEN_M2 && after_m2.is_finite()) {
            continue;
        }
        taken.push(TakenOff {
            id: other_id,
            name: other.name.clone(),
            kind: other.kind,
            area_m2,
        });
        (left, left_m2) = (Some(after), after_m2);
    }
    Some(NetArea {
        net_m2: left_m2,
        taken,
    })
}

/// Whether any side of a line comes into the box of the ground: the box of a long hedge holds half the farm.
fn may_reach(ground: &Ground, bounds: Option<Bounds>) -> bool {
    let (Shape::Line(line), Some(bounds)) = (&ground.shape, bounds) else {
        return true;
    };
    let width_m = ground.drawn_width_m();
    if width_m.is_nan() || width_m <= 0.0 {
        return false;
    }
    let room = bounds.grown(width_m / 2.0);
    line.iter()
        .zip(line.iter().skip(1))
        .any(|(from, to): (&Point, &Point)| {
            Bounds::of_points([*from, *to]).is_some_and(|side| side.meets(room))
        })
}
