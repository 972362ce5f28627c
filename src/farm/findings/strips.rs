//! Strips and the ley they are cut from: every strip has its ley, and together they make it up.
//!
//! Square metres on the earth itself.

use std::collections::BTreeMap;

use super::{about_ground, called, called_inside};
use crate::farm::neighbourhood::{FORGIVEN_M2, FORGIVEN_SHARE};
use crate::farm::{Farm, Finding, FindingCode, Ground, GroundId, Kind, Severity, measure_ground};
use crate::geometry::overlay;
use crate::quantity::{decimal_text, plural_text};

pub(super) fn look(farm: &Farm, found: &mut Vec<Finding>) {
    for (id, ground) in &farm.ground {
        strip_alone(farm, (*id, ground), found);
    }
    for (ley, strips) in strips_by_ley(farm) {
        if let Some(ground) = farm.ground.get(&ley) {
            strips_uneven(farm, (ley, ground), &strips, found);
            strips_outside((ley, ground), &strips, found);
        }
    }
}

/// What may be cut into strips.
fn holds_strips(kind: Kind) -> bool {
    matches!(kind, Kind::Ley | Kind::Plot)
}

fn strip_alone(farm: &Farm, (id, ground): (GroundId, &Ground), found: &mut Vec<Finding>) {
    let is_strip = ground.kind == Kind::Strip;
    let (what, remedy) = match ground.within.map(|ley| farm.ground.get(&ley)) {
        None if is_strip => ("does not say which ley it is a strip of", "Choose its ley."),
        Some(None) => (
            "is a piece of a ley that is gone",
            "Choose another ley for it.",
        ),
        Some(Some(_)) if !is_strip => (
            "is kept as a piece of other ground, and only strips are: its area is left out of the farm's",
            "Make it a strip, or take it out of the ley.",
        ),
        Some(Some(ley)) if !holds_strips(ley.kind) => (
            "is a strip of ground that is neither ley nor plot",
            "Choose a ley or plot for it.",
        ),
        None | Some(Some(_)) => return,
    };
    found.push(about_ground(
        (id, ground),
        Severity::Warning,
        FindingCode::StripAlone,
        format!("{} {what}.", called(ground)),
        remedy,
    ));
}

type Piece<'farm> = (GroundId, &'farm Ground);

fn strips_by_ley(farm: &Farm) -> BTreeMap<GroundId, Vec<Piece<'_>>> {
    let mut by_ley: BTreeMap<GroundId, Vec<Piece<'_>>> = BTreeMap::new();
    for (id, ground) in &farm.ground {
        if let (Kind::Strip, Some(ley), Some(_)) = (ground.kind, ground.within, ground.outline()) {
            by_ley.entry(ley).or_default().push((*id, ground));
        }
    }
    by_ley
}

fn strips_uneven(farm: &Farm, ley: Piece<'_>, strips: &[Piece<'_>], found: &mut Vec<Finding>) {
    let area_m2 = |ground: &Ground| measure_ground(farm, ground).area_m2;
    let Some(ley_m2) = area_m2(ley.1) else {
        return;
    };
    let strips_m2: f64 = strips.iter().filter_map(|(_, strip)| area_m2(strip)).sum();
    let over_m2 = strips_m2 - ley_m2;
    // Not a number: the shape itself is at fault, and that is said elsewhere.
    if !counts(over_m2.abs(), ley_m2) || !over_m2.is_finite() {
        return;
    }
    let count = u64::try_from(strips.len()).unwrap_or(u64::MAX);
    let (side, severity, remedy) = if over_m2 > 0.0 {
        (
            "more",
            Severity::Warning,
            "Bring the strips back inside the ley, or draw the ley larger.",
        )
    } else {
        (
            "less",
            Severity::Note,
            "Leave it so if a headland or lane is kept out; else draw the strips up to the ley's edge.",
        )
    };
    let digits = digits_for(over_m2);
    let what = format!(
        "The {} of {} add up to {} m² {side} than the ground they are cut from ({} m² against {} m²).",
        plural_text(count, "strip", "strips"),
        called_inside(ley.1),
        decimal_text(over_m2.abs(), digits),
        decimal_text(strips_m2, digits),
        decimal_text(ley_m2, digits),
    );
    found.push(about_ground(
        ley,
        severity,
        FindingCode::StripsUneven,
        what,
        remedy,
    ));
}

/// Whether so much ground counts (corners lie on whole millimetres, and outlines drawn one after the other miss by
/// decimetres) beside a piece of this area.
fn counts(m2: f64, piece_m2: f64) -> bool {
    m2 > FORGIVEN_M2 || m2 > piece_m2 * FORGIVEN_SHARE
}

fn strips_outside(ley: Piece<'_>, strips: &[Piece<'_>], found: &mut Vec<Finding>) {
    let Some(ley_outline) = ley.1.outline() else {
        return;
    };
    for (id, strip) in strips {
        let Some(outline) = strip.outline() else {
            continue;
        };
        let area_m2 = outline.area_m2();
        let outside_m2 = area_m2 - overlay::in_both(outline, ley_outline).area_m2();
        if !counts(outside_m2, area_m2) {
            continue;
        }
        let what = format!(
            "{} lies with {} m² of its {} m² outside {}.",
            called(strip),
            decimal_text(outside_m2, digits_for(outside_m2)),
            decimal_text(area_m2, digits_for(outside_m2)),
            called_inside(ley.1)
        );
        found.push(about_ground(
            (*id, strip),
            Severity::Warning,
            FindingCode::StripsUneven,
            what,
            "Bring it back inside, or choose the ley that it lies in.",
        ));
    }
}

/// A tenth below ten square metres, whole ones above.
fn digits_for(m2: f64) -> usize {
    usize::from(m2.abs() < 10.0)
}
