//! Changes of a plan, made up run by run, tried, and kept or taken back.
//!
//! Knows the board alone; who makes up changes and which are kept is decided elsewhere.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]

use super::super::ground::{COMPANY, NOBODY};
use super::super::strip_sum::{Prices, StripSum};
use super::{Board, Sums, Touched};

/// A run of days, from `start` to before `end`, that a mob is to spend on another place than the one it has all through it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Change {
    mob: usize,
    start: usize,
    end: usize,
    from: u16,
    to: u16,
}

impl Board<'_> {
    /// Begins a new change.
    pub(in crate::planning::solver) fn clear_staged(&mut self) {
        self.staged.clear();
    }

    /// Whether the change being made up changes nothing.
    pub(in crate::planning::solver) fn is_nothing_staged(&self) -> bool {
        self.staged.is_empty()
    }

    /// Adds to the change being made up: a mob is to spend these days, none of them staged yet, on that place.
    pub(in crate::planning::solver) fn stage(
        &mut self,
        mob: usize,
        start: usize,
        end: usize,
        to: u16,
    ) {
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
    pub(in crate::planning::solver) fn try_staged(
        &mut self,
        prices: &Prices,
        allowance: f64,
    ) -> Option<Sums> {
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
                    self.ways.push((run.mob, cell));
                }
            }
        }
    }

    fn ways_score(&self) -> f64 {
        let scores = self
            .ways
            .iter()
            .map(|&(mob, cell)| self.way_score(mob, cell));
        scores.sum()
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
    pub(super) fn clear(&mut self, place: u16, start: usize, end: usize) {
        let strip = usize::from(place);
        if strip < self.ground.n_strips {
            let words = strip * self.ground.n_words;
            for_words(start, end, |word, mask| {
                self.occupied[words + word] &= !mask;
            });
            self.note(strip, start, end, NOBODY);
        }
    }

    /// Whether a strip is open on these days and nobody stands there.
    pub(in crate::planning::solver) fn is_open(
        &self,
        strip: usize,
        start: usize,
        end: usize,
    ) -> bool {
        let words = strip * self.ground.n_words;
        let mut barred = 0;
        for_words(start, end, |word, mask| {
            barred |= (self.occupied[words + word] | self.ground.closed[words + word]) & mask;
        });
        barred == 0
    }

    /// A mob stands on a place on these days; false, and nothing done, where a strip is closed or taken.
    pub(super) fn set(&mut self, place: u16, start: usize, end: usize, mob: usize) -> bool {
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
        for_words(start, end, |word, mask| {
            self.occupied[words + word] |= mask;
        });
        self.note(strip, start, end, who);
    }

    /// Notes who stands on a strip on these days, one by one: the runs are too short for anything cleverer to pay.
    fn note(&mut self, strip: usize, start: usize, end: usize, who: u8) {
        let row = strip * self.ground.n_days;
        for cell in row + start..row + end {
            self.who[cell] = who;
        }
    }

    pub(super) fn touch(&mut self, place: u16, first: usize) {
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
    pub(in crate::planning::solver) fn keep(&mut self, sums: Sums) {
        let touched = std::mem::take(&mut self.touched);
        for &Touched { strip, first, sum } in &touched {
            self.strips[strip] = sum;
            self.reckon_kept(strip, first);
        }
        self.touched = touched;
        self.sums = sums;
    }

    /// Takes back the change just tried.
    pub(in crate::planning::solver) fn take_back(&mut self) {
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
}

/// Gives the days from `start` to before `end` as bits: each word's number and its mask. Nearly always it is one word.
fn for_words(start: usize, end: usize, mut act: impl FnMut(usize, u64)) {
    if start >= end {
        return;
    }
    let (first, last) = (start / 64, (end - 1) / 64);
    let low = u64::MAX << (start % 64);
    let high = u64::MAX >> (63 - (end - 1) % 64);
    if first == last {
        act(first, low & high);
        return;
    }
    act(first, low);
    for word in first + 1..last {
        act(word, u64::MAX);
    }
    act(last, high);
}
