//! Hens and sheep on one farm: copper, litter, worms, housing orders. Cautions, never a ban; days.

use std::collections::BTreeMap;

use crate::farm::{Farm, GroundId, StockClass};
use crate::planning::{SeasonPlan, Stand};
use crate::quantity::Day;

/// A caution with its source.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caution {
    /// What to look out for, in a sentence or two.
    pub what: String,
    /// Title, body, year; or "common practice, no source".
    pub source: &'static str,
}

/// Days that sheep stay off ground after hens: borrowed from advice on spread litter, for no text speaks of the
/// droppings of ranging hens (advice of an Australian poultry manual and a New South Wales vet).
const OFF_AFTER_HENS_DAYS: i64 = 21;
/// A rest shorter than this is no rest from worms, days: over 90 in 100 larvae are dead only after two months in
/// warm and five to six in cool country (sheep-industry worm guidance, AWI/MLA).
const WORM_REST_DAYS: usize = 60;

/// What applies to this farm and season.
pub fn mixed_stock_cautions(farm: &Farm, plan: &SeasonPlan) -> Vec<Caution> {
    let mut found = after_hens(farm, plan);
    found.extend(worms(farm, plan));
    if !farm.hen_houses.is_empty() && !farm.mobs.is_empty() {
        found.push(Caution {
            what: "Keep sheep from hen feed: poultry feed may hold 25 mg copper to the kg, sheep feed 15. Take up spilled \
                   feed and dead birds before sheep come."
                .to_owned(),
            source: "Regulation (EU) 2018/1039, limits as read in trade summaries",
        });
    }
    if !farm.hen_houses.is_empty() {
        found.push(Caution {
            what: "A housing order may shut hens in at short notice: moves stop and the ground rests on. Ask the \
                   authority what it means for the label."
                .to_owned(),
            source: "notices of English councils, November 2022 and 2025",
        });
    }
    found
}

/// Sheep on a strip that hens left less than three weeks before.
fn after_hens(farm: &Farm, plan: &SeasonPlan) -> Vec<Caution> {
    let mut hens_on: BTreeMap<GroundId, Vec<Day>> = BTreeMap::new();
    for walk in plan.hens.values() {
        for day in &walk.days {
            let Some((_, place)) = walk.on(day.day) else {
                continue;
            };
            for id in plan.cover.keys() {
                let outline = farm.ground.get(id).and_then(|ground| ground.outline());
                if outline.is_some_and(|outline| outline.contains(place.middle)) {
                    hens_on.entry(*id).or_default().push(day.day);
                }
            }
        }
    }
    let mut found = Vec::new();
    for (id, days) in &hens_on {
        let name = farm.ground.get(id).map_or("", |ground| ground.name.trim());
        for spell in plan.spells_of(*id) {
            let comes = plan.day_at(spell.from);
            let gone = days
                .iter()
                .map(|hens| comes.days_since(*hens))
                .filter(|gone| (0..OFF_AFTER_HENS_DAYS).contains(gone))
                .min();
            if let Some(gone) = gone {
                found.push(Caution {
                    what: format!(
                        "{name}: sheep come on {} {gone} days after hens; {OFF_AFTER_HENS_DAYS} are advised (hen feed, \
                         copper, litter).",
                        comes.short_text()
                    ),
                    source: "advice on spread litter, New South Wales vet and Australian poultry manual; none for ranging \
                             hens",
                });
            }
        }
    }
    found
}

/// Lambs that come back to a strip before worm larvae have died: told once, with how often.
fn worms(farm: &Farm, plan: &SeasonPlan) -> Option<Caution> {
    let mut count = 0_usize;
    let mut soonest = usize::MAX;
    for (mob, sheep) in &farm.mobs {
        if !matches!(sheep.class, StockClass::Lambs | StockClass::EwesWithLambs) {
            continue;
        }
        let mut left: BTreeMap<GroundId, usize> = BTreeMap::new();
        for index in 0..plan.days {
            let Stand::On(piece) = plan.stand_at(*mob, index) else {
                continue;
            };
            let before = left.insert(piece, index);
            let rest = before.map_or(0, |before| index - before - 1);
            if (1..WORM_REST_DAYS).contains(&rest) {
                count += 1;
                soonest = soonest.min(rest);
            }
        }
    }
    (count > 0).then(|| Caution {
        what: format!(
            "Lambs come back to the same strip within {WORM_REST_DAYS} days {count} times, the soonest after {soonest}: a \
             rest for grass is no rest from worms. Egg counts and the vet decide."
        ),
        source: "sheep-industry worm guidance, AWI and MLA",
    })
}
