//! Strips as they may stand on a morning, each reckoned once for all part plans that have it so.
//!
//! Knows worths, not plans. Covers kg DM/ha, scores kg DM.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob, day or standing whose lengths made the lists"
)]
#![expect(clippy::cast_precision_loss, reason = "day counts stay far below 2^53")]

use super::trail::left_sign;
use crate::planning::solver::ground::{Ground, place_number};
use crate::planning::solver::strip_days::{first_free_day, grazed_day, rest_owed, wait};
use crate::planning::solver::strip_sum::{is_closed, next_set};
use crate::planning::solver::worth::Worth;

/// A strip as some part plans have it on a morning.
#[derive(Debug, Clone, Copy)]
struct Standing {
    strip: usize,
    now: StripNow,
    /// The sign of the spell that it had last.
    sign: u64,
    alone: Alone,
    /// The number of what it is tomorrow if nobody stands there, once some plan wants it.
    then: Option<u32>,
}

/// How a strip is.
#[derive(Debug, Clone, Copy)]
struct StripNow {
    /// Cover on the morning of `since`; nobody stood there since.
    cover: f64,
    since: usize,
    /// Length of the spell that ran until yesterday, days.
    length: usize,
    /// The first day on which it may be stood on again, and its worth until then.
    release: usize,
    worth: f64,
}

/// What a strip comes to if nobody stands there on a day.
#[derive(Debug, Clone, Copy)]
pub(super) struct Alone {
    /// Score of the day, and of the rest before it if that ended today.
    pub(super) score: f64,
    then: StripNow,
}

impl Alone {
    /// The score of the day with what the strip is worth on the next morning.
    pub(super) fn hope(&self) -> f64 {
        self.score + self.then.worth
    }
}

/// What it comes to if a mob stands on a strip on a day, against nobody.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stand {
    pub(super) score: f64,
    /// The score with what the strip is worth on the next morning.
    pub(super) hope: f64,
    /// What changes in a plan's sign.
    pub(super) sign: u64,
    cover: f64,
    /// The number of what the strip is tomorrow, once some plan wants it.
    then: Option<u32>,
}

/// The strips of all part plans on a day, and those of the next morning as far as plans want them.
pub(super) struct Standings<'a> {
    ground: &'a Ground,
    worth: &'a Worth<'a>,
    plainest: &'a [u16],
    day: usize,
    today: Vec<Standing>,
    /// By standing, then mob.
    stands: Vec<Option<Stand>>,
    tomorrow: Vec<Standing>,
}

impl<'a> Standings<'a> {
    pub(super) fn new(worth: &'a Worth<'a>, plainest: &'a [u16]) -> Self {
        Self {
            ground: worth.ground,
            worth,
            plainest,
            day: 0,
            today: Vec::new(),
            stands: Vec::new(),
            tomorrow: Vec::new(),
        }
    }

    /// The numbers of all strips as the season finds them.
    pub(super) fn begin(&mut self) -> Vec<u32> {
        let ground = self.ground;
        for strip in 0..ground.n_strips {
            let fixed = &ground.strips[strip];
            let first = first_free_day(ground, strip);
            let (grown, lost) = wait(ground, strip, fixed.cover, 0, first);
            let now = StripNow {
                cover: fixed.cover,
                since: 0,
                length: fixed.stood,
                release: if fixed.stood > 0 { 0 } else { first },
                worth: lost + self.worth.free(strip, first, grown),
            };
            let sign = left_sign(strip, 0, fixed.stood);
            self.tomorrow.push(Standing::of(strip, now, sign));
        }
        (0..number(ground.n_strips)).collect()
    }

    /// Makes tomorrow today, and reckons what each strip comes to on it.
    pub(super) fn live_day(&mut self, day: usize) {
        self.turn(day);
        self.stands.clear();
        for index in 0..self.today.len() {
            let mut standing = self.today[index];
            let arrears = self.bring_up(&mut standing);
            standing.alone = self.alone(&standing, arrears);
            let may_stand = self.may_stand(&standing);
            for mob in 0..self.ground.n_mobs {
                let cell = mob * self.ground.n_days + day;
                let is_fixed_here = self.plainest[cell] == place_number(standing.strip);
                let may = may_stand && self.ground.free[cell] || is_fixed_here;
                let demand = self.ground.demand[cell];
                let stand = may.then(|| self.stood(&standing, arrears, demand));
                self.stands.push(stand);
            }
            self.today[index] = standing;
        }
    }

    /// Makes tomorrow today.
    pub(super) fn turn(&mut self, day: usize) {
        self.day = day;
        std::mem::swap(&mut self.today, &mut self.tomorrow);
        self.tomorrow.clear();
    }

    /// How many strips differ today.
    pub(super) fn n_today(&self) -> usize {
        self.today.len()
    }

    /// Grows a strip that has had its rest up to this morning, and gives the score of what it lost.
    fn bring_up(&self, standing: &mut Standing) -> f64 {
        let now = &mut standing.now;
        if now.length > 0 || now.release > self.day || now.since >= self.day {
            return 0.0;
        }
        let (grown, lost) = wait(self.ground, standing.strip, now.cover, now.since, self.day);
        now.cover = grown;
        now.since = self.day;
        lost
    }

    fn alone(&self, standing: &Standing, arrears: f64) -> Alone {
        let (ground, day, strip) = (self.ground, self.day, standing.strip);
        let now = standing.now;
        if now.length > 0 {
            // A spell ends: the worth holds all that is lost until its rest is over.
            let rest = rest_owed(ground, strip, day);
            let then = StripNow {
                length: 0,
                release: (day + rest).min(ground.n_days),
                worth: self.worth.ended(strip, day, now.cover),
                ..now
            };
            return Alone {
                score: arrears,
                then,
            };
        }
        if now.release > day {
            return Alone {
                score: arrears,
                then: now,
            };
        }
        let (cover, lost) = wait(ground, strip, now.cover, day, day + 1);
        let then = StripNow {
            cover,
            since: day + 1,
            worth: self.worth.free(strip, day + 1, cover),
            ..now
        };
        Alone {
            score: arrears + lost,
            then,
        }
    }

    fn stood(&self, standing: &Standing, arrears: f64, demand: f64) -> Stand {
        let (strip, next, length) = (standing.strip, self.day + 1, standing.now.length + 1);
        let (cover, grazed) = grazed_day(self.ground, strip, self.day, standing.now.cover, demand);
        let score = arrears + grazed;
        let hope = score + self.worth.stood(strip, next, length, cover);
        Stand {
            score: score - standing.alone.score,
            hope: hope - standing.alone.hope(),
            sign: standing.sign ^ left_sign(strip, next, length),
            cover,
            then: None,
        }
    }

    fn may_stand(&self, standing: &Standing) -> bool {
        let (ground, day, strip, now) = (self.ground, self.day, standing.strip, &standing.now);
        if now.release > day || now.length >= ground.longest || is_closed(ground, strip, day) {
            return false;
        }
        if now.length == 0 && now.cover < ground.strips[strip].enter {
            return false;
        }
        // A fixed stand soon after would come too early, so the strip is kept free for it.
        let next = next_set(self.worth.held_row(strip), day);
        next.is_none_or(|next| (next - day) as f64 > ground.rest[day] + ground.longest as f64)
    }

    /// What the strip of this number comes to today if nobody stands there.
    pub(super) fn left_alone(&self, at: u32) -> &Alone {
        &self.today[at as usize].alone
    }

    /// What the strip of this number comes to today if a mob stands there, which it may not always.
    pub(super) fn stood_on(&self, at: u32, mob: usize) -> Option<&Stand> {
        self.stands[at as usize * self.ground.n_mobs + mob].as_ref()
    }

    /// The number of what a strip is tomorrow if nobody stands there today.
    pub(super) fn after_alone(&mut self, at: u32) -> u32 {
        let standing = &mut self.today[at as usize];
        *standing.then.get_or_insert_with(|| {
            let then = standing.alone.then;
            self.tomorrow
                .push(Standing::of(standing.strip, then, standing.sign));
            number(self.tomorrow.len() - 1)
        })
    }

    /// The number of what a strip is tomorrow if a mob stands there today, as it may.
    pub(super) fn after_stand(&mut self, at: u32, mob: usize) -> Option<u32> {
        let standing = &self.today[at as usize];
        let stand = self.stands[at as usize * self.ground.n_mobs + mob].as_mut()?;
        Some(*stand.then.get_or_insert_with(|| {
            let now = StripNow {
                cover: stand.cover,
                since: self.day + 1,
                length: standing.now.length + 1,
                release: 0,
                worth: 0.0,
            };
            let sign = standing.sign ^ stand.sign;
            self.tomorrow.push(Standing::of(standing.strip, now, sign));
            number(self.tomorrow.len() - 1)
        }))
    }

    /// What a strip still loses until the last day is over, and what is missing from its wanted cover then.
    pub(super) fn end_worth(&self, at: u32) -> f64 {
        let (n_days, standing) = (self.ground.n_days, &self.today[at as usize]);
        let StripNow { cover, since, .. } = standing.now;
        let (cover, lost) = wait(
            self.ground,
            standing.strip,
            cover,
            since.min(n_days),
            n_days,
        );
        lost + self.worth.free(standing.strip, n_days, cover)
    }
}

impl Standing {
    fn of(strip: usize, now: StripNow, sign: u64) -> Self {
        Self {
            strip,
            now,
            sign,
            alone: Alone {
                score: 0.0,
                then: now,
            },
            then: None,
        }
    }
}

/// A place in a list as a number. Lists of a day are far shorter than numbers go.
fn number(index: usize) -> u32 {
    u32::try_from(index).unwrap_or(u32::MAX)
}
