//! Holes: ground within a piece that does not belong to it, drawn, taken out by what lies there, or filled again.
//!
//! Strips of a ley follow. Metres.

use std::collections::BTreeSet;

use super::Reshaped;
use super::join::names_text;
use super::share_corners::with_shared_corners;
use super::strips_follow::outline_edits;
use super::tidied::tidied;
use crate::farm::lying::{are_to_part, is_used};
use crate::farm::meeting::may_share;
use crate::farm::{Edit, Farm, Form, Ground, GroundId, Kind, Shape};
use crate::geometry::{Outline, Point, Ring, overlay, validity};

/// What becomes of the ground in a hole that is filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HoleFill {
    /// It belongs to the piece again.
    Given,
    /// It becomes ground of its own, of this kind; the hole stays.
    Drawn(Kind),
}

/// A hole drawn corner by corner, in the selected ground where it lies in one, else in the smallest area round it.
///
/// # Errors
/// A sentence, where the hole does not lie wholly inside an area, or is no sound outline.
pub fn hole_drawn(
    farm: &Farm,
    selected: &BTreeSet<GroundId>,
    corners: Vec<Point>,
) -> Result<Reshaped, String> {
    let hole = Ring::new(corners);
    if hole.corners.len() < 3 {
        return Err("A hole needs three corners at least: click the next one.".to_owned());
    }
    let drawn = Outline::simple(hole.corners.clone());
    if let Some(fault) = validity::faults(&drawn)
        .into_iter()
        .find(|fault| !fault.kind.is_harmless())
    {
        return Err(format!("That is no hole: {}.", fault.kind));
    }
    let (id, ground, outline) = ground_round(farm, selected, &drawn).ok_or(
        "The hole must lie wholly inside one piece of ground: draw it clear of the boundary.",
    )?;
    let new = tidied(overlay::without(outline, &drawn));
    let edits = outline_edits(farm, id, ground, new);
    Ok(Reshaped {
        label: format!("Hole in {}", ground.name),
        edits: with_shared_corners(farm, edits),
        select: BTreeSet::from([id]),
    })
}

/// The area that holds all of a hole, with nothing of it left out.
fn ground_round<'farm>(
    farm: &'farm Farm,
    selected: &BTreeSet<GroundId>,
    drawn: &Outline,
) -> Option<(GroundId, &'farm Ground, &'farm Outline)> {
    let all = farm
        .ground
        .iter()
        .filter_map(|(id, ground)| Some((*id, ground, ground.outline()?)));
    let fits = all.filter(|(_, _, outline)| is_inside(drawn, outline));
    // A strip answers for less than its ley: a hole is drawn in the ley, and the strips follow.
    fits.min_by(|a, b| {
        let order = |(id, ground, outline): &(GroundId, &Ground, &Outline)| {
            (
                !selected.contains(id),
                ground.kind == Kind::Strip && ground.within.is_some(),
                outline.area_m2(),
            )
        };
        let ((not_a, strip_a, area_a), (not_b, strip_b, area_b)) = (order(a), order(b));
        (not_a, strip_a)
            .cmp(&(not_b, strip_b))
            .then(area_a.total_cmp(&area_b))
    })
}

/// Whether a drawn outline lies wholly inside ground, clear of its boundary and holes.
fn is_inside(drawn: &Outline, outline: &Outline) -> bool {
    let corners_in = drawn
        .rings()
        .flat_map(|ring| ring.corners.iter())
        .all(|corner| outline.whereabouts(*corner) == crate::geometry::Whereabouts::Inside);
    corners_in && overlay::without(drawn, outline).area_m2() <= 1e-6 && {
        let holes = outline
            .parts
            .iter()
            .map(|part| part.holes.len())
            .sum::<usize>();
        let after = overlay::without(outline, drawn);
        after.parts.len() == outline.parts.len()
            && after
                .parts
                .iter()
                .map(|part| part.holes.len())
                .sum::<usize>()
                == holes + 1
    }
}

/// The selected areas taken out of the plots, leys and strips they lie on.
///
/// # Errors
/// A sentence, where nothing used lies under them, or nothing of it would be left.
pub fn cut_out(farm: &Farm, ids: &BTreeSet<GroundId>) -> Result<Reshaped, String> {
    let cutters: Vec<&Ground> = ids.iter().filter_map(|id| farm.ground.get(id)).collect();
    if cutters.is_empty() || cutters.iter().any(|ground| ground.outline().is_none()) {
        return Err("Select the area that is to be taken out, such as a pond.".to_owned());
    }
    let cut = overlay::all_joined(cutters.iter().filter_map(|ground| ground.outline()));
    let mut edits = Vec::new();
    for (id, ground) in &farm.ground {
        let is_under = is_used(ground.kind)
            && !ids.contains(id)
            && !(ground.kind == Kind::Strip && ground.within.is_some());
        let Some(outline) = ground
            .outline()
            .filter(|outline| is_under && may_share(outline, &cut))
        else {
            continue;
        };
        let new = tidied(overlay::without(outline, &cut));
        if new.parts.is_empty() {
            return Err(format!("Nothing would be left of {}.", ground.name));
        }
        if (outline.area_m2() - new.area_m2()).abs() > 1e-4 {
            edits.extend(outline_edits(farm, *id, ground, new));
        }
    }
    let names = names_text(cutters.iter().map(|ground| ground.name.as_str()));
    if edits.is_empty() {
        return Err(format!("No plot or ley lies under {names}."));
    }
    Ok(Reshaped {
        label: format!("Take {names} out of the ground under it"),
        edits: with_shared_corners(farm, edits),
        select: ids.clone(),
    })
}

/// Fills the hole with this place among the ground's holes, or all of them.
///
/// # Errors
/// A sentence, where there is no such hole.
pub fn holes_filled(
    farm: &Farm,
    id: GroundId,
    which: Option<usize>,
    fill: HoleFill,
) -> Result<Reshaped, String> {
    let ground = farm.ground.get(&id).ok_or("That ground is gone.")?;
    let outline = ground
        .outline()
        .ok_or_else(|| format!("{} is not an area.", ground.name))?;
    let is_wanted = |place: usize| which.is_none_or(|wanted| wanted == place);
    let mut filled = outline.clone();
    let mut holes: Vec<Ring> = Vec::new();
    let mut place = 0;
    for part in &mut filled.parts {
        let mut kept = Vec::new();
        for hole in std::mem::take(&mut part.holes) {
            if is_wanted(place) {
                holes.push(hole);
            } else {
                kept.push(hole);
            }
            place += 1;
        }
        part.holes = kept;
    }
    if holes.is_empty() {
        return Err(format!("{} has no hole to fill.", ground.name));
    }
    if let Some(name) = ground_in_holes(farm, (id, ground), &holes) {
        return Err(format!(
            "{name} lies in the hole: filled, the two would cover the same ground. Delete {name} first, or join it to {}.",
            ground.name
        ));
    }
    let (edits, label, select) = match fill {
        HoleFill::Given => (
            outline_edits(farm, id, ground, filled),
            format!("Fill a hole of {}", ground.name),
            BTreeSet::from([id]),
        ),
        HoleFill::Drawn(kind) => {
            if !kind.allows(Form::Area) {
                return Err(format!("A {} is not an area.", kind.name()));
            }
            let fresh = drawn_in_holes(farm, ground, holes, kind);
            let select = fresh.iter().map(|(id, _)| *id).collect();
            let edits = fresh
                .into_iter()
                .map(|(id, ground)| Edit::add_ground(id, ground))
                .collect();
            (
                edits,
                format!("Draw the hole of {} as {}", ground.name, kind.name()),
                select,
            )
        }
    };
    Ok(Reshaped {
        label,
        edits: with_shared_corners(farm, edits),
        select,
    })
}

/// The name of ground in one of the holes that may not share its place with what would fill it.
fn ground_in_holes(farm: &Farm, filled: (GroundId, &Ground), holes: &[Ring]) -> Option<String> {
    let inside = |other: &Outline| {
        holes.iter().any(|hole| {
            let hole = Outline::simple(hole.corners.clone());
            may_share(&hole, other) && overlay::in_both(&hole, other).area_m2() > 1e-4
        })
    };
    let mut others = farm.ground.iter().filter(|(id, _)| **id != filled.0);
    others
        .find(|(id, other)| {
            are_to_part(filled, (**id, other)) && other.outline().is_some_and(inside)
        })
        .map(|(_, other)| other.name.clone())
}

fn drawn_in_holes(
    farm: &Farm,
    ground: &Ground,
    holes: Vec<Ring>,
    kind: Kind,
) -> Vec<(GroundId, Ground)> {
    let mut grown = farm.clone();
    let mut fresh = Vec::new();
    for hole in holes {
        let name = grown.free_name(&format!("{} {}", ground.name, kind.name()));
        let piece = Ground::new(name, kind, Shape::Area(Outline::simple(hole.corners)));
        let id = GroundId(grown.next_id);
        grown.next_id += 1;
        grown.ground.insert(id, piece.clone());
        fresh.push((id, piece));
    }
    fresh
}
