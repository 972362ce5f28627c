//! The rows of the season ribbon as plain data: spells, rest, closed and settled days by strip and hen line.
//!
//! Days are indices from the season's first day.

use super::hen_ribbon_rows::{hen_ribbon_places, hen_ribbon_row};
use crate::app::desk::Desk;
use crate::farm::{GroundId, HenHouseId, MobId};
use crate::planning::{SeasonPlan, course_ground_of};
use crate::quantity::Day;

/// One row.
#[derive(Debug, Clone, PartialEq)]
pub struct RibbonRow {
    /// The ground, for a row of grass; the line or strip, for a row of hens.
    pub ground: Option<GroundId>,
    /// The house, for a row of hens.
    pub house: Option<HenHouseId>,
    /// Name at the left.
    pub name: String,
    /// Runs of days with stock, in order.
    pub bars: Vec<RibbonBar>,
    /// Runs of days with no animal allowed: first, last, why.
    pub closed: Vec<(usize, usize, String)>,
    /// Whether it is selected.
    pub is_selected: bool,
}

/// A run of days with stock.
#[derive(Debug, Clone, PartialEq)]
pub struct RibbonBar {
    /// First day index.
    pub from: usize,
    /// Last day index.
    pub to: usize,
    /// Days of rest owed after it.
    pub rest_days: usize,
    /// The mob; number 0, which no mob has, for hens.
    pub mob: MobId,
    /// Who.
    pub who: String,
    /// Order of the mob, for telling mobs apart.
    pub mob_order: usize,
    /// Whether all of it was lived.
    pub is_lived: bool,
    /// Whether a day of it is fixed.
    pub is_fixed: bool,
    /// Whether it holds the day in view on the selected ground: keys act on it.
    pub is_chosen: bool,
}

/// What a row is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RibbonPlace {
    /// Grazed ground.
    Ground(GroundId),
    /// A line of a hen house or a strip it comes to; the house itself where it walks nowhere.
    Hens(HenHouseId, Option<GroundId>),
}

/// What has a row: grazed ground in the order of its numbers, then hens. Only rows in sight are built.
pub fn ribbon_places(desk: &Desk, plan: &SeasonPlan) -> Vec<RibbonPlace> {
    let grazed = desk.reckoned().grazed().iter();
    let hens = hen_ribbon_places(desk, plan).into_iter();
    grazed
        .map(|id| RibbonPlace::Ground(*id))
        .chain(hens.map(|(house, line)| RibbonPlace::Hens(house, line)))
        .collect()
}

/// A row for the season of a plan.
pub fn ribbon_row(desk: &Desk, plan: &SeasonPlan, place: RibbonPlace) -> Option<RibbonRow> {
    match place {
        RibbonPlace::Ground(id) => Some(RibbonRow {
            ground: Some(id),
            house: None,
            name: desk.farm().ground.get(&id)?.name.clone(),
            bars: bars_of(desk, plan, id),
            closed: closed_of(desk, plan, id),
            is_selected: desk.selected.contains(&id),
        }),
        RibbonPlace::Hens(id, line) => hen_ribbon_row(desk, plan, id, line),
    }
}

fn bars_of(desk: &Desk, plan: &SeasonPlan, id: GroundId) -> Vec<RibbonBar> {
    let farm = desk.farm();
    plan.spells_of(id)
        .into_iter()
        .map(|spell| {
            let settled = |index: usize| farm.fixed.get(&(spell.mob, plan.day_at(index)));
            let days = spell.from..=spell.to;
            RibbonBar {
                mob: spell.mob,
                is_chosen: desk.selected.contains(&id)
                    && plan
                        .index_of(desk.day)
                        .is_some_and(|index| days.contains(&index)),
                from: spell.from,
                to: spell.to,
                rest_days: usize::try_from(farm.rest_days_on(plan.day_at(spell.to))).unwrap_or(0),
                who: farm
                    .mobs
                    .get(&spell.mob)
                    .map_or_else(String::new, |mob| mob.name.clone()),
                mob_order: farm
                    .mobs
                    .keys()
                    .position(|mob| *mob == spell.mob)
                    .unwrap_or(0),
                is_lived: days
                    .clone()
                    .all(|index| settled(index).is_some_and(|fixed| fixed.lived)),
                is_fixed: days
                    .clone()
                    .any(|index| settled(index).is_some_and(|fixed| !fixed.lived)),
            }
        })
        .collect()
}

fn closed_of(desk: &Desk, plan: &SeasonPlan, id: GroundId) -> Vec<(usize, usize, String)> {
    let farm = desk.farm();
    let Some(ground) = farm.ground.get(&id) else {
        return Vec::new();
    };
    let by_hand = ground
        .grazing
        .iter()
        .flat_map(|grazing| &grazing.closed)
        .map(|span| (span.from, span.to, span.why.clone()));
    let course_ground = course_ground_of(farm, id);
    let for_crops = plan
        .clean
        .iter()
        .filter(|span| span.ground == course_ground)
        .map(|span| (span.span.first, span.span.last, span.why.clone()));
    by_hand
        .chain(for_crops)
        .filter_map(|(first, to, why)| {
            let (from, to) = index_span(plan, first, to)?;
            Some((from, to, why))
        })
        .collect()
}

/// First and last planned day of a span; none where it lies outside the plan.
pub(super) fn index_span(plan: &SeasonPlan, first: Day, to: Day) -> Option<(usize, usize)> {
    let from = first.days_since(plan.first_day).max(0);
    let last = i64::try_from(plan.days).unwrap_or(0) - 1;
    let to = to.days_since(plan.first_day).min(last);
    match (usize::try_from(from), usize::try_from(to)) {
        (Ok(from), Ok(to)) if from <= to => Some((from, to)),
        _ => None,
    }
}
