//! What the facts column says, as plain data: measures, stock, rest, findings and reasons of what is selected.

use super::net_rows::net_rows;
use crate::app::desk::Desk;
use crate::app::forms::plain_facts;
use crate::farm::{
    Finding, FindingCode, GroundId, LivestockUnitSet, MisfitKind, Severity, Subject, density_on,
    sheep_days_per_ha,
};
use crate::planning::{SeasonPlan, Stand};
use crate::quantity::{
    area_both_text, count_text, decimal_text, length_text, mass_text, plural_text,
};

/// A heading with rows under it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct FactGroup {
    /// The heading; empty for the first group.
    pub heading: String,
    /// Name and figure.
    pub rows: Vec<(String, String)>,
    /// Sentences under the rows.
    pub sentences: Vec<String>,
    /// Small print: sources and definitions.
    pub sources: Vec<String>,
}

/// A finding, ready to be shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FindingRow {
    /// What is wrong.
    pub what: String,
    /// What to do.
    pub remedy: String,
    /// Whether figures are in doubt until it is mended.
    pub is_error: bool,
    /// The ground it is about.
    pub ground: Option<GroundId>,
    /// The overlap or gap that can be mended.
    pub mend: Option<(MisfitKind, [GroundId; 2])>,
}

/// What the column says of one piece of ground, before what can be done there.
pub fn facts_of(desk: &Desk, id: GroundId) -> Vec<FactGroup> {
    let mut groups = vec![measures_of(desk, id)];
    if let Some(plan) = desk.plan.as_deref()
        && let Some(index) = plan.index_of(desk.day)
    {
        groups.extend(stock_on(desk, plan, id, index));
        groups.extend(why_here(desk, plan, id, index));
    }
    groups
}

/// Its grass, its rest and its hens: what is read after what can be done there on this day.
pub fn standing_of(desk: &Desk, id: GroundId) -> Vec<FactGroup> {
    let Some(plan) = desk.plan.as_deref() else {
        return Vec::new();
    };
    let Some(index) = plan.index_of(desk.day) else {
        return Vec::new();
    };
    let rest = rest_of(desk, plan, id, index);
    rest.into_iter()
        .chain(hens_of(desk, plan, id, index))
        .collect()
}

fn measures_of(desk: &Desk, id: GroundId) -> FactGroup {
    let (measures, units) = (desk.measures(id), desk.units());
    let mut rows = Vec::new();
    let mut push = |name: &str, text: String| rows.push((name.to_owned(), text));
    if let Some(area_m2) = measures.area_m2 {
        push("Area", area_both_text(area_m2, units));
        if area_m2 >= 1000.0 {
            push("", format!("{} m²", decimal_text(area_m2, 0)));
        }
    }
    for (name, text) in net_rows(desk, id) {
        push(&name, text);
    }
    if let Some(round_m) = measures.outer_perimeter_m {
        push("Round it", length_text(round_m, units));
    }
    if let Some(length_m) = measures.length_m {
        push("Length", length_text(length_m, units));
    }
    if let Some(trees) = measures.trees {
        push("Trees", count_text(u64::try_from(trees).unwrap_or(0)));
    }
    if let Some(ground) = desk.farm().ground.get(&id) {
        rows.extend(plain_facts(ground, units));
    }
    let mut push = |name: &str, text: String| rows.push((name.to_owned(), text));
    if measures.parts > 1 {
        push("Pieces", measures.parts.to_string());
    }
    if measures.holes > 0 {
        push("Holes left out", measures.holes.to_string());
    }
    FactGroup {
        rows,
        ..FactGroup::default()
    }
}

/// The ground left for crop or sheep, and what lies on it; nothing where it is the whole area.
/// Who stands here on the day in view, how heavily, and on what.
fn stock_on(desk: &Desk, plan: &SeasonPlan, id: GroundId, index: usize) -> Option<FactGroup> {
    let mob_id = *plan.mobs_on(id, desk.day).first()?;
    let mob = desk.farm().mobs.get(&mob_id)?;
    let set = LivestockUnitSet::England2023;
    let mut group = FactGroup {
        heading: "On it this day".to_owned(),
        ..FactGroup::default()
    };
    let mut push = |name: &str, text: String| group.rows.push((name.to_owned(), text));
    push(
        &mob.name,
        format!("{} {}", count_text(u64::from(mob.head)), mob.class.name()),
    );
    if let Some(density) = density_on(mob, desk.measures(id).area_m2?, set) {
        push(
            "Density",
            format!("{} head/ha", decimal_text(density.head_per_ha, 0)),
        );
        push(
            "",
            format!(
                "{} livestock units/ha",
                decimal_text(density.livestock_units_per_ha, 1)
            ),
        );
        push(
            "",
            format!("{} liveweight/ha", mass_text(density.liveweight_kg_per_ha)),
        );
    }
    let covers = plan.cover.get(&id)?;
    if let (Some(before), Some(after)) = (covers.get(index), covers.get(index + 1)) {
        push(
            "Cover, morning and next",
            format!("{before:.0}, {after:.0} kg DM/ha"),
        );
    }
    let short_kg = plan
        .short_kg
        .get(&mob_id)
        .and_then(|days| days.get(index))
        .copied()
        .unwrap_or(0.0);
    let met = if short_kg > 0.05 {
        format!("{} short", mass_text(short_kg))
    } else {
        "all met".to_owned()
    };
    push(
        "Demand",
        format!("{} DM/day · {met}", mass_text(mob.demand_kg())),
    );
    if let Some((_, spell)) = plan.spell_at(mob_id, index) {
        let from = plan.day_at(spell.from).short_text();
        let days = u64::try_from(spell.to - spell.from + 1).unwrap_or(0);
        push(
            "Stay",
            format!("from {from}, {}", plural_text(days, "day", "days")),
        );
    }
    group.sources.push(format!(
        "Intake: {}.",
        mob.class.facts().intake_share.source
    ));
    Some(group)
}

/// Why the mob stands here on the day in view.
fn why_here(desk: &Desk, plan: &SeasonPlan, id: GroundId, index: usize) -> Option<FactGroup> {
    let mob = *plan.mobs_on(id, desk.day).first()?;
    let (_, spell) = plan.spell_at(mob, index)?;
    let mut sentences = plan
        .why
        .get(&(mob, spell.from))
        .cloned()
        .unwrap_or_default();
    if index != spell.from {
        sentences.extend(plan.why.get(&(mob, index)).cloned().unwrap_or_default());
    }
    (!sentences.is_empty()).then(|| FactGroup {
        heading: "Why here".to_owned(),
        sentences,
        ..FactGroup::default()
    })
}

/// When it was grazed last and when it will be next, and how heavily over the season.
fn rest_of(desk: &Desk, plan: &SeasonPlan, id: GroundId, index: usize) -> Option<FactGroup> {
    let strips: Vec<GroundId> = match desk
        .farm()
        .strips_of(id)
        .map(|(strip, _)| strip)
        .collect::<Vec<_>>()
    {
        strips if strips.is_empty() => vec![id],
        strips => strips,
    };
    if !strips.iter().any(|strip| plan.cover.contains_key(strip)) {
        return None;
    }
    let mut group = FactGroup {
        heading: "Grass and rest".to_owned(),
        ..FactGroup::default()
    };
    let mut push = |name: &str, text: String| group.rows.push((name.to_owned(), text));
    if let [only] = strips.as_slice() {
        if let Some(cover) = plan.cover_on(*only, desk.day) {
            push("Cover this morning", format!("{cover:.0} kg DM/ha"));
        }
        let rested = plan.days_since_grazed(*only, index);
        let text = rested.map_or("not grazed before in this season".to_owned(), |days| {
            plural_text(u64::try_from(days).unwrap_or(0), "day", "days")
        });
        push("Rested", text);
        let next = plan
            .spells_of(*only)
            .into_iter()
            .find(|spell| spell.from > index);
        if let Some(spell) = next {
            let who = desk
                .farm()
                .mobs
                .get(&spell.mob)
                .map_or("", |mob| mob.name.as_str());
            push(
                "Grazed next",
                format!("{} by {who}", plan.day_at(spell.from).short_text()),
            );
        }
    }
    let stands = strips
        .iter()
        .flat_map(|strip| plan.spells_of(*strip))
        .map(|spell| {
            let head = desk.farm().mobs.get(&spell.mob).map_or(0, |mob| mob.head);
            (head, u32::try_from(spell.to - spell.from + 1).unwrap_or(0))
        });
    if let Some(sum) = sheep_days_per_ha(stands, desk.measures(id).area_m2?) {
        push(
            "Sheep days this season",
            format!("{} per ha", decimal_text(sum, 0)),
        );
    }
    group
        .sources
        .push("Sheep days per ha: head times days stood over the season, by the area.".to_owned());
    Some(group)
}

/// The hen houses that walk this line.
fn hens_of(desk: &Desk, plan: &SeasonPlan, id: GroundId, index: usize) -> Option<FactGroup> {
    let (house_id, house) = desk
        .farm()
        .hen_houses
        .iter()
        .find(|(_, house)| house.lines.contains(&id))?;
    let walk = plan.hens.get(house_id)?;
    let (stand, place) = walk.on(plan.day_at(index))?;
    let mut group = FactGroup {
        heading: house.name.clone(),
        ..FactGroup::default()
    };
    let mut push = |name: &str, text: String| group.rows.push((name.to_owned(), text));
    push("Hens", count_text(u64::from(house.hens)));
    if let Some(m2_per_hen) = walk.facts.m2_per_hen {
        push(
            "Ground per hen this day",
            format!("{} m²", decimal_text(m2_per_hen, 2)),
        );
    }
    let line = desk
        .farm()
        .ground
        .get(&place.line)
        .map_or("", |ground| ground.name.as_str());
    push(
        "Stands at",
        format!("{line}, place {} of {}", place.number, walk.facts.places),
    );
    let rest = stand
        .rested_days
        .map_or("first time this season".to_owned(), |days| {
            plural_text(u64::from(days), "day", "days")
        });
    push("Ground rested", rest);
    push(
        "Rest wanted",
        plural_text(u64::from(house.rest_days_wanted), "day", "days"),
    );
    group.sentences.clone_from(&walk.notes);
    Some(group)
}

/// The first findings about one piece of ground, or about all where none is named, and how many there are.
pub fn finding_rows(desk: &Desk, about: Option<GroundId>, most: usize) -> (Vec<FindingRow>, usize) {
    let answers = |finding: &&Finding| {
        about.is_none_or(|id| finding.about == Subject::Ground(id) || finding.beside == Some(id))
    };
    let found = desk.findings().iter().filter(answers);
    let count = found.clone().count();
    let rows = found
        .take(most)
        .map(|finding| FindingRow {
            what: finding.what.clone(),
            remedy: finding.remedy.clone(),
            is_error: finding.severity == Severity::Error,
            ground: match finding.about {
                Subject::Ground(id) => Some(id),
                _ => None,
            },
            mend: mend_of(finding),
        })
        .collect();
    (rows, count)
}

/// The overlap or gap a finding tells of.
fn mend_of(finding: &Finding) -> Option<(MisfitKind, [GroundId; 2])> {
    let kind = match finding.code {
        FindingCode::AreasOverlap | FindingCode::StripsOverlap => MisfitKind::Overlap,
        FindingCode::AreasGap => MisfitKind::Gap,
        _ => return None,
    };
    let Subject::Ground(id) = finding.about else {
        return None;
    };
    let other = finding.beside?;
    Some((kind, [id.min(other), id.max(other)]))
}

/// What the column says of the whole farm on the day in view.
pub fn farm_facts(desk: &Desk) -> Vec<FactGroup> {
    let mut groups = Vec::new();
    let Some(plan) = desk.plan.as_deref() else {
        return groups;
    };
    let Some(index) = plan.index_of(desk.day) else {
        let season = desk.farm().season;
        let text = format!(
            "The season runs from {} to {}; this day lies outside it.",
            season.first_day.long_text(),
            season.last_day().long_text()
        );
        groups.push(FactGroup {
            sentences: vec![text],
            ..FactGroup::default()
        });
        return groups;
    };
    let mut group = FactGroup {
        heading: "This day".to_owned(),
        ..FactGroup::default()
    };
    for (id, mob) in &desk.farm().mobs {
        let text = match plan.stand_at(*id, index) {
            Stand::Away => continue,
            Stand::Yard => "in the yard".to_owned(),
            Stand::On(ground) => ground_name(desk, ground),
        };
        group.rows.push((mob.name.clone(), text));
        if let Some((later, next)) = plan.next_move(*id, index) {
            let to = match next {
                Stand::Away => "leave the farm".to_owned(),
                Stand::Yard => "to the yard".to_owned(),
                Stand::On(ground) => format!("to {}", ground_name(desk, ground)),
            };
            group.rows.push((
                String::new(),
                format!("{to} on {}", plan.day_at(later).row_text()),
            ));
        }
    }
    for (id, house) in &desk.farm().hen_houses {
        if let Some(walk) = plan.hens.get(id)
            && let Some((_, place)) = walk.on(desk.day)
        {
            let text = format!(
                "{}, place {} of {}",
                ground_name(desk, place.line),
                place.number,
                walk.facts.places
            );
            group.rows.push((house.name.clone(), text));
        }
    }
    if group.rows.is_empty() {
        group
            .sentences
            .push("No animal is on the farm this day.".to_owned());
    }
    groups.push(group);
    groups.extend(short_days(plan, index));
    groups
}

pub(super) fn ground_name(desk: &Desk, id: GroundId) -> String {
    desk.farm()
        .ground
        .get(&id)
        .map_or_else(String::new, |ground| ground.name.clone())
}

/// The next run of days on which feed is short.
fn short_days(plan: &SeasonPlan, index: usize) -> Option<FactGroup> {
    let is_short = |day: usize| plan.short_on(day) > 0.5;
    let first = (index..plan.days).find(|day| is_short(*day))?;
    let days: Vec<usize> = (first..plan.days).filter(|day| is_short(*day)).collect();
    let total_kg: f64 = days.iter().map(|day| plan.short_on(*day)).sum();
    let count = u64::try_from(days.len()).unwrap_or(0);
    let text = format!(
        "{} with too little grass, {} DM in all. Hay must be carried, or fewer head kept.",
        plural_text(count, "day", "days"),
        mass_text(total_kg)
    );
    Some(FactGroup {
        heading: format!("Short from {}", plan.day_at(first).short_text()),
        sentences: vec![text],
        ..FactGroup::default()
    })
}
