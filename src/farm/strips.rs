//! Which pieces of ground are grazed as one: strips, and leys that are not cut into strips.
//!
//! Order is that of the ground's numbers, so plans come out the same each time.

use std::collections::BTreeSet;

use super::{Farm, Ground, GroundId, Kind};

/// One piece that a mob may stand on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GrazedUnit<'farm> {
    /// Its number.
    pub id: GroundId,
    /// The ground itself.
    pub ground: &'farm Ground,
    /// The ley it is a strip of.
    pub ley: Option<GroundId>,
}

/// Every strip, and every ley without strips, that is an area.
pub fn grazed_units(farm: &Farm) -> Vec<GrazedUnit<'_>> {
    // Gathered once: to look for each ley's strips anew would cost by the square of the farm.
    let cut: BTreeSet<GroundId> = farm
        .ground
        .values()
        .filter_map(|ground| ground.within)
        .collect();
    farm.ground
        .iter()
        .filter(|(_, ground)| ground.outline().is_some())
        .filter(|(id, ground)| match ground.kind {
            Kind::Strip => true,
            Kind::Ley => !cut.contains(*id),
            _ => false,
        })
        .map(|(id, ground)| GrazedUnit {
            id: *id,
            ground,
            ley: ground.within,
        })
        .collect()
}
