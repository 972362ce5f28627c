//! A headland or set-back of a width, along all sides or chosen ones: the ground drawn in with the headland as its own
//! piece, or a piece laid over the ground's edge. Metres.

use std::collections::BTreeSet;

use super::Reshaped;
use super::share_corners::with_shared_corners;
use super::strips_follow::outline_edits;
use super::tidied::tidied;
use crate::farm::{Edit, Farm, Form, Ground, GroundId, Kind, Shape};
use crate::geometry::set_back::set_back;

/// What becomes of the ground along the sides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeadlandBecomes {
    /// A piece of its own, of this kind; the ground is drawn in.
    OwnPiece(Kind),
    /// A piece of this kind laid over the edge; the ground keeps its outline, and its net area is less by it.
    LaidOver(Kind),
}

/// What is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct HeadlandWish {
    /// The ground.
    pub id: GroundId,
    /// How wide, metres.
    pub width_m: f64,
    /// Sides by the corner they start from, in the order of the shape's corners; none means all.
    pub sides: BTreeSet<usize>,
    /// What the headland is.
    pub becomes: HeadlandBecomes,
}

/// The act.
///
/// # Errors
/// A sentence: no area, no width, or nothing left inside.
pub fn headland(farm: &Farm, wish: &HeadlandWish) -> Result<Reshaped, String> {
    let ground = farm.ground.get(&wish.id).ok_or("That ground is gone.")?;
    let outline = ground
        .outline()
        .ok_or_else(|| format!("{} is not an area.", ground.name))?;
    if !(wish.width_m > 0.0 && wish.width_m.is_finite()) {
        return Err("A headland must be wider than nothing.".to_owned());
    }
    let (HeadlandBecomes::OwnPiece(kind) | HeadlandBecomes::LaidOver(kind)) = wish.becomes;
    if !kind.allows(Form::Area) {
        return Err(format!("A {} is not an area.", kind.name()));
    }
    let (inner, taken) = set_back(outline, wish.width_m, &wish.sides);
    let (inner, taken) = (tidied(inner), tidied(taken));
    if taken.parts.is_empty() {
        return Err(format!(
            "No ground of {} lies along these sides.",
            ground.name
        ));
    }
    if inner.parts.is_empty() {
        return Err(format!(
            "A headland so wide leaves nothing of {}: give less.",
            ground.name
        ));
    }
    let fresh_id = GroundId(farm.next_id);
    let mut piece = Ground::new(
        farm.free_name(&format!("{} headland", ground.name)),
        kind,
        Shape::Area(taken),
    );
    if kind == Kind::Strip {
        piece.within = ground.within;
    }
    let mut edits = match wish.becomes {
        HeadlandBecomes::OwnPiece(_) => outline_edits(farm, wish.id, ground, inner),
        HeadlandBecomes::LaidOver(_) => Vec::new(),
    };
    edits.push(Edit::add_ground(fresh_id, piece));
    let edits = with_shared_corners(farm, edits);
    if !edits.iter().all(super::leaves_sound) {
        return Err(format!(
            "The headland of {} would pinch itself to nothing in a corner or beside a hole: give another width or \
             other sides.",
            ground.name
        ));
    }
    Ok(Reshaped {
        label: format!("Headland of {}", ground.name),
        edits,
        select: BTreeSet::from([wish.id]),
    })
}
