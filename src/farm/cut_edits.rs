//! A piece of ground cut into strips, as edits.
//!
//! The cut itself is geometry's; here it gets names, kinds and its place in the ley.

use super::{Edit, Farm, Ground, GroundId, Kind, Shape, with_shared_corners};
use crate::geometry::cut::StripPiece;

/// What undo calls the cut, and the edits that make it: strips of a ley lie within it, a plot that is cut becomes a
/// ley, a strip that is cut again gives way to smaller ones. Strips that were there before are replaced.
pub fn cut_edits(
    farm: &Farm,
    id: GroundId,
    ground: &Ground,
    strips: &[StripPiece],
) -> (String, Vec<Edit>) {
    let mut edits: Vec<Edit> = farm
        .strips_of(id)
        .map(|(old, strip)| Edit::remove_ground(old, strip))
        .collect();
    // A strip that is cut again gives way to smaller strips of the same ley.
    let is_strip = ground.kind == Kind::Strip;
    let ley = if is_strip { ground.within } else { Some(id) };
    if is_strip {
        edits.push(Edit::remove_ground(id, ground));
    } else if ground.kind != Kind::Ley {
        edits.push(Edit::change_ground(
            id,
            ground,
            Ground {
                kind: Kind::Ley,
                ..ground.clone()
            },
        ));
    }
    let stem = strip_stem(farm, &ground.name);
    for (next, (place, piece)) in (farm.next_id..).zip(strips.iter().enumerate()) {
        let name = if is_strip {
            format!("{}.{}", ground.name, place + 1)
        } else {
            format!("{stem}{}", place + 1)
        };
        let mut strip = Ground::new(name, Kind::Strip, Shape::Area(piece.outline.clone()));
        strip.within = ley;
        strip.grazing.clone_from(&ground.grazing);
        edits.push(Edit::add_ground(GroundId(next), strip));
    }
    (
        format!("Cut {} into {} strips", ground.name, strips.len()),
        // The ends of the cuts lie on the ley's boundary: ley and neighbours get them too.
        with_shared_corners(farm, edits),
    )
}

/// Letters for the strips of a ley that no other strip begins with: W for Wether Ley, then We …
fn strip_stem(farm: &Farm, name: &str) -> String {
    let letters: Vec<char> = name.chars().filter(|c| c.is_alphanumeric()).collect();
    let is_free = |stem: &str| {
        !farm.ground.values().any(|ground| {
            ground.kind == Kind::Strip
                && ground
                    .name
                    .strip_prefix(stem)
                    .is_some_and(|rest| rest.chars().all(|c| c.is_ascii_digit()))
        })
    };
    for length in 1..=letters.len() {
        let stem: String = letters.iter().take(length).collect();
        let stem = if stem.ends_with(|c: char| c.is_ascii_digit()) {
            format!("{stem}-")
        } else {
            stem
        };
        if is_free(&stem) {
            return stem;
        }
    }
    "Strip ".to_owned()
}
