//! Hens and what is picked: fruit of the lines they walk along, and crops whose ground they stand on.
//!
//! Tree fruit hangs clear of the soil, windfalls lie on it, so each has its own day.

use std::collections::BTreeMap;

use super::{CleanSpan, rule_of};
use crate::farm::{Contact, Farm, GroundId, HenHouseId, Kind, course_grounds};
use crate::planning::HenWalk;
use crate::quantity::Day;

/// A tree line that hens walked along, and the days from which its fruit may be picked by the grower's rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FruitLine {
    /// The tree line.
    pub line: GroundId,
    /// The last day with hens along it, in the days that were asked for.
    pub last_hens: Day,
    /// Fruit from the tree.
    pub tree_fruit_from: Day,
    /// Windfalls.
    pub windfalls_from: Day,
}

/// Hens on ground that should be clear for a crop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HensOnClean {
    /// The house.
    pub house: HenHouseId,
    /// The plot, ley or tunnel.
    pub ground: GroundId,
    /// First and last such day.
    pub days: (Day, Day),
    /// Why it should be clear.
    pub why: String,
}

/// The tree lines along which the houses stood, in the order of their numbers.
pub fn fruit_lines(farm: &Farm, walks: &BTreeMap<HenHouseId, HenWalk>) -> Vec<FruitLine> {
    let facts = rule_of(farm);
    let mut last_by_line: BTreeMap<GroundId, Day> = BTreeMap::new();
    for walk in walks.values() {
        for day in &walk.days {
            let Some((_, place)) = walk.on(day.day) else {
                continue;
            };
            let last = last_by_line.entry(place.line).or_insert(day.day);
            *last = day.day.max(*last);
        }
    }
    let is_tree_line = |line: &GroundId| {
        farm.ground
            .get(line)
            .is_some_and(|ground| ground.kind == Kind::TreeLine)
    };
    last_by_line
        .into_iter()
        .filter(|(line, _)| is_tree_line(line))
        .map(|(line, last_hens)| FruitLine {
            line,
            last_hens,
            tree_fruit_from: facts.to_harvest(Contact::OffSoil).earliest_after(last_hens),
            windfalls_from: facts
                .to_harvest(Contact::TouchesSoil)
                .earliest_after(last_hens),
        })
        .collect()
}

/// Where a house stands on ground in its closed days: the middle of its place counts.
pub fn hens_on_clean(
    farm: &Farm,
    walks: &BTreeMap<HenHouseId, HenWalk>,
    spans: &[CleanSpan],
) -> Vec<HensOnClean> {
    let outlines: Vec<_> = course_grounds(farm)
        .into_iter()
        .filter_map(|id| Some((id, farm.ground.get(&id)?.outline()?)))
        .collect();
    let mut found: BTreeMap<(HenHouseId, GroundId, String), (Day, Day)> = BTreeMap::new();
    for (house, walk) in walks {
        for day in &walk.days {
            let Some((_, place)) = walk.on(day.day) else {
                continue;
            };
            let here = outlines
                .iter()
                .filter(|(_, outline)| outline.contains(place.middle));
            for (ground, _) in here {
                let span = spans.iter().find(|span| {
                    span.ground == *ground && (span.span.first..=span.span.last).contains(&day.day)
                });
                let Some(span) = span else { continue };
                let days = found
                    .entry((*house, *ground, span.why.clone()))
                    .or_insert((day.day, day.day));
                days.1 = days.1.max(day.day);
            }
        }
    }
    found
        .into_iter()
        .map(|((house, ground, why), days)| HensOnClean {
            house,
            ground,
            days,
            why,
        })
        .collect()
}
