//! Figures of the sward that cannot be, or that contradict each other.
//!
//! kg DM/ha from ground level; growth in kg DM/ha/day.

use super::{about, about_ground, called};
use crate::farm::{
    Farm, Finding, FindingCode, Grazing, Ground, GroundId, Severity, Subject, Sward,
};
use crate::quantity::{MONTH_NAMES, decimal_text};

const CODE: FindingCode = FindingCode::SwardFigure;

/// A fault in words: how grave, what is wrong, what to do.
type Fault = (Severity, String, &'static str);

/// The three covers that belong together, kg DM/ha.
struct Covers {
    leave: f64,
    enter: f64,
    ceiling: f64,
}

pub(super) fn look(farm: &Farm, found: &mut Vec<Finding>) {
    let mut faults = sward_faults(&farm.sward);
    faults.extend(covers_of(&farm.sward, None).faults());
    for (severity, what, remedy) in faults {
        let what = format!("The farm's sward: {what}.");
        found.push(about(Subject::Farm, severity, CODE, what, remedy));
    }
    for (id, ground) in &farm.ground {
        if let Some(grazing) = &ground.grazing {
            ground_faults(farm, (*id, ground), grazing, found);
        }
    }
}

fn ground_faults(
    farm: &Farm,
    piece: (GroundId, &Ground),
    grazing: &Grazing,
    found: &mut Vec<Finding>,
) {
    let mut faults = grazing_faults(grazing);
    let is_own = grazing.leave_kg_per_ha.is_some()
        || grazing.enter_kg_per_ha.is_some()
        || grazing.ceiling_kg_per_ha.is_some();
    if is_own {
        faults.extend(covers_of(&farm.sward, Some(grazing)).faults());
    }
    let ceiling = covers_of(&farm.sward, Some(grazing)).ceiling;
    if let Some(wanted) = grazing
        .end_cover_kg_per_ha
        .filter(|wanted| *wanted > ceiling)
    {
        faults.push((
            Severity::Warning,
            format!(
                "the cover wanted at the season's end ({} kg/ha) is more than it ever reaches ({} kg/ha)",
                decimal_text(wanted, 0),
                decimal_text(ceiling, 0)
            ),
            "Want less, or raise the ceiling.",
        ));
    }
    for (severity, what, remedy) in faults {
        let what = format!("{}: {what}.", called(piece.1));
        found.push(about_ground(piece, severity, CODE, what, remedy));
    }
}

fn covers_of(sward: &Sward, grazing: Option<&Grazing>) -> Covers {
    let own = |pick: fn(&Grazing) -> Option<f64>| grazing.and_then(pick);
    Covers {
        leave: own(|g| g.leave_kg_per_ha).unwrap_or(sward.leave_kg_per_ha),
        enter: own(|g| g.enter_kg_per_ha).unwrap_or(sward.enter_kg_per_ha),
        ceiling: own(|g| g.ceiling_kg_per_ha).unwrap_or(sward.ceiling_kg_per_ha),
    }
}

impl Covers {
    fn faults(&self) -> Vec<Fault> {
        let mut faults: Vec<Fault> = [
            ("cover to leave", self.leave),
            ("cover to enter at", self.enter),
            ("ceiling", self.ceiling),
        ]
        .into_iter()
        .filter_map(|(what, value)| impossible(what, value, "kg/ha"))
        .collect();
        if !faults.is_empty() {
            return faults;
        }
        let [leave, enter, ceiling] =
            [self.leave, self.enter, self.ceiling].map(|value| decimal_text(value, 0));
        if self.leave >= self.ceiling {
            faults.push((
                Severity::Error,
                format!("it is to be left at {leave} kg/ha but stops growing at {ceiling} kg/ha, so there is never anything to eat"),
                "Leave less, or raise the ceiling.",
            ));
        } else if self.enter > self.ceiling {
            faults.push((
                Severity::Error,
                format!("stock may enter at {enter} kg/ha but it stops growing at {ceiling} kg/ha, so they never may"),
                "Enter at less, or raise the ceiling.",
            ));
        } else if self.enter < self.leave {
            faults.push((
                Severity::Error,
                format!("stock may enter at {enter} kg/ha, below the {leave} kg/ha that they are to leave"),
                "Enter at the cover to leave or above.",
            ));
        }
        faults
    }
}

/// A figure that is no figure or is below 0.
fn impossible(what: &str, value: f64, unit: &str) -> Option<Fault> {
    if !value.is_finite() {
        let text = format!("the {what} is not a number");
        Some((Severity::Error, text, "Put the figure in again."))
    } else if value < 0.0 {
        let text = format!(
            "the {what} is {} {unit}, below nothing",
            decimal_text(value, 1)
        );
        Some((Severity::Error, text, "Put in 0 or more."))
    } else {
        None
    }
}

fn sward_faults(sward: &Sward) -> Vec<Fault> {
    let months = MONTH_NAMES.iter().zip(sward.growth_by_month);
    let mut faults: Vec<Fault> = months
        .filter_map(|(month, value)| {
            impossible(&format!("growth of {month}"), value, "kg/ha a day")
        })
        .collect();
    if sward.growth_by_month.iter().all(|growth| *growth <= 0.0) {
        faults.push((
            Severity::Warning,
            "nothing grows in any month".to_owned(),
            "Put in the growth of each month.",
        ));
    }
    if sward.longest_stay_days == 0 {
        faults.push((
            Severity::Error,
            "the longest stay on a strip is 0 days, so stock may stand nowhere".to_owned(),
            "Allow a day or more.",
        ));
    }
    for (month, days) in MONTH_NAMES.iter().zip(sward.rest_days_by_month) {
        if days > 365 {
            faults.push((
                Severity::Warning,
                format!("a rest of {days} days is owed after {month}: more than a year"),
                "Put in the days of rest, not hours or kilograms.",
            ));
        }
    }
    faults
}

fn grazing_faults(grazing: &Grazing) -> Vec<Fault> {
    let mut faults: Vec<Fault> = Vec::new();
    faults.extend(impossible(
        "growth here against the farm's",
        grazing.growth_factor,
        "times",
    ));
    if let Some(wanted) = grazing.end_cover_kg_per_ha {
        faults.extend(impossible(
            "cover wanted at the season's end",
            wanted,
            "kg/ha",
        ));
    }
    for reading in &grazing.readings {
        let what = format!("cover read on {}", reading.day.short_text());
        faults.extend(impossible(&what, reading.cover_kg_per_ha, "kg/ha"));
    }
    faults.extend(readings_twice(grazing));
    for span in grazing.closed.iter().filter(|span| span.to < span.from) {
        faults.push((
            Severity::Error,
            format!(
                "it is closed from {} to {}, which ends before it begins, so stock is not kept off",
                span.from, span.to
            ),
            "Put the earlier day first.",
        ));
    }
    faults
}

fn readings_twice(grazing: &Grazing) -> Vec<Fault> {
    let is_first_clash = |place: usize| {
        let reading = grazing.readings.get(place)?;
        grazing
            .readings
            .iter()
            .take(place)
            .any(|earlier| {
                earlier.day == reading.day
                    && earlier.cover_kg_per_ha.to_bits() != reading.cover_kg_per_ha.to_bits()
            })
            .then_some(reading.day)
    };
    (0..grazing.readings.len())
        .filter_map(is_first_clash)
        .map(|day| {
            (
                Severity::Warning,
                format!(
                    "two covers are read on {}; the later one in the list is taken",
                    day.short_text()
                ),
                "Keep the reading that you trust.",
            )
        })
        .collect()
}
