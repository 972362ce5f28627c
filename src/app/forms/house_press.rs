//! What a press does to the farm's hen houses: add one, remove it, its side, the lines it walks and their order, what
//! stops it, what it follows, what is settled.
//!
//! Each gives the edits of one step; none paints.

use super::house_change::changed;
use crate::app::season_acts::Act;
use crate::farm::{
    Edit, Farm, FlockStep, FollowsSheep, GroundId, HenHandling, HenHouse, HenHouseId, HenMark,
    HenStop, Kind, LeftStretch, LineOrder, LineSide, MobId, StopKind, StretchTrouble, TowSide,
};
use crate::quantity::Day;

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

/// The lines that this house does not walk yet: tree lines first, then hedges and fences, then leys and strips.
pub(super) fn lines_left(farm: &Farm, house: &HenHouse) -> Vec<LineChoice> {
    let mut lines: Vec<LineChoice> = farm
        .ground
        .iter()
        .filter(|(id, ground)| {
            let is_line = is_walked(ground.kind) && ground.line().is_some();
            let is_grass = ground.kind.is_grazed() && ground.outline().is_some();
            (is_line || is_grass) && !house.lines.contains(id)
        })
        .map(|(id, ground)| LineChoice {
            id: *id,
            name: ground.name.clone(),
            kind: ground.kind,
        })
        .collect();
    lines.sort_by_key(|line| (line.kind.is_grazed(), line.kind, line.id));
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
        handling: HenHandling::default(),
    };
    house.handling.line_order = LineOrder::Chosen;
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

/// Who orders the lines.
pub(super) fn set_order(farm: &Farm, id: HenHouseId, order: LineOrder) -> Option<Act> {
    with(farm, id, "who orders its lines", |house| {
        house.handling.line_order = order;
        true
    })
}

/// Where it is towed from.
pub(super) fn set_tow_side(farm: &Farm, id: HenHouseId, side: TowSide) -> Option<Act> {
    with(farm, id, "where it is towed from", |house| {
        house.handling.tow_side = side;
        true
    })
}

/// Lets it follow a mob, or walk its own lines again. Three days is what is told of cattle (common practice, no
/// source).
pub(super) fn set_follows(farm: &Farm, id: HenHouseId, mob: Option<MobId>) -> Option<Act> {
    with(farm, id, "sheep it follows", |house| {
        let days_after = house
            .handling
            .follows
            .map_or(3, |follows| follows.days_after);
        house.handling.follows = mob.map(|mob| FollowsSheep { mob, days_after });
        true
    })
}

/// Stops it for a week from a day on: no towing, to be changed.
pub(super) fn add_stop(farm: &Farm, id: HenHouseId, from: Day) -> Option<Act> {
    with(farm, id, "a stop", |house| {
        house.handling.stops.push(HenStop {
            from,
            to: from.plus_days(6),
            kind: StopKind::NoTowing,
            why: String::new(),
        });
        true
    })
}

/// What a stop forbids.
pub(super) fn set_stop_kind(
    farm: &Farm,
    id: HenHouseId,
    place: usize,
    kind: StopKind,
) -> Option<Act> {
    with(farm, id, "what a stop forbids", |house| {
        let stop = house.handling.stops.get_mut(place);
        stop.map(|stop| stop.kind = kind).is_some()
    })
}

/// Takes a stop away.
pub(super) fn remove_stop(farm: &Farm, id: HenHouseId, place: usize) -> Option<Act> {
    with(farm, id, "a stop less", |house| {
        let is_there = place < house.handling.stops.len();
        if is_there {
            house.handling.stops.remove(place);
        }
        is_there
    })
}

/// Birds and room from a day on, as they are now.
pub(super) fn add_step(farm: &Farm, id: HenHouseId, from: Day) -> Option<Act> {
    with(farm, id, "growing flock", |house| {
        let birds = house.birds_on(from);
        let m2_each = house.flock_step_on(from).map_or(0.5, |step| step.m2_each);
        let steps = &mut house.handling.flock_steps;
        let is_new = steps.iter().all(|step| step.from != from);
        if is_new {
            steps.push(FlockStep {
                from,
                birds,
                m2_each,
            });
            steps.sort_by_key(|step| step.from);
        }
        is_new
    })
}

/// Takes a step of a growing flock away.
pub(super) fn remove_step(farm: &Farm, id: HenHouseId, place: usize) -> Option<Act> {
    with(farm, id, "growing flock", |house| {
        let is_there = place < house.handling.flock_steps.len();
        if is_there {
            house.handling.flock_steps.remove(place);
        }
        is_there
    })
}

/// Lays no place on a stretch of a line.
pub(super) fn leave_out_stretch(farm: &Farm, id: HenHouseId, stretch: LeftStretch) -> Option<Act> {
    with(farm, id, "a stretch left out", |house| {
        house.handling.left_stretches.push(stretch);
        true
    })
}

/// Why a stretch is left out.
pub(super) fn set_stretch_trouble(
    farm: &Farm,
    id: HenHouseId,
    place: usize,
    why: StretchTrouble,
) -> Option<Act> {
    with(farm, id, "why a stretch is left out", |house| {
        let stretch = house.handling.left_stretches.get_mut(place);
        stretch.map(|stretch| stretch.why = why).is_some()
    })
}

/// Lays places on a stretch again.
pub(super) fn use_stretch(farm: &Farm, id: HenHouseId, place: usize) -> Option<Act> {
    with(farm, id, "a stretch used again", |house| {
        let is_there = place < house.handling.left_stretches.len();
        if is_there {
            house.handling.left_stretches.remove(place);
        }
        is_there
    })
}

/// Says that a day went otherwise, or with `None` that it goes as planned again.
pub(super) fn set_mark(
    farm: &Farm,
    id: HenHouseId,
    day: Day,
    mark: Option<HenMark>,
) -> Option<Act> {
    let what = match mark {
        Some(HenMark::Late) => "not moved on",
        Some(HenMark::Skipped) => "place left out on",
        Some(HenMark::At { .. }) => "place fixed on",
        None => "free",
    };
    with(farm, id, &format!("{what} {}", day.short_text()), |house| {
        let before = house.handling.marks.get(&day).copied();
        match mark {
            Some(mark) => house.handling.marks.insert(day, mark),
            None => house.handling.marks.remove(&day),
        };
        before != mark
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
