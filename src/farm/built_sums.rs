//! All that is reckoned from what is built or planted on one piece of ground.
//!
//! Only what its kind takes and what is said of it; see each sort's own file. Metres.

use super::basin_sums::basin_sums;
use super::bed_sums::{BedGap, BedSums, bed_sums};
use super::fence_sums::{FenceSums, fence_sums};
use super::tree_list::{totals_by_variety, trees_on};
use super::tunnel_sums::{TunnelGap, TunnelSums, tunnel_sums};
use super::{Farm, Form, Ground, Kind};
use crate::geometry::prismoid::BasinVolume;
use std::collections::BTreeMap;

/// The sums of one piece of ground, each where it is said how it is built.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BuiltSums {
    /// Of a tunnel.
    pub tunnel: Option<Result<TunnelSums, TunnelGap>>,
    /// Of beds on a plot or in a tunnel.
    pub beds: Option<Result<BedSums, BedGap>>,
    /// Of a tree line: how many of each variety.
    pub varieties: BTreeMap<String, usize>,
    /// Of a fence.
    pub fence: Option<FenceSums>,
    /// Of a pond.
    pub basin: Option<BasinVolume>,
}

impl BuiltSums {
    /// Whether nothing is built or planted.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// The sums of a piece of ground.
pub fn built_sums(farm: &Farm, ground: &Ground) -> BuiltSums {
    let takes = |wanted: bool| wanted.then_some(ground);
    BuiltSums {
        tunnel: takes(ground.kind.has_frame()).and_then(tunnel_sums),
        beds: takes(ground.kind.has_beds()).and_then(|ground| bed_sums(farm, ground)),
        varieties: takes(ground.kind == Kind::TreeLine)
            .map(|ground| totals_by_variety(&trees_on(farm, ground)))
            .unwrap_or_default(),
        fence: takes(ground.kind == Kind::Fence).and_then(|ground| fence_sums(farm, ground)),
        basin: takes(ground.has_basin()).and_then(|ground| basin_sums(farm, ground)),
    }
}

impl Kind {
    /// Whether it stands on hoops.
    pub const fn has_frame(self) -> bool {
        matches!(self, Self::Tunnel)
    }

    /// Whether it is laid out in beds.
    pub const fn has_beds(self) -> bool {
        matches!(self, Self::Plot | Self::Tunnel)
    }
}

impl Ground {
    /// Whether it holds water in a basin: water with an outline.
    pub fn has_basin(&self) -> bool {
        self.kind == Kind::Water && self.shape.form() == Form::Area
    }
}
