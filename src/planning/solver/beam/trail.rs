//! The days of a beam's part plans, each with the day before it, and the signs by which plans that go on alike are told.
//!
//! Judges nothing. Places are numbers as in [`super::super::ground`].

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a mob, place or day of the trail, whose length made the lists"
)]

use crate::planning::solver::ground::Ground;

/// Who stands where on each day of all part plans.
pub(super) struct Trail {
    n_mobs: usize,
    n_places: usize,
    /// What a mob's place adds to a plan's sign, by mob and place; the last place stands for being away.
    signs: Vec<u64>,
    /// The places of a day, as many as there are mobs.
    places: Vec<u16>,
    /// The day before it in the same plan.
    before: Vec<Option<u32>>,
}

impl Trail {
    pub(super) fn new(ground: &Ground) -> Self {
        let n_places = ground.n_strips + 2;
        let signs_of = |mob| (0..n_places).map(move |place| mixed([mob, place, OF_MOB]));
        Self {
            n_mobs: ground.n_mobs,
            n_places,
            signs: (0..ground.n_mobs).flat_map(signs_of).collect(),
            places: Vec::new(),
            before: Vec::new(),
        }
    }

    /// Adds a day after the one that came before it, and gives its number.
    pub(super) fn add(&mut self, places: &[u16], before: Option<u32>) -> Option<u32> {
        self.places.extend_from_slice(places);
        self.before.push(before);
        u32::try_from(self.before.len() - 1).ok()
    }

    /// What a mob's place adds to a plan's sign.
    pub(super) fn place_sign(&self, mob: usize, place: u16) -> u64 {
        self.signs[mob * self.n_places + usize::from(place).min(self.n_places - 1)]
    }

    /// All places along the days that lead to the last; where none leads there, as in the plainest plan.
    pub(super) fn places_along(&self, plainest: &[u16], last: Option<u32>) -> Vec<u16> {
        let mut places = plainest.to_vec();
        let n_days = places.len() / self.n_mobs.max(1);
        let mut at = last;
        for day in (0..n_days).rev() {
            let Some(index) = at else { break };
            let index = index as usize;
            let stands = &self.places[index * self.n_mobs..(index + 1) * self.n_mobs];
            for (mob, &place) in stands.iter().enumerate() {
                places[mob * n_days + day] = place;
            }
            at = self.before[index];
        }
        places
    }
}

/// What a strip adds to a plan's sign by the spell that it had last.
pub(super) fn left_sign(strip: usize, left: usize, length: usize) -> u64 {
    mixed([strip, left, length])
}

/// Sets the signs of places apart from those of spells, which are never so long.
const OF_MOB: usize = 1_000_000;

/// Three numbers mixed into one (the finisher is that of `SplitMix64`: Steele, Lea and Flood, "Fast splittable
/// pseudorandom number generators", OOPSLA 2014).
fn mixed(numbers: [usize; 3]) -> u64 {
    let mut mix: u64 = 0x9E37_79B9_7F4A_7C15;
    for number in numbers {
        mix = (mix ^ u64::try_from(number).unwrap_or(u64::MAX)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mix ^= mix >> 27;
        mix = mix.wrapping_mul(0x94D0_49BB_1331_11EB);
        mix ^= mix >> 31;
    }
    mix
}
