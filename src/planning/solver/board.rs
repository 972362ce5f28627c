//! The plan under the search's hand: who stands where, each strip's sum, and changes tried and taken back.
//!
//! [`tries`] stages new places for some mob-days, of which only the strips touched are reckoned anew; [`lifted`] sees what
//! stays would cost elsewhere. Knows no temperatures.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]

mod lifted;
mod tries;

use super::super::season::{Place, Stands};
use super::ground::{AWAY, COMPANY, Ground, NOBODY};
use super::strip_sum::{Pause, Prices, Reckoning, Stood, StripSum};
use tries::Change;

/// Score and breaches summed over strips and walks.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Sums {
    pub(super) score: f64,
    pub(super) rest_missing: f64,
    pub(super) cover_missing: f64,
    pub(super) stay_over: f64,
    pub(super) rest_faults: i64,
    pub(super) cover_faults: i64,
    pub(super) stay_faults: i64,
}

impl Sums {
    /// Score with the breaches priced.
    pub(super) fn priced(&self, prices: &Prices) -> f64 {
        self.score
            + prices.rest * self.rest_missing
            + prices.cover * self.cover_missing
            + prices.stay * self.stay_over
    }

    /// Whether every rule is kept.
    pub(super) fn is_legal(&self) -> bool {
        self.rest_faults + self.cover_faults + self.stay_faults == 0
    }

    fn add(&mut self, sum: &StripSum, sign: f64) {
        self.score += sign * sum.score;
        self.rest_missing += sign * sum.rest_missing;
        self.cover_missing += sign * sum.cover_missing;
        self.stay_over += sign * sum.stay_over;
        let sign = if sign > 0.0 { 1 } else { -1 };
        self.rest_faults += sign * i64::from(sum.rest_faults);
        self.cover_faults += sign * i64::from(sum.cover_faults);
        self.stay_faults += sign * i64::from(sum.stay_faults);
    }
}

/// A strip that the change being tried touches.
#[derive(Debug, Clone, Copy)]
struct Touched {
    strip: usize,
    /// The first day that may differ.
    first: usize,
    sum: StripSum,
}

/// A whole plan with its sums.
#[derive(Debug, Clone)]
pub(super) struct Board<'a> {
    pub(super) ground: &'a Ground,
    /// The place of each mob on each day.
    pub(super) places: Vec<u16>,
    /// The days on which each strip is stood on, as bits.
    occupied: Vec<u64>,
    /// Who stands there: a mob's index, or one of the two marks of the ground.
    who: Vec<u8>,
    strips: Vec<StripSum>,
    pub(super) sums: Sums,
    /// Work done so far: roughly, steps of replay.
    pub(super) work: u64,
    /// The change being made up.
    staged: Vec<Change>,
    /// How many of the staged changes are put down.
    n_put: usize,
    touched: Vec<Touched>,
    touched_mark: Vec<u32>,
    mark: u32,
    /// Mobs and mob-days whose way there may change, and marks against counting one twice.
    ways: Vec<(usize, usize)>,
    way_mark: Vec<u32>,
    /// Where each strip stood when its spells ended, in order.
    pauses: Vec<Vec<Pause>>,
}

impl<'a> Board<'a> {
    /// A board with these stands, in which only lived mobs may share a strip.
    pub(super) fn new(ground: &'a Ground, places: &[u16]) -> Self {
        let (n_strips, n_days) = (ground.n_strips, ground.n_days);
        let mut board = Self {
            ground,
            places: Vec::new(),
            occupied: vec![0; n_strips * ground.n_words],
            who: vec![NOBODY; n_strips * n_days],
            strips: vec![StripSum::default(); n_strips],
            sums: Sums::default(),
            work: 0,
            staged: Vec::new(),
            n_put: 0,
            touched: Vec::new(),
            touched_mark: vec![0; n_strips],
            mark: 0,
            ways: Vec::new(),
            way_mark: vec![0; ground.n_mobs * n_days],
            pauses: vec![Vec::new(); n_strips],
        };
        board.load(places);
        board
    }

    /// Replaces the whole plan.
    pub(super) fn load(&mut self, places: &[u16]) {
        let ground = self.ground;
        places.clone_into(&mut self.places);
        self.occupied.fill(0);
        self.who.fill(NOBODY);
        for mob in 0..ground.n_mobs {
            for day in 0..ground.n_days {
                let place = usize::from(self.places[mob * ground.n_days + day]);
                if place < ground.n_strips {
                    self.occupied[place * ground.n_words + day / 64] |= 1 << (day % 64);
                    let cell = place * ground.n_days + day;
                    self.who[cell] = if self.who[cell] == NOBODY {
                        u8::try_from(mob).unwrap_or(COMPANY)
                    } else {
                        COMPANY
                    };
                }
            }
        }
        self.sum_afresh();
    }

    /// Reckons every sum anew, which also clears the dust of many small additions.
    fn sum_afresh(&mut self) {
        let ground = self.ground;
        self.sums = Sums::default();
        for strip in 0..ground.n_strips {
            let sum = self.reckon_kept(strip, 0);
            self.strips[strip] = sum;
            self.sums.add(&sum, 1.0);
        }
        for mob in 0..ground.n_mobs {
            for day in 0..ground.n_days {
                let cell = mob * ground.n_days + day;
                self.sums.score +=
                    self.way_score(mob, cell) + self.hay(mob, day, day + 1, self.places[cell]);
            }
        }
    }

    /// Reckons a strip that differs from what its pauses tell from day `first` on.
    fn reckon(
        &mut self,
        strip: usize,
        first: usize,
        prices: &Prices,
        limit: f64,
    ) -> Option<StripSum> {
        let pauses = &self.pauses[strip];
        let pause = pauses.iter().rev().find(|pause| pause.end < first);
        self.work += 4;
        let reckoning = Reckoning {
            ground: self.ground,
            index: strip,
            stood: stood(self.ground, &self.occupied, &self.who, strip),
            prices,
            limit,
        };
        reckoning.sum(pause, &mut self.work, |_| ())
    }

    /// Reckons a strip as it is, and notes its pauses from day `first` on.
    fn reckon_kept(&mut self, strip: usize, first: usize) -> StripSum {
        let mut pauses = std::mem::take(&mut self.pauses[strip]);
        let kept = pauses.iter().take_while(|pause| pause.end < first).count();
        pauses.truncate(kept);
        let last = pauses.last().copied();
        let reckoning = Reckoning {
            ground: self.ground,
            index: strip,
            stood: stood(self.ground, &self.occupied, &self.who, strip),
            prices: &Prices::NONE,
            limit: f64::INFINITY,
        };
        let sum = reckoning.sum(last.as_ref(), &mut self.work, |pause| pauses.push(pause));
        self.pauses[strip] = pauses;
        sum.unwrap_or_default()
    }

    /// The days on which a strip is stood on, as bits.
    pub(super) fn strip_row(&self, strip: usize) -> &[u64] {
        let words = strip * self.ground.n_words;
        &self.occupied[words..words + self.ground.n_words]
    }

    /// The number of breaches on a strip.
    pub(super) fn strip_faults(&self, strip: usize) -> u32 {
        let sum = &self.strips[strip];
        sum.rest_faults + sum.cover_faults + sum.stay_faults
    }

    /// Who stands on a strip on a day, if one mob does.
    pub(super) fn mob_on(&self, strip: usize, day: usize) -> Option<usize> {
        let who = usize::from(self.who[strip * self.ground.n_days + day]);
        (who < self.ground.n_mobs).then_some(who)
    }

    pub(super) fn is_stood_on(&self, strip: usize, day: usize) -> bool {
        self.who[strip * self.ground.n_days + day] != NOBODY
    }

    pub(super) fn place(&self, mob: usize, day: usize) -> u16 {
        self.places[mob * self.ground.n_days + day]
    }

    /// The score of a mob's way to where it stands on a day.
    fn way_score(&self, mob: usize, cell: usize) -> f64 {
        let ground = self.ground;
        let place = self.places[cell];
        if place == AWAY {
            return 0.0;
        }
        ground.walk_score(mob, self.comes_from(cell), place)
    }

    /// Where a mob comes from on a day.
    pub(super) fn comes_from(&self, cell: usize) -> u16 {
        let ground = self.ground;
        if !ground.starts[cell] {
            self.places[cell - 1]
        } else if cell.is_multiple_of(ground.n_days) {
            ground.stood[cell / ground.n_days]
        } else {
            ground.yard
        }
    }

    /// The score of the hay that a mob gets on some days if it spends them there.
    pub(super) fn hay(&self, mob: usize, start: usize, end: usize, place: u16) -> f64 {
        let ground = self.ground;
        if place != ground.yard {
            return 0.0;
        }
        let row = mob * (ground.n_days + 1);
        ground.short_weight * (ground.demanded[row + end] - ground.demanded[row + start])
    }
}

/// A strip's days as the sums read them.
fn stood<'a>(ground: &Ground, occupied: &'a [u64], who: &'a [u8], strip: usize) -> Stood<'a> {
    let (words, days) = (strip * ground.n_words, strip * ground.n_days);
    Stood {
        row: &occupied[words..words + ground.n_words],
        who: &who[days..days + ground.n_days],
    }
}

/// Place numbers as stands.
pub(super) fn stands_of(ground: &Ground, places: &[u16]) -> Stands {
    let row = |row: &[u16]| -> Vec<Place> { row.iter().map(|&n| ground.place_of(n)).collect() };
    places.chunks(ground.n_days).map(row).collect()
}
