//! One change to the farm: what was there and what is there now.
//!
//! Adding, changing and removing are one shape; undo is the swap. Knows nothing of labels or order: see `history`.

use thiserror::Error;

use super::{
    Courses, Farm, FixedPlace, Ground, GroundId, HenHouse, HenHouseId, Mob, MobId, Season, Sward,
};
use crate::geometry::GroundFrame;
use crate::quantity::Day;

/// One thing before and after; `None` is "not there".
#[derive(Debug, Clone, PartialEq)]
pub enum Edit {
    /// A piece of ground.
    Ground {
        /// Which.
        id: GroundId,
        /// Before.
        old: Option<Box<Ground>>,
        /// After.
        new: Option<Box<Ground>>,
    },
    /// A mob.
    Mob {
        /// Which.
        id: MobId,
        /// Before.
        old: Option<Box<Mob>>,
        /// After.
        new: Option<Box<Mob>>,
    },
    /// A hen house.
    HenHouse {
        /// Which.
        id: HenHouseId,
        /// Before.
        old: Option<Box<HenHouse>>,
        /// After.
        new: Option<Box<HenHouse>>,
    },
    /// A settled day.
    Fixed {
        /// Whose day.
        key: (MobId, Day),
        /// Before.
        old: Option<FixedPlace>,
        /// After.
        new: Option<FixedPlace>,
    },
    /// The sward.
    Sward {
        /// Before.
        old: Box<Sward>,
        /// After.
        new: Box<Sward>,
    },
    /// The season.
    Season {
        /// Before.
        old: Season,
        /// After.
        new: Season,
    },
    /// The course of crops.
    Course {
        /// Before.
        old: Box<Courses>,
        /// After.
        new: Box<Courses>,
    },
    /// Name and note of the farm.
    About {
        /// Name and note before.
        old: (String, String),
        /// Name and note after.
        new: (String, String),
    },
    /// Where the plane touches the earth.
    Frame {
        /// Before.
        old: GroundFrame,
        /// After.
        new: GroundFrame,
    },
}

/// Why a change was not made; the farm is as it was.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum EditError {
    /// The farm no longer holds what the change started from.
    #[error("{what} has changed meanwhile: nothing was done, try again from what is there now")]
    Stale {
        /// The thing, in words.
        what: String,
    },
}

/// What a change touched, so that derived things know what to renew.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Touched {
    /// Pieces of ground, in order.
    pub ground: Vec<GroundId>,
    /// Whether stock, sward, season or settled days changed.
    pub season: bool,
}

impl Edit {
    /// Adds a piece of ground.
    pub fn add_ground(id: GroundId, ground: Ground) -> Self {
        Self::Ground {
            id,
            old: None,
            new: Some(Box::new(ground)),
        }
    }

    /// Changes a piece of ground.
    pub fn change_ground(id: GroundId, old: &Ground, new: Ground) -> Self {
        Self::Ground {
            id,
            old: Some(Box::new(old.clone())),
            new: Some(Box::new(new)),
        }
    }

    /// Removes a piece of ground.
    pub fn remove_ground(id: GroundId, old: &Ground) -> Self {
        Self::Ground {
            id,
            old: Some(Box::new(old.clone())),
            new: None,
        }
    }

    /// Changes the course of crops.
    pub fn change_course(old: &Courses, new: Courses) -> Self {
        Self::Course {
            old: Box::new(old.clone()),
            new: Box::new(new),
        }
    }

    /// The change that takes this one back.
    #[must_use]
    pub fn reversed(&self) -> Self {
        let mut edit = self.clone();
        match &mut edit {
            Self::Ground { old, new, .. } => std::mem::swap(old, new),
            Self::Mob { old, new, .. } => std::mem::swap(old, new),
            Self::HenHouse { old, new, .. } => std::mem::swap(old, new),
            Self::Fixed { old, new, .. } => std::mem::swap(old, new),
            Self::Sward { old, new } => std::mem::swap(old, new),
            Self::Season { old, new } => std::mem::swap(old, new),
            Self::Course { old, new } => std::mem::swap(old, new),
            Self::About { old, new } => std::mem::swap(old, new),
            Self::Frame { old, new } => std::mem::swap(old, new),
        }
        edit
    }

    /// Whether nothing would change.
    pub fn is_idle(&self) -> bool {
        match self {
            Self::Ground { old, new, .. } => old == new,
            Self::Mob { old, new, .. } => old == new,
            Self::HenHouse { old, new, .. } => old == new,
            Self::Fixed { old, new, .. } => old == new,
            Self::Sward { old, new } => old == new,
            Self::Season { old, new } => old == new,
            Self::Course { old, new } => old == new,
            Self::About { old, new } => old == new,
            Self::Frame { old, new } => old == new,
        }
    }

    /// Makes the change.
    ///
    /// # Errors
    /// Refuses where the farm does not hold what the change started from; the farm is then untouched.
    pub(super) fn apply(&self, farm: &mut Farm, touched: &mut Touched) -> Result<(), EditError> {
        let swapped = match self {
            Self::Ground { id, old, new } => {
                touched.ground.push(*id);
                swap_in(&mut farm.ground, *id, old.as_deref(), new.as_deref())
            }
            Self::Mob { id, old, new } => {
                swap_in(&mut farm.mobs, *id, old.as_deref(), new.as_deref())
            }
            Self::HenHouse { id, old, new } => {
                swap_in(&mut farm.hen_houses, *id, old.as_deref(), new.as_deref())
            }
            Self::Fixed { key, old, new } => {
                swap_in(&mut farm.fixed, *key, old.as_ref(), new.as_ref())
            }
            Self::Sward { old, new } => replace(&mut farm.sward, old, new),
            Self::Season { old, new } => replace(&mut farm.season, old, new),
            Self::Course { old, new } => replace(&mut farm.course, old, new),
            Self::About { old, new } => {
                let mut about = (farm.name.clone(), farm.note.clone());
                let done = replace(&mut about, old, new);
                (farm.name, farm.note) = about;
                done
            }
            Self::Frame { old, new } => replace(&mut farm.frame, old, new),
        };
        touched.season |= !matches!(self, Self::Ground { .. } | Self::About { .. });
        if !swapped {
            return Err(EditError::Stale { what: self.what() });
        }
        if let Some(number) = self.number() {
            farm.next_id = farm.next_id.max(number.saturating_add(1));
        }
        Ok(())
    }

    /// The number of the thing, where things of its sort are numbered.
    fn number(&self) -> Option<u32> {
        match self {
            Self::Ground { id, .. } => Some(id.0),
            Self::Mob { id, .. } => Some(id.0),
            Self::HenHouse { id, .. } => Some(id.0),
            _ => None,
        }
    }

    fn what(&self) -> String {
        match self {
            Self::Ground { old, new, .. } => {
                let name = old
                    .as_ref()
                    .or(new.as_ref())
                    .map_or("", |ground| ground.name.as_str());
                format!("the ground \"{name}\"")
            }
            Self::Mob { .. } => "the mob".to_owned(),
            Self::HenHouse { .. } => "the hen house".to_owned(),
            Self::Fixed { key, .. } => format!("the settled day {}", key.1),
            Self::Sward { .. } => "the sward".to_owned(),
            Self::Season { .. } => "the season".to_owned(),
            Self::Course { .. } => "the course".to_owned(),
            Self::About { .. } => "the farm's name".to_owned(),
            Self::Frame { .. } => "the farm's place on the earth".to_owned(),
        }
    }
}

fn swap_in<K: Ord, V: Clone + PartialEq>(
    map: &mut std::collections::BTreeMap<K, V>,
    key: K,
    old: Option<&V>,
    new: Option<&V>,
) -> bool {
    if map.get(&key) != old {
        return false;
    }
    match new {
        Some(value) => map.insert(key, value.clone()),
        None => map.remove(&key),
    };
    true
}

fn replace<V: Clone + PartialEq>(slot: &mut V, old: &V, new: &V) -> bool {
    if slot != old {
        return false;
    }
    slot.clone_from(new);
    true
}
