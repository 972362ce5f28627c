//! Settled days that cannot be: outside the visits, on ground that is gone or closed, or two mobs on one piece.
//!
//! Days with one and the same fault are told together. A day already lived is a fact: its breach is a warning.

use std::collections::{BTreeMap, BTreeSet};

use super::{about, called_inside, middle_of};
use crate::farm::{
    Farm, Finding, FindingCode, FixedPlace, GroundId, MobId, Severity, Subject, grazed_units,
};
use crate::quantity::{Day, plural_text};

/// Why a settled day cannot be.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Why {
    NoSuchMob,
    NotHere,
    GroundGone,
    NotGrazed(GroundId),
    Closed(GroundId),
    Shared(GroundId, MobId),
}

pub(super) fn look(farm: &Farm, found: &mut Vec<Finding>) {
    let grazed: BTreeSet<GroundId> = grazed_units(farm).iter().map(|unit| unit.id).collect();
    let mut days: BTreeMap<(MobId, Why, bool), Vec<Day>> = BTreeMap::new();
    for ((mob, day), fixed) in &farm.fixed {
        for why in faults_of(farm, &grazed, (*mob, *day), *fixed) {
            days.entry((*mob, why, fixed.lived)).or_default().push(*day);
        }
    }
    found.extend(
        days.iter()
            .map(|((mob, why, lived), days)| told(farm, *mob, *why, *lived, days)),
    );
}

fn faults_of(
    farm: &Farm,
    grazed: &BTreeSet<GroundId>,
    (mob, day): (MobId, Day),
    fixed: FixedPlace,
) -> Vec<Why> {
    let mut faults = Vec::new();
    match farm.mobs.get(&mob) {
        None => return vec![Why::NoSuchMob],
        Some(owner) if !owner.is_here(day) => faults.push(Why::NotHere),
        Some(_) => {}
    }
    let Some(place) = fixed.place else {
        return faults;
    };
    let Some(ground) = farm.ground.get(&place) else {
        faults.push(Why::GroundGone);
        return faults;
    };
    if !grazed.contains(&place) {
        faults.push(Why::NotGrazed(place));
    }
    if ground
        .grazing
        .as_ref()
        .is_some_and(|grazing| grazing.is_closed(day))
    {
        faults.push(Why::Closed(place));
    }
    let others = farm.mobs.keys().filter(|other| **other < mob);
    faults.extend(
        others
            .filter(|other| {
                let theirs = farm.fixed.get(&(**other, day));
                theirs.is_some_and(|fixed| fixed.place == Some(place))
            })
            .map(|other| Why::Shared(place, *other)),
    );
    faults
}

/// One finding for all days of a mob with one and the same fault.
fn told(farm: &Farm, mob: MobId, why: Why, lived: bool, days: &[Day]) -> Finding {
    let (what, remedy) = why.told(farm);
    let span = match days {
        [only] => only.to_string(),
        [first, .., last] => format!("{first} to {last}"),
        [] => String::new(),
    };
    let count = u64::try_from(days.len()).unwrap_or(u64::MAX);
    let kind = if lived { "lived" } else { "settled" };
    let what = format!(
        "\"{}\": {} ({span}) put {what}.",
        mob_name(farm, mob),
        plural_text(count, &format!("{kind} day"), &format!("{kind} days")),
    );
    let severity = if lived {
        Severity::Warning
    } else {
        Severity::Error
    };
    let subject = if why == Why::NoSuchMob {
        Subject::Farm
    } else {
        Subject::Mob(mob)
    };
    Finding {
        place: why
            .ground()
            .and_then(|id| farm.ground.get(&id))
            .and_then(|ground| middle_of(&ground.shape)),
        ..about(subject, severity, FindingCode::FixedFault, what, remedy)
    }
}

fn mob_name(farm: &Farm, id: MobId) -> &str {
    farm.mobs.get(&id).map_or("", |mob| mob.name.trim())
}

impl Why {
    /// The ground it is about.
    fn ground(self) -> Option<GroundId> {
        match self {
            Self::NoSuchMob | Self::NotHere | Self::GroundGone => None,
            Self::NotGrazed(id) | Self::Closed(id) | Self::Shared(id, _) => Some(id),
        }
    }

    /// What is wrong, to follow "these days put", and what to do.
    fn told(self, farm: &Farm) -> (String, &'static str) {
        let place = self
            .ground()
            .and_then(|id| farm.ground.get(&id))
            .map_or_else(String::new, called_inside);
        match self {
            Self::NoSuchMob => (
                "a mob that is gone".to_owned(),
                "Take the days out, or bring the mob back.",
            ),
            Self::NotHere => (
                "it somewhere, though it is not on the farm then".to_owned(),
                "Make the visit longer, or take the days out.",
            ),
            Self::GroundGone => (
                "it on ground that is gone".to_owned(),
                "Choose another strip for these days.",
            ),
            Self::NotGrazed(_) => (
                format!("it on {place}, which is not grazed as one piece"),
                "Choose a strip, or a ley that is not cut into strips.",
            ),
            Self::Closed(_) => (
                format!("it on {place}, which is closed then"),
                "Choose another strip, or shorten the closed span.",
            ),
            Self::Shared(_, other) => (
                format!(
                    "it on {place} where \"{}\" stands on the same day",
                    mob_name(farm, other)
                ),
                "Give one of the two another strip.",
            ),
        }
    }
}
