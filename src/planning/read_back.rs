//! A plan read back in the farm's own numbers: stands, covers, walks, and why each move is as it is.
//!
//! Finds nothing itself. Days are day numbers of the problem, masses kg DM, distances metres.

use std::collections::BTreeMap;

use super::clean_ground::course_ground_of;
use super::farm_season::{SeasonPlan, Stand};
use super::from_farm::FarmProblem;
use super::plan::Plan;
use super::reasons::{LeftBecause, MoveReason, reasons};
use super::season::{Place, Season, distance_m};
use crate::farm::{Farm, MobId};

/// The plan in the farm's own numbers, its hens still to come.
pub(super) fn read_back(made: &FarmProblem, season: &Season, plan: &Plan) -> SeasonPlan {
    let ground_of = |index: usize| {
        season
            .strips
            .get(index)
            .and_then(|strip| made.ground_of.get(&strip.name))
            .copied()
    };
    let by_mob = |index: usize| mob_of(season, made, index);
    let stand = |place: &Place| match place {
        Place::Away => Stand::Away,
        Place::Yard => Stand::Yard,
        Place::Strip(strip) => ground_of(*strip).map_or(Stand::Yard, Stand::On),
    };
    SeasonPlan {
        first_day: season.first_day,
        days: season.n_days,
        stands: plan
            .stands
            .iter()
            .enumerate()
            .filter_map(|(index, places)| {
                Some((by_mob(index)?, places.iter().map(stand).collect()))
            })
            .collect(),
        short_kg: plan
            .short
            .iter()
            .enumerate()
            .filter_map(|(index, days)| Some((by_mob(index)?, days.clone())))
            .collect(),
        cover: plan
            .cover
            .iter()
            .enumerate()
            .filter_map(|(index, covers)| Some((ground_of(index)?, covers.clone())))
            .collect(),
        area_ha: season
            .strips
            .iter()
            .filter_map(|strip| Some((*made.ground_of.get(&strip.name)?, strip.area)))
            .collect(),
        walked_m: (0..season.mobs.len())
            .filter_map(|index| Some((by_mob(index)?, walked_m(season, plan, index))))
            .collect(),
        hens: BTreeMap::new(),
        hen_findings: Vec::new(),
        clean: made.clean.clone(),
        assumptions: made.assumptions.clone(),
        warnings: plan
            .warnings
            .iter()
            .map(|breach| breach.wording(season))
            .collect(),
        score: plan.figures.score,
        why: BTreeMap::new(),
    }
}

/// Sentences by mob and day.
pub(super) type Why = BTreeMap<(MobId, usize), Vec<String>>;

/// The reasons of every move and every short day. Where `instead` has sentences for a move, those stand for the reason.
pub(super) fn why_of(
    farm: &Farm,
    season: &Season,
    plan: &Plan,
    made: &FarmProblem,
    instead: &Why,
) -> Why {
    let mut why = moves_of(farm, season, plan, made);
    for (key, sentences) in &mut why {
        if let Some(instead) = instead.get(key) {
            sentences.clone_from(instead);
        }
    }
    for reason in &reasons(season, plan).shorts {
        if let Some(mob) = mob_of(season, made, reason.mob) {
            why.entry((mob, reason.day))
                .or_default()
                .push(reason.wording(season));
        }
    }
    why
}

/// The reasons of every move.
pub(super) fn moves_of(farm: &Farm, season: &Season, plan: &Plan, made: &FarmProblem) -> Why {
    let mut why = Why::new();
    for reason in &reasons(season, plan).moves {
        if let Some(mob) = mob_of(season, made, reason.mob) {
            let sentences = why.entry((mob, reason.day)).or_default();
            sentences.push(reason.wording(season));
            sentences.extend(closed_for_crop(farm, season, made, reason));
        }
    }
    why
}

fn mob_of(season: &Season, made: &FarmProblem, index: usize) -> Option<MobId> {
    let mob = season.mobs.get(index)?;
    made.mob_of.get(&mob.name).copied()
}

/// The crop for which the strip that a mob leaves is closed from today on.
fn closed_for_crop(
    farm: &Farm,
    season: &Season,
    made: &FarmProblem,
    reason: &MoveReason,
) -> Option<String> {
    let (LeftBecause::Closed, Place::Strip(strip)) = (reason.left_because, reason.from) else {
        return None;
    };
    let left = made.ground_of.get(&season.strips.get(strip)?.name)?;
    let ground = course_ground_of(farm, *left);
    let day = season.first_day.plus_days(i64::try_from(reason.day).ok()?);
    let span = made
        .clean
        .iter()
        .find(|span| span.ground == ground && (span.span.first..=span.span.last).contains(&day))?;
    Some(format!("Clean ground: {}.", span.why))
}

/// Metres a mob walks on each day.
fn walked_m(season: &Season, plan: &Plan, mob: usize) -> Vec<f64> {
    let (Some(facts), Some(places)) = (season.mobs.get(mob), plan.stands.get(mob)) else {
        return Vec::new();
    };
    places
        .iter()
        .enumerate()
        .map(|(day, place)| match place {
            Place::Away => 0.0,
            place => {
                let from = season.comes_from(facts, places, day);
                distance_m(season.spot(facts, from), season.spot(facts, *place))
            }
        })
        .collect()
}
