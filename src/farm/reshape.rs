//! Acts that reshape ground and keep its neighbours true: mending, joining, setting back, holes, mirroring, turning.
//!
//! Each gives the edits of one step, or a sentence that says why not; none changes the farm. Metres, degrees.

mod band;
mod headland;
mod holes;
mod join;
mod mend;
mod share_corners;
mod split;
mod strips_follow;
mod tidied;
mod turning;

use std::collections::BTreeSet;

pub use band::keep_out_round;
pub use headland::{HeadlandBecomes, HeadlandWish, headland};
pub use holes::{HoleFill, cut_out, hole_drawn, holes_filled};
pub use join::join;
pub use mend::{MendChoice, mends};
pub use share_corners::{neighbours_follow, with_shared_corners};
pub use split::split_along;
pub use turning::{mirrored_across, turned_about};

use super::{Edit, Farm, GroundId, Shape};
use crate::geometry::{geodesic, validity};

/// One act, ready to be committed.
#[derive(Debug, Clone, PartialEq)]
pub struct Reshaped {
    /// What undo calls it.
    pub label: String,
    /// The edits of the step.
    pub edits: Vec<Edit>,
    /// What is selected afterwards.
    pub select: BTreeSet<GroundId>,
}

/// The area of a piece before and after an act, square metres; `None` where it is not there.
#[derive(Debug, Clone, PartialEq)]
pub struct AreaChange {
    /// Which piece.
    pub id: GroundId,
    /// Its name.
    pub name: String,
    /// Before.
    pub before_m2: Option<f64>,
    /// After.
    pub after_m2: Option<f64>,
}

/// Whether the ground that an edit leaves has a sound outline.
fn leaves_sound(edit: &Edit) -> bool {
    let Edit::Ground { new: Some(new), .. } = edit else {
        return true;
    };
    let faults = new.outline().map(validity::faults).unwrap_or_default();
    faults.iter().all(|fault| fault.kind.is_harmless())
}

impl Reshaped {
    /// The name of a locked piece that the act would change or take away; a corner put into its side, as a neighbour's
    /// cut does, leaves it where it is.
    pub fn locked(&self) -> Option<&str> {
        self.edits.iter().find_map(|edit| match edit {
            Edit::Ground {
                old: Some(old),
                new,
                ..
            } if old.is_locked => {
                let kept = new
                    .as_ref()
                    .is_some_and(|new| has_all_corners(&new.shape, &old.shape));
                (!kept).then_some(old.name.as_str())
            }
            _ => None,
        })
    }

    /// Areas that come, go or change by more than a square centimetre, in the order of the ground's numbers.
    pub fn area_changes(&self, farm: &Farm) -> Vec<AreaChange> {
        let mut changes: Vec<AreaChange> = self
            .edits
            .iter()
            .filter_map(|edit| match edit {
                Edit::Ground { id, old, new } => Some((*id, old, new)),
                _ => None,
            })
            .map(|(id, old, new)| {
                let area_m2 = |ground: &Option<Box<super::Ground>>| {
                    let outline = ground.as_ref()?.outline()?;
                    Some(geodesic::area_m2(farm.frame, outline))
                };
                let named = new.as_ref().or(old.as_ref());
                AreaChange {
                    id,
                    name: named.map_or_else(String::new, |ground| ground.name.clone()),
                    before_m2: area_m2(old),
                    after_m2: area_m2(new),
                }
            })
            .filter(|change| match (change.before_m2, change.after_m2) {
                (Some(before_m2), Some(after_m2)) => (after_m2 - before_m2).abs() > 1e-4,
                (None, None) => false,
                _ => true,
            })
            .collect();
        changes.sort_by_key(|change| change.id);
        changes
    }
}

/// Whether the corners of `old` all stand in `new`, in their order.
fn has_all_corners(new: &Shape, old: &Shape) -> bool {
    let mut left = new.corners().into_iter();
    old.corners()
        .into_iter()
        .all(|corner| left.any(|other| other == corner))
        && same_ground(new, old)
}

fn same_ground(new: &Shape, old: &Shape) -> bool {
    match (new, old) {
        (Shape::Area(new), Shape::Area(old)) => (new.area_m2() - old.area_m2()).abs() < 1e-3,
        _ => true,
    }
}
