//! Marks of the map, kept for as long as neither the ground, its look nor the scale changes.
//!
//! The scale moves in steps, so that panning and most of a zoom draw what is kept.

use std::cell::OnceCell;
use std::collections::BTreeMap;

use crate::farm::{Ground, GroundId};
use crate::geometry::label_place::{LabelPlace, label_place};
use crate::geometry::{Outline, Point};
use crate::sheets::estate_map::{GroundLook, MapScale, Mark, YearLook, ground_marks};

/// Kept marks by piece of ground.
#[derive(Debug, Default)]
pub struct MapCache {
    kept: BTreeMap<GroundId, Kept>,
}

#[derive(Debug)]
struct Kept {
    scale_step: i32,
    look_step: i32,
    is_under_strips: bool,
    in_year: Option<YearLook>,
    marks: Vec<Mark>,
    /// Where a name fits best; worked out when first asked for.
    label: OnceCell<Option<LabelPlace>>,
}

/// Steps of scale to one doubling.
const STEPS_TO_DOUBLE: f64 = 2.0;
/// Steps of tallness from bare to full.
const LOOK_STEPS: f64 = 8.0;

impl MapCache {
    /// Drops what is kept of a piece.
    pub fn forget(&mut self, id: GroundId) {
        self.kept.remove(&id);
    }

    /// Where a name fits best on a piece that has been drawn.
    pub fn label_place(&self, id: GroundId, outline: &Outline) -> Option<LabelPlace> {
        match self.kept.get(&id) {
            Some(kept) => *kept.label.get_or_init(|| place_for_name(outline)),
            None => place_for_name(outline),
        }
    }

    /// The step of tallness that grass is drawn in; -1 where none is known.
    pub fn grass_step(tallness: Option<f64>) -> i32 {
        #[expect(clippy::cast_possible_truncation, reason = "0 to 8, or -1")]
        tallness.map_or(-1, |share| {
            (share.clamp(0.0, 1.0) * LOOK_STEPS).round() as i32
        })
    }

    /// The marks of a piece that is not kept.
    pub fn fresh_marks(ground: &Ground, look: GroundLook, m_per_point: f64) -> Vec<Mark> {
        let (scale_step, look_step) = steps(look, m_per_point);
        stepped_marks(ground, look, scale_step, look_step)
    }

    /// The marks of a piece at a scale, drawn anew where needed.
    pub fn marks(
        &mut self,
        id: GroundId,
        ground: &Ground,
        look: GroundLook,
        m_per_point: f64,
    ) -> &[Mark] {
        let (scale_step, look_step) = steps(look, m_per_point);
        let kept = self.kept.entry(id).or_insert_with(|| Kept {
            scale_step: i32::MIN,
            look_step,
            is_under_strips: look.is_under_strips,
            in_year: look.in_year,
            marks: Vec::new(),
            label: OnceCell::new(),
        });
        if kept.scale_step != scale_step
            || kept.look_step != look_step
            || kept.is_under_strips != look.is_under_strips
            || kept.in_year != look.in_year
        {
            kept.is_under_strips = look.is_under_strips;
            kept.in_year = look.in_year;
            kept.marks = stepped_marks(ground, look, scale_step, look_step);
            (kept.scale_step, kept.look_step) = (scale_step, look_step);
        }
        &kept.marks
    }
}

/// The steps of scale and of tallness; -1 where no tallness is known.
fn steps(look: GroundLook, m_per_point: f64) -> (i32, i32) {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "scales lie between 1e-3 and 1e4, so steps are small"
    )]
    let scale_step = (m_per_point.log2() * STEPS_TO_DOUBLE).round() as i32;
    (scale_step, MapCache::grass_step(look.tallness))
}

fn stepped_marks(ground: &Ground, look: GroundLook, scale_step: i32, look_step: i32) -> Vec<Mark> {
    let stepped = MapScale {
        m_per_point: (f64::from(scale_step) / STEPS_TO_DOUBLE).exp2(),
    };
    let tallness = (look_step >= 0).then(|| f64::from(look_step) / LOOK_STEPS);
    ground_marks(ground, GroundLook { tallness, ..look }, stepped)
}

/// The middle, where there is nearly as much room as anywhere: names of like pieces then stand in line. Else the place
/// of most room.
fn place_for_name(outline: &Outline) -> Option<LabelPlace> {
    let most = label_place(outline)?;
    let (least, greatest) = bounds(
        &outline
            .rings()
            .flat_map(|ring| ring.corners.iter().copied())
            .collect::<Vec<_>>(),
    );
    let middle = outline
        .centroid()
        .unwrap_or_else(|| least.between(greatest, 0.5));
    let clearance_m = outline
        .nearest_side(middle)
        .map_or(0.0, |near| near.distance_m);
    if outline.contains(middle) && clearance_m > most.clearance_m * 0.8 {
        return Some(LabelPlace {
            place: middle,
            clearance_m,
        });
    }
    Some(most)
}

fn bounds(corners: &[Point]) -> (Point, Point) {
    let first = corners.first().copied().unwrap_or_default();
    corners
        .iter()
        .fold((first, first), |(least, most), corner| {
            (
                Point::new(
                    least.east_m.min(corner.east_m),
                    least.north_m.min(corner.north_m),
                ),
                Point::new(
                    most.east_m.max(corner.east_m),
                    most.north_m.max(corner.north_m),
                ),
            )
        })
}
