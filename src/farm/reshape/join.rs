//! Joining areas that touch or overlap into one.
//!
//! The piece that is kept gives its name, kind and crop; strips of the others come along, and days settled on a piece
//! that goes are settled where its grass now is.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use super::Reshaped;
use super::share_corners::with_shared_corners;
use super::tidied::{tidied, without_straight_corners};
use crate::farm::meeting::may_share;
use crate::farm::{Edit, Farm, FixedPlace, Ground, GroundId, Kind, Shape};
use crate::geometry::neighbours::{SAME_PLACE_M, shared_length_m};
use crate::geometry::{Outline, Point, overlay};

/// Two pieces must share this much boundary to be joined, metres.
const LEAST_SHARED_M: f64 = 0.01;

/// All the areas as one, called and used like `kept`.
///
/// # Errors
/// A sentence, where they do not make one piece of ground.
pub fn join(farm: &Farm, ids: &BTreeSet<GroundId>, kept: GroundId) -> Result<Reshaped, String> {
    let pieces = pieces_to_join(farm, ids)?;
    let (_, kept_ground) = *pieces
        .iter()
        .find(|(id, _)| *id == kept)
        .ok_or("Choose which of them keeps its name.")?;
    check_kinds(farm, &pieces, kept_ground)?;
    let outlines: Vec<&Outline> = pieces
        .iter()
        .filter_map(|(_, ground)| ground.outline())
        .collect();
    if let Some(alone) = not_reached(&outlines) {
        let name = pieces
            .get(alone)
            .map_or("", |(_, ground)| ground.name.as_str());
        return Err(format!(
            "{name} does not touch the others along a side: only ground that touches or overlaps can be joined."
        ));
    }
    let whole = tidied(overlay::all_joined(outlines.iter().copied()));
    let stays = |place: Point| is_corner_of_others(farm, ids, place);
    let whole = without_straight_corners(&whole, stays);
    let joined = Ground {
        shape: Shape::Area(whole),
        ..kept_ground.clone()
    };
    let mut edits = vec![Edit::change_ground(kept, kept_ground, joined)];
    let mut strips = Strips::of(farm, kept, &pieces);
    for (place, (id, ground)) in pieces.iter().enumerate() {
        let earlier = outlines.iter().take(place).copied();
        strips.take(*id, ground, earlier, &mut edits);
    }
    let mut edits = with_shared_corners(farm, edits);
    if !edits.iter().all(super::leaves_sound) {
        return Err(
            "They meet only along a hair, and joined would cross their own side: mend the gap between them first."
                .to_owned(),
        );
    }
    edits.extend(settled_days(farm, ids, &strips));
    Ok(Reshaped {
        label: format!(
            "Join {}",
            names_text(pieces.iter().map(|(_, ground)| ground.name.as_str()))
        ),
        edits,
        select: BTreeSet::from([kept]),
    })
}

fn pieces_to_join<'farm>(
    farm: &'farm Farm,
    ids: &BTreeSet<GroundId>,
) -> Result<Vec<(GroundId, &'farm Ground)>, String> {
    let pieces: Vec<(GroundId, &Ground)> = ids
        .iter()
        .filter_map(|id| Some((*id, farm.ground.get(id)?)))
        .collect();
    if let Some((_, line)) = pieces.iter().find(|(_, ground)| ground.outline().is_none()) {
        return Err(format!(
            "{} is not an area: only areas can be joined.",
            line.name
        ));
    }
    if pieces.len() < 2 {
        return Err("Select two areas or more that touch, then join them.".to_owned());
    }
    Ok(pieces)
}

fn check_kinds(farm: &Farm, pieces: &[(GroundId, &Ground)], kept: &Ground) -> Result<(), String> {
    for (id, ground) in pieces {
        if let Some((_, ley)) = pieces.iter().find(|(ley, _)| ground.within == Some(*ley)) {
            return Err(format!(
                "{} is a strip of {} already.",
                ground.name, ley.name
            ));
        }
        let is_of_another_ley = (kept.kind == Kind::Strip) != (ground.kind == Kind::Strip)
            || kept.within != ground.within;
        if is_of_another_ley && (kept.kind == Kind::Strip || ground.kind == Kind::Strip) {
            return Err(format!(
                "{} and {} are not strips of one ley: join the leys, then the strips.",
                kept.name, ground.name
            ));
        }
        let holds_strips = matches!(kept.kind, Kind::Ley | Kind::Plot);
        if !holds_strips && farm.strips_of(*id).next().is_some() {
            return Err(format!(
                "{} is cut into strips, which a {} cannot be: let a ley keep its name.",
                ground.name,
                kept.kind.name()
            ));
        }
    }
    Ok(())
}

/// The first piece that cannot be reached from the first one over shared sides or shared ground.
fn not_reached(outlines: &[&Outline]) -> Option<usize> {
    let mut reached = BTreeSet::from([0]);
    let mut next = VecDeque::from([0]);
    while let Some(at) = next.pop_front() {
        for (place, other) in outlines.iter().enumerate() {
            let Some(one) = outlines.get(at).filter(|_| !reached.contains(&place)) else {
                continue;
            };
            let touches = shared_length_m(one, other) > LEAST_SHARED_M
                || may_share(one, other) && overlay::in_both(one, other).area_m2() > 0.0;
            if touches {
                reached.insert(place);
                next.push_back(place);
            }
        }
    }
    (0..outlines.len()).find(|place| !reached.contains(place))
}

fn is_corner_of_others(farm: &Farm, ids: &BTreeSet<GroundId>, place: Point) -> bool {
    farm.ground
        .iter()
        .filter(|(id, _)| !ids.contains(id))
        .flat_map(|(_, ground)| ground.shape.corners())
        .any(|corner| corner.distance_m(place) <= SAME_PLACE_M)
}

/// What becomes of the pieces' strips: they all become strips of the piece that is kept. Where some pieces are cut and
/// others not, an uncut one becomes a strip, so that its grass is still grazed.
struct Strips<'farm> {
    farm: &'farm Farm,
    kept: GroundId,
    any_cut: bool,
    /// Where a day settled on a piece is settled now.
    moved: BTreeMap<GroundId, GroundId>,
}

impl<'farm> Strips<'farm> {
    fn of(farm: &'farm Farm, kept: GroundId, pieces: &[(GroundId, &Ground)]) -> Self {
        let is_cut = |id: GroundId| farm.strips_of(id).next().is_some();
        Self {
            farm,
            kept,
            any_cut: pieces.iter().any(|(id, _)| is_cut(*id)),
            moved: BTreeMap::new(),
        }
    }

    /// Adds the edits for one piece; ground that `earlier` pieces have too stays theirs.
    fn take<'a>(
        &mut self,
        id: GroundId,
        ground: &Ground,
        earlier: impl Iterator<Item = &'a Outline>,
        edits: &mut Vec<Edit>,
    ) {
        let strips: Vec<(GroundId, &Ground)> = self.farm.strips_of(id).collect();
        if strips.is_empty() && self.any_cut {
            let own = earlier.fold(
                ground.outline().cloned().unwrap_or_default(),
                |own, other| tidied(overlay::without(&own, other)),
            );
            self.becomes_strip(id, ground, own, edits);
            return;
        }
        if id == self.kept {
            return;
        }
        edits.push(Edit::remove_ground(id, ground));
        if strips.is_empty() {
            self.moved.insert(id, self.kept);
        }
        for (strip_id, strip) in strips {
            let moved = Ground {
                within: Some(self.kept),
                ..strip.clone()
            };
            edits.push(Edit::change_ground(strip_id, strip, moved));
        }
    }

    fn becomes_strip(
        &mut self,
        id: GroundId,
        ground: &Ground,
        own: Outline,
        edits: &mut Vec<Edit>,
    ) {
        if own.parts.is_empty() {
            if id != self.kept {
                edits.push(Edit::remove_ground(id, ground));
            }
            return;
        }
        let strip = Ground {
            kind: Kind::Strip,
            within: Some(self.kept),
            shape: Shape::Area(own),
            crop: String::new(),
            ..ground.clone()
        };
        if id == self.kept {
            let fresh = GroundId(self.farm.next_id);
            let name = self.farm.free_name(&ground.name);
            edits.push(Edit::add_ground(fresh, Ground { name, ..strip }));
            self.moved.insert(id, fresh);
        } else {
            edits.push(Edit::change_ground(id, ground, strip));
        }
    }
}

/// Days settled on a piece that is no longer grazed by itself are settled where its grass now is.
fn settled_days(farm: &Farm, ids: &BTreeSet<GroundId>, strips: &Strips<'_>) -> Vec<Edit> {
    farm.fixed
        .iter()
        .filter(|(_, fixed)| fixed.place.is_some_and(|place| ids.contains(&place)))
        .filter_map(|(key, fixed)| {
            let place = strips.moved.get(&fixed.place?)?;
            Some(Edit::Fixed {
                key: *key,
                old: Some(*fixed),
                new: Some(FixedPlace {
                    place: Some(*place),
                    ..*fixed
                }),
            })
        })
        .collect()
}

/// `A`, `A and B`, `A, B and C`; more are counted.
pub(super) fn names_text<'a>(names: impl Iterator<Item = &'a str>) -> String {
    let names: Vec<&str> = names.collect();
    match names.as_slice() {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [first, second] => format!("{first} and {second}"),
        [first, second, third] => format!("{first}, {second} and {third}"),
        [first, rest @ ..] => format!("{first} and {} others", rest.len()),
    }
}
