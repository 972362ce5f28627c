//! Strips follow their ley: ground it loses they lose, ground it gains goes to the strip that borders it longest.
//!
//! Square metres and metres on the plane.

use super::tidied::tidied;
use crate::farm::meeting::may_share;
use crate::farm::{Edit, Farm, Ground, GroundId, Shape};
use crate::geometry::neighbours::shared_length_m;
use crate::geometry::{Outline, overlay};

/// The edits of the strips of `ley` when its outline becomes another. A strip that is left with nothing goes.
pub(super) fn strip_edits(farm: &Farm, ley: GroundId, old: &Outline, new: &Outline) -> Vec<Edit> {
    let strips: Vec<(GroundId, &Ground)> = farm.strips_of(ley).collect();
    if strips.is_empty() {
        return Vec::new();
    }
    let lost = tidied(overlay::without(old, new));
    let gained = tidied(overlay::without(new, old));
    let mut shapes: Vec<Outline> = strips
        .iter()
        .map(|(_, strip)| strip.outline().cloned().unwrap_or_default())
        .collect();
    for shape in &mut shapes {
        if may_share(shape, &lost) {
            *shape = tidied(overlay::without(shape, &lost));
        }
    }
    for part in gained.parts {
        let piece = Outline { parts: vec![part] };
        let longest = shapes
            .iter_mut()
            .map(|shape| (shared_length_m(&piece, shape), shape))
            .max_by(|(a, _), (b, _)| a.total_cmp(b));
        if let Some((length_m, shape)) = longest
            && length_m > 0.0
        {
            *shape = tidied(overlay::joined(shape, &piece));
        }
    }
    strips
        .into_iter()
        .zip(shapes)
        .filter(|((_, strip), shape)| strip.outline().is_some_and(|before| before != shape))
        .map(|((id, strip), shape)| reshaped_or_gone(id, strip, shape))
        .collect()
}

/// The edit that gives a piece another outline, or takes it off the farm where nothing is left of it.
pub(super) fn reshaped_or_gone(id: GroundId, ground: &Ground, outline: Outline) -> Edit {
    if outline.parts.is_empty() {
        return Edit::remove_ground(id, ground);
    }
    let new = Ground {
        shape: Shape::Area(outline),
        ..ground.clone()
    };
    Edit::change_ground(id, ground, new)
}

/// The edits that give an area another outline, its strips with it.
pub(super) fn outline_edits(farm: &Farm, id: GroundId, ground: &Ground, new: Outline) -> Vec<Edit> {
    let mut edits = ground
        .outline()
        .map_or_else(Vec::new, |old| strip_edits(farm, id, old, &new));
    edits.insert(0, reshaped_or_gone(id, ground, new));
    edits
}
