//! How a tunnel is built over its floor: hoops, ends and what of the cover goes into the ground.
//!
//! The floor is the ground's outline, the height of the ridge the ground's height. Metres.

/// The frame of a tunnel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TunnelFrame {
    /// How its ends are closed.
    pub ends: TunnelEnds,
    /// Height of the upright side below the bow, metres; 0 where the hoop springs from the ground.
    pub straight_side_m: f64,
    /// Cover that is dug in or clamped along each side and end, metres.
    pub skirt_m: f64,
    /// Metres from hoop to hoop, above 0.
    pub hoop_spacing_m: f64,
}

/// How the ends of a tunnel are closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum TunnelEnds {
    /// Upright end walls under the same cover.
    #[default]
    Covered,
    /// Upright end walls of another stuff (boards, mesh, doors).
    Boarded,
    /// Open, as a roof.
    Open,
}
