//! Beds and paths on a plot or in a tunnel, and how a bed is planted.
//!
//! Beds lie along the longest side of their ground unless a bearing is given. Metres.

/// How ground is laid out in beds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beds {
    /// Width of a bed, metres, above 0.
    pub bed_width_m: f64,
    /// Width of the path between two beds, metres.
    pub path_width_m: f64,
    /// Bearing of the beds, degrees from north; along the longest side where absent.
    pub bearing_deg: Option<f64>,
    /// Rows of plants on a bed, 1 at least.
    pub rows: u32,
    /// Metres from plant to plant in the row, above 0.
    pub plant_spacing_m: f64,
}
