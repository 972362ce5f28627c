//! What a press does to the farm's hen houses: add one, remove it, its side, the lines it walks and their order.
//!
//! Each gives the edits of one step; none paints.

use super::house_change::changed;
use crate::app::season_acts::Act;
use crate::farm::{Edit, Farm, GroundId, HenHouse, HenHouseId, Kind, LineSide};

/// Whether a hen house can walk along this kind of line.
const fn is_walked(kind: Kind) -> bool {
    matches!(kind, Kind::TreeLine | Kind::Hedge | Kind::Fence)
}

/// A line that a house may walk, with its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct LineChoice {
    pub(super) id: GroundId,
    pub(super) name: String,
    pub(super) kind: Kind,
}

/// The lines that this house does not walk yet: tree lines first, then hedges and fences.
pub(super) fn lines_left(farm: &Farm, house: &HenHouse) -> Vec<LineChoice> {
    let mut lines: Vec<LineChoice> = farm
        .ground
        .iter()
        .filter(|(id, ground)| {
            is_walked(ground.kind) && ground.line().is_some() && !house.lines.contains(id)
        })
        .map(|(id, ground)| LineChoice {
            id: *id,
            name: ground.name.clone(),
            kind: ground.kind,
        })
        .collect();
    lines.sort_by_key(|line| (line.kind, line.id));
    lines
}

/// Adds a small house (its figures are common practice, no source) along the first tree line.
pub(super) fn add(farm: &Farm) -> (HenHouseId, Act) {
    let id = HenHouseId(farm.next_id);
    let mut house = HenHouse {
        name: free_name(farm),
        hens: 50,
        length_m: 4.0,
        width_m: 3.0,
        gap_m: 0.5,
        lines: Vec::new(),
        side: LineSide::Right,
        offset_m: 3.0,
        first_day: farm.season.first_day,
        last_day: None,
        days_per_place: 1,
        rest_days_wanted: 42,
    };
    house.lines = lines_left(farm, &house)
        .first()
        .filter(|line| line.kind == Kind::TreeLine)
        .map(|line| line.id)
        .into_iter()
        .collect();
    let label = format!("Add the hen house {}", house.name);
    let edit = Edit::HenHouse {
        id,
        old: None,
        new: Some(Box::new(house)),
    };
    (id, (label, vec![edit]))
}

fn free_name(farm: &Farm) -> String {
    let is_free = |name: &String| farm.hen_houses.values().all(|house| house.name != *name);
    (1..=farm.hen_houses.len() + 1)
        .map(|number| {
            if number == 1 {
                "Hens".to_owned()
            } else {
                format!("Hens {number}")
            }
        })
        .find(is_free)
        .unwrap_or_default()
}

/// Removes a house.
pub(super) fn remove(farm: &Farm, id: HenHouseId) -> Option<Act> {
    let house = farm.hen_houses.get(&id)?;
    let edit = Edit::HenHouse {
        id,
        old: Some(Box::new(house.clone())),
        new: None,
    };
    Some((format!("Remove the hen house {}", house.name), vec![edit]))
}

/// Lets it walk on the other side of its lines.
pub(super) fn set_side(farm: &Farm, id: HenHouseId, side: LineSide) -> Option<Act> {
    with(farm, id, "side of the line", |house| {
        house.side = side;
        true
    })
}

/// Puts a line behind those it walks.
pub(super) fn add_line(farm: &Farm, id: HenHouseId, line: GroundId) -> Option<Act> {
    with(farm, id, "walk one more line", |house| {
        house.lines.push(line);
        true
    })
}

/// Takes a line out of its walk.
pub(super) fn remove_line(farm: &Farm, id: HenHouseId, place: usize) -> Option<Act> {
    with(farm, id, "walk one line less", |house| {
        let is_there = place < house.lines.len();
        if is_there {
            house.lines.remove(place);
        }
        is_there
    })
}

/// Lets it walk a line one place sooner.
pub(super) fn line_sooner(farm: &Farm, id: HenHouseId, place: usize) -> Option<Act> {
    with(farm, id, "order of its lines", |house| {
        let can = place > 0 && place < house.lines.len();
        if can {
            house.lines.swap(place - 1, place);
        }
        can
    })
}

fn with(
    farm: &Farm,
    id: HenHouseId,
    what: &str,
    put: impl FnOnce(&mut HenHouse) -> bool,
) -> Option<Act> {
    let old = farm.hen_houses.get(&id)?;
    let mut house = old.clone();
    put(&mut house).then(|| {
        let label = format!("{}: {what}", house.name);
        (label, vec![changed(id, old, house)])
    })
}
