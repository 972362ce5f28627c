//! The course of crops: what `course_findings` says cell by cell, as findings of the farm.

use super::middle_of;
use crate::farm::{Farm, Finding, Subject, course_findings};

pub(super) fn look(farm: &Farm, found: &mut Vec<Finding>) {
    found.extend(course_findings(farm).into_iter().map(|cell| {
        let ground = cell.ground.and_then(|id| farm.ground.get(&id));
        Finding {
            beside: None,
            severity: cell.severity,
            code: cell.code,
            about: cell.ground.map_or(Subject::Farm, Subject::Ground),
            place: ground.and_then(|ground| middle_of(&ground.shape)),
            what: cell.what,
            remedy: cell.remedy,
        }
    }));
}
