//! The basin of a pond or reservoir: how deep it is and how steep its sides.
//!
//! The ground's outline is the water's edge when it is full. Metres.

/// A basin below its outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Basin {
    /// Depth of water when full, metres, above 0.
    pub depth_m: f64,
    /// Metres that a side runs inward for each metre down; 0 is a wall.
    pub side_run: f64,
}
