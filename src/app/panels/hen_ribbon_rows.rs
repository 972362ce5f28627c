//! The rows of the season ribbon for hens, as plain data: one for each line of a house, or strip that it follows sheep
//! across.
//!
//! Days are indices from the season's first day.

use super::ribbon_rows::{RibbonBar, RibbonRow, index_span};
use crate::app::desk::Desk;
use crate::farm::{GroundId, HenHouse, HenHouseId, HenMark, MobId, StopKind};
use crate::planning::{HenWalk, SeasonPlan};

/// Every house with each of its lines, or by itself where it walks nowhere.
pub(super) fn hen_ribbon_places(
    desk: &Desk,
    plan: &SeasonPlan,
) -> Vec<(HenHouseId, Option<GroundId>)> {
    let houses = desk.farm().hen_houses.iter();
    houses
        .flat_map(|(id, house)| match plan.hens.get(id) {
            Some(walk) => {
                let lines = lines_of(house, walk).into_iter();
                lines.map(|line| (*id, Some(line))).collect()
            }
            None => vec![(*id, None)],
        })
        .collect()
}

/// The row of one of these.
pub(super) fn hen_ribbon_row(
    desk: &Desk,
    plan: &SeasonPlan,
    id: HenHouseId,
    line: Option<GroundId>,
) -> Option<RibbonRow> {
    let house = desk.farm().hen_houses.get(&id)?;
    match (plan.hens.get(&id), line) {
        (Some(walk), Some(line)) => Some(row_of(desk, plan, (id, house, walk), line)),
        _ => Some(empty_row(id, house)),
    }
}

/// The lines in the order of the house, or the strips in the order in which they are come to.
fn lines_of(house: &HenHouse, walk: &HenWalk) -> Vec<GroundId> {
    let walked = walk.places.iter().map(|place| place.line);
    let mut lines: Vec<GroundId> = Vec::new();
    for line in house.lines.iter().copied().chain(walked) {
        let is_walked = walk.places.iter().any(|place| place.line == line);
        if is_walked && !lines.contains(&line) {
            lines.push(line);
        }
    }
    lines
}

fn empty_row(id: HenHouseId, house: &HenHouse) -> RibbonRow {
    RibbonRow {
        ground: None,
        house: Some(id),
        name: house.name.clone(),
        bars: Vec::new(),
        closed: Vec::new(),
        is_selected: false,
    }
}

fn row_of(
    desk: &Desk,
    plan: &SeasonPlan,
    (id, house, walk): (HenHouseId, &HenHouse, &HenWalk),
    line: GroundId,
) -> RibbonRow {
    let name = desk
        .farm()
        .ground
        .get(&line)
        .map_or("", |ground| ground.name.as_str());
    let stops = house.handling.stops.iter().filter(|stop| match stop.kind {
        StopKind::KeepOff(off) => off == line,
        StopKind::Housed | StopKind::NoTowing => true,
    });
    let closed = stops.filter_map(|stop| {
        let (from, to) = index_span(plan, stop.from, stop.to)?;
        let what = match stop.kind {
            StopKind::Housed => "shut in",
            StopKind::NoTowing => "not towed",
            StopKind::KeepOff(_) => "",
        };
        let why = [what, stop.why.as_str()]
            .into_iter()
            .filter(|words| !words.is_empty())
            .collect::<Vec<_>>()
            .join(", ");
        Some((from, to, why))
    });
    RibbonRow {
        ground: Some(line),
        house: Some(id),
        name: format!("{} · {name}", house.name),
        bars: bars_of(plan, house, walk, line),
        closed: closed.collect(),
        is_selected: desk.selected.contains(&line),
    }
}

/// Runs of days along a line; lived days make runs of their own.
fn bars_of(plan: &SeasonPlan, house: &HenHouse, walk: &HenWalk, line: GroundId) -> Vec<RibbonBar> {
    let mut bars: Vec<RibbonBar> = Vec::new();
    for stand in walk.days.iter().filter(|stand| !stand.is_housed) {
        let (Some(index), Some(place)) = (plan.index_of(stand.day), walk.place(stand.place)) else {
            continue;
        };
        if place.line != line {
            continue;
        }
        let (is_lived, is_fixed) = match house.handling.marks.get(&stand.day) {
            Some(HenMark::At { lived, .. }) => (*lived, !lived),
            Some(HenMark::Late | HenMark::Skipped) => (false, true),
            None => (false, false),
        };
        match bars.last_mut() {
            Some(last) if last.to + 1 == index && last.is_lived == is_lived => {
                last.to = index;
                last.is_fixed |= is_fixed;
            }
            before => {
                // The rest is owed by the last of the days in a row.
                if let Some(last) = before.filter(|last| last.to + 1 == index) {
                    last.rest_days = 0;
                }
                bars.push(RibbonBar {
                    from: index,
                    to: index,
                    rest_days: usize::try_from(house.rest_days_wanted).unwrap_or(0),
                    who: house.name.clone(),
                    mob: MobId(0),
                    is_chosen: false,
                    mob_order: 0,
                    is_lived,
                    is_fixed,
                });
            }
        }
    }
    bars
}
