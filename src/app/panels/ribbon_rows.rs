//! The rows of the season ribbon as plain data: spells, rest, closed and settled days by strip and hen line.
//!
//! Days are indices from the season's first day.

use super::hen_ribbon_rows::hen_ribbon_rows;
use crate::app::desk::Desk;
use crate::farm::{GroundId, HenHouseId, grazed_units};
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
    /// Who.
    pub who: String,
    /// Order of the mob, for telling mobs apart.
    pub mob_order: usize,
    /// Whether all of it was lived.
    pub is_lived: bool,
    /// Whether a day of it is fixed.
    pub is_fixed: bool,
}

/// The rows for the season in view: grazed ground in the order of the ley it belongs to, then hen houses.
pub fn ribbon_rows(desk: &Desk) -> Vec<RibbonRow> {
    let Some(plan) = desk.plan.as_deref() else {
        return Vec::new();
    };
    let mut rows: Vec<RibbonRow> = grazed_units(desk.farm())
        .into_iter()
        .map(|unit| RibbonRow {
            ground: Some(unit.id),
            house: None,
            name: unit.ground.name.clone(),
            bars: bars_of(desk, plan, unit.id),
            closed: closed_of(desk, plan, unit.id),
            is_selected: desk.selected.contains(&unit.id),
        })
        .collect();
    rows.extend(hen_ribbon_rows(desk, plan));
    rows
}

fn bars_of(desk: &Desk, plan: &SeasonPlan, id: GroundId) -> Vec<RibbonBar> {
    let farm = desk.farm();
    plan.spells_of(id)
        .into_iter()
        .map(|spell| {
            let settled = |index: usize| farm.fixed.get(&(spell.mob, plan.day_at(index)));
            let days = spell.from..=spell.to;
            RibbonBar {
                from: spell.from,
                to: spell.to,
                rest_days: usize::try_from(farm.sward.rest_days_on(plan.day_at(spell.to)))
                    .unwrap_or(0),
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
