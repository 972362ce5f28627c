//! Where a hen house stands on each day: one place after the other along its lines, and round again.
//!
//! Knows nothing of sheep or of the planner: the walk follows from the house's own figures, from what is settled and
//! from what lies on the ground. Hens that follow a mob are in `following`. Metres on the farm's plane, bearings in
//! degrees clockwise from north, days.

mod beside;
mod closed;
mod days;
mod findings;
mod flock_on_way;
mod following;
mod in_the_way;
pub mod order;
mod places;
mod remedies;
mod round;
mod shared_rest;
mod stays;
mod sums;
mod towing;
mod track;
mod turning;
mod words;

use std::collections::BTreeMap;

use thiserror::Error;

pub use findings::hen_findings;
pub use flock_on_way::{FlockOnWay, flock_on_way_told, flocks_on_way};
pub use following::hen_walk_after;
pub use remedies::{HenRemedy, hen_remedies};
pub use round::{HenLeg, HenOrder};
pub use sums::{FEED_SOURCE, HenSums, WATER_SOURCE, hen_sums};
pub use towing::HenTow;
pub use track::stretch_way;
pub use words::order_words;

use self::beside::WalkedBefore;
use self::closed::{ClosedGround, ClosedSpan, grounds_in_course};
use self::days::{closed_days, days_of};
use self::in_the_way::{InTheWay, in_the_way_of_places, ways_of};
use self::places::{LaidLine, corners, lay, overlap_note};
use self::round::RoundParts;
use self::stays::stays;
use self::towing::Towing;
use crate::farm::{Farm, GroundId, HenHouse, HenHouseId, HenSpot, LineSide, Season};
use crate::geometry::Point;
use crate::geometry::oblong::Oblong;
use crate::quantity::Day;

/// The most places in one round; more is a slip in a figure, not a farm.
pub const MOST_PLACES: usize = 5_000;

/// A house's walk over some days.
#[derive(Debug, Clone, PartialEq)]
pub struct HenWalk {
    /// The places of one round, in the order they are walked.
    pub places: Vec<HenPlace>,
    /// Towing from each place to the next; the last is back to the first.
    pub tows: Vec<HenTow>,
    /// The lines of a round in order; none for hens that follow sheep.
    pub legs: Vec<HenLeg>,
    /// How the order came about; none for hens that follow sheep.
    pub order: Option<HenOrder>,
    /// The days asked for on which the house is out, in order.
    pub days: Vec<HenDay>,
    /// Figures of the whole round.
    pub facts: HenFacts,
    /// Days on which hens stand on closed ground, and why it is closed.
    pub closed: Vec<(Day, String)>,
    /// What the grower should know: lines left out and why, rest that is not reached, places that overlap.
    pub notes: Vec<String>,
}

/// A place where the house stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HenPlace {
    /// Its number in the round, from 1.
    pub number: usize,
    /// The line it is along, or the ley it is on.
    pub line: GroundId,
    /// The side of the line; left for lanes across a ley.
    pub side: LineSide,
    /// Its number on that side of the line, from the line's beginning, from 1.
    pub on_line: u32,
    /// Metres along the line or lane from its beginning to where the place begins.
    pub along_m: f64,
    /// The middle of house and run.
    pub middle: Point,
    /// The corners of house and run, anticlockwise.
    pub outline: Oblong,
    /// The way the line runs at the house.
    pub bearing_deg: f64,
}

/// Where the house is on one day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HenDay {
    /// The day.
    pub day: Day,
    /// The number of the place, from 1.
    pub place: usize,
    /// The day of the stay on this place, from 1.
    pub day_of_stay: u32,
    /// Whether the house is moved here on this day.
    pub is_moved: bool,
    /// Whether the hens are shut in.
    pub is_housed: bool,
    /// Whether the house waits because the mob it follows stood on no strip.
    pub is_waiting: bool,
    /// Full days that the ground had no hens before this stay; `None` where they had not been there.
    pub rested_days: Option<u32>,
    /// Whether that was the rest wanted; `None` where they had not been there.
    pub is_rested: Option<bool>,
}

/// Figures of a round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HenFacts {
    /// Places in a round; for hens that follow sheep, places used.
    pub places: usize,
    /// Days from the first stay on a place to the next one there, days without towing and shut in left out.
    pub round_days: u32,
    /// Full days without hens between two stays on a place; for hens that follow sheep, the least there was.
    pub rest_days: u32,
    /// What the grower wants it to be.
    pub rest_days_wanted: u32,
    /// Ground under house and run, square metres.
    pub place_m2: f64,
    /// Ground for each hen on a day, square metres; `None` for a house without hens.
    pub m2_per_hen: Option<f64>,
    /// Ground for each hen over a whole round, square metres; `None` for a house without hens.
    pub m2_per_hen_in_round: Option<f64>,
    /// Towing of a whole round, back to its first place, metres.
    pub tow_m: f64,
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
    /// It follows sheep, whose days are not known here.
    #[error("the hen house \"{name}\" follows sheep: its walk is known once they are planned")]
    FollowsSheep {
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

impl HenPlace {
    /// Which place of which line it is, whichever way a round is walked.
    pub const fn spot(&self) -> HenSpot {
        HenSpot {
            line: self.line,
            side: self.side,
            number: self.on_line,
        }
    }

    /// Its ground with the overlap taken off both ends: what no other place may share.
    fn core(&self, overlap_m: f64) -> Oblong {
        let [a, b, c, _] = self.outline;
        let length_m = (a.distance_m(b) - overlap_m).max(0.0);
        corners(self.middle, self.bearing_deg, length_m, b.distance_m(c))
    }
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

    /// Towing to the place of a day on which the house is moved; `None` on the first day and where the way is not one
    /// from place to next place.
    pub fn tow_on(&self, day: Day) -> Option<&HenTow> {
        let (now, _) = self.on(day).filter(|(now, _)| now.is_moved)?;
        let (before, _) = self.on(day.plus_days(-1))?;
        let is_next = before.place % self.places.len() + 1 == now.place;
        self.tows
            .get(before.place.checked_sub(1)?)
            .filter(|_| is_next)
    }
}

/// The walk of each house, or why there is none.
pub type HenWalks = BTreeMap<HenHouseId, Result<HenWalk, HenWalkError>>;

/// The walks of all houses for `days` days from `from`, in the order they are listed: where the program chooses the
/// order of lines, it heeds the hens of the houses before.
pub fn hen_walks(farm: &Farm, from: Day, days: u32) -> HenWalks {
    walks_of(farm, farm.hen_houses.iter(), from, days)
}

/// The walk of one house for `days` days from `from`.
///
/// # Errors
/// Says in a sentence why there is no walk.
pub fn hen_walk(
    farm: &Farm,
    id: HenHouseId,
    from: Day,
    days: u32,
) -> Result<HenWalk, HenWalkError> {
    let mut walks = walks_of(farm, farm.hen_houses.range(..=id), from, days);
    walks.remove(&id).unwrap_or(Err(HenWalkError::NoSuchHouse))
}

fn walks_of<'a>(
    farm: &Farm,
    houses: impl Iterator<Item = (&'a HenHouseId, &'a HenHouse)>,
    from: Day,
    days: u32,
) -> HenWalks {
    let in_the_way = in_the_way_of_places(farm, &grounds_in_course(farm));
    let mut before = WalkedBefore::default();
    let end = from.plus_days(i64::from(days) - 1);
    let mut walks = HenWalks::new();
    for (id, house) in houses {
        let mut walk =
            check_figures(house, days).and_then(|()| whole_walk(farm, house, &in_the_way, &before));
        if let Ok(walk) = &mut walk {
            before.add(house, walk);
            walk.days.retain(|day| (from..=end).contains(&day.day));
            walk.closed.retain(|(day, _)| (from..=end).contains(day));
        }
        walks.insert(*id, walk);
    }
    walks
}

/// The walk of a house from its first day out to its last.
fn whole_walk(
    farm: &Farm,
    house: &HenHouse,
    in_the_way: &[InTheWay],
    before: &WalkedBefore,
) -> Result<HenWalk, HenWalkError> {
    if house.handling.follows.is_some() {
        return Err(HenWalkError::FollowsSheep {
            name: house.name.clone(),
        });
    }
    let laid = lay(farm, house, in_the_way);
    if laid.is_too_many {
        return Err(HenWalkError::TooManyPlaces {
            name: house.name.clone(),
        });
    }
    if laid.lines.is_empty() {
        return Err(HenWalkError::NoRoom {
            name: house.name.clone(),
            reasons: laid.reasons,
        });
    }
    Ok(walk_of(farm, house, &laid.lines, laid.reasons, before))
}

fn walk_of(
    farm: &Farm,
    house: &HenHouse,
    lines: &[LaidLine],
    mut notes: Vec<String>,
    before: &WalkedBefore,
) -> HenWalk {
    let laid: Vec<HenPlace> = lines
        .iter()
        .flat_map(|line| line.lanes.iter().flatten().copied())
        .collect();
    let last = house.last_day.unwrap_or_else(|| farm.season.last_day());
    let known = ClosedGround::of(farm, house.first_day, last.max(house.first_day));
    let closed: Vec<Vec<ClosedSpan>> = laid
        .iter()
        .map(|place| known.of_place(house, place))
        .collect();
    let middles: Vec<Point> = laid.iter().map(|place| place.middle).collect();
    let towing = Towing::new(house, &laid, ways_of(farm, house, &middles));
    let (others, heeded) = before.on_places(&laid);
    let round = RoundParts {
        house,
        lines,
        places: &laid,
        closed: &closed,
        towing: &towing,
        stays: &stays(house, last),
        others: &others,
    }
    .round();
    let mut places: Vec<HenPlace> = round
        .steps
        .iter()
        .filter_map(|step| laid.get(step.place).copied())
        .collect();
    for (index, place) in places.iter_mut().enumerate() {
        place.number = index + 1;
    }
    let next_steps = round.steps.iter().cycle().skip(1);
    let tows: Vec<HenTow> = round
        .steps
        .iter()
        .zip(next_steps)
        .map(|(step, next)| towing.tow(*step, *next))
        .collect();
    let (days, mut lost) = days_of(house, &places, last);
    let on_closed = closed_days(&round, &closed, &days);
    let mut facts = facts_of(house, places.len());
    facts.tow_m = tows.iter().map(|tow| tow.length_m).sum();
    notes.append(&mut lost);
    notes.extend(overlap_note(&places, house.overlap_m()));
    notes.extend(words::notes_of(house, &facts, &tows, &on_closed));
    HenWalk {
        places,
        tows,
        legs: round.legs,
        order: Some(HenOrder {
            heeded,
            ..round.order
        }),
        days,
        facts,
        closed: on_closed,
        notes,
    }
}

fn check_figures(house: &HenHouse, days: u32) -> Result<(), HenWalkError> {
    if days > Season::MOST_DAYS {
        return Err(HenWalkError::TooManyDays { days });
    }
    let is_above_zero = |value: f64| value.is_finite() && value > 0.0;
    let is_not_below = |value: f64| value.is_finite() && value >= 0.0;
    let checks = [
        (is_above_zero(house.length_m), "its length is not above 0 m"),
        (is_above_zero(house.width_m), "its width is not above 0 m"),
        (
            is_above_zero(house.length_m + house.gap_m),
            "its places overlap by all their length",
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
        tow_m: 0.0,
    }
}
