//! Everything about the farm that the grower should know: one look over the whole document.
//!
//! Each rule family has its file and only adds to the list; none changes the farm or knows of plans.
//! Square metres, metres, kg DM/ha.

mod built;
mod course;
mod density;
mod fixed;
mod hens;
mod names;
mod neighbours;
mod shapes;
mod stock;
mod strips;
mod sward;

use super::{
    Farm, Finding, FindingCode, Ground, GroundId, Neighbourhood, Severity, Shape, Subject,
};
use crate::geometry::Point;
use crate::geometry::label_place::{label_place, label_place_of_line};

/// All findings, the gravest first, and those alike in the order of the ground's numbers.
pub fn findings(farm: &Farm) -> Vec<Finding> {
    findings_with(farm, &Neighbourhood::of(farm))
}

/// The same where it is known how the pieces lie to each other.
pub fn findings_with(farm: &Farm, neighbourhood: &Neighbourhood) -> Vec<Finding> {
    let mut found = Vec::new();
    shapes::look(farm, &mut found);
    names::look(farm, &mut found);
    strips::look(farm, &mut found);
    neighbours::look(farm, neighbourhood, &mut found);
    sward::look(farm, &mut found);
    stock::look(farm, &mut found);
    fixed::look(farm, &mut found);
    hens::look(farm, &mut found);
    density::look(farm, &mut found);
    built::look(farm, &mut found);
    course::look(farm, &mut found);
    found.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    found
}

/// A finding about one piece of ground, placed in its middle.
fn about_ground(
    (id, ground): (GroundId, &Ground),
    severity: Severity,
    code: FindingCode,
    what: String,
    remedy: &str,
) -> Finding {
    Finding {
        severity,
        code,
        about: Subject::Ground(id),
        beside: None,
        place: middle_of(&ground.shape),
        what,
        remedy: remedy.to_owned(),
    }
}

/// A finding about something that has no place of its own.
fn about(
    subject: Subject,
    severity: Severity,
    code: FindingCode,
    what: String,
    remedy: &str,
) -> Finding {
    Finding {
        severity,
        code,
        about: subject,
        beside: None,
        place: None,
        what,
        remedy: remedy.to_owned(),
    }
}

/// `The strip "A1"`, or `A strip without a name`.
fn called(ground: &Ground) -> String {
    let kind = ground.kind.name();
    match ground.name.trim() {
        "" => format!("A {kind} without a name"),
        name => format!("The {kind} \"{name}\""),
    }
}

/// The same inside a sentence: `the strip "A1"`.
fn called_inside(ground: &Ground) -> String {
    let text = called(ground);
    let (first, rest) = text.split_at(1);
    first.to_lowercase() + rest
}

/// A place on the shape for the map to go to; any corner of one that encloses nothing.
fn middle_of(shape: &Shape) -> Option<Point> {
    let middle = match shape {
        Shape::Area(outline) => label_place(outline).map(|label| label.place),
        Shape::Line(corners) => label_place_of_line(corners).map(|station| station.place),
        Shape::Place(place) => Some(*place),
    };
    let corners = shape.corners();
    middle
        .into_iter()
        .chain(corners)
        .find(|place| place.is_finite())
}
