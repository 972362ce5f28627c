//! The planning problem as plain data: what a season of moves is planned from.
//!
//! Holds values only; whether they make sense is asked of [`super::Season::compile`]. Knows no file format.
//! Areas are hectares, masses kilograms of dry matter (per hectare for cover), places metres on the local plane.

use crate::farm::GrowthShape;
use crate::quantity::Day;

/// The longest season that is planned, in days: ten years.
pub const MOST_DAYS: u32 = 3_660;
/// The most strips in one problem.
pub const MOST_STRIPS: usize = 2_000;
/// The most mobs in one problem.
pub const MOST_MOBS: usize = 100;
/// The most strips times days in one problem, so that a plan always fits in memory and on disk.
pub const MOST_STRIP_DAYS: usize = 1_000_000;

/// A season to be planned.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Day 0.
    pub first_day: Day,
    /// Number of days planned, at least 1.
    pub days: u32,
    /// Net growth of herbage, kg DM/ha/day, holding from each date on.
    pub growth: Vec<Step>,
    /// How growth hangs on the cover that stands.
    pub growth_shape: GrowthShape,
    /// Rest owed after a spell, days, looked up on the spell's last day.
    pub rest_days: Vec<Step>,
    /// The longest spell on one strip, days.
    pub longest_stay_days: u32,
    /// The strips, in the order in which they are shown.
    pub strips: Vec<ProblemStrip>,
    /// The mobs; those that share a strip eat in this order.
    pub mobs: Vec<ProblemMob>,
    /// Decisions already made or lived.
    pub fixed: Vec<FixedDay>,
    /// What each figure counts in the score.
    pub weights: Weights,
}

/// A value that holds from a date on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// The first day on which the value holds.
    pub from: Day,
    /// The value, in the unit of its list.
    pub value: f64,
}

/// Days from `first` to `last`, both included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DaySpan {
    /// The first day of the span.
    pub first: Day,
    /// The last day of the span.
    pub last: Day,
}

/// One strip of the problem.
#[derive(Debug, Clone, PartialEq)]
pub struct ProblemStrip {
    /// Its name, unique among strips.
    pub name: String,
    /// Net grazable area, ha, above 0.
    pub area_ha: f64,
    /// Herbage mass on the morning of day 0, kg DM/ha.
    pub cover: f64,
    /// Mass below which no mob grazes, kg DM/ha.
    pub leave: f64,
    /// Least mass on the first day of a spell, kg DM/ha; `leave` where absent.
    pub enter: Option<f64>,
    /// Mass at which net growth stops, kg DM/ha.
    pub ceiling: f64,
    /// Multiplies the problem's growth.
    pub growth_factor: f64,
    /// Its middle, east and north, m.
    pub at: [f64; 2],
    /// Full days since its last spell ended, before day 0; absent: long rested.
    pub rested_days: Option<u32>,
    /// Length so far of the spell that runs into day 0, days.
    pub stood_days: Option<u32>,
    /// Mass wanted on the morning after the last day, kg DM/ha.
    pub end_cover: Option<f64>,
    /// Rest owed by the last or running spell if it ended before day 0, days; the problem's where absent.
    pub rest_owed_days: Option<f64>,
    /// Days on which no animal may stand here.
    pub closed: Vec<DaySpan>,
}

/// One mob of the problem.
#[derive(Debug, Clone, PartialEq)]
pub struct ProblemMob {
    /// Its name, unique among mobs.
    pub name: String,
    /// The days on which it is on the farm; no two overlap.
    pub visits: Vec<DaySpan>,
    /// The strip on which it stood on the day before day 0; absent: the yard.
    pub stood: Option<String>,
    /// What the whole mob eats, kg DM/day.
    pub demand: Vec<Step>,
    /// Where it stands when on no strip, east and north, m.
    pub yard: [f64; 2],
}

/// A day of a mob that is already decided or lived.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FixedDay {
    /// The mob's name.
    pub mob: String,
    /// The day.
    pub day: Day,
    /// The strip's name; absent: the yard.
    pub strip: Option<String>,
    /// Whether the day has been lived, which makes it a fact.
    pub lived: bool,
}

/// What each figure counts in the score, in kg DM each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weights {
    /// Per kilogram of demand not met by grazing.
    pub short: f64,
    /// Per kilogram of growth lost at the ceiling.
    pub lost: f64,
    /// Per metre walked.
    pub walk_per_m: f64,
    /// Per move.
    pub move_each: f64,
    /// Per kilogram missing from the wanted end cover.
    pub bare: f64,
}

impl Default for Weights {
    fn default() -> Self {
        Self {
            short: 1.0,
            lost: 0.05,
            walk_per_m: 0.01,
            move_each: 0.0,
            bare: 0.2,
        }
    }
}
