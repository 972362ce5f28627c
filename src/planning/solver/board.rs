//! The plan under the search's hand: who stands where, each strip's sum, and changes tried and taken back.
//!
//! A try stages new places for some mob-days; only the strips touched are reckoned anew. Knows no temperatures.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]

use super::super::season::{Place, Stands};
use super::ground::{AWAY, COMPANY, Ground, NOBODY, place_number};
use super::moves::Stay;
use super::strip_sum::{Pause, Prices, Reckoning, Stood, StripSum};

/// A run of days, from `start` to before `end`, that a mob is to spend on another place than the one it has all through it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Change {
    mob: usize,
    start: usize,
    end: usize,
    from: u16,
    to: u16,
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
    /// Mob-days whose way there may change, and marks against counting one twice.
    ways: Vec<usize>,
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
                    self.way_score(cell) + self.hay(mob, day, day + 1, self.places[cell]);
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
    fn way_score(&self, cell: usize) -> f64 {
        let ground = self.ground;
        let place = self.places[cell];
        if place == AWAY {
            return 0.0;
        }
        let mob = cell / ground.n_days;
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

    /// Begins a new change.
    pub(super) fn clear_staged(&mut self) {
        self.staged.clear();
    }

    /// Whether the change being made up changes nothing.
    pub(super) fn is_nothing_staged(&self) -> bool {
        self.staged.is_empty()
    }

    /// Adds to the change being made up: a mob is to spend these days, none of them staged yet, on that place.
    pub(super) fn stage(&mut self, mob: usize, start: usize, end: usize, to: u16) {
        let row = mob * self.ground.n_days;
        for day in start..end {
            let from = self.places[row + day];
            // A new visit begins a new run, so that only the ends of a run have ways to reckon.
            let is_new_visit = self.ground.starts[row + day];
            match self.staged.last_mut() {
                Some(last)
                    if last.mob == mob
                        && last.end == day
                        && last.from == from
                        && last.to == to
                        && !is_new_visit =>
                {
                    last.end = day + 1;
                }
                _ => self.staged.push(Change {
                    mob,
                    start: day,
                    end: day + 1,
                    from,
                    to,
                }),
            }
        }
    }

    /// Makes the staged change and gives the sums it leads to, or takes it back and gives nothing where it cannot be made or
    /// loses more than `allowance` with the breaches priced.
    /// Must be followed by [`Board::keep`] or [`Board::take_back`] where sums are given.
    pub(super) fn try_staged(&mut self, prices: &Prices, allowance: f64) -> Option<Sums> {
        self.touched.clear();
        self.mark = self.mark.wrapping_add(1);
        let staged = std::mem::take(&mut self.staged);
        let mut sums = self.sums;
        self.list_ways(&staged);
        let before = self.ways_score();
        self.lift(&staged);
        let is_made = self.put_down(&staged);
        self.work += 4 + u64::try_from(staged.len()).unwrap_or(0);
        if is_made {
            let hay: f64 = staged
                .iter()
                .map(|run| {
                    self.hay(run.mob, run.start, run.end, run.to)
                        - self.hay(run.mob, run.start, run.end, run.from)
                })
                .sum();
            sums.score += hay + self.ways_score() - before;
        }
        self.staged = staged;
        if !is_made || !self.reckon_touched(prices, allowance, &mut sums) {
            self.take_back();
            return None;
        }
        Some(sums)
    }

    /// Notes the mob-days whose way there may change: the ends of every run, each once.
    fn list_ways(&mut self, staged: &[Change]) {
        let n_days = self.ground.n_days;
        self.ways.clear();
        for run in staged {
            for day in [run.start, run.end] {
                let cell = run.mob * n_days + day;
                if day < n_days && self.way_mark[cell] != self.mark {
                    self.way_mark[cell] = self.mark;
                    self.ways.push(cell);
                }
            }
        }
    }

    fn ways_score(&self) -> f64 {
        self.ways.iter().map(|&cell| self.way_score(cell)).sum()
    }

    /// Reckons the strips touched anew; false as soon as the loss is sure to pass the allowance.
    fn reckon_touched(&mut self, prices: &Prices, allowance: f64, sums: &mut Sums) -> bool {
        // What the touched strips may come to together: no strip comes to less than nothing.
        let mut room = allowance - (sums.score - self.sums.score);
        for touched in &self.touched {
            room += self.strips[touched.strip].priced(prices);
        }
        if room < 0.0 {
            return false;
        }
        // Strips that gain a stay were touched last, and are the likeliest to be too dear.
        for index in (0..self.touched.len()).rev() {
            let Touched { strip, first, .. } = self.touched[index];
            let slack = 1e-9 * (1.0 + room.abs());
            let Some(sum) = self.reckon(strip, first, prices, room + slack) else {
                return false;
            };
            room -= sum.priced(prices);
            sums.add(&self.strips[strip], -1.0);
            sums.add(&sum, 1.0);
            self.touched[index].sum = sum;
        }
        true
    }

    /// Takes every staged run off its strip.
    fn lift(&mut self, staged: &[Change]) {
        for run in staged {
            self.clear(run.from, run.start, run.end);
            self.touch(run.from, run.start);
        }
    }

    /// Puts every staged run down where it goes; false where a strip is closed or taken.
    fn put_down(&mut self, staged: &[Change]) -> bool {
        for (index, run) in staged.iter().enumerate() {
            if !self.set(run.to, run.start, run.end, run.mob) {
                self.n_put = index;
                return false;
            }
            self.touch(run.to, run.start);
            let row = run.mob * self.ground.n_days;
            self.places[row + run.start..row + run.end].fill(run.to);
        }
        self.n_put = staged.len();
        true
    }

    /// Nobody stands on a place on these days.
    fn clear(&mut self, place: u16, start: usize, end: usize) {
        let strip = usize::from(place);
        if strip < self.ground.n_strips {
            let words = strip * self.ground.n_words;
            for (word, mask) in masks(start, end) {
                self.occupied[words + word] &= !mask;
            }
            let row = strip * self.ground.n_days;
            self.who[row + start..row + end].fill(NOBODY);
        }
    }

    /// Whether a strip is open on these days and nobody stands there.
    fn is_open(&self, strip: usize, start: usize, end: usize) -> bool {
        let words = strip * self.ground.n_words;
        let barred = |word: usize| self.occupied[words + word] | self.ground.closed[words + word];
        masks(start, end).all(|(word, mask)| barred(word) & mask == 0)
    }

    /// A mob stands on a place on these days; false, and nothing done, where a strip is closed or taken.
    fn set(&mut self, place: u16, start: usize, end: usize, mob: usize) -> bool {
        let strip = usize::from(place);
        if strip >= self.ground.n_strips {
            return true;
        }
        if !self.is_open(strip, start, end) {
            return false;
        }
        self.stand(strip, start, end, u8::try_from(mob).unwrap_or(COMPANY));
        true
    }

    fn stand(&mut self, strip: usize, start: usize, end: usize, who: u8) {
        let words = strip * self.ground.n_words;
        for (word, mask) in masks(start, end) {
            self.occupied[words + word] |= mask;
        }
        let row = strip * self.ground.n_days;
        self.who[row + start..row + end].fill(who);
    }

    fn touch(&mut self, place: u16, first: usize) {
        let strip = usize::from(place);
        if strip >= self.ground.n_strips {
            return;
        }
        if self.touched_mark[strip] == self.mark {
            let touched = self
                .touched
                .iter_mut()
                .find(|touched| touched.strip == strip);
            if let Some(touched) = touched {
                touched.first = touched.first.min(first);
            }
        } else {
            self.touched_mark[strip] = self.mark;
            let sum = StripSum::default();
            self.touched.push(Touched { strip, first, sum });
        }
    }

    /// Keeps the change just tried, whose sums were given.
    pub(super) fn keep(&mut self, sums: Sums) {
        let touched = std::mem::take(&mut self.touched);
        for &Touched { strip, first, sum } in &touched {
            self.strips[strip] = sum;
            self.reckon_kept(strip, first);
        }
        self.touched = touched;
        self.sums = sums;
    }

    /// Takes back the change just tried.
    pub(super) fn take_back(&mut self) {
        let staged = std::mem::take(&mut self.staged);
        for run in &staged[..self.n_put] {
            self.clear(run.to, run.start, run.end);
            let row = run.mob * self.ground.n_days;
            self.places[row + run.start..row + run.end].fill(run.from);
        }
        for run in &staged {
            let strip = usize::from(run.from);
            if strip < self.ground.n_strips {
                let who = u8::try_from(run.mob).unwrap_or(COMPANY);
                self.stand(strip, run.start, run.end, who);
            }
        }
        self.staged = staged;
    }

    /// Takes stays off their strips, to see what they cost elsewhere; [`Board::put_back`] must follow.
    pub(super) fn lift_stays(&mut self, stays: &[Stay]) {
        self.touched.clear();
        self.mark = self.mark.wrapping_add(1);
        for stay in stays {
            self.clear(stay.place, stay.start, stay.end);
            self.touch(stay.place, stay.start);
        }
    }

    /// Puts lifted stays back where they were.
    pub(super) fn put_back(&mut self, stays: &[Stay]) {
        for stay in stays {
            self.set(stay.place, stay.start, stay.end, stay.mob);
        }
    }

    /// What a strip comes to with the breaches priced, stays lifted off it or not.
    pub(super) fn priced_now(&mut self, strip: usize, prices: &Prices) -> f64 {
        match self.first_touched(strip) {
            Some(first) => self
                .reckon(strip, first, prices, f64::INFINITY)
                .map_or(0.0, |sum| sum.priced(prices)),
            None => self.strips[strip].priced(prices),
        }
    }

    /// What a strip comes to with one lifted stay put there; nothing where it cannot be or comes to more than `limit`.
    pub(super) fn priced_with(
        &mut self,
        stay: &Stay,
        strip: usize,
        prices: &Prices,
        limit: f64,
    ) -> Option<f64> {
        let place = place_number(strip);
        self.work += 2;
        if !self.set(place, stay.start, stay.end, stay.mob) {
            return None;
        }
        let first = self.first_touched(strip).unwrap_or(stay.start);
        let sum = self.reckon(strip, first.min(stay.start), prices, limit);
        self.clear(place, stay.start, stay.end);
        sum.map(|sum| sum.priced(prices))
    }

    /// The first day on which a strip touched since the last mark may differ.
    fn first_touched(&self, strip: usize) -> Option<usize> {
        let is_touched = self.touched_mark[strip] == self.mark;
        let touched = self.touched.iter().filter(|_| is_touched);
        let mut firsts = touched.filter(|touched| touched.strip == strip);
        firsts.next().map(|touched| touched.first)
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

/// The days from `start` to before `end` as bits: each word's number and its mask.
fn masks(start: usize, end: usize) -> impl Iterator<Item = (usize, u64)> {
    let last = end.saturating_sub(1);
    let words = start / 64..if start < end {
        last / 64 + 1
    } else {
        start / 64
    };
    words.map(move |word| {
        let low = if word == start / 64 {
            u64::MAX << (start % 64)
        } else {
            u64::MAX
        };
        let high = if word == last / 64 {
            u64::MAX >> (63 - last % 64)
        } else {
            u64::MAX
        };
        (word, low & high)
    })
}

/// Place numbers as stands.
pub(super) fn stands_of(ground: &Ground, places: &[u16]) -> Stands {
    let row = |row: &[u16]| -> Vec<Place> { row.iter().map(|&n| ground.place_of(n)).collect() };
    places.chunks(ground.n_days).map(row).collect()
}
