//! The one way in which a farm changes, and the way back.
//!
//! A step is what one act of the person did, however many things it touched. Steps are kept without end.

use super::{Edit, EditError, Farm, Touched};

/// A farm with every step that led to it.
#[derive(Debug, Clone)]
pub struct History {
    farm: Farm,
    steps: Vec<Step>,
    /// Steps that are in force; those after it were undone.
    done: usize,
    /// The step at which the farm was last saved; `None` once that step is out of reach.
    saved_at: Option<usize>,
}

#[derive(Debug, Clone)]
struct Step {
    label: String,
    edits: Vec<Edit>,
}

impl History {
    /// A farm as it was opened, with nothing to undo.
    pub fn new(farm: Farm) -> Self {
        Self {
            farm,
            steps: Vec::new(),
            done: 0,
            saved_at: Some(0),
        }
    }

    /// The farm as it stands.
    pub fn farm(&self) -> &Farm {
        &self.farm
    }

    /// Makes one step of `edits`, all or none; idle ones are dropped, and with none left nothing happens.
    ///
    /// # Errors
    /// Where an edit starts from something the farm does not hold; the farm is then as before.
    pub fn commit(&mut self, label: &str, edits: Vec<Edit>) -> Result<Touched, EditError> {
        let edits: Vec<Edit> = edits.into_iter().filter(|edit| !edit.is_idle()).collect();
        if edits.is_empty() {
            return Ok(Touched::default());
        }
        let touched = self.apply_all(&edits)?;
        self.steps.truncate(self.done);
        if self.saved_at.is_some_and(|saved| saved > self.done) {
            self.saved_at = None;
        }
        self.steps.push(Step {
            label: label.to_owned(),
            edits,
        });
        self.done += 1;
        Ok(touched)
    }

    /// Takes the last step back; its label and what it touched.
    pub fn undo(&mut self) -> Option<(String, Touched)> {
        let step = self.steps.get(self.done.checked_sub(1)?)?.clone();
        let back: Vec<Edit> = step.edits.iter().rev().map(Edit::reversed).collect();
        let touched = self.apply_all(&back).ok()?;
        self.done -= 1;
        Some((step.label, touched))
    }

    /// Makes the next undone step again; its label and what it touched.
    pub fn redo(&mut self) -> Option<(String, Touched)> {
        let step = self.steps.get(self.done)?.clone();
        let touched = self.apply_all(&step.edits).ok()?;
        self.done += 1;
        Some((step.label, touched))
    }

    /// What undo would take back.
    pub fn undo_label(&self) -> Option<&str> {
        self.steps
            .get(self.done.checked_sub(1)?)
            .map(|step| step.label.as_str())
    }

    /// What redo would make again.
    pub fn redo_label(&self) -> Option<&str> {
        self.steps.get(self.done).map(|step| step.label.as_str())
    }

    /// Steps in force.
    pub fn steps_done(&self) -> usize {
        self.done
    }

    /// Notes that the farm as it stands is on disk.
    pub fn mark_saved(&mut self) {
        self.saved_at = Some(self.done);
    }

    /// Notes that what is on disk is no longer this farm (an imported or recovered one was never saved).
    pub fn mark_unsaved(&mut self) {
        self.saved_at = None;
    }

    /// Whether the farm differs from what was last saved.
    pub fn is_unsaved(&self) -> bool {
        self.saved_at != Some(self.done)
    }

    fn apply_all(&mut self, edits: &[Edit]) -> Result<Touched, EditError> {
        let mut touched = Touched::default();
        let next_id_before = self.farm.next_id;
        for (count, edit) in edits.iter().enumerate() {
            if let Err(error) = edit.apply(&mut self.farm, &mut touched) {
                for done in edits.iter().take(count).rev() {
                    // Taking back what was just applied cannot be stale.
                    let taken_back = done.reversed().apply(&mut self.farm, &mut touched);
                    debug_assert!(taken_back.is_ok(), "an applied edit is taken back");
                }
                // Numbers of a refused step were never seen by anyone, so none is used up.
                self.farm.next_id = next_id_before;
                return Err(error);
            }
        }
        touched.ground.sort_unstable();
        touched.ground.dedup();
        Ok(touched)
    }
}
