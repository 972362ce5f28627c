//! Why a plan has it so: for each move why the mob left and what the next best place was; for each short day the cause.
//!
//! Works on a finished plan and knows nothing of how it was found. Masses kg DM, distances metres, losses in score (kg DM).

mod wording;

use super::plan::Plan;
use super::season::{Place, Season, distance_m};
use super::solver::{Weighing, WeighingGround};

/// Why a mob moved on a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MoveReason {
    /// The mob's index.
    pub mob: usize,
    /// The day number of the move.
    pub day: usize,
    /// The last day of the stay that begins.
    pub last_day: usize,
    /// Where the mob came from.
    pub from: Place,
    /// Where it went.
    pub to: Place,
    /// Why it left.
    pub left_because: LeftBecause,
    /// What it found, if it went to a strip.
    pub found: Option<Found>,
    /// The next best place for the stay; absent where the rules allow no other or the days are fixed.
    pub runner_up: Option<RunnerUp>,
}

/// Why a mob left where it stood.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LeftBecause {
    /// A visit begins, from the yard.
    VisitBegins,
    /// The move is fixed, or has been lived.
    Fixed {
        /// Whether it has been lived.
        lived: bool,
    },
    /// It stood in the yard.
    StoodInYard,
    /// The strip is closed from this day on.
    Closed,
    /// The longest stay is reached.
    LongestStay {
        /// Days of the spell.
        days: usize,
    },
    /// Another mob takes the strip over.
    TakenOver {
        /// That mob's index.
        by: usize,
    },
    /// Too little was left above the residual for another day.
    GrazedDown {
        /// Feed left above the residual, kg DM.
        left_kg: f64,
    },
    /// Staying was allowed, but the plan is better this way.
    BetterElsewhere {
        /// What one day more would have lost; absent where a later day or another rule stands against it.
        staying_loses_kg: Option<f64>,
    },
}

/// The strip that a mob came to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Found {
    /// Full days of rest it has had in this season or remembered from before; absent: long rested.
    pub rested_days: Option<usize>,
    /// Cover that morning, kg DM/ha.
    pub cover: f64,
    /// The walk there, m.
    pub walk_m: f64,
}

/// The next best place for a stay.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunnerUp {
    /// The place.
    pub place: Place,
    /// What the plan would have lost with it, all else as planned, kg DM; below 0 where it would have gained.
    pub loses_kg: f64,
}

/// Why a mob's demand is not met on a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShortReason {
    /// The mob's index.
    pub mob: usize,
    /// The day number.
    pub day: usize,
    /// Demand not met, kg DM.
    pub short_kg: f64,
    /// Where the mob stands.
    pub place: Place,
    /// The cause.
    pub cause: ShortCause,
}

/// Why a day is short.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ShortCause {
    /// The day is fixed, or has been lived.
    Fixed,
    /// No strip could be entered: so many of each kind.
    NothingReady(NotReady),
    /// The best that the rules allow would have lost more elsewhere, by this much.
    SavedForLater {
        /// The best other place.
        instead: RunnerUp,
    },
}

/// Why strips could not be entered on a day; a strip counts under the first that holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct NotReady {
    /// Strips closed that day.
    pub closed: usize,
    /// Strips on which another mob stands.
    pub taken: usize,
    /// Strips still resting, or whose longest stay is reached.
    pub resting: usize,
    /// Strips with too little cover to enter.
    pub too_low: usize,
    /// Strips that are kept for a later stay, which entering would break.
    pub kept: usize,
}

/// All reasons of a plan, by mob and day.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Reasons {
    /// Of its moves.
    pub moves: Vec<MoveReason>,
    /// Of its short days.
    pub shorts: Vec<ShortReason>,
}

/// Less than this is not called short, kg DM.
const SHORT_FROM_KG: f64 = 0.01;

/// Explains a plan.
pub fn reasons(season: &Season, plan: &Plan) -> Reasons {
    let mut found = Reasons::default();
    let Some(ground) = WeighingGround::new(season) else {
        return found;
    };
    let mut explainer = Explainer {
        season,
        plan,
        weighing: Weighing::new(&ground, &plan.stands),
    };
    for mob in 0..season.mobs.len() {
        for day in 0..season.n_days {
            found.moves.extend(explainer.move_reason(mob, day));
            found.shorts.extend(explainer.short_reason(mob, day));
        }
    }
    found
}

struct Explainer<'a> {
    season: &'a Season,
    plan: &'a Plan,
    weighing: Weighing<'a>,
}

impl Explainer<'_> {
    fn move_reason(&mut self, mob: usize, day: usize) -> Option<MoveReason> {
        let to = self.plan.place(mob, day);
        let from = self.before(mob, day)?;
        if to == Place::Away || to == from {
            return None;
        }
        let last_day = self.last_day(mob, day);
        let fixed = self.fixed(mob, day);
        let left_because = match fixed {
            Some(lived) => LeftBecause::Fixed { lived },
            None => self.left_because(mob, day, from),
        };
        Some(MoveReason {
            mob,
            day,
            last_day,
            from,
            to,
            left_because,
            found: self.found(mob, day, from, to),
            runner_up: self.runner_up(mob, day..last_day + 1, to),
        })
    }

    fn before(&self, mob: usize, day: usize) -> Option<Place> {
        let stands = self.plan.stands.get(mob)?;
        Some(
            self.season
                .comes_from(self.season.mobs.get(mob)?, stands, day),
        )
    }

    /// The last day on which the mob still stands where it stands on `day`, within the visit.
    fn last_day(&self, mob: usize, day: usize) -> usize {
        let place = self.plan.place(mob, day);
        let starts = |day: usize| {
            let mob = self.season.mobs.get(mob);
            mob.and_then(|mob| mob.starts.get(day))
                .copied()
                .unwrap_or(false)
        };
        let goes_on = |day: &usize| self.plan.place(mob, *day) == place && !starts(*day);
        let rest = (day + 1..self.season.n_days).take_while(goes_on);
        rest.last().unwrap_or(day)
    }

    /// Whether a day is fixed, and if so whether it is lived.
    fn fixed(&self, mob: usize, day: usize) -> Option<bool> {
        let day = i64::try_from(day).ok()?;
        let fixed = self.season.fixed.iter();
        let mut found = fixed.filter(|fixed| fixed.mob == mob && fixed.day == day);
        found.next().map(|fixed| fixed.lived)
    }

    fn left_because(&mut self, mob: usize, day: usize, from: Place) -> LeftBecause {
        let starts = self
            .season
            .mobs
            .get(mob)
            .and_then(|mob| mob.starts.get(day));
        let Place::Strip(strip) = from else {
            return if starts == Some(&true) {
                LeftBecause::VisitBegins
            } else {
                LeftBecause::StoodInYard
            };
        };
        if self.is_closed(strip, day) {
            return LeftBecause::Closed;
        }
        let days = self.spell_before(strip, day);
        if days >= self.season.longest_stay {
            return LeftBecause::LongestStay { days };
        }
        if let Some(by) = self.mob_on(strip, day) {
            return LeftBecause::TakenOver { by };
        }
        let left_kg = self.feed_kg(strip, day);
        let demand = self
            .season
            .mobs
            .get(mob)
            .and_then(|mob| mob.demand.get(day));
        if left_kg < 0.5 * demand.copied().unwrap_or(0.0) {
            return LeftBecause::GrazedDown { left_kg };
        }
        LeftBecause::BetterElsewhere {
            staying_loses_kg: self.weighing.loss(mob, day..day + 1, from),
        }
    }

    fn is_closed(&self, strip: usize, day: usize) -> bool {
        let strip = self.season.strips.get(strip);
        strip
            .and_then(|strip| strip.closed.get(day))
            .copied()
            .unwrap_or(false)
    }

    fn mob_on(&self, strip: usize, day: usize) -> Option<usize> {
        (0..self.plan.stands.len()).find(|&mob| self.plan.place(mob, day) == Place::Strip(strip))
    }

    /// Length of the spell that ran on a strip until the day before.
    fn spell_before(&self, strip: usize, day: usize) -> usize {
        let stood = (0..day)
            .rev()
            .take_while(|&day| self.mob_on(strip, day).is_some());
        let days = stood.count();
        let before = self
            .season
            .strips
            .get(strip)
            .map_or(0, |strip| strip.stood_days);
        if days == day { days + before } else { days }
    }

    fn cover(&self, strip: usize, day: usize) -> f64 {
        let cover = self.plan.cover.get(strip);
        cover
            .and_then(|cover| cover.get(day))
            .copied()
            .unwrap_or(0.0)
    }

    /// Feed above the residual on a morning, kg DM.
    fn feed_kg(&self, strip: usize, day: usize) -> f64 {
        let cover = self.cover(strip, day);
        let fixed = self.season.strips.get(strip);
        fixed.map_or(0.0, |strip| strip.area * (cover - strip.leave).max(0.0))
    }

    fn found(&self, mob: usize, day: usize, from: Place, to: Place) -> Option<Found> {
        let Place::Strip(strip) = to else {
            return None;
        };
        let mob = self.season.mobs.get(mob)?;
        Some(Found {
            rested_days: self.rested_days(strip, day),
            cover: self.cover(strip, day),
            walk_m: distance_m(self.season.spot(mob, from), self.season.spot(mob, to)),
        })
    }

    fn rested_days(&self, strip: usize, day: usize) -> Option<usize> {
        let idle = (0..day)
            .rev()
            .take_while(|&day| self.mob_on(strip, day).is_none());
        let idle = idle.count();
        if idle < day {
            return Some(idle);
        }
        let former = self.season.strips.get(strip)?.former?;
        Some(former.rested.saturating_add(idle))
    }

    /// The least loss among all other places for these days.
    fn runner_up(
        &mut self,
        mob: usize,
        days: std::ops::Range<usize>,
        to: Place,
    ) -> Option<RunnerUp> {
        let strips = (0..self.season.strips.len()).map(Place::Strip);
        let places = strips.chain([Place::Yard]).filter(|&place| place != to);
        let mut best: Option<RunnerUp> = None;
        for place in places {
            let Some(loses_kg) = self.weighing.loss(mob, days.clone(), place) else {
                continue;
            };
            if best.is_none_or(|best| loses_kg < best.loses_kg) {
                best = Some(RunnerUp { place, loses_kg });
            }
        }
        best
    }

    fn short_reason(&mut self, mob: usize, day: usize) -> Option<ShortReason> {
        let short_kg = *self.plan.short.get(mob)?.get(day)?;
        if short_kg < SHORT_FROM_KG {
            return None;
        }
        let place = self.plan.place(mob, day);
        let cause = if self.fixed(mob, day).is_some() {
            ShortCause::Fixed
        } else {
            self.short_cause(mob, day, place)
        };
        Some(ShortReason {
            mob,
            day,
            short_kg,
            place,
            cause,
        })
    }

    fn short_cause(&mut self, mob: usize, day: usize, place: Place) -> ShortCause {
        let other = match self.runner_up(mob, day..day + 1, place) {
            Some(other) if other.place != Place::Yard => Some(other),
            _ => None,
        };
        match other {
            Some(instead) => ShortCause::SavedForLater { instead },
            None => ShortCause::NothingReady(self.not_ready(mob, day)),
        }
    }

    fn not_ready(&self, mob: usize, day: usize) -> NotReady {
        let mut count = NotReady::default();
        for (index, strip) in self.season.strips.iter().enumerate() {
            if self.plan.place(mob, day) == Place::Strip(index) {
                continue;
            }
            let spell = self.spell_before(index, day);
            let last = day.checked_sub(1 + self.rested_days(index, day).unwrap_or(0));
            let owed = match last.and_then(|last| self.season.rest.get(last)) {
                Some(&owed) => owed,
                None => strip.former.map_or(0.0, |former| former.owed),
            };
            let rested = self.rested_days(index, day);
            let is_resting = rested.is_some_and(|rested| days_f64(rested) < owed);
            if self.is_closed(index, day) {
                count.closed += 1;
            } else if self.mob_on(index, day).is_some() {
                count.taken += 1;
            } else if spell >= self.season.longest_stay || (spell == 0 && is_resting) {
                count.resting += 1;
            } else if spell == 0 && self.cover(index, day) < strip.enter {
                count.too_low += 1;
            } else {
                count.kept += 1;
            }
        }
        count
    }
}

#[expect(clippy::cast_precision_loss, reason = "day counts stay far below 2^53")]
fn days_f64(days: usize) -> f64 {
    days as f64
}
