//! Volumes between level areas, by the prismoidal formula. Cubic metres from square metres and metres.
//!
//! A sixth of the height times top, bottom and four times the area half-way: exact where the area changes with depth
//! as a square does, as under plane sides (*Practices of Irrigation and On-farm Water Management*, equation 6.5).

use super::buffer::drawn_in;
use super::geodesic;
use super::{GroundFrame, Outline};

/// Layers a basin is reckoned in: bays that close before the rest make its area change by no single square.
const LAYERS: u32 = 4;
/// How finely the depth is sought at which sides meet, metres inward.
const CLOSING_STEP_M: f64 = 0.001;

/// The volume of a body with level top and bottom, cubic metres.
pub fn prismoid_m3(height_m: f64, top_m2: f64, middle_m2: f64, bottom_m2: f64) -> f64 {
    height_m * (top_m2 + 4.0 * middle_m2 + bottom_m2) / 6.0
}

/// What a basin under an outline holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BasinVolume {
    /// Area of the outline, square metres.
    pub top_m2: f64,
    /// Area of the level floor, square metres; 0 where the sides meet.
    pub floor_m2: f64,
    /// Depth that is reached, metres: the depth asked for, or where the sides meet.
    pub depth_m: f64,
    /// Whether the sides meet before the depth asked for.
    pub is_closed: bool,
    /// Cubic metres.
    pub volume_m3: f64,
}

/// What a basin holds whose sides run `side_run` metres inward for each metre down, to `depth_m` where they let it.
/// None where the outline holds no ground or a figure is none.
pub fn basin_volume(
    frame: GroundFrame,
    outline: &Outline,
    depth_m: f64,
    side_run: f64,
) -> Option<BasinVolume> {
    let is_sound = depth_m > 0.0 && depth_m.is_finite() && side_run >= 0.0 && side_run.is_finite();
    let area_at_m2 = |down_m: f64| inset_m2(frame, outline, down_m * side_run);
    let top_m2 = area_at_m2(0.0);
    if !(is_sound && top_m2 > 0.0 && top_m2.is_finite()) {
        return None;
    }
    let is_closed = inset_m2(frame, outline, depth_m * side_run) <= 0.0;
    let reached_m = if is_closed {
        closing_m(frame, outline) / side_run
    } else {
        depth_m
    };
    let layer_m = reached_m / f64::from(LAYERS);
    let mut above_m2 = top_m2;
    let mut volume_m3 = 0.0;
    for layer in 0..LAYERS {
        let middle_m2 = area_at_m2((f64::from(layer) + 0.5) * layer_m);
        let below_m2 = area_at_m2(f64::from(layer + 1) * layer_m);
        volume_m3 += prismoid_m3(layer_m, above_m2, middle_m2, below_m2);
        above_m2 = below_m2;
    }
    Some(BasinVolume {
        top_m2,
        floor_m2: if is_closed { 0.0 } else { above_m2 },
        depth_m: reached_m,
        is_closed,
        volume_m3,
    })
}

fn inset_m2(frame: GroundFrame, outline: &Outline, inward_m: f64) -> f64 {
    geodesic::area_m2(frame, &drawn_in(outline, inward_m))
}

/// The least distance inward at which nothing of the outline is left, to a millimetre.
fn closing_m(frame: GroundFrame, outline: &Outline) -> f64 {
    let mut least_m = 0.0;
    let mut most_m = outline
        .bounds()
        .map_or(0.0, |bounds| bounds.width_m().min(bounds.height_m()));
    while most_m - least_m > CLOSING_STEP_M {
        let middle_m = f64::midpoint(least_m, most_m);
        if inset_m2(frame, outline, middle_m) > 0.0 {
            least_m = middle_m;
        } else {
            most_m = middle_m;
        }
    }
    f64::midpoint(least_m, most_m)
}
