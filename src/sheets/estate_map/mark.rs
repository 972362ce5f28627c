//! One mark of the pen: a filled shape, a stroke, hatching, or discs.
//!
//! Places are metres on the plane; widths are points.

use crate::geometry::Point;
use crate::geometry::triangulate::FillMesh;
use crate::sheets::palette::Ink;

/// A mark, to be put down in order.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// Triangles of one ink.
    Fill {
        /// The triangles.
        mesh: FillMesh,
        /// What with.
        ink: Ink,
    },
    /// A line through points.
    Stroke {
        /// Points in order.
        line: Vec<Point>,
        /// Whether the last is joined to the first.
        is_closed: bool,
        /// What with.
        ink: Ink,
        /// Width in points.
        width: f64,
        /// Dash and gap in points, where it is broken.
        dash: Option<(f64, f64)>,
    },
    /// Many separate straight strokes.
    Hatch {
        /// Both ends of each.
        strokes: Vec<(Point, Point)>,
        /// What with.
        ink: Ink,
        /// Width in points.
        width: f64,
    },
    /// Discs of one size with an edge.
    Discs {
        /// Their middles.
        middles: Vec<Point>,
        /// Metres.
        radius_m: f64,
        /// Inside.
        ink: Ink,
        /// Edge.
        edge: Ink,
        /// Width of the edge in points; 0 for none.
        edge_width: f64,
    },
}

/// The scale a map is seen at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MapScale {
    /// Metres of ground under one point of screen or paper.
    pub m_per_point: f64,
}

impl MapScale {
    /// The nearest of a ladder of spacings (each twice the last, from `finest_m`) that is at least `points` apart
    /// at this scale, so that a pattern does not swim while the view moves.
    pub fn spacing_m(self, finest_m: f64, points: f64) -> f64 {
        let wanted_m = self.m_per_point * points;
        let mut spacing_m = finest_m;
        // 40 doublings span from a centimetre to a continent.
        for _ in 0..40 {
            if spacing_m >= wanted_m {
                break;
            }
            spacing_m *= 2.0;
        }
        spacing_m
    }
}
