//! What can be wrong with a planning problem's values: place, cause and remedy, one fault at a time.
//!
//! Knows nothing of files; a place is written as in the problem's text, like `strips[2].area_ha`.

use thiserror::Error;

use crate::quantity::Day;

/// The first fault found in a problem.
#[derive(Debug, Clone, PartialEq, Error)]
#[error("{place}: {cause}; {}", cause.remedy())]
pub struct ProblemFault {
    /// Where, like `strips[2].area_ha`.
    pub place: String,
    /// What is wrong there.
    pub cause: FaultCause,
}

/// What is wrong with a value of a problem.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum FaultCause {
    /// A figure outside what the planner understands.
    #[error("{value} is not between {low} and {high}")]
    OutOfRange {
        /// The figure given.
        value: f64,
        /// The least understood.
        low: f64,
        /// The most understood.
        high: f64,
    },
    /// A figure that must be above zero.
    #[error("{value} is not above 0")]
    NotAboveZero {
        /// The figure given.
        value: f64,
    },
    /// Not a finite number.
    #[error("the figure is not a number")]
    NotFinite,
    /// More days than are planned.
    #[error("{days} days are asked for and at most {most} are planned")]
    TooManyDays {
        /// The days asked for.
        days: u64,
        /// The most.
        most: u32,
    },
    /// More entries than are planned.
    #[error("{count} {what} are given and at most {most} are planned")]
    TooMany {
        /// What there is too much of.
        what: &'static str,
        /// How many were given.
        count: usize,
        /// The most.
        most: usize,
    },
    /// Nothing to plan with.
    #[error("no {what} is given")]
    None {
        /// What is wanting.
        what: &'static str,
    },
    /// A season that runs past the calendar's last day.
    #[error("the season runs past the last day of the calendar")]
    PastCalendar,
    /// Dates that do not rise.
    #[error("{day} does not come after {before}")]
    Unsorted {
        /// The date at fault.
        day: Day,
        /// The date before it in the list.
        before: Day,
    },
    /// A list of steps whose first value comes too late.
    #[error("the first value holds from {first} and one is needed by {needed}")]
    StartsLate {
        /// From when a value is given.
        first: Day,
        /// By when one is needed.
        needed: Day,
    },
    /// A span that ends before it begins.
    #[error("the span ends on {last}, before it begins on {first}")]
    SpanBackwards {
        /// First day.
        first: Day,
        /// Last day.
        last: Day,
    },
    /// Visits that overlap.
    #[error("this visit overlaps visits[{other}]")]
    Overlap {
        /// The index of the visit that it overlaps.
        other: usize,
    },
    /// A name that is empty.
    #[error("the name is empty")]
    EmptyName,
    /// A name used twice.
    #[error("the name \"{name}\" is used before, at {other}")]
    NameTwice {
        /// The name.
        name: String,
        /// Where it was used first.
        other: String,
    },
    /// A name that nothing bears.
    #[error("no {what} is named \"{name}\"")]
    UnknownName {
        /// Strip or mob.
        what: &'static str,
        /// The name.
        name: String,
    },
    /// A strip both rested and stood on.
    #[error("rested_days is given beside stood_days")]
    RestedAndStood,
}

impl FaultCause {
    /// What to do about it.
    pub fn remedy(&self) -> String {
        match self {
            Self::OutOfRange { low, high, .. } => format!("give a figure from {low} to {high}"),
            Self::NotAboveZero { .. } => "give a figure above 0".to_owned(),
            Self::NotFinite => "give a plain figure".to_owned(),
            Self::TooManyDays { most, .. } => format!("plan {most} days or fewer at a time"),
            Self::TooMany { most, .. } => format!("plan with {most} or fewer"),
            Self::None { what } => format!("give at least one {what}"),
            Self::PastCalendar => "begin earlier or plan fewer days".to_owned(),
            Self::Unsorted { .. } => "sort the dates and give each once".to_owned(),
            Self::StartsLate { needed, .. } => format!("add a value that holds on {needed}"),
            Self::SpanBackwards { .. } => "put the earlier day first".to_owned(),
            Self::Overlap { .. } => "part the visits or join them into one".to_owned(),
            Self::EmptyName => "give it a name".to_owned(),
            Self::NameTwice { .. } => "give each its own name".to_owned(),
            Self::UnknownName { .. } => "correct the name or add what it names".to_owned(),
            Self::RestedAndStood => "keep the one that holds".to_owned(),
        }
    }
}
