//! What a piece of ground measures, as reported to people: always on the ellipsoid, never on the plane.
//!
//! Square metres and metres.

use super::{Farm, Ground, GroundId, Shape};
use crate::geometry::geodesic;

/// The measures of one piece of ground.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct GroundMeasures {
    /// Area less holes; areas only.
    pub area_m2: Option<f64>,
    /// Length round every ring, holes included; areas only.
    pub perimeter_m: Option<f64>,
    /// Length round the outside of every part; areas only.
    pub outer_perimeter_m: Option<f64>,
    /// Length along; lines only.
    pub length_m: Option<f64>,
    /// Separate pieces.
    pub parts: usize,
    /// Holes in all pieces.
    pub holes: usize,
    /// Corners of all rings.
    pub corners: usize,
    /// Trees, on a tree line whose spacing is known.
    pub trees: Option<usize>,
}

/// Measures one piece of ground of `farm`.
pub fn measure_ground(farm: &Farm, ground: &Ground) -> GroundMeasures {
    let corners = ground.shape.corners().len();
    match &ground.shape {
        Shape::Area(outline) => {
            let sum = geodesic::outline_measures(farm.frame, outline);
            GroundMeasures {
                area_m2: Some(sum.area_m2),
                perimeter_m: Some(sum.outer_perimeter_m + sum.hole_perimeter_m),
                outer_perimeter_m: Some(sum.outer_perimeter_m),
                parts: outline.parts.len(),
                holes: outline.parts.iter().map(|part| part.holes.len()).sum(),
                corners,
                ..GroundMeasures::default()
            }
        }
        Shape::Line(line) => {
            let length_m = geodesic::length_m(farm.frame, line);
            let trees = ground
                .trees
                .as_ref()
                .map(|row| row.count_along(line, length_m));
            GroundMeasures {
                length_m: Some(length_m),
                parts: 1,
                corners,
                trees,
                ..GroundMeasures::default()
            }
        }
        Shape::Place(_) => GroundMeasures {
            parts: 1,
            corners,
            ..GroundMeasures::default()
        },
    }
}

/// The area of all ground that is an area and is not a piece of another, square metres.
pub fn farm_area_m2(farm: &Farm, measures: impl Fn(GroundId) -> GroundMeasures) -> f64 {
    farm.ground
        .iter()
        .filter(|(_, ground)| ground.within.is_none())
        .filter_map(|(id, _)| measures(*id).area_m2)
        .sum()
}
