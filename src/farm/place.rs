//! The farm itself: everything the grower has said, in ordered maps.
//!
//! Read freely; changed only through `History::commit`. Derived things (plans, measures) are not in here.

use std::collections::BTreeMap;

use super::{
    Courses, FixedPlace, Ground, GroundId, HenHouse, HenHouseId, Mob, MobId, Season, StockClass,
    Sward,
};
use crate::geometry::{GroundFrame, Point};
use crate::quantity::Day;

/// The document.
#[derive(Debug, Clone, PartialEq)]
pub struct Farm {
    /// Name of the farm.
    pub name: String,
    /// Anything to be said of the whole.
    pub note: String,
    /// Where the plane touches the earth.
    pub frame: GroundFrame,
    /// Everything drawn.
    pub ground: BTreeMap<GroundId, Ground>,
    /// The mobs.
    pub mobs: BTreeMap<MobId, Mob>,
    /// The hen houses.
    pub hen_houses: BTreeMap<HenHouseId, HenHouse>,
    /// How the grass grows.
    pub sward: Sward,
    /// What is planned.
    pub season: Season,
    /// Days already settled.
    pub fixed: BTreeMap<(MobId, Day), FixedPlace>,
    /// The course of crops.
    pub course: Courses,
    /// The next number to hand out; above every number used so far.
    pub next_id: u32,
}

impl Farm {
    /// An empty farm at `frame`, planned for half a year from `first_day`.
    pub fn new(name: impl Into<String>, frame: GroundFrame, first_day: Day) -> Self {
        Self {
            name: name.into(),
            note: String::new(),
            frame,
            ground: BTreeMap::new(),
            mobs: BTreeMap::new(),
            hen_houses: BTreeMap::new(),
            sward: Sward::default(),
            season: Season {
                first_day,
                days: 183,
                seed: 1,
            },
            fixed: BTreeMap::new(),
            course: Courses::default(),
            next_id: 1,
        }
    }

    /// The strips of a ley, in the order they were made.
    pub fn strips_of(&self, ley: GroundId) -> impl Iterator<Item = (GroundId, &Ground)> {
        self.ground
            .iter()
            .filter(move |(_, ground)| ground.within == Some(ley))
            .map(|(id, ground)| (*id, ground))
    }

    /// Rest owed after a spell that ends on a day: the sward's, or longer while lambs are here and worms want it.
    pub fn rest_days_on(&self, day: Day) -> u32 {
        let sward_days = self.sward.rest_days_on(day);
        match self.sward.lamb_rest_days {
            Some(days) if self.has_lambs_on(day) => sward_days.max(days),
            _ => sward_days,
        }
    }

    /// Whether any mob that is here on a day has lambs in it.
    pub fn has_lambs_on(&self, day: Day) -> bool {
        let mut here = self.mobs.values().filter(|mob| mob.is_here(day));
        here.any(|mob| {
            let class = mob.as_on(day).class;
            matches!(class, StockClass::EwesWithLambs | StockClass::Lambs)
        })
    }

    /// The residual of a piece of ground, kg DM/ha: its own, else the farm's.
    pub fn leave_on(&self, id: GroundId) -> f64 {
        let grazing = self
            .ground
            .get(&id)
            .and_then(|ground| ground.grazing.as_ref());
        grazing
            .and_then(|grazing| grazing.leave_kg_per_ha)
            .unwrap_or(self.sward.leave_kg_per_ha)
    }

    /// The first of `stem 1`, `stem 2` … that no ground is called yet.
    pub fn free_name(&self, stem: &str) -> String {
        let taken = |name: &str| self.ground.values().any(|ground| ground.name == name);
        (1..=self.ground.len() + 1)
            .map(|number| format!("{stem} {number}"))
            .find(|name| !taken(name))
            .unwrap_or_default()
    }

    /// The middle of everything drawn; the origin where nothing is.
    pub fn middle(&self) -> Point {
        let corners: Vec<Point> = self
            .ground
            .values()
            .flat_map(|ground| ground.shape.corners())
            .collect();
        let Some(first) = corners.first() else {
            return Point::default();
        };
        let (mut least, mut most) = (*first, *first);
        for corner in &corners {
            least = Point::new(
                least.east_m.min(corner.east_m),
                least.north_m.min(corner.north_m),
            );
            most = Point::new(
                most.east_m.max(corner.east_m),
                most.north_m.max(corner.north_m),
            );
        }
        least.between(most, 0.5)
    }
}
