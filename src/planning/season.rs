//! A problem whose values make sense, with every date turned into a day number: what the planner works on.
//!
//! Day 0 is the problem's first day. Units as in [`super::problem`]. Knows nothing of how plans are found.

mod compile;

use crate::farm::GrowthShape;
use crate::quantity::Day;

use super::problem::Weights;

/// Where a mob stands on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// Not on the farm.
    Away,
    /// In its yard, on no strip.
    Yard,
    /// On the strip with this index.
    Strip(usize),
}

/// A checked problem by day numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct Season {
    /// Day 0.
    pub first_day: Day,
    /// Number of days planned.
    pub n_days: usize,
    /// Growth on each day, kg DM/ha.
    pub growth: Vec<f64>,
    /// How growth hangs on the cover that stands.
    pub growth_shape: GrowthShape,
    /// Rest owed by a spell that ends on each day, days.
    pub rest: Vec<f64>,
    /// The longest spell, days.
    pub longest_stay: usize,
    /// The strips, in the problem's order.
    pub strips: Vec<SeasonStrip>,
    /// The mobs, in the problem's order.
    pub mobs: Vec<SeasonMob>,
    /// Decisions made or lived, in the problem's order; those outside the season are kept, to be reported.
    pub fixed: Vec<SeasonFixed>,
    /// What each figure counts.
    pub weights: Weights,
}

/// One strip of a season.
#[derive(Debug, Clone, PartialEq)]
pub struct SeasonStrip {
    /// Its name.
    pub name: String,
    /// Net area, ha.
    pub area: f64,
    /// Cover on the morning of day 0, kg DM/ha.
    pub cover: f64,
    /// Residual, kg DM/ha.
    pub leave: f64,
    /// Least cover on the first day of a spell, kg DM/ha.
    pub enter: f64,
    /// Cover at which growth stops, kg DM/ha.
    pub ceiling: f64,
    /// Multiplies the season's growth.
    pub growth_factor: f64,
    /// Its middle, m.
    pub at: [f64; 2],
    /// Days already stood by the spell that runs into day 0; 0 for none.
    pub stood_days: usize,
    /// The last spell before day 0, if one is remembered: days rested since, and rest owed.
    pub former: Option<FormerSpell>,
    /// Cover wanted at the end, kg DM/ha.
    pub end_cover: Option<f64>,
    /// Whether the strip is closed on each day.
    pub closed: Vec<bool>,
}

/// The spell of a strip before day 0 (for a running spell, as if it had ended on day -1).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FormerSpell {
    /// Full days of rest before day 0.
    pub rested: usize,
    /// Rest owed, days.
    pub owed: f64,
}

/// One mob of a season.
#[derive(Debug, Clone, PartialEq)]
pub struct SeasonMob {
    /// Its name.
    pub name: String,
    /// Whether it is on the farm on each day.
    pub present: Vec<bool>,
    /// Whether a visit begins on each day (day 0 for a visit that runs in from before).
    pub starts: Vec<bool>,
    /// Demand on each day, kg DM; 0 while away.
    pub demand: Vec<f64>,
    /// Its yard, m.
    pub yard: [f64; 2],
    /// Where it stood on day -1: a strip or the yard.
    pub stood: Place,
}

/// A fixed or lived day by numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SeasonFixed {
    /// The mob's index.
    pub mob: usize,
    /// The day number; may lie outside the season.
    pub day: i64,
    /// The strip or the yard.
    pub place: Place,
    /// Whether it has been lived.
    pub lived: bool,
}

/// Where every mob stands on every day of a season: by mob, then by day.
pub type Stands = Vec<Vec<Place>>;

impl Season {
    /// The date of a day number.
    pub fn date(&self, day: usize) -> Day {
        self.first_day
            .plus_days(i64::try_from(day).unwrap_or(i64::MAX))
    }

    /// The day number of a date inside the season.
    pub fn day_number(&self, day: Day) -> Option<usize> {
        let number = usize::try_from(day.days_since(self.first_day)).ok()?;
        (number < self.n_days).then_some(number)
    }

    /// The place on the map of where a mob stands: a strip's middle, else the mob's yard.
    pub fn spot(&self, mob: &SeasonMob, place: Place) -> [f64; 2] {
        match place {
            Place::Strip(index) => self.strips.get(index).map_or(mob.yard, |strip| strip.at),
            Place::Yard | Place::Away => mob.yard,
        }
    }

    /// The place that a mob comes from on a day: where it stood, or its yard on the first day of a visit.
    pub fn comes_from(&self, mob: &SeasonMob, stands: &[Place], day: usize) -> Place {
        if mob.starts.get(day).copied().unwrap_or(true) {
            return if day == 0 { mob.stood } else { Place::Yard };
        }
        day.checked_sub(1)
            .and_then(|before| stands.get(before))
            .copied()
            .unwrap_or(Place::Yard)
    }

    /// Every mob in its yard on each day of its visits.
    pub fn all_in_yard(&self) -> Stands {
        let places = |mob: &SeasonMob| {
            let place = |&here: &bool| if here { Place::Yard } else { Place::Away };
            mob.present.iter().map(place).collect()
        };
        self.mobs.iter().map(places).collect()
    }

    /// The name of a place: a strip's name, `the yard` or `away`.
    pub fn place_name(&self, place: Place) -> &str {
        match place {
            Place::Strip(index) => self.strips.get(index).map_or("?", |strip| &strip.name),
            Place::Yard => "the yard",
            Place::Away => "away",
        }
    }
}

/// The straight distance between two places, m.
pub fn distance_m(from: [f64; 2], to: [f64; 2]) -> f64 {
    // Square root and products are exact to the last bit everywhere, which `hypot` is not.
    let (east, north) = (to[0] - from[0], to[1] - from[1]);
    (east * east + north * north).sqrt()
}
