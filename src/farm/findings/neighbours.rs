//! Neighbours that do not fit: ground that two areas both have, slivers that neither has.
//!
//! Which kinds may lie on which is `lying`'s business. Square metres on the earth itself, told in both units.

use super::{about_ground, called, called_inside};
use crate::farm::{
    Farm, Finding, FindingCode, Kind, MisfitKind, NeighbourMisfit, Neighbourhood, Severity,
};
use crate::geometry::geodesic;
use crate::geometry::label_place::label_place;
use crate::quantity::{UnitSystem, area_both_text};

pub(super) fn look(farm: &Farm, neighbourhood: &Neighbourhood, found: &mut Vec<Finding>) {
    found.extend(
        neighbourhood
            .misfits()
            .filter_map(|misfit| told(farm, &misfit)),
    );
}

fn told(farm: &Farm, misfit: &NeighbourMisfit) -> Option<Finding> {
    let [first_id, second_id] = misfit.between;
    let (first, second) = (farm.ground.get(&first_id)?, farm.ground.get(&second_id)?);
    let area = area_both_text(
        geodesic::area_m2(farm.frame, &misfit.ground),
        UnitSystem::Metric,
    );
    let (one, two) = (called(first), called_inside(second));
    let are_strips = first.kind == Kind::Strip && second.kind == Kind::Strip;
    let (severity, code, what, remedy) = match (misfit.kind, are_strips) {
        (MisfitKind::Overlap, true) => (
            Severity::Warning,
            FindingCode::StripsOverlap,
            format!(
                "{one} and {two} lie on each other with {area}, which is counted and grazed twice."
            ),
            "Give that ground to one of the two, or draw both up to one boundary.",
        ),
        (MisfitKind::Overlap, false) => (
            Severity::Warning,
            FindingCode::AreasOverlap,
            format!("{one} and {two} lie on each other with {area}, which is counted twice."),
            "Give that ground to one of the two, or draw both up to one boundary.",
        ),
        (MisfitKind::Gap, _) => (
            Severity::Note,
            FindingCode::AreasGap,
            format!(
                "{one} and {two} leave a sliver of {area} between them, which is counted to neither."
            ),
            "Close it, or leave it if something is to run there.",
        ),
    };
    Some(Finding {
        place: label_place(&misfit.ground).map(|label| label.place),
        beside: Some(first_id),
        ..about_ground((second_id, second), severity, code, what, remedy)
    })
}
