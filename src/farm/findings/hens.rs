//! Hen houses: whether there is a line to walk, long enough, and figures that a house can have. Metres.

use super::shapes::form_text;
use super::{about, called_inside, middle_of};
use crate::farm::{
    Farm, Finding, FindingCode, Ground, HenHouse, HenHouseId, Kind, Severity, Subject,
};
use crate::geometry::{Point, geodesic};
use crate::quantity::{UnitSystem, length_text};

pub(super) fn look(farm: &Farm, found: &mut Vec<Finding>) {
    for (id, house) in &farm.hen_houses {
        figure_faults(*id, house, found);
        line_faults(farm, *id, house, found);
    }
}

fn figure_faults(id: HenHouseId, house: &HenHouse, found: &mut Vec<Finding>) {
    let is_above_zero = |value: f64| value.is_finite() && value > 0.0;
    let is_not_below = |value: f64| value.is_finite() && value >= 0.0;
    let ends_early = house.last_day.is_some_and(|last| last < house.first_day);
    let checks = [
        (
            is_above_zero(house.length_m),
            "length is not above 0 m",
            "Put in how much of the line house and run take up.",
        ),
        (
            is_above_zero(house.width_m),
            "width is not above 0 m",
            "Put in how wide house and run are across the line.",
        ),
        (
            is_above_zero(house.length_m + house.gap_m),
            "places overlap by all their length",
            "Put in a smaller overlap.",
        ),
        (
            is_not_below(house.offset_m),
            "way from the line is below 0 m",
            "Put in 0 or more, and choose the side.",
        ),
        (
            house.days_per_place > 0,
            "stay on a place is 0 days",
            "Put in a day or more.",
        ),
        (
            !ends_early,
            "last day comes before its first",
            "Put the earlier day first.",
        ),
    ];
    for (_, what, remedy) in checks.into_iter().filter(|(is_fine, ..)| !is_fine) {
        let what = format!("The hen house \"{}\": its {what}.", house.name.trim());
        found.push(about(
            Subject::HenHouse(id),
            Severity::Error,
            FindingCode::StockFigure,
            what,
            remedy,
        ));
    }
    if house.hens == 0 {
        found.push(about(
            Subject::HenHouse(id),
            Severity::Note,
            FindingCode::StockFigure,
            format!("The hen house \"{}\" has no hens in it.", house.name.trim()),
            "Count them in.",
        ));
    }
}

/// A fault of one line of a house: how grave, what is wrong, what to do, where.
type LineFault = (Severity, String, &'static str, Option<Point>);

fn line_faults(farm: &Farm, id: HenHouseId, house: &HenHouse, found: &mut Vec<Finding>) {
    let mut faults: Vec<LineFault> = Vec::new();
    if house.lines.is_empty() && house.handling.follows.is_none() {
        faults.push((
            Severity::Warning,
            "has no line to walk along".to_owned(),
            "Choose a tree line, hedge, fence or ley for it, or sheep to follow.",
            None,
        ));
    }
    for line in &house.lines {
        match farm.ground.get(line) {
            Some(ground) => faults_of_line(farm, house, ground, &mut faults),
            None => faults.push((
                Severity::Error,
                "is to walk along a line that is gone".to_owned(),
                "Take the line out, or choose another.",
                None,
            )),
        }
    }
    faults.extend(stands_over_line(house));
    let name = house.name.trim();
    found.extend(
        faults
            .into_iter()
            .map(|(severity, what, remedy, place)| Finding {
                place,
                ..about(
                    Subject::HenHouse(id),
                    severity,
                    FindingCode::HenLine,
                    format!("The hen house \"{name}\" {what}."),
                    remedy,
                )
            }),
    );
}

fn faults_of_line(farm: &Farm, house: &HenHouse, ground: &Ground, faults: &mut Vec<LineFault>) {
    let place = middle_of(&ground.shape);
    let named = called_inside(ground);
    if ground.kind.is_grazed() && ground.outline().is_some() {
        return;
    }
    let Some(corners) = ground.line() else {
        let form = form_text(ground.shape.form());
        faults.push((
            Severity::Error,
            format!("is to walk along {named}, which is drawn as {form}"),
            "Choose a tree line, hedge, fence or ley for it.",
            place,
        ));
        return;
    };
    let length_m = geodesic::length_m(farm.frame, corners);
    if length_m < house.length_m {
        let what = format!(
            "does not fit on {named}: the line is {} long and one place takes {}",
            length_text(length_m, UnitSystem::Metric),
            length_text(house.length_m, UnitSystem::Metric)
        );
        let remedy = "Choose a longer line, or draw this one longer.";
        faults.push((Severity::Error, what, remedy, place));
    }
    if !matches!(ground.kind, Kind::TreeLine | Kind::Hedge | Kind::Fence) {
        faults.push((
            Severity::Note,
            format!("walks along {named}; a house goes along a tree line, hedge or fence"),
            "Choose another line, if this one is not meant.",
            place,
        ));
    }
}

fn stands_over_line(house: &HenHouse) -> Option<LineFault> {
    let half_m = house.width_m / 2.0;
    // Figures that cannot be are told elsewhere.
    let is_over = house.offset_m >= 0.0 && house.offset_m < half_m && !house.lines.is_empty();
    let what = format!(
        "stands over its line: half its width is {} and its middle goes {} from the line",
        length_text(half_m, UnitSystem::Metric),
        length_text(house.offset_m, UnitSystem::Metric)
    );
    is_over.then_some((
        Severity::Warning,
        what,
        "Let its middle go further from the line.",
        None,
    ))
}
