//! `hens`: the walk of every hen house, the order of its lines and why, and what it comes to.

use std::collections::BTreeMap;
use std::path::Path;
use std::process::ExitCode;

use serde_json::Value;

use super::Trouble;
use super::json::{Fields, print_json, print_text};
use super::moves::planned_to_show;
use crate::farm::{Farm, Finding, HenHouse, HenHouseId, Subject};
use crate::files::open_farm;
use crate::planning::{
    FEED_SOURCE, HenRemedy, HenSums, HenWalk, NitrogenSet, SeasonPlan, WATER_SOURCE, hen_findings,
    hen_remedies, hen_sums, hen_walks, order_words,
};
use crate::quantity::{UnitSystem, decimal_text, length_text, plural_text};

/// Prints the walks.
pub(super) fn hens(file: &Path, json: bool) -> Result<ExitCode, Trouble> {
    let farm = open_farm(file)?;
    let follows = farm
        .hen_houses
        .values()
        .any(|house| house.handling.follows.is_some());
    let plan = follows
        .then(|| planned_to_show(&farm, None, None))
        .transpose()?;
    let mut fields = Vec::new();
    let mut text = format!("{}\n", farm.name);
    if farm.hen_houses.is_empty() {
        text.push_str("\nNo hen house is on the farm.\n");
    }
    let walks = walks_of(&farm, plan.as_ref());
    // All houses at once: two may come onto the same ground.
    let laid = walks
        .iter()
        .filter_map(|(id, walk)| Some((*id, walk.clone().ok()?)));
    let findings = hen_findings(&farm, &laid.collect());
    for ((id, house), walk) in farm.hen_houses.iter().zip(walks.into_values()) {
        match walk {
            Ok(walk) => {
                let told = Told::of(&farm, *id, house, walk, &findings);
                fields.push(told.fields(&farm));
                text.push_str(&told.text(&farm));
            }
            Err(trouble) => {
                text.extend(["\n", &house.name, ": ", &trouble, ".\n"]);
                fields.push(
                    Fields::default()
                        .put("house", house.name.clone())
                        .put("trouble", trouble)
                        .done(),
                );
            }
        }
    }
    if json {
        print_json(&Value::Array(fields))?;
    } else {
        print_text(&text)?;
    }
    Ok(ExitCode::SUCCESS)
}

/// The walk of each house through the season, or why there is none.
fn walks_of(
    farm: &Farm,
    plan: Option<&SeasonPlan>,
) -> BTreeMap<HenHouseId, Result<HenWalk, String>> {
    let follows = |id: &HenHouseId| {
        let house = farm.hen_houses.get(id);
        house.is_some_and(|house| house.handling.follows.is_some())
    };
    let behind_sheep = |id: &HenHouseId, plan: &SeasonPlan| {
        let walk = plan.hens.get(id).cloned();
        walk.ok_or_else(|| "no strip with room for it comes before it".to_owned())
    };
    hen_walks(farm, farm.season.first_day, farm.season.days)
        .into_iter()
        .map(|(id, walk)| {
            let walk = match plan {
                Some(plan) if follows(&id) => behind_sheep(&id, plan),
                _ => walk.map_err(|error| error.to_string()),
            };
            (id, walk)
        })
        .collect()
}

/// A house with everything that is told of it.
struct Told<'farm> {
    house: &'farm HenHouse,
    walk: HenWalk,
    sums: HenSums,
    order: Vec<String>,
    remedies: Vec<HenRemedy>,
    findings: Vec<(String, String)>,
}

impl<'farm> Told<'farm> {
    fn of(
        farm: &Farm,
        id: HenHouseId,
        house: &'farm HenHouse,
        walk: HenWalk,
        findings: &[Finding],
    ) -> Self {
        Self {
            sums: hen_sums(house, &walk, NitrogenSet::default()),
            order: order_words(house, &walk),
            remedies: hen_remedies(farm, id),
            findings: findings
                .iter()
                .filter(|finding| finding.about == Subject::HenHouse(id))
                .map(|finding| (finding.what.clone(), finding.remedy.clone()))
                .collect(),
            house,
            walk,
        }
    }

    fn fields(&self, farm: &Farm) -> Value {
        let facts = &self.walk.facts;
        let mut fields = Fields::default()
            .put("house", self.house.name.clone())
            .put("places", facts.places)
            .put("round_days", facts.round_days)
            .put("rest_days", facts.rest_days)
            .put("rest_days_wanted", facts.rest_days_wanted)
            .put("place_m2", facts.place_m2)
            .put_some("m2_per_hen", facts.m2_per_hen)
            .put_some("m2_per_hen_in_round", facts.m2_per_hen_in_round)
            .put("m2_per_hen_by_year", by_year(&self.sums.m2_per_hen_in_year))
            .put("n_kg_per_ha_in_round", self.sums.n_kg_per_ha_in_round)
            .put(
                "n_kg_per_ha_by_year",
                by_year(&self.sums.n_kg_per_ha_in_year),
            )
            .put("nitrogen_source", NitrogenSet::default().source())
            .put("feed_least_kg_a_day", self.sums.feed_kg_a_day.0)
            .put("feed_most_kg_a_day", self.sums.feed_kg_a_day.1)
            .put("feed_source", FEED_SOURCE)
            .put("water_least_l_a_day", self.sums.water_l_a_day.0)
            .put("water_most_l_a_day", self.sums.water_l_a_day.1)
            .put("water_source", WATER_SOURCE)
            .put("tow_m", facts.tow_m)
            .put("legs", self.leg_fields(farm))
            .put("why", self.order.clone());
        if let Some(order) = &self.walk.order {
            fields = fields
                .put("order_is_chosen", order.is_chosen)
                .put("order_is_proven_best", order.is_proven)
                .put("order_closed_days", order.cost.closed_days)
                .put("order_unrested_days", order.cost.unrested_days)
                .put("order_barred_moves", order.cost.barred_moves)
                .put("order_tow_mm", order.cost.tow_mm)
                .put("bound_closed_days", order.bound.closed_days)
                .put("bound_unrested_days", order.bound.unrested_days)
                .put("bound_barred_moves", order.bound.barred_moves)
                .put("bound_tow_mm", order.bound.tow_mm)
                .put("order_heeds", order.heeded.clone());
        }
        fields
            .put("closed_days", self.walk.closed.len())
            .put("remedies", self.remedy_fields())
            .put("findings", self.finding_fields())
            .put("notes", self.walk.notes.clone())
            .done()
    }

    fn leg_fields(&self, farm: &Farm) -> Value {
        self.walk
            .legs
            .iter()
            .map(|leg| {
                Fields::default()
                    .put("line", line_name(farm, leg.line))
                    .put("first_place", leg.first)
                    .put("last_place", leg.last)
                    .put("is_backwards", leg.is_backwards)
                    .done()
            })
            .collect()
    }

    fn remedy_fields(&self) -> Value {
        self.remedies
            .iter()
            .map(|remedy| {
                Fields::default()
                    .put("what", remedy.what.clone())
                    .put("places", remedy.places)
                    .put("rest_days", remedy.rest_days)
                    .done()
            })
            .collect()
    }

    fn finding_fields(&self) -> Value {
        self.findings
            .iter()
            .map(|(what, remedy)| {
                Fields::default()
                    .put("what", what.clone())
                    .put("remedy", remedy.clone())
                    .done()
            })
            .collect()
    }

    fn text(&self, farm: &Farm) -> String {
        let metric = UnitSystem::Metric;
        let facts = &self.walk.facts;
        let mut lines = vec![String::new(), self.house.name.clone()];
        let days = |days: u32| plural_text(u64::from(days), "day", "days");
        if self.walk.order.is_some() {
            lines.push(format!(
                "  {} in a round of {}, {} rest ({} wanted), {} towing",
                plural_text(u64::try_from(facts.places).unwrap_or(0), "place", "places"),
                days(facts.round_days),
                days(facts.rest_days),
                facts.rest_days_wanted,
                length_text(facts.tow_m, metric)
            ));
        } else {
            lines.push(format!(
                "  {} behind sheep, {} rest at least ({} wanted), {} towing",
                plural_text(u64::try_from(facts.places).unwrap_or(0), "place", "places"),
                days(facts.rest_days),
                facts.rest_days_wanted,
                length_text(facts.tow_m, metric)
            ));
        }
        for leg in &self.walk.legs {
            let end = if leg.is_backwards {
                " from its end"
            } else {
                ""
            };
            lines.push(format!(
                "  places {} to {}: {}{end}",
                leg.first,
                leg.last,
                line_name(farm, leg.line)
            ));
        }
        lines.extend(self.order.iter().map(|words| format!("  {words}")));
        if let (Some(day), Some(round)) = (facts.m2_per_hen, facts.m2_per_hen_in_round) {
            lines.push(format!(
                "  each hen: {} m² on a day, {} m² in a round",
                decimal_text(day, 2),
                decimal_text(round, 1)
            ));
        }
        for (year, kg) in &self.sums.n_kg_per_ha_in_year {
            lines.push(format!(
                "  nitrogen: {} kg N/ha a stay, at most {} on one place in {year}",
                decimal_text(self.sums.n_kg_per_ha_in_round, 1),
                decimal_text(*kg, 1)
            ));
        }
        lines.push(format!(
            "  feed {}–{} kg a day ({FEED_SOURCE}); water {}–{} L a day ({WATER_SOURCE})",
            decimal_text(self.sums.feed_kg_a_day.0, 1),
            decimal_text(self.sums.feed_kg_a_day.1, 1),
            decimal_text(self.sums.water_l_a_day.0, 1),
            decimal_text(self.sums.water_l_a_day.1, 1)
        ));
        for (what, remedy) in &self.findings {
            lines.push(format!("  ! {what} {remedy}"));
        }
        lines.extend(self.walk.notes.iter().map(|note| format!("  · {note}")));
        lines.push(
            "  Slopes are not known to the program: look at steep ground before you tow there."
                .to_owned(),
        );
        lines.join("\n") + "\n"
    }
}

fn line_name(farm: &Farm, id: crate::farm::GroundId) -> String {
    farm.ground
        .get(&id)
        .map_or_else(String::new, |ground| ground.name.clone())
}

fn by_year(years: &std::collections::BTreeMap<i16, f64>) -> Value {
    years
        .iter()
        .map(|(year, value)| (year.to_string(), Value::from(*value)))
        .collect::<serde_json::Map<String, Value>>()
        .into()
}
