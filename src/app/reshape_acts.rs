//! What the commands of reshaping begin: which act, on what is selected.
//!
//! Only opens acts; each is shown on the map and done by the tool `Reshape`.

use std::collections::BTreeSet;

use super::desk::Desk;
use super::tools::{Becomes, Reshape, ReshapeAct, Tool};
use crate::farm::{Form, Ground, GroundId, Kind, MisfitKind, NeighbourMisfit};

/// Mending the first overlap or gap of what is selected; with nothing selected, of the farm.
pub fn mend(desk: &Desk) -> Option<ReshapeAct> {
    let is_meant = |misfit: &NeighbourMisfit| {
        desk.selected.is_empty() || misfit.between.iter().any(|id| desk.selected.contains(id))
    };
    let misfit = desk.neighbourhood().misfits().find(is_meant)?;
    Some(ReshapeAct::mend(desk.farm(), misfit))
}

/// Mending one overlap or gap.
pub fn mend_this(desk: &Desk, kind: MisfitKind, between: [GroundId; 2]) -> Option<ReshapeAct> {
    let misfit = desk.neighbourhood().misfit(kind, between)?;
    Some(ReshapeAct::mend(desk.farm(), misfit))
}

/// Joining what is selected; the piece selected first keeps its name.
pub fn join(desk: &Desk) -> Option<ReshapeAct> {
    let ids = desk.selected.clone();
    let first = *ids.first().filter(|_| ids.len() > 1)?;
    let kept = desk
        .first_selected
        .filter(|id| ids.contains(id))
        .unwrap_or(first);
    Some(ReshapeAct::Join { ids, kept })
}

/// A headland in the one area that is selected.
pub fn headland(desk: &Desk) -> Option<ReshapeAct> {
    let (id, ground) = desk
        .selected_one()
        .filter(|(_, ground)| ground.outline().is_some())?;
    Some(ReshapeAct::Headland {
        id,
        width_text: "6".to_owned(),
        sides: BTreeSet::new(),
        ground: Box::new(ground.clone()),
        becomes: Becomes::OwnPiece,
        kind: Kind::KeepOut,
    })
}

/// Ground kept clear round what is selected.
pub fn keep_clear(desk: &Desk) -> Option<ReshapeAct> {
    (!desk.selected.is_empty()).then(|| ReshapeAct::KeepClear {
        ids: desk.selected.clone(),
        width_text: "3".to_owned(),
        is_round: false,
        kind: Kind::KeepOut,
    })
}

/// The selected areas taken out of the ground under them.
pub fn cut_out(desk: &Desk) -> Option<ReshapeAct> {
    let are_areas = selected(desk).all(|ground| ground.shape.form() == Form::Area);
    (are_areas && !desk.selected.is_empty()).then(|| ReshapeAct::CutOut {
        ids: desk.selected.clone(),
    })
}

/// Filling a hole of the one area that is selected.
pub fn fill_hole(desk: &Desk) -> Option<ReshapeAct> {
    let (id, ground) = desk.selected_one()?;
    let holes: usize = ground
        .outline()?
        .parts
        .iter()
        .map(|part| part.holes.len())
        .sum();
    (holes > 0).then(|| ReshapeAct::FillHole {
        id,
        ground: Box::new(ground.clone()),
        which: (holes == 1).then_some(0),
        kind: None,
    })
}

/// Mirroring what is selected.
pub fn mirror(desk: &Desk) -> Option<ReshapeAct> {
    (!desk.selected.is_empty()).then(|| ReshapeAct::Mirror {
        ids: desk.selected.clone(),
        by_side: false,
        ends: Vec::new(),
    })
}

/// Turning what is selected, about its middle at first.
pub fn turn(desk: &Desk) -> Option<ReshapeAct> {
    let about = ReshapeAct::middle_of(desk.farm(), &desk.selected)?;
    Some(ReshapeAct::Turn {
        ids: desk.selected.clone(),
        about,
        degrees_text: String::new(),
        held: None,
    })
}

/// Takes the act in hand, shown at once.
pub fn open(desk: &mut Desk, act: Option<ReshapeAct>) {
    let Some(act) = act else { return };
    let mut reshape = Reshape::new(act);
    reshape.renew(desk.farm(), desk.history.steps_done(), desk.units());
    desk.forms.page = None;
    desk.notice = None;
    desk.tool = Tool::Reshape(Box::new(reshape));
}

fn selected(desk: &Desk) -> impl Iterator<Item = &Ground> {
    desk.selected
        .iter()
        .filter_map(|id| desk.farm().ground.get(id))
}
