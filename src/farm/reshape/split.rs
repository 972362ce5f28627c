//! Ground split along a line; its strips are split with it, and neighbours get the new corners. Metres.

use std::collections::BTreeSet;

use super::Reshaped;
use super::tidied::tidied;
use crate::farm::{Edit, Farm, Ground, GroundId, Shape};
use crate::geometry::cut::split_by_line;
use crate::geometry::{Outline, Point, overlay};

/// Ground split along a drawn line: the largest piece keeps the name, the others take letters. `None` where the line
/// does not cut it in two. Neighbours are not closed up: see [`super::with_shared_corners`].
pub fn split_along(farm: &Farm, id: GroundId, line: &[Point]) -> Option<Reshaped> {
    let ground = farm.ground.get(&id)?;
    let mut naming = Naming::new(farm);
    let pieces = pieces_of(ground, line)?;
    let mut edits = Vec::new();
    let leys: Vec<(GroundId, Outline)> = naming.put(id, ground, pieces, &mut edits);
    for (strip_id, strip) in farm.strips_of(id) {
        split_strip(&mut naming, (strip_id, strip), line, &leys, &mut edits);
    }
    Some(Reshaped {
        label: format!("Split {}", ground.name),
        edits,
        select: leys.into_iter().map(|(id, _)| id).collect(),
    })
}

/// The pieces, the largest first.
fn pieces_of(ground: &Ground, line: &[Point]) -> Option<Vec<Outline>> {
    let mut pieces = split_by_line(ground.outline()?, line).ok()?;
    pieces.sort_by(|a, b| b.area_m2().total_cmp(&a.area_m2()));
    Some(pieces)
}

/// A strip of a ley that is split: cut by the same line, each piece goes to the piece of the ley it lies in.
fn split_strip(
    naming: &mut Naming<'_>,
    (id, strip): (GroundId, &Ground),
    line: &[Point],
    leys: &[(GroundId, Outline)],
    edits: &mut Vec<Edit>,
) {
    let Some(outline) = strip.outline() else {
        return;
    };
    let pieces = pieces_of(strip, line).unwrap_or_else(|| pieces_in(outline, leys));
    let mut made = Vec::new();
    naming.put(id, strip, pieces, &mut made);
    for mut edit in made {
        if let Edit::Ground { new: Some(new), .. } = &mut edit {
            let most = leys
                .iter()
                .map(|(ley, outline)| {
                    let shared = new
                        .outline()
                        .map(|piece| overlay::in_both(piece, outline).area_m2());
                    (shared.unwrap_or(0.0), *ley)
                })
                .max_by(|(a, _), (b, _)| a.total_cmp(b));
            new.within = most.map(|(_, ley)| ley).or(new.within);
        }
        edits.push(edit);
    }
}

/// What of a strip lies in each piece of its ley, where the line alone does not part it; whole where one piece has it.
fn pieces_in(strip: &Outline, leys: &[(GroundId, Outline)]) -> Vec<Outline> {
    let shares = leys
        .iter()
        .map(|(_, ley)| tidied(overlay::in_both(strip, ley)));
    let mut pieces: Vec<Outline> = shares.filter(|share| !share.parts.is_empty()).collect();
    if pieces.len() < 2 {
        return vec![strip.clone()];
    }
    pieces.sort_by(|a, b| b.area_m2().total_cmp(&a.area_m2()));
    pieces
}

/// Hands out numbers and names that are still free.
struct Naming<'farm> {
    farm: &'farm Farm,
    next_id: u32,
    given: BTreeSet<String>,
}

impl<'farm> Naming<'farm> {
    fn new(farm: &'farm Farm) -> Self {
        Self {
            farm,
            next_id: farm.next_id,
            given: BTreeSet::new(),
        }
    }

    /// The edits that put pieces in place of a ground, and what each piece is.
    fn put(
        &mut self,
        id: GroundId,
        ground: &Ground,
        pieces: Vec<Outline>,
        edits: &mut Vec<Edit>,
    ) -> Vec<(GroundId, Outline)> {
        let mut made = Vec::new();
        for (count, piece) in pieces.into_iter().enumerate() {
            let mut new = ground.clone();
            new.shape = Shape::Area(piece.clone());
            if count == 0 {
                edits.push(Edit::change_ground(id, ground, new));
                made.push((id, piece));
            } else {
                new.name = self.free_name(&ground.name, count);
                let fresh_id = GroundId(self.next_id);
                self.next_id += 1;
                edits.push(Edit::add_ground(fresh_id, new));
                made.push((fresh_id, piece));
            }
        }
        made
    }

    fn free_name(&mut self, name: &str, count: usize) -> String {
        let is_taken = |wanted: &str| {
            self.given.contains(wanted)
                || self
                    .farm
                    .ground
                    .values()
                    .any(|ground| ground.name == wanted)
        };
        let letters = ["b", "c", "d", "e", "f", "g", "h"];
        let free = letters
            .iter()
            .skip(count.saturating_sub(1))
            .map(|letter| format!("{name} {letter}"))
            .find(|wanted| !is_taken(wanted))
            .unwrap_or_else(|| self.farm.free_name(name));
        self.given.insert(free.clone());
        free
    }
}
