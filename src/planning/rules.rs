//! The rules that no plan breaks, and where a plan breaks them.
//!
//! Judges stands by the covers of their replay; knows nothing of how plans are found. Days are day numbers.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]

use std::fmt;

use super::season::{Place, Season};

/// Relative slack on the entry cover, which sums of small figures need.
pub(super) const ENTRY_TOLERANCE: f64 = 1e-9;

/// One of the rules of the model.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rule {
    /// R1: one mob at most on a strip on one day.
    OneMob,
    /// R2: no animal on a closed strip.
    Closed,
    /// R3: no spell longer than the longest stay.
    LongestStay,
    /// R4: the rest owed is given before the next spell.
    Rest,
    /// R5: cover on the first day of a spell.
    EnterCover,
    /// R6: every fixed day is kept.
    Fixed,
}

impl fmt::Display for Rule {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(match self {
            Self::OneMob => "R1",
            Self::Closed => "R2",
            Self::LongestStay => "R3",
            Self::Rest => "R4",
            Self::EnterCover => "R5",
            Self::Fixed => "R6",
        })
    }
}

/// A broken rule, charged to the stand that completes the breach.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Breach {
    /// The mob's index.
    pub mob: usize,
    /// The day number; of a fixed day, it may lie outside the season.
    pub day: i64,
    /// Where the mob stands, or is fixed to stand.
    pub place: Place,
    /// What is broken, with its figures.
    pub cause: BreachCause,
    /// Whether the stand is a lived day, so that the breach is a fact.
    pub lived: bool,
}

/// How a rule is broken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BreachCause {
    /// This many mobs on one strip.
    Crowded {
        /// How many.
        mobs: usize,
    },
    /// The strip is closed.
    Closed,
    /// The spell is too long.
    TooLong {
        /// Which day of its spell this is, from 1.
        day_of_spell: usize,
        /// The longest spell, days.
        longest: usize,
    },
    /// The strip has not rested.
    NotRested {
        /// Full days rested.
        rested: i64,
        /// Days owed.
        owed: f64,
    },
    /// The cover is too low to begin a spell.
    TooLow {
        /// Cover that morning, kg DM/ha.
        cover: f64,
        /// Cover needed, kg DM/ha.
        enter: f64,
    },
    /// The day is fixed twice.
    FixedTwice,
    /// The fixed day is none of the mob's days in this season.
    NotHere,
    /// The plan stands elsewhere than fixed.
    Elsewhere,
}

impl BreachCause {
    /// The rule that is broken.
    pub fn rule(&self) -> Rule {
        match self {
            Self::Crowded { .. } => Rule::OneMob,
            Self::Closed => Rule::Closed,
            Self::TooLong { .. } => Rule::LongestStay,
            Self::NotRested { .. } => Rule::Rest,
            Self::TooLow { .. } => Rule::EnterCover,
            Self::FixedTwice | Self::NotHere | Self::Elsewhere => Rule::Fixed,
        }
    }
}

impl fmt::Display for BreachCause {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Crowded { mobs } => write!(formatter, "{mobs} mobs on one strip"),
            Self::Closed => formatter.write_str("the strip is closed"),
            Self::TooLong {
                day_of_spell,
                longest,
            } => write!(
                formatter,
                "day {day_of_spell} of a spell, {longest} allowed"
            ),
            Self::NotRested { rested, owed } => {
                write!(formatter, "rested {rested} d of {owed} d")
            }
            Self::TooLow { cover, enter } => {
                write!(
                    formatter,
                    "cover {cover:.0} kg/ha, {enter:.0} needed to enter"
                )
            }
            Self::FixedTwice => formatter.write_str("fixed twice"),
            Self::NotHere => formatter.write_str("not a day of a visit in this season"),
            Self::Elsewhere => formatter.write_str("the plan stands elsewhere"),
        }
    }
}

impl Breach {
    /// One line: rule, day, mob, strip, figures.
    pub fn wording(&self, season: &Season) -> String {
        let mob = season.mobs.get(self.mob).map_or("?", |mob| &mob.name);
        let rule = self.cause.rule();
        let day = season.first_day.plus_days(self.day);
        let place = season.place_name(self.place);
        format!("{rule} {day} {mob} on {place}: {}", self.cause)
    }
}

/// Every breach of `stands`, whose replay gave `cover`: by strip and day, then the fixed days.
pub fn breaches(season: &Season, stands: &[Vec<Place>], cover: &[Vec<f64>]) -> Vec<Breach> {
    let mut found = Vec::new();
    let on_strip = mobs_on_strips(season, stands);
    for (strip, mobs_by_day) in on_strip.iter().enumerate() {
        strip_breaches(season, strip, mobs_by_day, &cover[strip], &mut found);
    }
    let lived = lived_days(season);
    for breach in &mut found {
        breach.lived = usize::try_from(breach.day).is_ok_and(|day| lived[breach.mob][day]);
    }
    fixed_breaches(season, stands, &mut found);
    found
}

/// Which days of each mob are lived facts that stand on the farm.
pub(super) fn lived_days(season: &Season) -> Vec<Vec<bool>> {
    let mut lived = vec![vec![false; season.n_days]; season.mobs.len()];
    for fixed in season.fixed.iter().filter(|fixed| fixed.lived) {
        let day = usize::try_from(fixed.day).ok();
        if let Some(flag) = day.and_then(|day| lived[fixed.mob].get_mut(day)) {
            *flag = true;
        }
    }
    lived
}

/// The mobs on each strip on each day, in the problem's order.
fn mobs_on_strips(season: &Season, stands: &[Vec<Place>]) -> Vec<Vec<Vec<usize>>> {
    let mut on_strip = vec![vec![Vec::new(); season.n_days]; season.strips.len()];
    for (mob, places) in stands.iter().enumerate() {
        for (day, place) in places.iter().enumerate() {
            if let Place::Strip(strip) = *place {
                on_strip[strip][day].push(mob);
            }
        }
    }
    on_strip
}

/// The spell under way on a strip, and the rest owed by the one before.
struct SpellCount {
    length: usize,
    /// The last day of the former spell and the rest it owes.
    former: Option<(i64, f64)>,
}

fn strip_breaches(
    season: &Season,
    strip_index: usize,
    mobs_by_day: &[Vec<usize>],
    cover: &[f64],
    found: &mut Vec<Breach>,
) {
    let strip = &season.strips[strip_index];
    let days_before = |days: usize| -1 - i64::try_from(days).unwrap_or(i64::MAX / 2);
    let mut spell = SpellCount {
        length: strip.stood_days,
        former: strip.former.map(|f| (days_before(f.rested), f.owed)),
    };
    let mut day_number = -1_i64;
    for (day, mobs) in mobs_by_day.iter().enumerate() {
        day_number += 1;
        if mobs.is_empty() {
            if spell.length > 0 && day > 0 {
                spell.former = Some((day_number - 1, season.rest[day - 1]));
            }
            spell.length = 0;
            continue;
        }
        spell.length += 1;
        for cause in day_causes(season, strip_index, day, &spell, mobs.len(), cover[day]) {
            found.extend(mobs.iter().map(|&mob| Breach {
                mob,
                day: day_number,
                place: Place::Strip(strip_index),
                cause,
                lived: false,
            }));
        }
    }
}

/// What a day of a spell breaks.
fn day_causes(
    season: &Season,
    strip_index: usize,
    day: usize,
    spell: &SpellCount,
    mobs: usize,
    cover: f64,
) -> impl Iterator<Item = BreachCause> {
    let strip = &season.strips[strip_index];
    let first_day = spell.length == 1;
    let crowded = (mobs > 1).then_some(BreachCause::Crowded { mobs });
    let closed = strip.closed[day].then_some(BreachCause::Closed);
    let too_long = (spell.length > season.longest_stay).then_some(BreachCause::TooLong {
        day_of_spell: spell.length,
        longest: season.longest_stay,
    });
    let rested = |last: i64| i64::try_from(day).unwrap_or(i64::MAX / 2) - last - 1;
    let not_rested = spell.former.filter(|_| first_day).and_then(|(last, owed)| {
        let rested = rested(last);
        (days_f64(rested) < owed).then_some(BreachCause::NotRested { rested, owed })
    });
    let enter = strip.enter;
    let too_low = first_day && cover < enter - ENTRY_TOLERANCE * enter.abs();
    let too_low = too_low.then_some(BreachCause::TooLow { cover, enter });
    [crowded, closed, too_long, not_rested, too_low]
        .into_iter()
        .flatten()
}

#[expect(clippy::cast_precision_loss, reason = "day counts stay far below 2^53")]
fn days_f64(days: i64) -> f64 {
    days as f64
}

fn fixed_breaches(season: &Season, stands: &[Vec<Place>], found: &mut Vec<Breach>) {
    let mut seen = std::collections::BTreeSet::new();
    for fixed in &season.fixed {
        let breach = |cause| Breach {
            mob: fixed.mob,
            day: fixed.day,
            place: fixed.place,
            cause,
            lived: false,
        };
        if !seen.insert((fixed.mob, fixed.day)) {
            found.push(breach(BreachCause::FixedTwice));
        }
        let day = usize::try_from(fixed.day).ok();
        let stood = day.and_then(|day| stands[fixed.mob].get(day)).copied();
        match stood {
            None | Some(Place::Away) => found.push(breach(BreachCause::NotHere)),
            Some(place) if place != fixed.place => found.push(breach(BreachCause::Elsewhere)),
            Some(_) => {}
        }
    }
}
