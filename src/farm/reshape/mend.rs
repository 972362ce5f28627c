//! Mending an overlap or a gap between two neighbours: the ground goes to one, to the other, or half to each.
//!
//! Strips follow their ley; third neighbours get the new corners. Square metres on the plane.

use std::collections::BTreeSet;

use super::Reshaped;
use super::share_corners::with_shared_corners;
use super::strips_follow::outline_edits;
use super::tidied::tidied;
use crate::farm::{Farm, Ground, GroundId, MisfitKind, NeighbourMisfit};
use crate::geometry::neighbours::share_all_corners;
use crate::geometry::{Outline, midway, overlay};

/// One way to mend.
#[derive(Debug, Clone, PartialEq)]
pub struct MendChoice {
    /// What the person reads: `Give it to Long Piece`.
    pub words: String,
    /// The act.
    pub reshaped: Reshaped,
}

/// The ways in which an overlap or gap can be mended, the gentlest first. None where the ground has changed so that
/// there is nothing left to mend.
pub fn mends(farm: &Farm, misfit: &NeighbourMisfit) -> Vec<MendChoice> {
    let [first, second] = misfit.between;
    let (Some(one), Some(two)) = (farm.ground.get(&first), farm.ground.get(&second)) else {
        return Vec::new();
    };
    let (Some(outline), Some(other)) = (one.outline(), two.outline()) else {
        return Vec::new();
    };
    let sides = Sides {
        farm,
        one: (first, one, outline),
        two: (second, two, other),
    };
    let ways = match misfit.kind {
        MisfitKind::Overlap => sides.overlap_ways(&misfit.ground),
        MisfitKind::Gap => sides.gap_ways(&misfit.ground),
    };
    ways.into_iter()
        .filter_map(|way| sides.choice(misfit.kind, way))
        .collect()
}

/// What to say, and the two outlines as they would be.
struct Way {
    words: String,
    one: Outline,
    two: Outline,
}

struct Sides<'farm> {
    farm: &'farm Farm,
    one: (GroundId, &'farm Ground, &'farm Outline),
    two: (GroundId, &'farm Ground, &'farm Outline),
}

impl Sides<'_> {
    fn overlap_ways(&self, ground: &Outline) -> Vec<Way> {
        let (one, two) = (self.one.2, self.two.2);
        let mut ways = Vec::new();
        if let Some((by_one, by_two)) = halves_of(ground, one, two) {
            // Each draws back over the half that lies beside its own boundary.
            ways.push(Way {
                words: "Draw both back to the middle".to_owned(),
                one: overlay::without(one, &by_one),
                two: overlay::without(two, &by_two),
            });
        }
        ways.push(Way {
            words: format!("Give it to {}", self.one.1.name),
            one: one.clone(),
            two: overlay::without(two, one),
        });
        ways.push(Way {
            words: format!("Give it to {}", self.two.1.name),
            one: overlay::without(one, two),
            two: two.clone(),
        });
        ways
    }

    fn gap_ways(&self, ground: &Outline) -> Vec<Way> {
        let (one, two) = (self.one.2, self.two.2);
        let mut ways = Vec::new();
        if let Some((by_one, by_two)) = halves_of(ground, one, two) {
            ways.push(Way {
                words: "Move both sides to the middle".to_owned(),
                one: joined_along(one, &by_one),
                two: joined_along(two, &by_two),
            });
        }
        ways.push(Way {
            words: format!("Add it to {}", self.one.1.name),
            one: joined_along(one, ground),
            two: two.clone(),
        });
        ways.push(Way {
            words: format!("Add it to {}", self.two.1.name),
            one: one.clone(),
            two: joined_along(two, ground),
        });
        ways
    }

    /// The act; none where a piece would be left with nothing, or fall in more parts than it had.
    fn choice(&self, kind: MisfitKind, way: Way) -> Option<MendChoice> {
        let (new_one, new_two) = (tidied(way.one), tidied(way.two));
        let is_whole = |new: &Outline, old: &Outline| {
            !new.parts.is_empty() && new.parts.len() <= old.parts.len()
        };
        if !(is_whole(&new_one, self.one.2) && is_whole(&new_two, self.two.2)) {
            return None;
        }
        let mut edits = outline_edits(self.farm, self.one.0, self.one.1, new_one);
        edits.extend(outline_edits(self.farm, self.two.0, self.two.1, new_two));
        edits.retain(|edit| !edit.is_idle());
        let what = match kind {
            MisfitKind::Overlap => "overlap of",
            MisfitKind::Gap => "gap between",
        };
        Some(MendChoice {
            words: way.words,
            reshaped: Reshaped {
                label: format!(
                    "Mend the {what} {} and {}",
                    self.one.1.name, self.two.1.name
                ),
                edits: with_shared_corners(self.farm, edits),
                select: BTreeSet::from([self.one.0, self.two.0]),
            },
        })
    }
}

/// The halves of every part, beside the one and beside the other; none where a part cannot be halved.
fn halves_of(ground: &Outline, one: &Outline, two: &Outline) -> Option<(Outline, Outline)> {
    let mut by_one = Outline::default();
    let mut by_two = Outline::default();
    for part in &ground.parts {
        let alone = Outline {
            parts: vec![part.clone()],
        };
        let (half, other) = midway::halves(&alone, one, two)?;
        by_one.parts.extend(half.parts);
        by_two.parts.extend(other.parts);
    }
    Some((by_one, by_two))
}

/// An outline and a piece beside it as one: each first gets the corners that the other has on its sides, so that the two
/// part along very same sides.
fn joined_along(outline: &Outline, piece: &Outline) -> Outline {
    let mut both = [outline.clone(), piece.clone()];
    share_all_corners(&mut both);
    let [outline, piece] = &both;
    overlay::joined(outline, piece)
}
