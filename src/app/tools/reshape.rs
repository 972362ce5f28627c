//! Reshaping: an act is shown on the map, with the areas it changes, before it is done.
//!
//! What is asked for is set in the column beside the map and by clicks on it; Enter does it, Escape drops it. The farm
//! is touched once, at the end.

mod act;

use std::collections::{BTreeMap, BTreeSet};

pub use act::{Becomes, ReshapeAct};

use super::{MapEvent, Preview, Scene, ToolReply};
use crate::farm::{Edit, Farm, Ground, GroundId, Reshaped};
use crate::geometry::Point;
use crate::geometry::label_place::label_place;
use crate::quantity::{UnitSystem, area_text};

/// An act that is being looked at.
#[derive(Debug, Clone)]
pub struct Reshape {
    /// What is asked for.
    pub act: ReshapeAct,
    /// Whether the first field has yet to take the focus.
    pub is_new: bool,
    outcome: Result<Reshaped, String>,
    seen: Option<(usize, UnitSystem)>,
    figures: Vec<(Point, String)>,
    pointer: Option<Point>,
}

impl Reshape {
    /// An act that nobody has looked at yet.
    pub fn new(act: ReshapeAct) -> Self {
        Self {
            act,
            is_new: true,
            outcome: Err(String::new()),
            seen: None,
            figures: Vec::new(),
            pointer: None,
        }
    }

    /// What would be done.
    ///
    /// # Errors
    /// Why it cannot be done, in a sentence; nothing where something is still to be said or clicked.
    pub fn outcome(&self) -> Result<&Reshaped, &str> {
        self.outcome.as_ref().map_err(String::as_str)
    }

    /// Notes that what is asked for has changed.
    pub fn ask_anew(&mut self) {
        self.seen = None;
    }

    /// Works out what would be done, where that is not known for this farm: `steps` are those of its history.
    pub fn renew(&mut self, farm: &Farm, steps: usize, units: UnitSystem) {
        if self.seen == Some((steps, units)) {
            return;
        }
        self.seen = Some((steps, units));
        self.act.hold_true(farm);
        self.outcome = self.act.outcome(farm, units).and_then(unlocked);
        self.figures = self
            .outcome
            .as_ref()
            .map_or_else(|_| Vec::new(), |done| figures(farm, done, units));
    }

    pub(super) fn handle(&mut self, event: MapEvent, scene: Scene<'_>) -> (ToolReply, bool) {
        match event {
            MapEvent::Escape => return (ToolReply::Nothing, true),
            MapEvent::Finish => return self.finish(),
            MapEvent::Moved(at) => {
                self.pointer = Some(at);
                return (ToolReply::Nothing, false);
            }
            MapEvent::Clicked { at, .. } => self.act.click(at, scene),
            MapEvent::DragStarted(at) | MapEvent::BoxStarted(at) => self.act.drag_from(at),
            MapEvent::Dragged(at) => {
                self.pointer = Some(at);
                self.act.drag_to(at, scene);
            }
            MapEvent::DragEnded(at) => {
                self.act.drag_to(at, scene);
                self.act.let_go();
            }
            MapEvent::Back => self.act.take_back(),
            MapEvent::DoubleClicked(_) => return (ToolReply::Nothing, false),
        }
        self.ask_anew();
        (ToolReply::Nothing, false)
    }

    /// The step, where it can be made; and whether the tool is done with.
    pub fn finish(&self) -> (ToolReply, bool) {
        match &self.outcome {
            Ok(done) => {
                let reply = ToolReply::Commit {
                    label: done.label.clone(),
                    edits: done.edits.clone(),
                    select: done.select.clone(),
                };
                (reply, true)
            }
            Err(why) if why.is_empty() => (ToolReply::Nothing, false),
            Err(why) => (ToolReply::Tell(why.clone()), false),
        }
    }

    pub(super) fn preview(&self) -> Preview {
        let mut preview = Preview {
            strokes: self.act.strokes(self.pointer),
            figures: self.figures.clone(),
            ..Preview::default()
        };
        for edit in self.outcome.iter().flat_map(|done| &done.edits) {
            let Edit::Ground { id, old, new } = edit else {
                continue;
            };
            match (old, new) {
                (Some(_), Some(new)) => preview.changed.push((*id, (**new).clone())),
                (None, Some(new)) => preview.added.push((**new).clone()),
                (_, None) => {
                    preview.removed.insert(*id);
                }
            }
        }
        preview
    }

    pub(super) fn hint(&self) -> &'static str {
        self.act.hint()
    }

    /// Pieces that may be snapped to while the map is clicked; `None` where nothing snaps.
    pub(super) fn snaps(&self) -> Option<BTreeSet<GroundId>> {
        self.act.wants_places().then(BTreeSet::new)
    }
}

/// The act, where it leaves locked ground alone.
pub(super) fn unlocked(done: Reshaped) -> Result<Reshaped, String> {
    match done.locked() {
        Some(name) => Err(format!("{name} is locked: let it go first.")),
        None => Ok(done),
    }
}

/// What each piece gains or loses, where it lies. Strips of a ley that changes itself are told in the column only: their
/// figures would cover the map.
fn figures(farm: &Farm, done: &Reshaped, units: UnitSystem) -> Vec<(Point, String)> {
    let shapes: BTreeMap<GroundId, &Ground> = done
        .edits
        .iter()
        .filter_map(|edit| match edit {
            Edit::Ground { id, old, new } => Some((*id, new.as_deref().or(old.as_deref())?)),
            _ => None,
        })
        .collect();
    done.area_changes(farm)
        .iter()
        .filter_map(|change| {
            let ground = shapes.get(&change.id)?;
            if ground.within.is_some_and(|ley| shapes.contains_key(&ley)) {
                return None;
            }
            let place = label_place(ground.outline()?)?.place;
            let text = match (change.before_m2, change.after_m2) {
                (Some(before_m2), Some(after_m2)) => signed_area_text(after_m2 - before_m2, units),
                (None, Some(after_m2)) => area_text(after_m2, units),
                (Some(_), None) => "gone".to_owned(),
                (None, None) => return None,
            };
            Some((place, format!("{} {text}", change.name)))
        })
        .collect()
}

/// `+120 m²`, `−120 m²`.
pub fn signed_area_text(change_m2: f64, units: UnitSystem) -> String {
    let sign = if change_m2 < 0.0 { "−" } else { "+" };
    format!("{sign}{}", area_text(change_m2.abs(), units))
}
