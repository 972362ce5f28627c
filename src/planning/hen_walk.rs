//! Where a hen house stands on each day: one place after the other along its lines, and round again.
//!
//! Knows nothing of sheep or of the planner: the walk follows from the house's own figures. Metres on the farm's
//! plane, bearings in degrees clockwise from north, days.

mod places;

use thiserror::Error;

use crate::farm::{Farm, GroundId, HenHouse, HenHouseId, Season};
use crate::geometry::Point;
use crate::quantity::{Day, plural_text};

/// The most places in one round; more is a slip in a figure, not a farm.
pub const MOST_PLACES: usize = 5_000;

/// A house's walk over some days.
#[derive(Debug, Clone, PartialEq)]
pub struct HenWalk {
    /// The places of one round, in the order they are walked.
    pub places: Vec<HenPlace>,
    /// The days asked for on which the house is out, in order.
    pub days: Vec<HenDay>,
    /// Figures of the whole round.
    pub facts: HenFacts,
    /// What the grower should know: lines left out and why, rest that is not reached, places that overlap.
    pub notes: Vec<String>,
}

/// A place where the house stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HenPlace {
    /// Its number in the round, from 1.
    pub number: usize,
    /// The line it is along.
    pub line: GroundId,
    /// Metres along the line from its beginning to where the place begins.
    pub along_m: f64,
    /// The middle of house and run.
    pub middle: Point,
    /// The corners of house and run, anticlockwise.
    pub outline: [Point; 4],
    /// The way the house looks along the line.
    pub bearing_deg: f64,
}

/// Where the house is on one day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HenDay {
    /// The day.
    pub day: Day,
    /// The number of the place, from 1.
    pub place: usize,
    /// The day of the stay on this place, from 1: on 1 the house is moved here.
    pub day_of_stay: u32,
    /// Full days that the ground had no hens before this stay; `None` on the first round.
    pub rested_days: Option<u32>,
    /// Whether that was the rest wanted; `None` on the first round.
    pub is_rested: Option<bool>,
}

/// Figures of a round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HenFacts {
    /// Places in a round.
    pub places: usize,
    /// Days from the first stay on a place to the next one there.
    pub round_days: u32,
    /// Full days without hens between two stays on a place.
    pub rest_days: u32,
    /// What the grower wants it to be.
    pub rest_days_wanted: u32,
    /// Ground under house and run, square metres.
    pub place_m2: f64,
    /// Ground for each hen on a day, square metres; `None` for a house without hens.
    pub m2_per_hen: Option<f64>,
    /// Ground for each hen over a whole round, square metres; `None` for a house without hens.
    pub m2_per_hen_in_round: Option<f64>,
}

/// Why there is no walk.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum HenWalkError {
    /// No house has this number.
    #[error("there is no such hen house on the farm")]
    NoSuchHouse,
    /// A figure that no house has.
    #[error("the hen house \"{name}\": {what}; put the figure right first")]
    Figure {
        /// The house's name.
        name: String,
        /// Which figure.
        what: &'static str,
    },
    /// No line to walk, or none with room for a place.
    #[error("the hen house \"{name}\" has nowhere to stand: {}", reasons.join("; "))]
    NoRoom {
        /// The house's name.
        name: String,
        /// Why, line by line.
        reasons: Vec<String>,
    },
    /// More places than any farm has.
    #[error(
        "the hen house \"{name}\" would have more than {MOST_PLACES} places in a round: \
         put its length and its lines right"
    )]
    TooManyPlaces {
        /// The house's name.
        name: String,
    },
    /// More days than are planned at a time.
    #[error(
        "{days} days are asked for; at most {} are planned at a time",
        Season::MOST_DAYS
    )]
    TooManyDays {
        /// The days asked for.
        days: u32,
    },
}

impl HenWalk {
    /// The place with this number.
    pub fn place(&self, number: usize) -> Option<&HenPlace> {
        self.places.get(number.checked_sub(1)?)
    }

    /// Where the house is on a day; `None` where it is not out, or the day was not asked for.
    pub fn on(&self, day: Day) -> Option<(&HenDay, &HenPlace)> {
        let at = self
            .days
            .binary_search_by_key(&day, |stand| stand.day)
            .ok()?;
        let stand = self.days.get(at)?;
        Some((stand, self.place(stand.place)?))
    }
}

/// The walk of one house for `days` days from `from`.
///
/// Days before the house's first day and after its last (the season's, where it has none) are left out; which place
/// it stands on depends on its first day alone, never on `from`.
///
/// # Errors
/// See [`HenWalkError`]. A line that is gone or too short is left out and told in the notes, as long as another
/// has room.
pub fn hen_walk(
    farm: &Farm,
    house: HenHouseId,
    from: Day,
    days: u32,
) -> Result<HenWalk, HenWalkError> {
    let house = farm
        .hen_houses
        .get(&house)
        .ok_or(HenWalkError::NoSuchHouse)?;
    check_figures(house)?;
    if days > Season::MOST_DAYS {
        return Err(HenWalkError::TooManyDays { days });
    }
    let laid = places::lay(farm, house);
    let name = house.name.clone();
    if laid.is_too_many {
        return Err(HenWalkError::TooManyPlaces { name });
    }
    if laid.places.is_empty() {
        let reasons = laid.reasons;
        return Err(HenWalkError::NoRoom { name, reasons });
    }
    let facts = facts_of(house, laid.places.len());
    let mut notes = laid.reasons;
    notes.extend(rest_note(house, &facts));
    notes.extend(places::overlap_note(&laid.places));
    let last = house.last_day.unwrap_or_else(|| farm.season.last_day());
    let days = (0..days)
        .map(|step| from.plus_days(i64::from(step)))
        .filter(|day| (house.first_day..=last).contains(day))
        .map(|day| stand_on(house, &facts, day))
        .collect();
    Ok(HenWalk {
        places: laid.places,
        days,
        facts,
        notes,
    })
}

fn check_figures(house: &HenHouse) -> Result<(), HenWalkError> {
    let is_above_zero = |value: f64| value.is_finite() && value > 0.0;
    let is_not_below = |value: f64| value.is_finite() && value >= 0.0;
    let checks = [
        (is_above_zero(house.length_m), "its length is not above 0 m"),
        (is_above_zero(house.width_m), "its width is not above 0 m"),
        (
            is_not_below(house.gap_m),
            "the gap between its places is below 0 m",
        ),
        (
            is_not_below(house.offset_m),
            "its way from the line is below 0 m",
        ),
        (house.days_per_place > 0, "its stay on a place is 0 days"),
    ];
    match checks.into_iter().find(|(is_fine, _)| !is_fine) {
        Some((_, what)) => Err(HenWalkError::Figure {
            name: house.name.clone(),
            what,
        }),
        None => Ok(()),
    }
}

fn facts_of(house: &HenHouse, places: usize) -> HenFacts {
    let count = u32::try_from(places).unwrap_or(u32::MAX);
    let round_days = count.saturating_mul(house.days_per_place);
    let place_m2 = house.place_m2();
    let m2_per_hen = (house.hens > 0).then(|| place_m2 / f64::from(house.hens));
    HenFacts {
        places,
        round_days,
        rest_days: round_days - house.days_per_place.min(round_days),
        rest_days_wanted: house.rest_days_wanted,
        place_m2,
        m2_per_hen,
        m2_per_hen_in_round: m2_per_hen.map(|m2| m2 * f64::from(count)),
    }
}

/// Says where the round is too short for the rest that is wanted, and how many places would do.
fn rest_note(house: &HenHouse, facts: &HenFacts) -> Option<String> {
    if facts.rest_days >= facts.rest_days_wanted {
        return None;
    }
    let needed = facts.rest_days_wanted.div_ceil(house.days_per_place) + 1;
    Some(format!(
        "each place rests {} and {} are wanted: {} in the round would do, and there are {}",
        plural_text(u64::from(facts.rest_days), "day", "days"),
        facts.rest_days_wanted,
        plural_text(u64::from(needed), "place", "places"),
        facts.places
    ))
}

/// Where the house is on a day that does not come before its first.
fn stand_on(house: &HenHouse, facts: &HenFacts, day: Day) -> HenDay {
    let out_days = u32::try_from(day.days_since(house.first_day)).unwrap_or(0);
    let stay = house.days_per_place.max(1);
    let stays_before = out_days / stay;
    let count = u32::try_from(facts.places).unwrap_or(u32::MAX).max(1);
    let place = usize::try_from(stays_before % count).unwrap_or(0) + 1;
    let rested_days = (stays_before >= count).then_some(facts.rest_days);
    HenDay {
        day,
        place,
        day_of_stay: out_days % stay + 1,
        rested_days,
        is_rested: rested_days.map(|rested| rested >= house.rest_days_wanted),
    }
}
