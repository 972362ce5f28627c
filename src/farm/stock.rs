//! The sheep: mobs with their visits.
//!
//! Knows nothing of where a plan puts them. Kilograms, head.

use super::{MobChange, MobId, StockClass};
use crate::geometry::Point;
use crate::quantity::Day;

/// Sheep that move as one.
#[derive(Debug, Clone, PartialEq)]
pub struct Mob {
    /// What the grower calls them.
    pub name: String,
    /// What they are.
    pub class: StockClass,
    /// Grown head; lambs at foot are not counted.
    pub head: u32,
    /// Mean liveweight of one head, kg.
    pub liveweight_kg: f64,
    /// What one head eats a day, kg DM; the class's share of liveweight where absent.
    pub eats_kg_per_head: Option<f64>,
    /// What one head gains a day from its first day here on, g; below 0 where it loses.
    pub gain_g_per_day: f64,
    /// The middle of lambing, for ewes with lambs: their appetite falls off some weeks later.
    pub lambed_on: Option<Day>,
    /// What they become later, in order of day.
    pub changes: Vec<MobChange>,
    /// The days on which they are here, in order, not overlapping.
    pub visits: Vec<Visit>,
    /// Where they stand when on no strip; the middle of the farm's ground where absent.
    pub yard: Option<Point>,
    /// The mob it comes behind, in place of a way of its own.
    pub follows: Option<ComesBehind>,
}

/// A mob that comes onto each strip when another leaves it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ComesBehind {
    /// The mob in front.
    pub mob: MobId,
    /// At most so many days after that one came onto the strip, 1 or more.
    pub days_after: u32,
}

impl ComesBehind {
    /// The most days behind that can be put in.
    pub const MOST_DAYS: u32 = 30;
}

/// Days on the farm, both included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Visit {
    /// First day.
    pub from: Day,
    /// Last day.
    pub to: Day,
}

impl Mob {
    /// What the whole mob eats on a day, kg DM.
    pub fn demand_kg(&self) -> f64 {
        f64::from(self.head) * self.eats_kg_each()
    }

    /// What one head eats a day, kg DM.
    pub fn eats_kg_each(&self) -> f64 {
        self.eats_kg_per_head
            .unwrap_or(self.liveweight_kg * self.class.facts().intake_share.value)
    }

    /// Whether they are on the farm on a day.
    pub fn is_here(&self, day: Day) -> bool {
        self.visits
            .iter()
            .any(|visit| (visit.from..=visit.to).contains(&day))
    }
}
