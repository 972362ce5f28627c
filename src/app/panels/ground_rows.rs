//! The rows of the ground list as plain data: every thing on the map, strips under their ley.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

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

/// A place in the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Listed {
    id: GroundId,
    strips: usize,
    is_indented: bool,
}

/// What is listed, kept for as long as neither the farm nor what is asked for changes: only the rows in sight are
/// put into words.
#[derive(Debug, Clone, Default)]
pub struct KeptList {
    asked: Option<Asked>,
    listed: Arc<[Listed]>,
}

/// What a list answers to: the round of the farm, the filter, the hidden kinds.
type Asked = (u64, String, BTreeSet<Kind>);

/// The places that answer to the filter, by kind and then as drawn.
pub fn ground_listed(desk: &mut Desk) -> Arc<[Listed]> {
    let asked = (
        desk.reckoned().round(),
        desk.filter.trim().to_lowercase(),
        desk.hidden.clone(),
    );
    if desk.ground_list.asked.as_ref() != Some(&asked) {
        desk.ground_list.listed = listed(desk, &asked.1).into();
        desk.ground_list.asked = Some(asked);
    }
    Arc::clone(&desk.ground_list.listed)
}

fn listed(desk: &Desk, wanted: &str) -> Vec<Listed> {
    let farm = desk.farm();
    let is_top = |ground: &Ground| {
        ground
            .within
            .is_none_or(|ley| !farm.ground.contains_key(&ley))
    };
    let mut tops: Vec<(GroundId, &Ground)> = farm
        .ground
        .iter()
        .filter(|(_, ground)| is_top(ground))
        .map(|(id, ground)| (*id, ground))
        .collect();
    tops.sort_by_key(|(id, ground)| (order(ground.kind), *id));
    let mut strips_by_ley: BTreeMap<GroundId, Vec<GroundId>> = BTreeMap::new();
    for (id, ground) in &farm.ground {
        if let Some(ley) = ground.within {
            strips_by_ley.entry(ley).or_default().push(*id);
        }
    }
    let mut listed = Vec::new();
    for (id, _) in tops {
        let strips = strips_by_ley.remove(&id).unwrap_or_default();
        listed.push(Listed {
            id,
            strips: strips.len(),
            is_indented: false,
        });
        listed.extend(strips.into_iter().map(|id| Listed {
            id,
            strips: 0,
            is_indented: true,
        }));
    }
    if !wanted.is_empty() {
        listed.retain(|place| answers(desk, *place, wanted));
    }
    listed
}

fn answers(desk: &Desk, place: Listed, wanted: &str) -> bool {
    desk.farm().ground.get(&place.id).is_some_and(|ground| {
        ground.name.to_lowercase().contains(wanted)
            || kind_text(desk, ground, place.strips).contains(wanted)
    })
}

fn kind_text(desk: &Desk, ground: &Ground, strips: usize) -> String {
    let kind = ground.kind.name();
    let kind_text = match strips {
        0 => kind.to_owned(),
        1 => format!("{kind} · 1 strip"),
        many => format!("{kind} · {many} strips"),
    };
    match (ground.is_locked, desk.hidden.contains(&ground.kind)) {
        (true, true) => format!("{kind_text} · locked, hidden"),
        (true, false) => format!("{kind_text} · locked"),
        (false, true) => format!("{kind_text} · hidden"),
        (false, false) => kind_text,
    }
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

/// The row at a place.
pub fn ground_row(desk: &Desk, place: Listed) -> Option<GroundRow> {
    let ground = desk.farm().ground.get(&place.id)?;
    let measures = desk.measures(place.id);
    let size_text = match (measures.area_m2, measures.length_m) {
        (Some(area_m2), _) => area_text(area_m2, desk.units()),
        (None, Some(length_m)) => length_text(length_m, desk.units()),
        (None, None) => String::new(),
    };
    Some(GroundRow {
        id: place.id,
        name: if ground.name.trim().is_empty() {
            "–".to_owned()
        } else {
            ground.name.clone()
        },
        kind_text: kind_text(desk, ground, place.strips),
        kind: ground.kind,
        size_text,
        is_indented: place.is_indented,
        is_selected: desk.selected.contains(&place.id),
        has_finding: desk.reckoned().has_finding(place.id),
    })
}
