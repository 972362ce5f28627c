//! The rows of the season ribbon as plain data: spells, rest, closed and settled days by strip and hen line.
//!
//! Days are indices from the season's first day.

use crate::app::desk::Desk;
use crate::farm::{GroundId, HenHouseId, MobId};
use crate::planning::{SeasonPlan, course_ground_of};

/// One row.
#[derive(Debug, Clone, PartialEq)]
pub struct RibbonRow {
    /// The ground, for a row of grass.
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
    /// A hen house.
    House(HenHouseId),
}

/// What has a row: grazed ground in the order of its numbers, then hen houses. Only rows in sight are built.
pub fn ribbon_places(desk: &Desk) -> Vec<RibbonPlace> {
    let grazed = desk.reckoned().grazed().iter();
    let houses = desk.farm().hen_houses.keys();
    grazed
        .map(|id| RibbonPlace::Ground(*id))
        .chain(houses.map(|id| RibbonPlace::House(*id)))
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
        RibbonPlace::House(id) => house_row(desk, plan, id),
    }
}

fn house_row(desk: &Desk, plan: &SeasonPlan, id: HenHouseId) -> Option<RibbonRow> {
    let house = desk.farm().hen_houses.get(&id)?;
    let walk = plan.hens.get(&id);
    let is_out = |index: &usize| walk.is_some_and(|walk| walk.on(plan.day_at(*index)).is_some());
    let bars = (0..plan.days)
        .filter(is_out)
        .map(|index| RibbonBar {
            from: index,
            to: index,
            rest_days: 0,
            mob: MobId(0),
            is_chosen: false,
            who: house.name.clone(),
            mob_order: 0,
            is_lived: plan.day_at(index) < desk.today,
            is_fixed: false,
        })
        .collect();
    Some(RibbonRow {
        ground: None,
        house: Some(id),
        name: house.name.clone(),
        bars,
        closed: Vec::new(),
        is_selected: false,
    })
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
            let from = first.days_since(plan.first_day).max(0);
            let last = i64::try_from(plan.days).unwrap_or(0) - 1;
            let to = to.days_since(plan.first_day).min(last);
            let both = (usize::try_from(from), usize::try_from(to));
            match both {
                (Ok(from), Ok(to)) if from <= to => Some((from, to, why)),
                _ => None,
            }
        })
        .collect()
}
