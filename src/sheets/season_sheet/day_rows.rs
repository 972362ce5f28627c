//! The rows of the printed form, one for each mob and hen house and day.
//!
//! Plain data read from farm and plan; the sums behind a stay are in `sums`. Days are civil days.

use super::sums::{StripSums, strip_sums};
use crate::farm::{Farm, GroundId, HenHouse, HenMark, Mob, MobId};
use crate::planning::{HenWalk, SeasonPlan, Stand, flock_on_way_told, flocks_on_way};
use crate::quantity::Day;

/// One day of the form.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetDay {
    /// The day.
    pub day: Day,
    /// Every mob that is on the farm.
    pub mobs: Vec<MobRow>,
    /// Every hen house that is out.
    pub hens: Vec<HenRow>,
}

/// A mob on a day.
#[derive(Debug, Clone, PartialEq)]
pub struct MobRow {
    /// Whose row.
    pub mob: String,
    /// Grown head.
    pub head: u32,
    /// Class for people.
    pub class: &'static str,
    /// Where they stand; `None` for the yard.
    pub strip: Option<String>,
    /// The ley it is a strip of.
    pub ley: Option<String>,
    /// Where they stood the day before, where they moved today: a place, the yard, or "arrive".
    pub moved_from: Option<String>,
    /// Metres walked today, straight.
    pub walk_m: f64,
    /// The day of the stay, from 1, and the days of the whole stay.
    pub stay: (usize, usize),
    /// The day they leave this place, where the plan holds it.
    pub leaves_on: Option<Day>,
    /// Where they go then.
    pub next: Option<String>,
    /// Figures of the strip they stand on.
    pub sums: Option<StripSums>,
    /// Feed short today, kg DM.
    pub short_kg: f64,
    /// Days of standing grass ahead over all ground that is not closed today.
    pub days_ahead: Option<f64>,
    /// Whether the day is settled: lived, fixed, or planned.
    pub state: &'static str,
    /// Why they moved, a sentence each.
    pub why: Vec<String>,
}

/// A hen house on a day.
#[derive(Debug, Clone, PartialEq)]
pub struct HenRow {
    /// Whose row.
    pub house: String,
    /// Hens.
    pub hens: u32,
    /// The line it walks.
    pub line: String,
    /// Its place, and places in a round.
    pub place: (usize, usize),
    /// Metres along the line to where the place begins.
    pub along_m: f64,
    /// Whether it moves today.
    pub moves: bool,
    /// Days without hens before; `None` on the first round.
    pub rested_days: Option<u32>,
    /// Days wanted.
    pub rest_days_wanted: u32,
    /// Ground for each hen, square metres.
    pub m2_per_hen: Option<f64>,
    /// Metres it is towed today, by a way that keeps off what is in the way; `None` where it stays, or where no such
    /// way was found.
    pub tow_m: Option<f64>,
    /// Whether the hens are shut in.
    pub is_housed: bool,
    /// Whether the day is settled: lived, fixed, late, left out, or planned.
    pub state: &'static str,
    /// What to look out for, a sentence each.
    pub cautions: Vec<String>,
}

/// The rows for `days` days from `from`, as far as the plan reaches.
pub fn sheet_days(farm: &Farm, plan: &SeasonPlan, from: Day, days: usize) -> Vec<SheetDay> {
    (0..days)
        .filter_map(|step| plan.index_of(from.plus_days(i64::try_from(step).ok()?)))
        .map(|index| SheetDay {
            day: plan.day_at(index),
            mobs: farm
                .mobs
                .iter()
                .filter_map(|(id, mob)| mob_row(farm, plan, *id, mob, index))
                .collect(),
            hens: hen_rows(farm, plan, index),
        })
        .collect()
}

fn mob_row(farm: &Farm, plan: &SeasonPlan, id: MobId, mob: &Mob, index: usize) -> Option<MobRow> {
    let stand = plan.stand_at(id, index);
    let ground = match stand {
        Stand::Away => return None,
        Stand::Yard => None,
        Stand::On(ground) => Some(ground),
    };
    let (first, last) = stay_of(plan, id, index);
    let before = index.checked_sub(1).map(|day| plan.stand_at(id, day));
    let has_moved = before.is_none_or(|before| before != stand);
    let next = (last + 1 < plan.days).then(|| plan.stand_at(id, last + 1));
    let day = plan.day_at(index);
    let piece = ground.and_then(|ground| farm.ground.get(&ground));
    let now = mob.as_on(day);
    Some(MobRow {
        mob: mob.name.clone(),
        head: now.head,
        class: now.class.name(),
        strip: piece.map(|piece| piece.name.clone()),
        ley: piece
            .and_then(|piece| farm.ground.get(&piece.within?))
            .map(|ley| ley.name.clone()),
        moved_from: has_moved.then(|| place_name(farm, before.unwrap_or(Stand::Away), "arrive")),
        walk_m: if has_moved {
            plan.walk_m(id, index)
        } else {
            0.0
        },
        stay: (index - first + 1, last - first + 1),
        leaves_on: next.map(|_| plan.day_at(last + 1)),
        next: next.map(|next| place_name(farm, next, "off the farm")),
        sums: ground.and_then(|ground| {
            let mut sums = strip_sums(farm, plan, mob, ground, (first, index, last))?;
            sums.cautions.extend(clean_caution(farm, plan, ground, day));
            Some(sums)
        }),
        short_kg: plan
            .short_kg
            .get(&id)
            .and_then(|days| days.get(index))
            .copied()
            .unwrap_or(0.0),
        days_ahead: days_ahead(farm, plan, mob, index),
        state: match farm.fixed.get(&(id, day)) {
            Some(fixed) if fixed.lived => "lived",
            Some(_) => "fixed",
            None => "planned",
        },
        why: why_on(plan, id, first, index),
    })
}

/// Days ahead for which clean ground is told.
const CLEAN_DAYS_AHEAD: i64 = 7;

/// Says that a piece must be clear of animals soon, and that this is the last day where it is.
fn clean_caution(farm: &Farm, plan: &SeasonPlan, ground: GroundId, day: Day) -> Option<String> {
    let (span, days) = plan.next_clean(farm, ground, day)?;
    match days {
        0 => Some(format!("should be clear of animals: {}", span.why)),
        1 => Some(format!("last day for animals here: {}", span.why)),
        days if days <= CLEAN_DAYS_AHEAD => Some(format!(
            "clear of animals from {}: {}",
            span.span.first.short_text(),
            span.why
        )),
        _ => None,
    }
}

/// Why they came here, and where the day itself is short, why.
fn why_on(plan: &SeasonPlan, id: MobId, first: usize, index: usize) -> Vec<String> {
    let of = |day| plan.why.get(&(id, day)).cloned().unwrap_or_default();
    let mut why: Vec<String> = of(first);
    if index != first {
        why.extend(of(index));
    }
    why
}

/// First and last day index of the stay that holds `index`.
fn stay_of(plan: &SeasonPlan, id: MobId, index: usize) -> (usize, usize) {
    let stand = plan.stand_at(id, index);
    let first = (0..=index)
        .rev()
        .take_while(|day| plan.stand_at(id, *day) == stand)
        .last()
        .unwrap_or(index);
    let last = (index..plan.days)
        .take_while(|day| plan.stand_at(id, *day) == stand)
        .last()
        .unwrap_or(index);
    (first, last)
}

fn place_name(farm: &Farm, stand: Stand, away: &str) -> String {
    match stand {
        Stand::Away => away.to_owned(),
        Stand::Yard => "the yard".to_owned(),
        Stand::On(ground) => farm
            .ground
            .get(&ground)
            .map_or_else(String::new, |ground| ground.name.clone()),
    }
}

/// Standing grass above the residual on all ground open today, over what the mob eats in a day.
fn days_ahead(farm: &Farm, plan: &SeasonPlan, mob: &Mob, index: usize) -> Option<f64> {
    let day = plan.day_at(index);
    let is_open = |id: &GroundId| {
        let grazing = farm
            .ground
            .get(id)
            .and_then(|ground| ground.grazing.as_ref());
        let is_for_crop = plan
            .next_clean(farm, *id, day)
            .is_some_and(|(_, days)| days == 0);
        !is_for_crop && grazing.is_none_or(|grazing| !grazing.is_closed(day))
    };
    let feed_kg: f64 = plan
        .cover
        .iter()
        .filter(|(id, _)| is_open(id))
        .filter_map(|(id, covers)| {
            let area_ha = plan.area_ha.get(id)?;
            Some(area_ha * (covers.get(index)? - farm.leave_on(*id)).max(0.0))
        })
        .sum();
    let demand_kg = mob.as_on(day).demand_kg();
    (demand_kg > 0.0).then(|| feed_kg / demand_kg)
}

fn hen_rows(farm: &Farm, plan: &SeasonPlan, index: usize) -> Vec<HenRow> {
    let day = plan.day_at(index);
    let rows = farm.hen_houses.iter().filter_map(|(id, house)| {
        let walk = plan.hens.get(id)?;
        let (stand, place) = walk.on(day)?;
        Some(HenRow {
            house: house.name.clone(),
            hens: house.birds_on(day),
            line: farm
                .ground
                .get(&place.line)
                .map_or_else(String::new, |line| line.name.clone()),
            place: (place.number, walk.facts.places),
            along_m: place.along_m,
            moves: stand.is_moved,
            rested_days: stand.rested_days,
            rest_days_wanted: house.rest_days_wanted,
            m2_per_hen: m2_each(walk.facts.place_m2, house.birds_on(day)),
            tow_m: walk
                .tow_on(day)
                .filter(|tow| !tow.is_blocked)
                .map(|tow| tow.length_m),
            is_housed: stand.is_housed,
            state: hen_state(house, day),
            cautions: hen_cautions(house, walk, day)
                .into_iter()
                .chain(flock_cautions(farm, plan, walk, day))
                .collect(),
        })
    });
    rows.collect()
}

fn m2_each(place_m2: f64, birds: u32) -> Option<f64> {
    (birds > 0).then(|| place_m2 / f64::from(birds))
}

fn hen_state(house: &HenHouse, day: Day) -> &'static str {
    match house.handling.marks.get(&day) {
        Some(HenMark::At { lived: true, .. }) => "lived",
        Some(HenMark::At { lived: false, .. }) => "fixed",
        Some(HenMark::Late) => "late",
        Some(HenMark::Skipped) => "left_out",
        None => "planned",
    }
}

/// Which flocks stand where the house is to be towed.
fn flock_cautions(farm: &Farm, plan: &SeasonPlan, walk: &HenWalk, day: Day) -> Vec<String> {
    let way = walk.tow_on(day).map_or(&[][..], |tow| &tow.way);
    let found = flocks_on_way(farm, plan, way, day).into_iter();
    found.map(|stand| flock_on_way_told(farm, stand)).collect()
}

/// What to look out for with a house on a day.
fn hen_cautions(house: &HenHouse, walk: &HenWalk, day: Day) -> Vec<String> {
    let mut cautions = Vec::new();
    if let Some((_, why)) = walk.closed.iter().find(|(closed, _)| *closed == day) {
        cautions.push(format!("should be clear of hens: {why}"));
    } else if let Some((_, why)) = walk
        .closed
        .iter()
        .find(|(closed, _)| *closed == day.plus_days(1))
    {
        cautions.push(format!("last day for hens before it closes: {why}"));
    }
    let Some((stand, _)) = walk.on(day) else {
        return cautions;
    };
    if stand.is_waiting {
        cautions.push("the sheep stood on no strip to follow to: the house stays".to_owned());
    }
    if stand.is_moved && walk.tow_on(day).is_some_and(|tow| tow.is_blocked) {
        cautions.push(
            "no way was found that keeps off water, crops, trees and fences: look before you tow"
                .to_owned(),
        );
    }
    if stand.is_moved && walk.tow_on(day).is_some_and(|tow| tow.lacks_room_to_turn) {
        cautions.push("no room was found to turn the house about: look before you tow".to_owned());
    }
    let step = house.flock_step_on(day);
    if let Some(step) = step
        && step.m2_each * f64::from(step.birds) > walk.facts.place_m2
    {
        cautions.push(format!(
            "too little room: each of {} birds wants {:.2} m²",
            step.birds, step.m2_each
        ));
    }
    cautions
}
