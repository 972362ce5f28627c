//! `measure` and `check`: every thing with its figures, and what is to be mended.

use std::path::Path;
use std::process::ExitCode;

use serde_json::Value;

use super::Trouble;
use super::built::{built_fields, built_words};
use super::json::{Fields, print_json, print_text};
use super::moves::planned_to_show;
use crate::farm::{
    Density, Farm, Finding, Ground, GroundId, GroundMeasures, Kind, LivestockUnitSet, NetArea,
    Severity, Subject, density_on, farm_area_m2, findings, measure_ground, net_areas,
    sheep_days_per_ha,
};
use crate::files::open_farm;
use crate::planning::{SeasonPlan, densities, hen_findings, hen_walks, live_season};
use crate::quantity::{
    Day, UnitSystem, acres_from_m2, area_both_text, area_text, decimal_text, hectares_from_m2,
    length_text,
};

/// Prints every thing on the farm; for grazed ground also how heavily it is stocked.
pub(super) fn measure(file: &Path, json: bool, day: Option<Day>) -> Result<ExitCode, Trouble> {
    let farm = open_farm(file)?;
    let season = Stocked::of(&farm, day);
    if json {
        print_json(&measure_fields(&farm, &season))?;
    } else {
        print_text(&measure_text(&farm, &season))?;
    }
    Ok(ExitCode::SUCCESS)
}

/// The season that densities are read from, and the day they are read on.
pub(super) struct Stocked {
    plan: Option<SeasonPlan>,
    day: Day,
    /// Why there is no plan, where there are animals.
    pub(super) trouble: Option<String>,
}

impl Stocked {
    /// The farm's season, read on `day`; on its first day where absent.
    pub(super) fn of(farm: &Farm, day: Option<Day>) -> Self {
        let day = day.unwrap_or(farm.season.first_day);
        if farm.mobs.is_empty() && farm.hen_houses.is_empty() {
            return Self {
                plan: None,
                day,
                trouble: None,
            };
        }
        match live_season(farm, &mut |_| true) {
            Ok(plan) => Self {
                plan: Some(plan),
                day,
                trouble: None,
            },
            Err(error) => Self {
                plan: None,
                day,
                trouble: Some(error.to_string()),
            },
        }
    }

    /// Sheep days per hectare over the season, on grazed ground.
    fn sheep_days_per_ha(&self, farm: &Farm, id: GroundId, area_m2: Option<f64>) -> Option<f64> {
        let plan = self.plan.as_ref()?;
        let mut units: Vec<GroundId> = farm.strips_of(id).map(|(strip, _)| strip).collect();
        units.push(id);
        if !units.iter().any(|unit| plan.cover.contains_key(unit)) {
            return None;
        }
        let stands = units
            .iter()
            .flat_map(|unit| plan.spells_of(*unit))
            .map(|spell| {
                let head = farm.mobs.get(&spell.mob).map_or(0, |mob| mob.head);
                (head, u32::try_from(spell.to - spell.from + 1).unwrap_or(0))
            });
        sheep_days_per_ha(stands, area_m2?)
    }
}

fn measure_fields(farm: &Farm, season: &Stocked) -> Value {
    let net = net_areas(farm);
    farm.ground
        .iter()
        .map(|(id, ground)| {
            let measures = measure_ground(farm, ground);
            let fields = shape_fields(farm, (*id, ground), measures, net.get(id));
            let fields = built_fields(fields, farm, ground);
            stock_fields(fields, farm, season, *id, measures).done()
        })
        .collect()
}

/// What lies on a piece and is neither grazed nor cropped.
fn taken_fields(net: &NetArea) -> Value {
    net.taken
        .iter()
        .map(|taken| {
            Fields::default()
                .put("id", taken.id.0)
                .put("name", taken.name.clone())
                .put("kind", taken.kind.name())
                .put("area_m2", taken.area_m2)
                .done()
        })
        .collect()
}

fn shape_fields(
    farm: &Farm,
    (id, ground): (GroundId, &Ground),
    measures: GroundMeasures,
    net: Option<&NetArea>,
) -> Fields {
    let within = ground
        .within
        .and_then(|ley| farm.ground.get(&ley))
        .map(|ley| ley.name.clone());
    Fields::default()
        .put("id", id.0)
        .put("name", ground.name.clone())
        .put("kind", ground.kind.name())
        .put_some("within", within)
        .put_some("area_m2", measures.area_m2)
        .put_some("area_ha", measures.area_m2.map(hectares_from_m2))
        .put_some("area_acre", measures.area_m2.map(acres_from_m2))
        .put_some("perimeter_m", measures.perimeter_m)
        .put_some("outer_perimeter_m", measures.outer_perimeter_m)
        .put_some("length_m", measures.length_m)
        .put_some("net_area_m2", net.map(|net| net.net_m2))
        .put_some(
            "taken_off",
            net.filter(|net| !net.taken.is_empty()).map(taken_fields),
        )
        .put("parts", measures.parts)
        .put("holes", measures.holes)
        .put("corners", measures.corners)
        .put_some("trees", measures.trees)
        .put_some(
            "crop",
            (!ground.crop.is_empty()).then(|| ground.crop.clone()),
        )
}

fn stock_fields(
    fields: Fields,
    farm: &Farm,
    season: &Stocked,
    id: GroundId,
    measures: GroundMeasures,
) -> Fields {
    let fields = fields.put_some(
        "sheep_days_per_ha",
        season.sheep_days_per_ha(farm, id, measures.area_m2),
    );
    let Some(plan) = &season.plan else {
        return fields;
    };
    let fields = fields.put_some("m2_per_hen", hens_on(farm, plan, id));
    let set = LivestockUnitSet::England2023;
    let stocked = densities(farm, plan, id, season.day, set);
    let fields = density_fields(fields, "plot", stocked.over_plot);
    let fields = density_fields(fields, "season", stocked.over_season);
    let mob = plan
        .mobs_on(id, season.day)
        .first()
        .and_then(|mob| farm.mobs.get(mob));
    let Some((mob, area_m2)) = mob.zip(measures.area_m2) else {
        return fields;
    };
    let Some(density) = density_on(mob, area_m2, set) else {
        return fields;
    };
    fields
        .put("stocked_on", season.day.to_string())
        .put("mob", mob.name.clone())
        .put("head_per_ha", density.head_per_ha)
        .put("livestock_units_per_ha", density.livestock_units_per_ha)
        .put("livestock_unit_set", set.source())
        .put("liveweight_kg_per_ha", density.liveweight_kg_per_ha)
}

/// A density under names that say over what it is: `plot_`, all of a ley on the day; `season_`, its mean over the season.
fn density_fields(fields: Fields, over: &str, density: Option<Density>) -> Fields {
    let Some(density) = density else {
        return fields;
    };
    fields
        .put(&format!("{over}_head_per_ha"), density.head_per_ha)
        .put(
            &format!("{over}_livestock_units_per_ha"),
            density.livestock_units_per_ha,
        )
        .put(
            &format!("{over}_liveweight_kg_per_ha"),
            density.liveweight_kg_per_ha,
        )
}

/// Ground for each hen on a day, where a house walks this line.
fn hens_on(farm: &Farm, plan: &SeasonPlan, line: GroundId) -> Option<f64> {
    let (house, _) = farm
        .hen_houses
        .iter()
        .find(|(_, house)| house.lines.contains(&line))?;
    plan.hens.get(house)?.facts.m2_per_hen
}

/// The table for people, with the whole at the foot.
pub(super) fn measure_text(farm: &Farm, season: &Stocked) -> String {
    let metric = UnitSystem::Metric;
    let mut lines = vec![farm.name.clone()];
    if !farm.note.is_empty() {
        lines.push(farm.note.clone());
    }
    lines.push(String::new());
    lines.push(format!(
        "{:<24} {:<10} {:<28} {}",
        "name", "kind", "area or length", "round it, and more"
    ));
    let net = net_areas(farm);
    for (id, ground) in &farm.ground {
        let measures = measure_ground(farm, ground);
        let size = match (measures.area_m2, measures.length_m) {
            (Some(area_m2), _) => area_both_text(area_m2, metric),
            (None, Some(length_m)) => length_text(length_m, metric),
            (None, None) => "–".to_owned(),
        };
        let mut more = more_text(farm, season, *id, ground, measures);
        if let Some(net) = net.get(id).filter(|net| !net.taken.is_empty()) {
            let net = net_text(net, ground.kind);
            more = if more.is_empty() {
                net
            } else {
                format!("{more} · {net}")
            };
        }
        lines.push(
            format!(
                "{:<24} {:<10} {size:<28} {more}",
                ground.name,
                ground.kind.name()
            )
            .trim_end()
            .to_owned(),
        );
    }
    let whole_m2 = farm_area_m2(farm, |id| {
        farm.ground
            .get(&id)
            .map_or_else(GroundMeasures::default, |ground| {
                measure_ground(farm, ground)
            })
    });
    lines.push(String::new());
    lines.push(format!(
        "All areas together: {} (strips counted within their ley)",
        area_both_text(whole_m2, metric)
    ));
    if let Some(trouble) = &season.trouble {
        lines.push(format!("No densities: {trouble}"));
    } else if season.plan.is_some() {
        lines.push(format!(
            "Densities on {}; livestock units: {}.",
            season.day.long_text(),
            LivestockUnitSet::England2023.source()
        ));
    }
    lines.join("\n") + "\n"
}

/// `0.52 ha grazed, less hedge "Old hedge" 120 m²`.
fn net_text(net: &NetArea, kind: Kind) -> String {
    let use_of = if kind == Kind::Plot {
        "cropped"
    } else {
        "grazed"
    };
    let less: Vec<String> = net
        .taken
        .iter()
        .map(|taken| {
            let area = area_text(taken.area_m2, UnitSystem::Metric);
            format!("{} {} {area}", taken.kind.name(), taken.name)
        })
        .collect();
    let net = area_text(net.net_m2, UnitSystem::Metric);
    format!("{net} {use_of}, less {}", less.join(", "))
}

fn more_text(
    farm: &Farm,
    season: &Stocked,
    id: GroundId,
    ground: &Ground,
    measures: GroundMeasures,
) -> String {
    let mut more = Vec::new();
    more.extend(
        measures
            .outer_perimeter_m
            .map(|round_m| length_text(round_m, UnitSystem::Metric)),
    );
    more.extend(measures.trees.map(|trees| format!("{trees} trees")));
    more.extend(built_words(farm, ground));
    if measures.holes > 0 {
        more.push(format!("{} holes", measures.holes));
    }
    more.extend(
        season
            .sheep_days_per_ha(farm, id, measures.area_m2)
            .map(|sum| format!("{} sheep days/ha", decimal_text(sum, 0))),
    );
    if let Some(plan) = &season.plan {
        if let Some(mob) = plan
            .mobs_on(id, season.day)
            .first()
            .and_then(|mob| farm.mobs.get(mob))
            && let Some(density) = measures
                .area_m2
                .and_then(|area_m2| density_on(mob, area_m2, LivestockUnitSet::England2023))
        {
            more.push(format!(
                "{}: {} head/ha, {} livestock units/ha, {} kg liveweight/ha",
                mob.name,
                decimal_text(density.head_per_ha, 0),
                decimal_text(density.livestock_units_per_ha, 1),
                decimal_text(density.liveweight_kg_per_ha, 0)
            ));
        }
        more.extend(
            hens_on(farm, plan, id).map(|m2| format!("{} m² per hen", decimal_text(m2, 2))),
        );
    }
    if !ground.crop.is_empty() {
        more.push(ground.crop.clone());
    }
    more.join(" · ")
}

/// Prints what is to be mended; exit 1 where a finding is an error.
pub(super) fn check(file: &Path, json: bool) -> Result<ExitCode, Trouble> {
    let farm = open_farm(file)?;
    let mut found = findings(&farm);
    found.extend(findings_of_hens(&farm)?);
    if json {
        let rows: Value = found
            .iter()
            .map(|finding| {
                Fields::default()
                    .put("severity", finding.severity.name())
                    .put("code", finding.code.name())
                    .put("about", subject_text(&farm, finding.about))
                    .put_some(
                        "beside",
                        finding
                            .beside
                            .map(|id| subject_text(&farm, Subject::Ground(id))),
                    )
                    .put("what", finding.what.clone())
                    .put("remedy", finding.remedy.clone())
                    .put_some("east_m", finding.place.map(|place| place.east_m))
                    .put_some("north_m", finding.place.map(|place| place.north_m))
                    .done()
            })
            .collect();
        print_json(&rows)?;
    } else if found.is_empty() {
        print_text("Nothing to mend.\n")?;
    } else {
        let lines: Vec<String> = found
            .iter()
            .map(|finding| {
                format!(
                    "{}: {} {}",
                    finding.severity.name(),
                    finding.what,
                    finding.remedy
                )
            })
            .collect();
        print_text(&lines.join("\n"))?;
    }
    let is_broken = found
        .iter()
        .any(|finding| finding.severity == Severity::Error);
    Ok(if is_broken {
        ExitCode::from(1)
    } else {
        ExitCode::SUCCESS
    })
}

/// What is to be mended about the walks of hens; the sheep are planned for it only where hens follow them.
fn findings_of_hens(farm: &Farm) -> Result<Vec<Finding>, Trouble> {
    let mut houses = farm.hen_houses.values();
    if houses.any(|house| house.handling.follows.is_some()) {
        return Ok(planned_to_show(farm, None, None)?.hen_findings);
    }
    let walks = hen_walks(farm, farm.season.first_day, farm.season.days);
    let walks = walks.into_iter();
    let laid = walks.filter_map(|(id, walk)| Some((id, walk.ok()?)));
    Ok(hen_findings(farm, &laid.collect()))
}

fn subject_text(farm: &Farm, subject: Subject) -> String {
    match subject {
        Subject::Farm => farm.name.clone(),
        Subject::Ground(id) => farm
            .ground
            .get(&id)
            .map_or_else(String::new, |ground| ground.name.clone()),
        Subject::Mob(id) => farm
            .mobs
            .get(&id)
            .map_or_else(String::new, |mob| mob.name.clone()),
        Subject::HenHouse(id) => farm
            .hen_houses
            .get(&id)
            .map_or_else(String::new, |house| house.name.clone()),
    }
}
