//! What the walk of a house comes to, as plain rows: places, rest, room, nitrogen, feed, order and what to mend.
//!
//! Laid anew only when something on the farm has changed. The page paints the rows.

use std::sync::Arc;

use super::figures::day_text;
use crate::app::desk::Desk;
use crate::farm::{Farm, HenHouse, HenHouseId, Subject};
use crate::planning::{
    FEED_SOURCE, HenSums, HenWalk, NitrogenSet, SeasonPlan, WATER_SOURCE, hen_sums, hen_walk,
    order_words,
};
use crate::quantity::{UnitSystem, area_text, decimal_text, length_text, plural_text};

/// What a walk comes to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct WalkFacts {
    /// Name and figure.
    pub(super) rows: Vec<(String, String)>,
    /// The lines in their order, with the places of each.
    pub(super) legs: Vec<String>,
    /// Why they come in that order.
    pub(super) order: Vec<String>,
    /// What is to be mended, and how.
    pub(super) troubles: Vec<(String, String)>,
    /// Good to know.
    pub(super) notes: Vec<String>,
    /// Where figures stand.
    pub(super) sources: Vec<String>,
}

/// The facts of one house, kept for the state of the farm they were laid from.
#[derive(Debug, Clone)]
pub(in crate::app) struct KeptWalk {
    /// The house, the question asked of the planner last, and the units.
    of: (HenHouseId, u64, UnitSystem),
    /// The planner's answer; held, so that no other one can be taken for it.
    answer: Option<Arc<SeasonPlan>>,
    facts: Result<WalkFacts, String>,
}

/// The facts of a house as the farm stands.
pub(super) fn walk_facts(desk: &mut Desk, id: HenHouseId) -> Result<WalkFacts, String> {
    let of = (id, desk.planner.question(), desk.units());
    let is_same = |kept: &KeptWalk| match (&kept.answer, &desk.plan) {
        (Some(kept), Some(plan)) => Arc::ptr_eq(kept, plan),
        (None, None) => true,
        _ => false,
    };
    if let Some(kept) = &desk.forms.walk
        && kept.of == of
        && is_same(kept)
    {
        return kept.facts.clone();
    }
    let facts = facts_of(desk.farm(), desk.plan.as_deref(), id, desk.units());
    desk.forms.walk = Some(KeptWalk {
        of,
        answer: desk.plan.clone(),
        facts: facts.clone(),
    });
    facts
}

fn facts_of(
    farm: &Farm,
    plan: Option<&SeasonPlan>,
    id: HenHouseId,
    units: UnitSystem,
) -> Result<WalkFacts, String> {
    let house = farm
        .hen_houses
        .get(&id)
        .ok_or_else(|| "It is no longer on the farm.".to_owned())?;
    let walk = if house.handling.follows.is_some() {
        let walk = plan.and_then(|plan| plan.hens.get(&id)).cloned();
        walk.ok_or_else(|| {
            "No strip with room for it is known yet: it walks once the sheep are planned."
                .to_owned()
        })?
    } else {
        hen_walk(farm, id, farm.season.first_day, farm.season.days)
            .map_err(|error| error.to_string())?
    };
    let sums = hen_sums(house, &walk, NitrogenSet::default());
    let name = |line| {
        farm.ground
            .get(line)
            .map_or("", |ground| ground.name.as_str())
    };
    let legs = walk.legs.iter().map(|leg| {
        let end = if leg.is_backwards {
            ", from its end"
        } else {
            ""
        };
        format!(
            "{}{end}: places {} to {}",
            name(&leg.line),
            leg.first,
            leg.last
        )
    });
    // Remedies are tried by the planner's thread.
    let troubles = plan
        .iter()
        .flat_map(|plan| &plan.hen_findings)
        .filter(|finding| finding.about == Subject::HenHouse(id))
        .map(|finding| (finding.what.clone(), finding.remedy.clone()))
        .collect();
    Ok(WalkFacts {
        rows: rows(house, &walk, &sums, units),
        legs: legs.collect(),
        order: order_words(house, &walk),
        troubles,
        notes: walk.notes.clone(),
        sources: vec![
            format!(
                "Nitrogen: {}. Local law decides.",
                NitrogenSet::default().source()
            ),
            format!("Feed: {FEED_SOURCE}. Water: {WATER_SOURCE}."),
            "The program does not know slopes: look at steep ground before you tow there, and leave such stretches out."
                .to_owned(),
        ],
    })
}

fn rows(
    house: &HenHouse,
    walk: &HenWalk,
    sums: &HenSums,
    units: UnitSystem,
) -> Vec<(String, String)> {
    let facts = &walk.facts;
    let days = |days: u32| plural_text(u64::from(days), "day", "days");
    let mut rows = Vec::new();
    let mut put = |name: &str, figure: String| rows.push((name.to_owned(), figure));
    if walk.order.is_some() {
        put("Places in a round", facts.places.to_string());
        put("A round takes", days(facts.round_days));
    } else {
        put("Places used", facts.places.to_string());
    }
    put(
        "Rest reached",
        format!(
            "{}, {} wanted",
            days(facts.rest_days),
            facts.rest_days_wanted
        ),
    );
    put("A place", area_text(facts.place_m2, units));
    if let Some(m2) = facts.m2_per_hen {
        put("Each hen, on a day", format!("{} m²", decimal_text(m2, 2)));
    }
    if let Some(m2) = facts.m2_per_hen_in_round {
        put(
            "Each hen, in a round",
            format!("{} m²", decimal_text(m2, 1)),
        );
    }
    for (year, m2) in &sums.m2_per_hen_in_year {
        put(
            &format!("Each hen, in {year}"),
            format!("{} m²", decimal_text(*m2, 1)),
        );
    }
    let nitrogen = |kg: f64| format!("{} kg N/ha", decimal_text(kg, 1));
    put("Nitrogen, a stay", nitrogen(sums.n_kg_per_ha_in_round));
    for (year, kg) in &sums.n_kg_per_ha_in_year {
        put(&format!("On one place in {year}"), nitrogen(*kg));
    }
    let range = |(least, most): (f64, f64), unit: &str| {
        format!(
            "{}–{} {unit} a day",
            decimal_text(least, 1),
            decimal_text(most, 1)
        )
    };
    put("Feed", range(sums.feed_kg_a_day, "kg"));
    put("Water", range(sums.water_l_a_day, "L"));
    put("Towing a round", length_text(facts.tow_m, units));
    put(
        "Netting round it",
        plural_text(u64::from(sums.nets), "net of 50 m", "nets of 50 m"),
    );
    if let Some(last) = house.handling.marks.keys().next_back() {
        put("Settled up to", day_text(*last));
    }
    rows
}
