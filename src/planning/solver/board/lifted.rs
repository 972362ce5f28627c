//! Stays taken off their strips for a moment, to see what each would cost elsewhere.
//!
//! Changes nothing that lasts: what is lifted is put back.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]

use super::super::ground::place_number;
use super::super::moves::Stay;
use super::super::strip_sum::Prices;
use super::Board;

impl Board<'_> {
    /// Takes stays off their strips, to see what they cost elsewhere; [`Board::put_back`] must follow.
    pub(in crate::planning::solver) fn lift_stays(&mut self, stays: &[Stay]) {
        self.touched.clear();
        self.mark = self.mark.wrapping_add(1);
        for stay in stays {
            self.clear(stay.place, stay.start, stay.end);
            self.touch(stay.place, stay.start);
        }
    }

    /// Puts lifted stays back where they were.
    pub(in crate::planning::solver) fn put_back(&mut self, stays: &[Stay]) {
        for stay in stays {
            self.set(stay.place, stay.start, stay.end, stay.mob);
        }
    }

    /// What a strip comes to with the breaches priced, stays lifted off it or not.
    pub(in crate::planning::solver) fn priced_now(&mut self, strip: usize, prices: &Prices) -> f64 {
        match self.first_touched(strip) {
            Some(first) => self
                .reckon(strip, first, prices, f64::INFINITY)
                .map_or(0.0, |sum| sum.priced(prices)),
            None => self.strips[strip].priced(prices),
        }
    }

    /// What a strip comes to with one lifted stay put there; nothing where it cannot be or comes to more than `limit`.
    pub(in crate::planning::solver) fn priced_with(
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
