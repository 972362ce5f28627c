//! Putting a mob's yard on the map: one click, one step.

use super::{MapEvent, Scene, ToolReply};
use crate::app::forms::put_yard;
use crate::farm::MobId;

/// Waits for the click that says where the yard is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PutYard {
    /// Whose yard.
    pub mob: MobId,
}

impl PutYard {
    /// Takes an event; the yard is put down by a click. Says with the reply whether the tool is done.
    pub fn handle(self, event: MapEvent, scene: Scene<'_>) -> (ToolReply, bool) {
        match event {
            MapEvent::Clicked { at, .. } => match put_yard(scene.farm, self.mob, at) {
                Some((label, edits)) => {
                    let select = scene.selected.clone();
                    let reply = ToolReply::Commit {
                        label,
                        edits,
                        select,
                    };
                    (reply, true)
                }
                None => (ToolReply::Nothing, true),
            },
            MapEvent::Escape => (ToolReply::Nothing, true),
            _ => (ToolReply::Nothing, false),
        }
    }

    /// What to do next.
    pub const fn hint() -> &'static str {
        "Click where the yard is. Escape leaves it where it was."
    }
}
