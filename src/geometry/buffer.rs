//! Ground at a distance: the strip a line of some width covers, ground drawn in from its boundary or out from it.
//!
//! Corners that come of a bend are rounded in chords that miss the true arc by under 0.2 % of the distance. The library
//! behind it works on a grid of some 1e-9 of the extent, so figures are good to a micrometre on a farm. Metres.

use geo::Buffer;
use geo::algorithm::buffer::{BufferStyle, LineCap, LineJoin};

use super::geo_shapes::{from_geo, line_to_geo, to_geo};
use super::{Outline, Point};

/// How the ends of a line with a width look.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LineEnds {
    /// Cut off square at the last point.
    #[default]
    Flat,
    /// A half circle round the last point.
    Round,
}

/// Largest angle between neighbouring corners of a rounded bend.
const ARC_STEP_RAD: f64 = 0.1;

/// The ground a line of a width covers: a track, hedge or strip under trees.
/// Nothing where the line has fewer than two points that differ or the width is not above 0.
pub fn line_with_width(line: &[Point], width_m: f64, ends: LineEnds) -> Outline {
    let mut points = line.to_vec();
    points.dedup();
    let sound = points.len() > 1 && points.iter().all(|point| point.is_finite());
    if !(sound && width_m > 0.0 && width_m.is_finite()) {
        return Outline::default();
    }
    let cap = match ends {
        LineEnds::Flat => LineCap::Butt,
        LineEnds::Round => LineCap::Round(ARC_STEP_RAD),
    };
    let style = BufferStyle::new(width_m / 2.0)
        .line_cap(cap)
        .line_join(LineJoin::Round(ARC_STEP_RAD));
    from_geo(line_to_geo(&points).buffer_with_style(style))
}

/// The ground at least `distance_m` inside the boundary, holes counted: what a headland or set-back leaves.
/// It may fall in parts, or be nothing. A distance of 0 or less gives the outline as it is.
pub fn drawn_in(outline: &Outline, distance_m: f64) -> Outline {
    if distance_m > 0.0 {
        at_distance(outline, -distance_m)
    } else {
        outline.clone()
    }
}

/// The ground and all within `distance_m` of it. A distance of 0 or less gives the outline as it is.
pub fn drawn_out(outline: &Outline, distance_m: f64) -> Outline {
    if distance_m > 0.0 {
        at_distance(outline, distance_m)
    } else {
        outline.clone()
    }
}

/// As `drawn_out`, with bends in chords of this angle, which miss the true arc by a share of `1 - cos(angle / 2)`:
/// fewer corners for ways that are looked for round the ground.
pub fn drawn_out_in_chords(outline: &Outline, distance_m: f64, chord_rad: f64) -> Outline {
    with_bends(outline, distance_m, chord_rad)
}

fn at_distance(outline: &Outline, distance_m: f64) -> Outline {
    with_bends(outline, distance_m, ARC_STEP_RAD)
}

fn with_bends(outline: &Outline, distance_m: f64, step_rad: f64) -> Outline {
    if !distance_m.is_finite() || !outline.is_finite() {
        return Outline::default();
    }
    let style = BufferStyle::new(distance_m).line_join(LineJoin::Round(step_rad));
    from_geo(to_geo(outline).buffer_with_style(style))
}
