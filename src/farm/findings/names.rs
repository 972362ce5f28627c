//! Names that are missing or given twice: day sheets and rows tell things apart by name alone.

use std::collections::{BTreeMap, BTreeSet};

use super::{about, about_ground, called};
use crate::farm::{Farm, Finding, FindingCode, Kind, Severity, Subject};

pub(super) fn look(farm: &Farm, found: &mut Vec<Finding>) {
    ground_without_name(farm, found);
    ground_named_twice(farm, found);
    stock_names(farm, found);
}

/// Whether moves and areas are told by this ground's name.
fn is_told_by_name(kind: Kind) -> bool {
    matches!(kind, Kind::Plot | Kind::Ley | Kind::Strip | Kind::Tunnel)
}

fn ground_without_name(farm: &Farm, found: &mut Vec<Finding>) {
    for (id, ground) in &farm.ground {
        // Hedges and troughs do well without a name; what is sown or grazed does not.
        if ground.name.trim().is_empty() && is_told_by_name(ground.kind) {
            found.push(about_ground(
                (*id, ground),
                Severity::Warning,
                FindingCode::NameMissing,
                format!("{}: day sheets cannot say where it is.", called(ground)),
                "Give it the name that you call it by.",
            ));
        }
    }
}

fn ground_named_twice(farm: &Farm, found: &mut Vec<Finding>) {
    let mut first_with = BTreeMap::new();
    for (id, ground) in &farm.ground {
        let plain = plain_name(&ground.name);
        if plain.is_empty() {
            continue;
        }
        if let Some(other) = first_with.get(&plain) {
            let other = farm.ground.get(other).map_or("thing", |g| g.kind.name());
            let what = format!(
                "{} has the same name as another {other}: nobody can tell which is meant.",
                called(ground)
            );
            found.push(about_ground(
                (*id, ground),
                Severity::Warning,
                FindingCode::NameTwice,
                what,
                "Give one of the two another name.",
            ));
        } else {
            first_with.insert(plain, *id);
        }
    }
}

fn stock_names(farm: &Farm, found: &mut Vec<Finding>) {
    let mobs = farm
        .mobs
        .iter()
        .map(|(id, mob)| (Subject::Mob(*id), "mob", &mob.name));
    let houses = farm
        .hen_houses
        .iter()
        .map(|(id, house)| (Subject::HenHouse(*id), "hen house", &house.name));
    let mut names = BTreeSet::new();
    for (subject, kind, name) in mobs.chain(houses) {
        let plain = plain_name(name);
        let (code, what, remedy) = if plain.is_empty() {
            (
                FindingCode::NameMissing,
                format!("A {kind} has no name: day sheets cannot say who moves."),
                "Give it the name that you call it by.",
            )
        } else if !names.insert(plain) {
            (
                FindingCode::NameTwice,
                format!(
                    "The {kind} \"{}\" has the same name as another: nobody can tell which moves.",
                    name.trim()
                ),
                "Give one of the two another name.",
            )
        } else {
            continue;
        };
        found.push(about(subject, Severity::Warning, code, what, remedy));
    }
}

/// A name as the ear hears it: capitals and outer spaces aside.
fn plain_name(name: &str) -> String {
    name.trim().to_lowercase()
}
