//! What the strips of a ley are called: a stem of the ley's name and a number.
//!
//! A letter where it is free ("Long Ley": L1, L2 …), else the whole name ("Long Ley 1"); a name that ends in a figure
//! keeps it apart by a point ("Plot 2.1"). Knows nothing of how ground is cut.

use std::collections::BTreeSet;

use super::{Farm, Ground, GroundId, Kind};

/// The stem that a grower would give the strips of this ground. Strips that are cut anew keep theirs.
pub fn strip_stem(farm: &Farm, id: GroundId, ground: &Ground) -> String {
    if let Some(stem) = stem_of_old_strips(farm, id) {
        return stem;
    }
    let name = ground.name.trim();
    let whole = if name.ends_with(|c: char| c.is_ascii_digit()) {
        format!("{name}.")
    } else if name.is_empty() {
        "Strip ".to_owned()
    } else {
        format!("{name} ")
    };
    // A letter and a number for a name with a number of its own ("Plot 2": P1) would read as another's name.
    let has_figure = name.contains(|c: char| c.is_ascii_digit());
    let letter = name.chars().find(|c| c.is_alphabetic());
    let letter = letter.map(|letter| letter.to_uppercase().to_string());
    match letter {
        Some(letter) if !has_figure && ground.kind != Kind::Strip => {
            if is_free(farm, id, &letter) {
                letter
            } else {
                whole
            }
        }
        _ => whole,
    }
}

/// The name of the strip with a number, counted from 1.
pub fn strip_name(stem: &str, number: usize) -> String {
    format!("{stem}{number}")
}

/// The first name that other ground already has; capitals aside.
pub fn taken_strip_name(farm: &Farm, id: GroundId, stem: &str, count: usize) -> Option<String> {
    let taken: BTreeSet<String> = others(farm, id)
        .map(|ground| ground.name.trim().to_lowercase())
        .collect();
    (1..=count)
        .map(|number| strip_name(stem, number))
        .find(|name| taken.contains(&name.trim().to_lowercase()))
}

/// Ground that is still there after the cut.
fn others(farm: &Farm, id: GroundId) -> impl Iterator<Item = &Ground> {
    farm.ground
        .iter()
        .filter(move |(other, ground)| **other != id && ground.within != Some(id))
        .map(|(_, ground)| ground)
}

/// Whether no name but those of the old strips is the stem with a figure.
fn is_free(farm: &Farm, id: GroundId, stem: &str) -> bool {
    let stem = stem.to_lowercase();
    !others(farm, id).any(|ground| {
        let name = ground.name.trim().to_lowercase();
        name.strip_prefix(&stem).is_some_and(|rest| {
            !rest.is_empty() && rest.chars().all(|c| c.is_ascii_digit() || c == '.')
        })
    })
}

/// The stem that all strips of a ley have in common before their number; none where they have no such.
fn stem_of_old_strips(farm: &Farm, id: GroundId) -> Option<String> {
    let mut stems = farm.strips_of(id).map(|(_, strip)| {
        let name = strip.name.as_str();
        let stem = name.trim_end_matches(|c: char| c.is_ascii_digit());
        (stem.len() < name.len() && !stem.is_empty()).then(|| stem.to_owned())
    });
    let first = stems.next()??;
    stems
        .all(|stem| stem.as_deref() == Some(first.as_str()))
        .then_some(first)
}
