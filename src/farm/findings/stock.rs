//! Mobs: whether their days on the farm and their figures can be.

use super::about;
use crate::farm::{Farm, Finding, FindingCode, Mob, MobId, Severity, Subject};

pub(super) fn look(farm: &Farm, found: &mut Vec<Finding>) {
    for (id, mob) in &farm.mobs {
        visit_faults(*id, mob, found);
        figure_faults(*id, mob, found);
    }
}

fn visit_faults(id: MobId, mob: &Mob, found: &mut Vec<Finding>) {
    let name = mob.name.trim();
    let mut push = |severity, what: String, remedy| {
        found.push(about(
            Subject::Mob(id),
            severity,
            FindingCode::VisitFault,
            what,
            remedy,
        ));
    };
    if mob.visits.is_empty() {
        push(
            Severity::Note,
            format!("The mob \"{name}\" has no day on the farm, so nothing is planned for it."),
            "Say from which day to which it is here.",
        );
    }
    for visit in mob.visits.iter().filter(|visit| visit.to < visit.from) {
        push(
            Severity::Error,
            format!(
                "A visit of \"{name}\" begins on {} and ends on {}, before it begins.",
                visit.from, visit.to
            ),
            "Put the earlier day first.",
        );
    }
    let mut in_order: Vec<_> = mob
        .visits
        .iter()
        .filter(|visit| visit.from <= visit.to)
        .collect();
    in_order.sort_by_key(|visit| (visit.from, visit.to));
    for (earlier, later) in in_order.iter().zip(in_order.iter().skip(1)) {
        if later.from <= earlier.to {
            push(
                Severity::Error,
                format!(
                    "Two visits of \"{name}\" overlap: one is until {}, the next from {}.",
                    earlier.to, later.from
                ),
                "Part the two visits, or make them one.",
            );
        }
    }
}

fn figure_faults(id: MobId, mob: &Mob, found: &mut Vec<Finding>) {
    let name = mob.name.trim();
    let mut push = |severity, what: String, remedy| {
        found.push(about(
            Subject::Mob(id),
            severity,
            FindingCode::StockFigure,
            what,
            remedy,
        ));
    };
    if mob.head == 0 {
        push(
            Severity::Warning,
            format!("The mob \"{name}\" has no head, so it eats nothing."),
            "Count them in.",
        );
    }
    if !is_above_zero(mob.liveweight_kg) {
        push(
            Severity::Error,
            format!("The liveweight of \"{name}\" is not above 0 kg."),
            "Put in what one head weighs.",
        );
    }
    if mob
        .eats_kg_per_head
        .is_some_and(|eats| !is_above_zero(eats))
    {
        push(
            Severity::Error,
            format!("What one head of \"{name}\" eats is not above 0 kg a day."),
            "Put in kilograms of dry matter a day, or leave it to the class.",
        );
    }
}

fn is_above_zero(value: f64) -> bool {
    value.is_finite() && value > 0.0
}
