//! What typing about a piece of ground does to it: width, height, trees, note. Metres.

use super::change::{Given, GroundField, gone};
use super::figures;
use crate::app::season_acts::Act;
use crate::farm::{Edit, Ground, GroundId, TreeRow};

/// Widest line, tallest thing, longest way along a line.
const MOST_WIDTH_M: f64 = 200.0;
const MOST_HEIGHT_M: f64 = 100.0;
const MOST_ALONG_M: f64 = 10_000.0;
/// Narrowest line and closest trees.
const LEAST_M: f64 = 0.05;
/// Crown of a row whose trees were not described yet (common practice, no source).
const USUAL_CROWN_M: f64 = 4.0;

pub(super) fn change(
    given: Given<'_>,
    id: GroundId,
    field: GroundField,
    typed: &str,
) -> Result<Act, String> {
    let old = given.farm.ground.get(&id).ok_or_else(gone)?;
    let mut ground = old.clone();
    let length = |typed: &str, least_m: f64, most_m: f64| {
        figures::length_m(typed, given.units, least_m..=most_m)
    };
    let what = match field {
        GroundField::Width => {
            ground.width_m =
                figures::unless_empty(typed, |typed| length(typed, LEAST_M, MOST_WIDTH_M))?;
            "width"
        }
        GroundField::Height => {
            ground.height_m =
                figures::unless_empty(typed, |typed| length(typed, LEAST_M, MOST_HEIGHT_M))?;
            "height"
        }
        GroundField::TreeSpacing => {
            let spacing_m =
                figures::unless_empty(typed, |typed| length(typed, LEAST_M, MOST_ALONG_M))?;
            set_spacing(&mut ground, spacing_m);
            "trees"
        }
        GroundField::TreeFirst => {
            let first_m = length(typed, 0.0, MOST_ALONG_M)?;
            trees_of(&mut ground)?.first_m = first_m;
            "first tree"
        }
        GroundField::TreeCrown => {
            let crown_m = length(typed, LEAST_M, MOST_WIDTH_M)?;
            trees_of(&mut ground)?.crown_m = crown_m;
            "crowns"
        }
        GroundField::Note => {
            typed.trim().clone_into(&mut ground.note);
            "note"
        }
    };
    let label = format!("{}: {what}", ground.name);
    Ok((label, vec![Edit::change_ground(id, old, ground)]))
}

fn set_spacing(ground: &mut Ground, spacing_m: Option<f64>) {
    ground.trees = spacing_m.map(|spacing_m| {
        let before = ground.trees.as_ref();
        TreeRow {
            spacing_m,
            first_m: before.map_or(0.0, |row| row.first_m),
            crown_m: before.map_or(USUAL_CROWN_M, |row| row.crown_m),
            varieties: before.map_or_else(Vec::new, |row| row.varieties.clone()),
        }
    });
}

fn trees_of(ground: &mut Ground) -> Result<&mut TreeRow, String> {
    ground
        .trees
        .as_mut()
        .ok_or_else(|| "Say first how far apart the trees stand.".to_owned())
}
