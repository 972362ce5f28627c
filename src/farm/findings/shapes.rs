//! Shapes that are not sound, and kinds drawn in a form they do not take.

use std::collections::BTreeMap;

use super::{about_ground, called};
use crate::farm::{Farm, Finding, FindingCode, Form, Ground, GroundId, Severity, Shape};
use crate::geometry::validity::{self, FaultKind, ShapeFault};
use crate::geometry::{Outline, Point};

pub(super) fn look(farm: &Farm, found: &mut Vec<Finding>) {
    for (id, ground) in &farm.ground {
        let piece = (*id, ground);
        match &ground.shape {
            Shape::Area(outline) => outline_faults(piece, outline, found),
            Shape::Line(corners) => line_faults(piece, corners, found),
            Shape::Place(place) => place_faults(piece, *place, found),
        }
        let form = ground.shape.form();
        if !ground.kind.allows(form) {
            found.push(about_ground(
                piece,
                Severity::Warning,
                FindingCode::FormUnusual,
                format!("{} is drawn as {}.", called(ground), form_text(form)),
                "Draw it in another form, or choose another kind for it.",
            ));
        }
    }
}

/// One finding for each kind of fault: a scribble crosses itself a hundred times, and that is told once.
fn outline_faults(piece: (GroundId, &Ground), outline: &Outline, found: &mut Vec<Finding>) {
    let mut by_kind: BTreeMap<FaultKind, Vec<ShapeFault>> = BTreeMap::new();
    for fault in validity::faults(outline) {
        by_kind.entry(fault.kind).or_default().push(fault);
    }
    for (kind, faults) in by_kind {
        let severity = if kind.is_harmless() {
            Severity::Note
        } else {
            Severity::Error
        };
        let more = match faults.len() {
            0 | 1 => String::new(),
            count => format!(" (at {count} places)"),
        };
        let what = format!("{}: {kind}{more}.", called(piece.1));
        let place = faults.first().map(|fault| fault.place);
        found.push(Finding {
            place: place.filter(|place| place.is_finite()),
            ..about_ground(piece, severity, FindingCode::ShapeFault, what, remedy(kind))
        });
    }
}

fn line_faults(piece: (GroundId, &Ground), corners: &[Point], found: &mut Vec<Finding>) {
    let length_m: f64 = corners
        .iter()
        .zip(corners.iter().skip(1))
        .map(|(from, to)| from.distance_m(*to))
        .sum();
    let (what, remedy) = if corners.iter().any(|corner| !corner.is_finite()) {
        (
            "a corner has no place: one of its figures is not a number",
            remedy(FaultKind::NotFinite),
        )
    } else if length_m <= 0.0 {
        (
            "it has fewer than two corners that differ",
            "Draw it from one end to the other.",
        )
    } else {
        return;
    };
    let what = format!("{}: {what}.", called(piece.1));
    found.push(about_ground(
        piece,
        Severity::Error,
        FindingCode::ShapeFault,
        what,
        remedy,
    ));
}

fn place_faults(piece: (GroundId, &Ground), place: Point, found: &mut Vec<Finding>) {
    if !place.is_finite() {
        let what = format!(
            "{}: its place is none: a figure is not a number.",
            called(piece.1)
        );
        found.push(about_ground(
            piece,
            Severity::Error,
            FindingCode::ShapeFault,
            what,
            "Place it again.",
        ));
    }
}

fn remedy(kind: FaultKind) -> &'static str {
    match kind {
        FaultKind::NothingDrawn => "Draw its outline, or take it off the map.",
        FaultKind::NotFinite => "Move that corner to its place, or draw it again.",
        FaultKind::TooFewCorners | FaultKind::NoArea => "Draw it again, round the ground.",
        FaultKind::RepeatedCorner => "Nothing need be done; taking one of the two out is tidy.",
        FaultKind::Spike => "Take out the corner at the spike's tip.",
        FaultKind::CrossesItself => "Move the corners beside the crossing until it is gone.",
        FaultKind::TouchesItself => "Move the boundary apart where it touches.",
        FaultKind::HoleOutside => "Move the hole onto the ground, or take it out.",
        FaultKind::HoleCrosses | FaultKind::HoleAlongBoundary => {
            "Draw the hole wholly inside, or cut the ground there instead."
        }
        FaultKind::HolesOverlap | FaultKind::CutApart => "Part the holes, or make them one.",
        FaultKind::PartsOverlap => "Move the two parts clear of each other.",
        FaultKind::PartsShareSide => "Join the two parts into one.",
    }
}

/// The form with its article.
pub(super) fn form_text(form: Form) -> &'static str {
    match form {
        Form::Area => "an area",
        Form::Line => "a line",
        Form::Place => "a single place",
    }
}
