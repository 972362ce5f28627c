//! Names of things inside the document that never change and are never used twice.
//!
//! One counter serves all three, so a number alone tells which thing is meant.

/// A piece of ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct GroundId(pub u32);

/// A mob of sheep.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct MobId(pub u32);

/// A hen house.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct HenHouseId(pub u32);
