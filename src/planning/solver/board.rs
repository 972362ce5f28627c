//! The plan under the search's hand: who stands where, each strip's sum, and changes tried and taken back.
//!
//! A try stages new places for some mob-days; only the strips touched are reckoned anew. Knows no temperatures.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]

use super::super::season::{Place, Stands};
use super::ground::{AWAY, COMPANY, Ground, NOBODY};
use super::strip_sum::{Prices, StripSum, is_closed, strip_sum};

/// One mob-day and a place for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Change {
    pub(super) mob: u8,
    pub(super) day: u16,
    pub(super) place: u16,
}

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
    pub(super) staged: Vec<Change>,
    undo: Vec<Change>,
    touched: Vec<(u16, StripSum)>,
    touched_mark: Vec<u32>,
    mark: u32,
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
            undo: Vec::new(),
            touched: Vec::new(),
            touched_mark: vec![0; n_strips],
            mark: 0,
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
    pub(super) fn sum_afresh(&mut self) {
        let ground = self.ground;
        self.sums = Sums::default();
        for strip in 0..ground.n_strips {
            let sum = self.reckon(strip, &Prices::NONE, f64::INFINITY);
            let sum = sum.unwrap_or_default();
            self.strips[strip] = sum;
            self.sums.add(&sum, 1.0);
        }
        for mob in 0..ground.n_mobs {
            for day in 0..ground.n_days {
                self.sums.score += self.mob_day_score(mob, day);
            }
        }
    }

    fn reckon(&mut self, strip: usize, prices: &Prices, limit: f64) -> Option<StripSum> {
        let ground = self.ground;
        let words = strip * ground.n_words;
        let row = &self.occupied[words..words + ground.n_words];
        let days = strip * ground.n_days;
        let who = &self.who[days..days + ground.n_days];
        self.work += 4;
        strip_sum(ground, strip, row, who, prices, limit, &mut self.work)
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

    /// Walk of a mob on a day, and its hay where it stands in the yard.
    fn mob_day_score(&self, mob: usize, day: usize) -> f64 {
        let ground = self.ground;
        let cell = mob * ground.n_days + day;
        let place = self.places[cell];
        if place == AWAY {
            return 0.0;
        }
        let from = if ground.starts[cell] {
            if day == 0 {
                ground.stood[mob]
            } else {
                ground.yard
            }
        } else {
            self.places[cell - 1]
        };
        let hay = if place == ground.yard {
            ground.short_weight * ground.demand[cell]
        } else {
            0.0
        };
        hay + ground.walk_score(mob, from, place)
    }

    /// Makes the staged change and gives the sums it leads to, or takes it back and gives nothing where it cannot be made or
    /// loses more than `allowance` with the breaches priced.
    /// Must be followed by [`Board::keep`] or [`Board::take_back`] where sums are given.
    pub(super) fn try_staged(&mut self, prices: &Prices, allowance: f64) -> Option<Sums> {
        self.undo.clear();
        self.touched.clear();
        self.mark = self.mark.wrapping_add(1);
        let staged = std::mem::take(&mut self.staged);
        let mut sums = self.sums;
        self.lift(&staged);
        let is_made = self.put_down(&staged, &mut sums);
        self.work += 4 + u64::try_from(staged.len()).unwrap_or(0);
        self.staged = staged;
        if !is_made || !self.reckon_touched(prices, allowance, &mut sums) {
            self.take_back();
            return None;
        }
        Some(sums)
    }

    /// Reckons the strips touched anew; false as soon as the loss is sure to pass the allowance.
    fn reckon_touched(&mut self, prices: &Prices, allowance: f64, sums: &mut Sums) -> bool {
        // What the touched strips may come to together: no strip comes to less than nothing.
        let mut room = allowance - (sums.score - self.sums.score);
        for (strip, _) in &self.touched {
            room += self.strips[usize::from(*strip)].priced(prices);
        }
        if room < 0.0 {
            return false;
        }
        // Strips that gain a stay were touched last, and are the likeliest to be too dear.
        for index in (0..self.touched.len()).rev() {
            let strip = usize::from(self.touched[index].0);
            let slack = 1e-9 * (1.0 + room.abs());
            let Some(sum) = self.reckon(strip, prices, room + slack) else {
                return false;
            };
            room -= sum.priced(prices);
            sums.add(&self.strips[strip], -1.0);
            sums.add(&sum, 1.0);
            self.touched[index].1 = sum;
        }
        true
    }

    /// Takes every staged mob-day off its strip.
    fn lift(&mut self, staged: &[Change]) {
        let n_days = self.ground.n_days;
        for change in staged {
            let (mob, day) = (usize::from(change.mob), usize::from(change.day));
            let place = self.places[mob * n_days + day];
            self.undo.push(Change { place, ..*change });
            self.clear(place, day);
        }
    }

    /// Puts every staged mob-day down where it goes; false where a strip is closed or taken.
    fn put_down(&mut self, staged: &[Change], sums: &mut Sums) -> bool {
        let n_days = self.ground.n_days;
        let mut is_made = true;
        let mut first = 0;
        while first < staged.len() {
            let (mob, start) = (usize::from(staged[first].mob), staged[first].day);
            let mut end = start;
            let mut next = first;
            while next < staged.len()
                && staged[next].mob == staged[first].mob
                && staged[next].day == end
            {
                end += 1;
                next += 1;
            }
            let reach = usize::from(start)..(usize::from(end) + 1).min(n_days);
            let before: f64 = reach.clone().map(|day| self.mob_day_score(mob, day)).sum();
            for change in &staged[first..next] {
                let day = usize::from(change.day);
                is_made &= self.set(change.place, day, change.mob);
                self.places[mob * n_days + day] = change.place;
            }
            let after: f64 = reach.map(|day| self.mob_day_score(mob, day)).sum();
            sums.score += after - before;
            first = next;
            if !is_made {
                break;
            }
        }
        is_made
    }

    fn clear(&mut self, place: u16, day: usize) {
        let strip = usize::from(place);
        if strip < self.ground.n_strips {
            self.occupied[strip * self.ground.n_words + day / 64] &= !(1 << (day % 64));
            self.who[strip * self.ground.n_days + day] = NOBODY;
            self.touch(place);
        }
    }

    fn set(&mut self, place: u16, day: usize, mob: u8) -> bool {
        let strip = usize::from(place);
        if strip >= self.ground.n_strips {
            return true;
        }
        if self.is_stood_on(strip, day) || is_closed(self.ground, strip, day) {
            return false;
        }
        self.occupied[strip * self.ground.n_words + day / 64] |= 1 << (day % 64);
        self.who[strip * self.ground.n_days + day] = mob;
        self.touch(place);
        true
    }

    fn touch(&mut self, place: u16) {
        let mark = &mut self.touched_mark[usize::from(place)];
        if *mark != self.mark {
            *mark = self.mark;
            self.touched.push((place, StripSum::default()));
        }
    }

    /// Keeps the change just tried, whose sums were given.
    pub(super) fn keep(&mut self, sums: Sums) {
        for (strip, sum) in &self.touched {
            self.strips[usize::from(*strip)] = *sum;
        }
        self.sums = sums;
    }

    /// Takes back the change just tried.
    pub(super) fn take_back(&mut self) {
        let n_days = self.ground.n_days;
        let undo = std::mem::take(&mut self.undo);
        for change in &undo {
            let (mob, day) = (usize::from(change.mob), usize::from(change.day));
            let cell = mob * n_days + day;
            let place = self.places[cell];
            let strip = usize::from(place);
            if strip < self.ground.n_strips && self.who[strip * n_days + day] == change.mob {
                self.occupied[strip * self.ground.n_words + day / 64] &= !(1 << (day % 64));
                self.who[strip * n_days + day] = NOBODY;
            }
            self.places[cell] = change.place;
        }
        for change in &undo {
            let (strip, day) = (usize::from(change.place), usize::from(change.day));
            if strip < self.ground.n_strips {
                self.occupied[strip * self.ground.n_words + day / 64] |= 1 << (day % 64);
                self.who[strip * n_days + day] = change.mob;
            }
        }
        self.undo = undo;
    }
}

/// Place numbers as stands.
pub(super) fn stands_of(ground: &Ground, places: &[u16]) -> Stands {
    let row = |row: &[u16]| -> Vec<Place> { row.iter().map(|&n| ground.place_of(n)).collect() };
    places.chunks(ground.n_days).map(row).collect()
}
