//! The numbers of the things in a file: each handed out once, and each that is named handed out at some time.
//!
//! A number that was handed out but is no longer there passes: the thing was removed, and a finding tells the grower.

use std::collections::BTreeMap;

use super::fault::{Fault, key};
use super::{Checked, SavedFarm};

/// Which number stands for what.
#[derive(Debug)]
pub(super) struct Numbers {
    what: BTreeMap<u32, Thing>,
    next_id: u32,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Thing {
    Ground,
    Mob,
    HenHouse,
}

impl Thing {
    const fn name(self) -> &'static str {
        match self {
            Self::Ground => "ground",
            Self::Mob => "a mob",
            Self::HenHouse => "a hen house",
        }
    }

    const fn field(self) -> &'static str {
        match self {
            Self::Ground => "ground",
            Self::Mob => "mobs",
            Self::HenHouse => "hen_houses",
        }
    }
}

impl Numbers {
    /// Gathers the numbers of a file.
    pub(super) fn of(saved: &SavedFarm) -> Checked<Self> {
        let mut numbers = Self {
            what: BTreeMap::new(),
            next_id: saved.next_id,
        };
        let things = saved.ground.0.keys().map(|id| (*id, Thing::Ground));
        let things = things.chain(saved.mobs.0.keys().map(|id| (*id, Thing::Mob)));
        let things = things.chain(saved.hen_houses.0.keys().map(|id| (*id, Thing::HenHouse)));
        for (id, thing) in things {
            numbers
                .add(id, thing)
                .map_err(|fault| fault.within(&[key(thing.field()), key(id)]))?;
        }
        Ok(numbers)
    }

    /// That ground of this number is or was there.
    pub(super) fn ground(&self, id: u32) -> Checked<()> {
        self.named(id, Thing::Ground)
    }

    /// That a mob of this number is or was there.
    pub(super) fn mob(&self, id: u32) -> Checked<()> {
        self.named(id, Thing::Mob)
    }

    fn add(&mut self, id: u32, thing: Thing) -> Checked<()> {
        if id == 0 || id >= self.next_id {
            return Err(Fault::new(
                format!(
                    "the number {id} is not from 1 to {}, below next_id",
                    self.next_id.saturating_sub(1)
                ),
                "give it another number, or raise next_id above every number in the file",
            ));
        }
        match self.what.insert(id, thing) {
            None => Ok(()),
            Some(other) => Err(Fault::new(
                format!("the number {id} is {} already", other.name()),
                "give one of them another number below next_id",
            )),
        }
    }

    fn named(&self, id: u32, wanted: Thing) -> Checked<()> {
        match self.what.get(&id) {
            Some(thing) if *thing == wanted => Ok(()),
            Some(other) => Err(Fault::new(
                format!("number {id} is {}, not {}", other.name(), wanted.name()),
                format!("write the number of {}", wanted.name()),
            )),
            // Handed out once and removed since.
            None if id != 0 && id < self.next_id => Ok(()),
            None => Err(Fault::new(
                format!("there is nothing with the number {id} in this file"),
                format!(
                    "write the number of {} that is there, or take this out",
                    wanted.name()
                ),
            )),
        }
    }
}
