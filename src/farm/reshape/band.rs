//! Ground kept clear round tree lines, hedges, fences and water: a new piece reaching so far on each side. Metres.

use std::collections::BTreeSet;

use super::Reshaped;
use super::join::names_text;
use super::tidied::tidied;
use crate::farm::{Edit, Farm, Form, Ground, GroundId, Kind, Shape};
use crate::geometry::buffer::{LineEnds, drawn_out, line_with_width};
use crate::geometry::construct::circle;
use crate::geometry::{Outline, overlay};

/// Corners of the ground round a single place.
const CIRCLE_CORNERS: u32 = 48;

/// One new piece of `kind` for each thing, reaching `reach_m` from its edge on each side.
///
/// A line's own width lies within its piece; ground round an area leaves the area itself out. `is_round` also keeps
/// the ground clear beyond the ends of a line.
///
/// # Errors
/// A sentence: nothing chosen, no width, a kind that is no area.
pub fn keep_out_round(
    farm: &Farm,
    ids: &BTreeSet<GroundId>,
    reach_m: f64,
    is_round: bool,
    kind: Kind,
) -> Result<Reshaped, String> {
    if !(reach_m > 0.0 && reach_m.is_finite()) {
        return Err("The ground to keep clear must be wider than nothing.".to_owned());
    }
    if !kind.allows(Form::Area) {
        return Err(format!("A {} is not an area.", kind.name()));
    }
    let mut grown = farm.clone();
    let mut edits = Vec::new();
    let mut select = BTreeSet::new();
    for id in ids {
        let Some(ground) = farm.ground.get(id) else {
            continue;
        };
        let outline = tidied(round(
            &ground.shape,
            ground.drawn_width_m(),
            reach_m,
            is_round,
        ));
        if outline.parts.is_empty() {
            return Err(format!(
                "No ground can be kept clear round {}: mend its shape first.",
                ground.name
            ));
        }
        let name = grown.free_name(&format!("{} {}", ground.name, kind.name()));
        let fresh = Ground::new(name, kind, Shape::Area(outline));
        let fresh_id = GroundId(grown.next_id);
        grown.next_id += 1;
        grown.ground.insert(fresh_id, fresh.clone());
        edits.push(Edit::add_ground(fresh_id, fresh));
        select.insert(fresh_id);
    }
    if edits.is_empty() {
        return Err("Select the tree line, hedge, fence or water first.".to_owned());
    }
    let names = ids
        .iter()
        .filter_map(|id| farm.ground.get(id))
        .map(|ground| ground.name.as_str());
    Ok(Reshaped {
        label: format!("Keep ground clear round {}", names_text(names)),
        edits,
        select,
    })
}

fn round(shape: &Shape, width_m: f64, reach_m: f64, is_round: bool) -> Outline {
    match shape {
        Shape::Area(outline) => overlay::without(&drawn_out(outline, reach_m), outline),
        Shape::Line(line) => {
            let ends = if is_round {
                LineEnds::Round
            } else {
                LineEnds::Flat
            };
            line_with_width(line, width_m.max(0.0) + 2.0 * reach_m, ends)
        }
        Shape::Place(place) => circle(*place, reach_m, CIRCLE_CORNERS).unwrap_or_default(),
    }
}
