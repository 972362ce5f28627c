//! Shapes that are not sound, and kinds drawn in a form they do not take.

use super::{about_ground, called};
use crate::farm::{Farm, Finding, FindingCode, Form, Severity};

pub(super) fn look(farm: &Farm, found: &mut Vec<Finding>) {
    for (id, ground) in &farm.ground {
        let form = ground.shape.form();
        if !ground.kind.allows(form) {
            found.push(about_ground(
                (*id, ground),
                Severity::Warning,
                FindingCode::FormUnusual,
                format!("{} is drawn as {}.", called(ground), form_text(form)),
                "Draw it in another form, or choose another kind for it.",
            ));
        }
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
