//! What is done to everything that is selected at once: copied, nudged, locked, raised, its lengths shown.
//!
//! Each gives the edits it would make, so a button can tell beforehand whether it would do anything. Metres.

use std::collections::{BTreeMap, BTreeSet};

use super::desk::Desk;
use super::season_acts::Act;
use super::tools::Tool;
use crate::farm::{Edit, Farm, Ground, GroundId, Kind, Shape};
use crate::geometry::{Point, geodesic};
use crate::quantity::length_text;

/// Edits, their label, and what is selected afterwards.
pub struct Handled {
    /// Label and edits.
    pub act: Act,
    /// What is selected once they are made.
    pub select: BTreeSet<GroundId>,
}

/// Copies what is selected, a little to the south-east; a ley takes its strips along.
pub fn copies(desk: &Desk) -> Option<Handled> {
    let farm = desk.farm();
    let chosen = with_strips(farm, &desk.selected);
    let mut next = farm.next_id;
    let mut numbers: BTreeMap<GroundId, GroundId> = BTreeMap::new();
    for id in &chosen {
        numbers.insert(*id, GroundId(next));
        next = next.checked_add(1)?;
    }
    let aside_m = (desk.view.m_per_point * 24.0).max(0.001);
    let mut names: BTreeSet<&str> = farm.ground.values().map(|g| g.name.as_str()).collect();
    let fresh: Vec<(GroundId, Ground)> = chosen
        .iter()
        .filter_map(|id| Some((*numbers.get(id)?, farm.ground.get(id)?)))
        .map(|(id, ground)| {
            let mut copy = ground.clone();
            copy.shape = ground
                .shape
                .map_corners(|corner| corner.moved(aside_m, -aside_m).on_whole_mm());
            copy.is_locked = false;
            copy.within = ground
                .within
                .map(|ley| numbers.get(&ley).copied().unwrap_or(ley));
            (id, copy)
        })
        .collect();
    let mut edits = Vec::new();
    let mut given: Vec<String> = Vec::new();
    for (id, mut copy) in fresh {
        copy.name = free_copy_name(&copy.name, &names, &given);
        given.push(copy.name.clone());
        edits.push(Edit::add_ground(id, copy));
    }
    names.clear();
    let select = desk
        .selected
        .iter()
        .filter_map(|id| numbers.get(id).copied())
        .collect();
    let label = format!("Copy {}", words(desk)?);
    (!edits.is_empty()).then_some(Handled {
        act: (label, edits),
        select,
    })
}

/// The first of `name 2`, `name 3` … that nothing bears; a name that ends in a number counts on from it.
fn free_copy_name(name: &str, taken: &BTreeSet<&str>, given: &[String]) -> String {
    if name.trim().is_empty() {
        return String::new();
    }
    let (stem, from) = match name.rsplit_once(' ') {
        Some((stem, number)) if number.len() <= 6 => number
            .parse::<u32>()
            .map_or((name, 1), |number| (stem, number)),
        _ => (name, 1),
    };
    (1..=u32::MAX)
        .map(|step| format!("{stem} {}", from.saturating_add(step)))
        .find(|wanted| !taken.contains(wanted.as_str()) && !given.contains(wanted))
        .unwrap_or_default()
}

/// Moves what is selected by whole figures.
pub fn nudged(desk: &Desk, east_m: f64, north_m: f64) -> Option<Act> {
    let farm = desk.farm();
    let label = format!("Nudge {}", words(desk)?);
    let edits: Vec<Edit> = with_strips(farm, &desk.selected)
        .into_iter()
        .filter_map(|id| Some((id, farm.ground.get(&id)?)))
        .filter(|(_, ground)| !ground.is_locked)
        .map(|(id, ground)| {
            let mut moved = ground.clone();
            moved.shape = ground
                .shape
                .map_corners(|corner| corner.moved(east_m, north_m).on_whole_mm());
            Edit::change_ground(id, ground, moved)
        })
        .collect();
    (!edits.is_empty()).then_some((label, edits))
}

/// Locks what is selected; lets all of it go where all of it is locked.
pub fn lock_or_let_go(desk: &Desk) -> Option<Act> {
    let locks = !chosen(desk).all(|(_, ground)| ground.is_locked);
    let label = format!("{} {}", if locks { "Lock" } else { "Let go" }, words(desk)?);
    changed(desk, label, |ground| ground.is_locked = locks)
}

/// Writes the length of every side on the map; takes them away where all of them stand there.
pub fn lengths_on_map(desk: &Desk) -> Option<Act> {
    let shows = !chosen(desk).all(|(_, ground)| ground.shows_lengths);
    let label = format!(
        "{} of {}",
        if shows {
            "Show lengths"
        } else {
            "Hide lengths"
        },
        words(desk)?
    );
    changed(desk, label, |ground| ground.shows_lengths = shows)
}

/// Lays what is selected a step above (or below) what lies with it.
pub fn raised(desk: &Desk, by: i32) -> Option<Act> {
    let label = format!(
        "{} {}",
        if by > 0 { "Raise" } else { "Lower" },
        words(desk)?
    );
    changed(desk, label, |ground| {
        ground.raised = ground.raised.saturating_add(by).clamp(-99, 99);
    })
}

/// Keeps what the ruler shows as a note on the map.
pub fn kept_measure(desk: &Desk) -> Option<Handled> {
    let Tool::Ruler(ruler) = &desk.tool else {
        return None;
    };
    let corners: Vec<Point> = ruler.corners().iter().map(|c| c.on_whole_mm()).collect();
    if corners.len() < 2 {
        return None;
    }
    let farm = desk.farm();
    let length_m = geodesic::length_m(farm.frame, &corners);
    let mut note = Ground::new(
        format!("Measured {}", length_text(length_m, desk.units())),
        Kind::Note,
        Shape::Line(corners),
    );
    note.shows_lengths = true;
    let id = GroundId(farm.next_id);
    Some(Handled {
        act: (
            "Keep the measurement".to_owned(),
            vec![Edit::add_ground(id, note)],
        ),
        select: BTreeSet::from([id]),
    })
}

/// Everything on the map that is not hidden; strips come with their ley.
pub fn everything(desk: &Desk) -> BTreeSet<GroundId> {
    let ground = &desk.farm().ground;
    ground
        .iter()
        .filter(|(_, ground)| !desk.hidden.contains(&ground.kind))
        .map(|(id, _)| *id)
        .collect()
}

/// The chosen pieces and the strips of every ley among them.
fn with_strips(farm: &Farm, chosen: &BTreeSet<GroundId>) -> BTreeSet<GroundId> {
    let strips = chosen
        .iter()
        .flat_map(|id| farm.strips_of(*id).map(|(strip, _)| strip));
    chosen.iter().copied().chain(strips).collect()
}

fn chosen(desk: &Desk) -> impl Iterator<Item = (GroundId, &Ground)> {
    desk.selected
        .iter()
        .filter_map(|id| desk.farm().ground.get(id).map(|ground| (*id, ground)))
}

/// The name of the one thing selected, or how many there are; nothing where there is none.
fn words(desk: &Desk) -> Option<String> {
    match (desk.selected.len(), desk.selected_one()) {
        (0, _) => None,
        (_, Some((_, ground))) => Some(ground.name.clone()),
        (count, None) => Some(format!("{count} things")),
    }
}

fn changed(desk: &Desk, label: String, change: impl Fn(&mut Ground)) -> Option<Act> {
    let edits: Vec<Edit> = chosen(desk)
        .map(|(id, old)| {
            let mut new = old.clone();
            change(&mut new);
            Edit::change_ground(id, old, new)
        })
        .filter(|edit| !edit.is_idle())
        .collect();
    (!edits.is_empty()).then_some((label, edits))
}
