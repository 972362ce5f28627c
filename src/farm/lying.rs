//! Which kinds of ground may lie on which, and which take ground off grazing and crop.
//!
//! Common practice, no source: a place is one of plot, ley or wood; what is built or kept out may lie on it.

use super::{Ground, GroundId, Kind};

/// Whether ground of two kinds may lie on the same place.
///
/// Plot, ley, strip and wood each cover the ground and keep the others off it. Tunnels and buildings lie on any of
/// these, but not on each other, on water or on a track. Tracks, water, hedges and keep-outs may lie on all ground and
/// cross each other: a ford, a gap in a hedge, a keep-out round a pond. (A strip lies on its own ley: see
/// [`are_to_part`].)
pub const fn may_share_ground(one: Kind, other: Kind) -> bool {
    let both_cover = covers_ground(one) && covers_ground(other);
    let clash = (is_built(one) && (is_built(other) || is_wet_or_driven(other)))
        || (is_built(other) && is_wet_or_driven(one));
    !both_cover && !clash
}

/// Whether two areas ought to keep off each other's ground: kinds that may not share it, strips of one ley, but never a
/// strip and other ground, which its ley answers for.
pub(super) fn are_to_part(
    (one_id, one): (GroundId, &Ground),
    (other_id, other): (GroundId, &Ground),
) -> bool {
    let is_strip_of_a_ley = |ground: &Ground| ground.kind == Kind::Strip && ground.within.is_some();
    match (is_strip_of_a_ley(one), is_strip_of_a_ley(other)) {
        (true, true) => one.within == other.within,
        (true, false) | (false, true) => false,
        (false, false) => one_id != other_id && !may_share_ground(one.kind, other.kind),
    }
}

/// Whether two areas ought to meet where they come close: both cover ground, and answer for it themselves.
pub(super) fn are_to_meet(one: (GroundId, &Ground), other: (GroundId, &Ground)) -> bool {
    covers_ground(one.1.kind) && covers_ground(other.1.kind) && are_to_part(one, other)
}

/// Whether ground of this kind, lying on a plot, ley or strip, is ground that is neither grazed nor cropped.
pub(super) const fn takes_ground_off(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Hedge
            | Kind::TreeLine
            | Kind::Fence
            | Kind::Track
            | Kind::Water
            | Kind::Building
            | Kind::Tunnel
            | Kind::Wood
            | Kind::KeepOut
    )
}

/// Whether ground of this kind is grazed or cropped, and so has a net area.
pub(super) const fn is_used(kind: Kind) -> bool {
    matches!(kind, Kind::Plot | Kind::Ley | Kind::Strip)
}

const fn covers_ground(kind: Kind) -> bool {
    matches!(kind, Kind::Plot | Kind::Ley | Kind::Strip | Kind::Wood)
}

const fn is_built(kind: Kind) -> bool {
    matches!(kind, Kind::Tunnel | Kind::Building)
}

const fn is_wet_or_driven(kind: Kind) -> bool {
    matches!(kind, Kind::Water | Kind::Track)
}
