//! What is being typed, and the moment at which it becomes a step: on Enter, or once the field is left.
//!
//! A draft outlives its field, so nothing typed is lost when the field goes away in the same frame.

use std::collections::BTreeSet;

use egui::{Context, Id};

use super::change::{Given, Target, change};
use super::course::CourseView;
use super::hens_walk::KeptWalk;
use crate::app::desk::Desk;
use crate::farm::{GroundId, HenHouseId, MobId};

/// A page that takes the place of the facts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Page {
    /// Mobs of sheep.
    Flocks,
    /// Hen houses.
    Hens,
    /// The season and the farm's sward.
    Season,
    /// Questions about the season.
    Questions,
    /// Pictures of the season.
    Pictures,
}

/// What the forms remember between frames.
#[derive(Debug, Clone, Default)]
pub struct FormState {
    /// The page that is open.
    pub page: Option<Page>,
    /// The mob in view on its page.
    pub mob: Option<MobId>,
    /// The hen house in view on its page.
    pub house: Option<HenHouseId>,
    /// What the walk of the house in view comes to.
    pub(super) walk: Option<KeptWalk>,
    /// The page of the course, and what it shows.
    pub course: CourseView,
    /// What was selected when the page was opened: picking something else leads back to the facts.
    pub(super) selected: BTreeSet<GroundId>,
    pub(super) draft: Option<Draft>,
    pub(super) due: Vec<Draft>,
    pub(super) refusal: Option<Refusal>,
    /// The field with the focus and what stood in it, where nothing is typed yet.
    pub(super) resting: Option<Draft>,
    /// Whether a field painted in this frame has the focus.
    pub(super) has_focus: bool,
    /// Whether one had it in the frame before.
    pub(super) had_focus: bool,
}

/// A text on its way to the farm.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Draft {
    pub(super) target: Target,
    pub(super) typed: String,
}

/// A text that the farm did not take.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Refusal {
    pub(super) target: Target,
    pub(super) typed: String,
    pub(super) why: String,
    /// Whether its field was on screen since the last frame began.
    pub(super) is_shown: bool,
}

impl FormState {
    /// Whether undo and redo belong to the farm though a field has the focus: nothing is typed in it yet.
    pub fn rests_in_field(&self) -> bool {
        self.had_focus && self.draft.is_none()
    }

    /// Notes that a field outside the forms has the focus and nothing is typed in it yet.
    pub fn note_resting_field(&mut self) {
        self.has_focus = true;
    }

    /// Whether a key pressed now was meant for a field: Escape then leaves the field and nothing else.
    pub fn was_in_field(&self) -> bool {
        self.had_focus
    }

    /// Why the last text was not taken, where its field is on screen.
    pub fn refusal_text(&self) -> Option<&str> {
        self.refusal.as_ref().map(|refusal| refusal.why.as_str())
    }
}

/// The toolkit's number of the field for a target.
pub(super) fn field_id(target: Target) -> Id {
    Id::unique(("form field", target))
}

/// Makes steps of everything typed whose field was left. To be called once before a frame's panels, and before an
/// act that must see what was typed.
pub fn settle(desk: &mut Desk, ctx: &Context) {
    let focused = ctx.memory(egui::Memory::focused);
    let escapes = ctx.input(|input| input.key_pressed(egui::Key::Escape));
    if let Some(draft) = desk
        .forms
        .draft
        .take_if(|draft| focused != Some(field_id(draft.target)))
    {
        // The toolkit takes the focus from a field on Escape before anyone sees the key.
        if !escapes {
            desk.forms.due.push(draft);
        }
    }
    settle_due(desk);
    desk.forms.had_focus = std::mem::take(&mut desk.forms.has_focus);
    desk.forms
        .refusal
        .take_if(|refusal| !std::mem::take(&mut refusal.is_shown));
}

/// Makes a step of what is being typed, whether or not its field was left.
pub fn settle_now(desk: &mut Desk) {
    let draft = desk.forms.draft.take();
    desk.forms.due.extend(draft);
    settle_due(desk);
}

fn settle_due(desk: &mut Desk) {
    for draft in std::mem::take(&mut desk.forms.due) {
        let given = Given {
            farm: desk.history.farm(),
            units: desk.settings.units,
            near: desk.day,
            holds_apart: desk.holds_apart,
            walks: desk.plan.as_deref().map(|plan| &plan.hens),
        };
        match change(given, draft.target, &draft.typed) {
            Ok((label, edits)) => {
                desk.forms.refusal = None;
                desk.commit(&label, edits);
            }
            Err(why) => {
                desk.forms.refusal = Some(Refusal {
                    target: draft.target,
                    typed: draft.typed,
                    why,
                    is_shown: true,
                });
            }
        }
    }
}
