//! The days on which hens may not stand on a place: what the grower keeps them off, and what lies under it.
//!
//! Closed by hand on a ley or strip, closed for a crop of the course, or kept off along its line. Civil days.

use std::collections::BTreeSet;

use super::HenPlace;
use crate::farm::{Farm, GroundId, HenHouse, StopKind, course_grounds};
use crate::geometry::{Outline, oblong};
use crate::planning::clean_ground::clean_spans;
use crate::quantity::Day;

/// Days on which a place is closed, both included, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct ClosedSpan {
    pub(super) from: Day,
    pub(super) to: Day,
    pub(super) why: String,
}

/// Ground that is closed for hens on some days.
pub(super) struct ClosedGround<'a> {
    grounds: Vec<(&'a Outline, Vec<ClosedSpan>)>,
}

impl<'a> ClosedGround<'a> {
    /// Looks up what is closed by hand, and what the course closes from `first` to `last`.
    pub(super) fn of(farm: &'a Farm, first: Day, last: Day) -> Self {
        let for_crops = clean_spans(farm, first, last);
        let mut grounds = Vec::new();
        for (id, ground) in &farm.ground {
            let Some(outline) = ground.outline() else {
                continue;
            };
            let by_hand = ground.grazing.iter().flat_map(|grazing| &grazing.closed);
            let by_hand = by_hand.map(|closed| ClosedSpan {
                from: closed.from,
                to: closed.to,
                why: said(&closed.why, "closed"),
            });
            let for_crops = for_crops.iter().filter(|span| span.ground == *id);
            let spans: Vec<ClosedSpan> = by_hand
                .chain(for_crops.map(|span| ClosedSpan {
                    from: span.span.first,
                    to: span.span.last,
                    why: span.why.clone(),
                }))
                .collect();
            if !spans.is_empty() {
                grounds.push((outline, spans));
            }
        }
        Self { grounds }
    }

    /// The days on which a place is closed, in order.
    pub(super) fn of_place(&self, house: &HenHouse, place: &HenPlace) -> Vec<ClosedSpan> {
        let along_line = house
            .handling
            .stops
            .iter()
            .filter(|stop| stop.kind == StopKind::KeepOff(place.line))
            .map(|stop| ClosedSpan {
                from: stop.from,
                to: stop.to,
                why: said(&stop.why, "kept off"),
            });
        let under = self
            .grounds
            .iter()
            .filter(|(outline, _)| oblong::shares_ground(&place.outline, outline))
            .flat_map(|(_, spans)| spans.iter().cloned());
        let mut found: Vec<ClosedSpan> = along_line.chain(under).collect();
        found.sort_by_key(|span| (span.from, span.to));
        found
    }
}

/// Why a place is closed on a day; none where it is open.
pub(super) fn why_closed(spans: &[ClosedSpan], day: Day) -> Option<&str> {
    spans
        .iter()
        .find(|span| (span.from..=span.to).contains(&day))
        .map(|span| span.why.as_str())
}

fn said(why: &str, otherwise: &str) -> String {
    match why.trim() {
        "" => otherwise.to_owned(),
        why => why.to_owned(),
    }
}

/// Plots, leys and tunnels that stand in the course: their crops close them on days, not for good.
pub(super) fn grounds_in_course(farm: &Farm) -> BTreeSet<GroundId> {
    let in_a_course = farm
        .course
        .courses
        .iter()
        .flat_map(|course| course.starts.keys().copied());
    let by_hand = farm.course.by_hand.keys().map(|(ground, ..)| *ground);
    let known: BTreeSet<GroundId> = course_grounds(farm).into_iter().collect();
    in_a_course
        .chain(by_hand)
        .filter(|ground| known.contains(ground))
        .collect()
}
