//! What a pond or reservoir holds when it is full. Metres, square and cubic metres.

use super::{Farm, Ground};
use crate::geometry::prismoid::{BasinVolume, basin_volume};

/// The volume under the outline of ground whose basin is said; none for other ground.
pub fn basin_sums(farm: &Farm, ground: &Ground) -> Option<BasinVolume> {
    let (outline, basin) = (ground.outline()?, ground.basin?);
    basin_volume(farm.frame, outline, basin.depth_m, basin.side_run)
}
