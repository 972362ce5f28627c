//! The course of crops: which plot and tunnel carries what in which year, and the grower's own figures of crops.
//!
//! Holds what was said, not what follows from it: see `cells` for the table of plots by years, `crop_table` for the
//! figures of the trade, `intervals` for how long a family stays away. Knows nothing of plans.

mod area_sums;
mod cells;
mod crop_table;
mod family;
mod harvest_rule;
mod intervals;
mod outlook;
mod words;

use std::collections::BTreeMap;

pub use area_sums::{YearAreas, year_areas};
pub use cells::{Cell, cell_at, course_grounds, course_years, uses_at};
pub use crop_table::{
    CROP_SOURCE, CROPS, Contact, CropFigures, CropRow, OwnCrop, Raised, crop_figures,
};
pub use family::Family;
pub use harvest_rule::{HarvestRule, HarvestWait, OwnWait, RULES_DEFER, RuleFacts};
pub use intervals::{INTERVALS, Interval, interval_of};
pub use outlook::{CourseFinding, course_findings};
pub use words::{use_from_words, use_words};

use super::GroundId;

/// Everything that was said of crops through the years.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Courses {
    /// First year of the table; the season's year where absent.
    pub first_year: Option<i16>,
    /// Years of the table, 1 to [`Courses::MOST_YEARS`]; [`Courses::USUAL_YEARS`] where absent.
    pub years: Option<u8>,
    /// The courses; no piece of ground is in two.
    pub courses: Vec<Course>,
    /// What was changed by hand, by ground, year and crop of the year (0 the main one).
    pub by_hand: BTreeMap<(GroundId, i16, u8), Use>,
    /// Years that a ley should lie; [`Courses::USUAL_LEY_YEARS`] where absent.
    pub ley_years_wanted: Option<u8>,
    /// Own years from crop to crop of a family.
    pub own_intervals: BTreeMap<Family, u8>,
    /// The soil's pH where it was measured.
    pub soil_ph: BTreeMap<GroundId, f64>,
    /// Own figures of crops, by the crop's name.
    pub own_crops: BTreeMap<String, OwnCrop>,
    /// The rule by which animals wait for a harvest.
    pub harvest_rule: HarvestRule,
    /// The waits of [`HarvestRule::Own`].
    pub own_wait: OwnWait,
    /// Days between the last animals and sowing, for clearing the ground; [`Courses::USUAL_CLEAR_DAYS`] where absent.
    pub clear_days: Option<u16>,
}

/// A course of some steps that plots or tunnels go through, one step a year.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// What the grower calls it.
    pub name: String,
    /// The steps, one at least.
    pub steps: Vec<CourseStep>,
    /// The year in which each place is at its start.
    pub first_year: i16,
    /// How it turns from year to year.
    pub turn: Turn,
    /// Whether every step should have its place each year (a plot each, or as evenly as the numbers allow).
    pub is_one_each: bool,
    /// The step, from 0, at which each plot or tunnel is in `first_year`.
    pub starts: BTreeMap<GroundId, u8>,
}

/// What grows in one year of a course: the main crop, then winter, catch and further crops.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CourseStep {
    /// In the order in which they stand; at most [`Courses::MOST_CROPS_A_YEAR`].
    pub uses: Vec<Use>,
}

/// How a course goes on from one year to the next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Turn {
    /// Every year each plot takes the next step.
    NextStep,
    /// Every year each crop moves on one tunnel, so that each tunnel takes the step before its own.
    CropsMoveOn,
}

/// What a piece of ground is used for in a year.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Use {
    /// Nothing was said.
    #[default]
    Unsaid,
    /// A crop.
    Crop {
        /// What the grower calls it.
        name: String,
        /// The family it belongs to.
        family: Family,
    },
    /// Grass, clover and herbs; the year of the ley where it does not follow from the years before.
    Ley {
        /// 1 in its first year.
        year: Option<u8>,
    },
    /// Bare or stubble.
    Fallow,
    /// A green manure or cover crop.
    Cover(String),
}

impl Courses {
    /// The longest table.
    pub const MOST_YEARS: u8 = 40;
    /// Years of the table where none were said.
    pub const USUAL_YEARS: u8 = 8;
    /// The longest course.
    pub const MOST_STEPS: usize = 40;
    /// Crops that may follow each other on one piece of ground in a year.
    pub const MOST_CROPS_A_YEAR: u8 = 4;
    /// Years that a ley lies where none were said (leys commonly lie 2 to 4 years: common practice, no source).
    pub const USUAL_LEY_YEARS: u8 = 2;
    /// Days to break a sward or clear ground before sowing where none were said (common practice, no source).
    pub const USUAL_CLEAR_DAYS: u16 = 28;

    /// Years that a ley should lie.
    pub fn ley_years(&self) -> u8 {
        self.ley_years_wanted.unwrap_or(Self::USUAL_LEY_YEARS)
    }

    /// Days between the last animals and sowing.
    pub fn days_to_clear(&self) -> u16 {
        self.clear_days.unwrap_or(Self::USUAL_CLEAR_DAYS)
    }

    /// The course that a piece of ground is in.
    pub fn course_of(&self, ground: GroundId) -> Option<&Course> {
        self.courses
            .iter()
            .find(|course| course.starts.contains_key(&ground))
    }
}

impl Course {
    /// The step at which a piece of ground is in a year, from 0.
    pub fn step_index(&self, ground: GroundId, year: i16) -> Option<usize> {
        let count = i32::try_from(self.steps.len())
            .ok()
            .filter(|count| *count > 0)?;
        let start = i32::from(*self.starts.get(&ground)?);
        let gone = i32::from(year) - i32::from(self.first_year);
        let place = match self.turn {
            Turn::NextStep => start + gone,
            Turn::CropsMoveOn => start - gone,
        };
        usize::try_from(place.rem_euclid(count)).ok()
    }

    /// The step itself.
    pub fn step(&self, ground: GroundId, year: i16) -> Option<&CourseStep> {
        self.steps.get(self.step_index(ground, year)?)
    }
}

impl Turn {
    /// What it does, in a sentence.
    pub const fn words(self) -> &'static str {
        match self {
            Self::NextStep => "every year each plot takes the next step",
            Self::CropsMoveOn => "every year each crop moves on one tunnel",
        }
    }
}

impl Use {
    /// Whether a crop stands here.
    pub const fn is_crop(&self) -> bool {
        matches!(self, Self::Crop { .. })
    }

    /// The family of the crop.
    pub const fn family(&self) -> Option<Family> {
        match self {
            Self::Crop { family, .. } => Some(*family),
            _ => None,
        }
    }
}
