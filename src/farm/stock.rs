//! The animals: mobs of sheep with their visits, and hen houses with the lines they walk.
//!
//! Knows nothing of where a plan puts them. Kilograms, metres, head.

use super::{GroundId, MobChange, StockClass};
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
}

/// Days on the farm, both included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Visit {
    /// First day.
    pub from: Day,
    /// Last day.
    pub to: Day,
}

/// A hen house that moves along lines, one place at a time.
#[derive(Debug, Clone, PartialEq)]
pub struct HenHouse {
    /// What the grower calls it.
    pub name: String,
    /// Hens in it.
    pub hens: u32,
    /// Length of the house with its run along the line, metres.
    pub length_m: f64,
    /// Width of the house with its run across the line, metres.
    pub width_m: f64,
    /// Ground left between one place and the next, metres.
    pub gap_m: f64,
    /// The lines it walks, in order; each a tree line, hedge or fence.
    pub lines: Vec<GroundId>,
    /// Which side of the line, looking along it.
    pub side: LineSide,
    /// Metres from the line to the middle of the house.
    pub offset_m: f64,
    /// The day it stands on the first place of the first line.
    pub first_day: Day,
    /// The last day it walks; the season's end where absent.
    pub last_day: Option<Day>,
    /// Days on one place, 1 or more.
    pub days_per_place: u32,
    /// Rest the ground should have before the hens come back, days.
    pub rest_days_wanted: u32,
}

/// A side of a line, looking along it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineSide {
    /// To the left.
    Left,
    /// To the right.
    Right,
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

impl HenHouse {
    /// Ground under house and run, square metres.
    pub fn place_m2(&self) -> f64 {
        self.length_m * self.width_m
    }
}
