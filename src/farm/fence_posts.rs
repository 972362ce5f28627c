//! What a fence is made of: posts and rolls.
//!
//! Knows the fence only by its length and corners. Metres.

/// Posts and rolls of a fence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FencePosts {
    /// Metres from post to post at most, above 0; every corner has a post.
    pub spacing_m: f64,
    /// Length of a roll of netting or wire, metres, above 0.
    pub roll_m: f64,
    /// Strands of wire; 1 for netting.
    pub strands: u32,
}
