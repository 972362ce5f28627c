//! The rows of the ground list as plain data: every thing on the map, strips under their ley.

use std::collections::BTreeMap;

use crate::app::desk::Desk;
use crate::farm::{Ground, GroundId, Kind};
use crate::quantity::{area_text, length_text};

/// One row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GroundRow {
    /// Which.
    pub id: GroundId,
    /// Its name, or a dash.
    pub name: String,
    /// Its kind, with the count of its strips.
    pub kind_text: String,
    /// Its kind.
    pub kind: Kind,
    /// Area or length.
    pub size_text: String,
    /// Whether it stands under its ley.
    pub is_indented: bool,
    /// Whether it is selected.
    pub is_selected: bool,
    /// Whether a finding is about it.
    pub has_finding: bool,
}

/// The rows that answer to the filter, by kind and then as drawn.
pub fn ground_rows(desk: &Desk) -> Vec<GroundRow> {
    let farm = desk.farm();
    let wanted = desk.filter.trim().to_lowercase();
    let mut tops: Vec<(GroundId, &Ground)> = farm
        .ground
        .iter()
        .filter(|(_, ground)| {
            ground
                .within
                .is_none_or(|ley| !farm.ground.contains_key(&ley))
        })
        .map(|(id, ground)| (*id, ground))
        .collect();
    tops.sort_by_key(|(id, ground)| (order(ground.kind), *id));
    // Gathered once: a farm of thousands of pieces is listed in every frame.
    let mut strips_by_ley: BTreeMap<GroundId, Vec<(GroundId, &Ground)>> = BTreeMap::new();
    for (id, ground) in &farm.ground {
        if let Some(ley) = ground.within {
            strips_by_ley.entry(ley).or_default().push((*id, ground));
        }
    }
    let mut rows = Vec::new();
    for (id, ground) in tops {
        let strips = strips_by_ley.remove(&id).unwrap_or_default();
        push_row(&mut rows, desk, id, ground, strips.len(), false, &wanted);
        for (strip_id, strip) in strips {
            push_row(&mut rows, desk, strip_id, strip, 0, true, &wanted);
        }
    }
    rows
}

/// Ground that is worked comes before what stands round it.
const fn order(kind: Kind) -> u8 {
    match kind {
        Kind::Plot => 0,
        Kind::Ley => 1,
        Kind::Strip => 2,
        Kind::Tunnel => 3,
        Kind::TreeLine => 4,
        Kind::Water => 5,
        Kind::Building => 6,
        Kind::Wood => 7,
        Kind::Hedge => 8,
        Kind::Track => 9,
        Kind::Fence => 10,
        Kind::Gate => 11,
        Kind::Trough => 12,
        Kind::KeepOut => 13,
        Kind::Note => 14,
    }
}

fn push_row(
    rows: &mut Vec<GroundRow>,
    desk: &Desk,
    id: GroundId,
    ground: &Ground,
    strips: usize,
    is_indented: bool,
    wanted: &str,
) {
    let kind_text = match strips {
        0 => ground.kind.name().to_owned(),
        1 => format!("{} · 1 strip", ground.kind.name()),
        many => format!("{} · {many} strips", ground.kind.name()),
    };
    let kind_text = match (ground.is_locked, desk.hidden.contains(&ground.kind)) {
        (true, true) => format!("{kind_text} · locked, hidden"),
        (true, false) => format!("{kind_text} · locked"),
        (false, true) => format!("{kind_text} · hidden"),
        (false, false) => kind_text,
    };
    if !wanted.is_empty()
        && !ground.name.to_lowercase().contains(wanted)
        && !kind_text.contains(wanted)
    {
        return;
    }
    let measures = desk.measures(id);
    let size_text = match (measures.area_m2, measures.length_m) {
        (Some(area_m2), _) => area_text(area_m2, desk.units()),
        (None, Some(length_m)) => length_text(length_m, desk.units()),
        (None, None) => String::new(),
    };
    let about = crate::farm::Subject::Ground(id);
    rows.push(GroundRow {
        id,
        name: if ground.name.trim().is_empty() {
            "–".to_owned()
        } else {
            ground.name.clone()
        },
        kind_text,
        kind: ground.kind,
        size_text,
        is_indented,
        is_selected: desk.selected.contains(&id),
        has_finding: desk.findings().iter().any(|finding| finding.about == about),
    });
}
