//! A hen house: its size, the lines it walks, and everything that shapes its walk.
//!
//! Inputs only: where it stands on a day is derived. Metres, days, birds.

use std::collections::BTreeMap;

use super::{GroundId, MobId};
use crate::quantity::Day;

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
    /// Ground left between one place and the next, metres; below 0 the places overlap by so much.
    pub gap_m: f64,
    /// The lines it walks, in order: tree lines, hedges, fences; a ley or strip is walked in lanes.
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
    /// How it is towed, what stops it, what it follows and what is settled.
    pub handling: HenHandling,
}

/// What shapes the walk of a house besides its size and its lines.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HenHandling {
    /// Who orders the lines.
    pub line_order: LineOrder,
    /// Length of the house without its run, metres; that with the run where absent.
    pub house_length_m: Option<f64>,
    /// Width of the house without its run, metres; that with the run where absent. What is towed must pass by this.
    pub house_width_m: Option<f64>,
    /// Where it can be towed from.
    pub tow_side: TowSide,
    /// Radius of the turn of a house that is towed from one end, metres; the length of what is towed where absent.
    pub turn_radius_m: Option<f64>,
    /// The way of the lanes across a ley, degrees clockwise from north; along its longest side where absent.
    pub lane_bearing_deg: Option<f64>,
    /// Days on which it may not go on, or not stand along a line.
    pub stops: Vec<HenStop>,
    /// Stretches of its lines on which no place is laid, as the grower knows the ground.
    pub left_stretches: Vec<LeftStretch>,
    /// The last day with hens along a line before this walk began.
    pub left_on: BTreeMap<GroundId, Day>,
    /// The mob it follows, in place of lines of its own.
    pub follows: Option<FollowsSheep>,
    /// Birds and the room they want from a day on, in order of days; the house's hens before the first.
    pub flock_steps: Vec<FlockStep>,
    /// Days that were settled or went otherwise.
    pub marks: BTreeMap<Day, HenMark>,
}

/// A side of a line, looking along it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LineSide {
    /// To the left.
    Left,
    /// To the right.
    Right,
    /// Up one side and back along the other.
    Both,
}

/// Who orders the lines of a round.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LineOrder {
    /// The grower: as they are listed, each from its beginning.
    #[default]
    AsListed,
    /// The program: closed days first, then rest owed, then towing.
    Chosen,
}

/// Where a house can be towed from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum TowSide {
    /// From either end: it goes back the way it came without turning.
    #[default]
    BothEnds,
    /// From one end: to go back it is turned about.
    OneEnd,
}

/// Days on which the walk is held up, both included.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HenStop {
    /// First day.
    pub from: Day,
    /// Last day.
    pub to: Day,
    /// What may not be.
    pub kind: StopKind,
    /// Why, in the grower's words ("windfalls", "frost", "housing order").
    pub why: String,
}

/// What a stop forbids.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum StopKind {
    /// Hens are shut in: the house stays, and the ground outside rests.
    Housed,
    /// The house is not towed (frost, wet): hens range on where they are.
    NoTowing,
    /// No hens along this line (windfalls, harvest).
    KeepOff(GroundId),
}

/// A stretch of a line on which no place is laid: slopes and narrow spots are known to the grower alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeftStretch {
    /// The tree line, hedge or fence.
    pub line: GroundId,
    /// Where it begins, metres along the line from its beginning.
    pub from_m: f64,
    /// Where it ends, metres along the line from its beginning.
    pub to_m: f64,
    /// Why.
    pub why: StretchTrouble,
}

/// Why no place is laid on a stretch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StretchTrouble {
    /// The ground falls away too much to tow or to stand.
    Steep,
    /// There is no room for house and run.
    Narrow,
    /// Something else that the map does not hold.
    Other,
}

impl StretchTrouble {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Steep, Self::Narrow, Self::Other];

    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Steep => "too steep",
            Self::Narrow => "too narrow",
            Self::Other => "not to be used",
        }
    }
}

/// Hens that walk where a mob stood before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FollowsSheep {
    /// The mob.
    pub mob: MobId,
    /// So many days later.
    pub days_after: u32,
}

/// A flock from a day on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlockStep {
    /// The day.
    pub from: Day,
    /// Birds in the house.
    pub birds: u32,
    /// Ground each wants on a day, square metres.
    pub m2_each: f64,
}

/// A place of a house, whichever way a round is walked: the line, its side, and its number from the line's beginning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct HenSpot {
    /// The line, ley or strip.
    pub line: GroundId,
    /// The side of the line; left for lanes across a ley.
    pub side: LineSide,
    /// Number of the place along that side, or over all lanes, from 1.
    pub number: u32,
}

/// What was settled about a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HenMark {
    /// It stands on this place: fixed, or lived already.
    At {
        /// The place.
        spot: HenSpot,
        /// Whether it has been lived.
        lived: bool,
    },
    /// It was not moved: the walk is a day later from here on.
    Late,
    /// The place due on this day is left out: it goes on to the next.
    Skipped,
}

impl HenHandling {
    /// The widest turn that can be put in, metres.
    pub const WIDEST_TURN_M: f64 = 50.0;
}

impl HenHouse {
    /// Ground under house and run, square metres.
    pub fn place_m2(&self) -> f64 {
        self.length_m * self.width_m
    }

    /// Birds in it on a day.
    pub fn birds_on(&self, day: Day) -> u32 {
        self.flock_step_on(day).map_or(self.hens, |step| step.birds)
    }

    /// The step of a growing flock that holds on a day.
    pub fn flock_step_on(&self, day: Day) -> Option<&FlockStep> {
        let steps = &self.handling.flock_steps;
        steps
            .iter()
            .filter(|step| step.from <= day)
            .max_by_key(|step| step.from)
    }

    /// Width of what is towed, metres.
    pub fn towed_width_m(&self) -> f64 {
        self.handling.house_width_m.unwrap_or(self.width_m)
    }

    /// Length of what is towed, metres.
    pub fn towed_length_m(&self) -> f64 {
        self.handling.house_length_m.unwrap_or(self.length_m)
    }

    /// Radius of the circle it is turned about on, metres.
    pub fn turn_radius_m(&self) -> f64 {
        self.handling
            .turn_radius_m
            .unwrap_or_else(|| self.towed_length_m())
    }

    /// Metres that a place shares with the next one along it.
    pub fn overlap_m(&self) -> f64 {
        (-self.gap_m).max(0.0)
    }
}

impl HenStop {
    /// Whether it holds on a day.
    pub fn holds_on(&self, day: Day) -> bool {
        (self.from..=self.to).contains(&day)
    }
}
