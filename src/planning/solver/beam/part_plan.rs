//! The part plans of a beam, and the signs by which those that go on alike are told.
//!
//! Plain values; judges nothing. Covers kg DM/ha, scores kg DM.

/// One strip of a part plan on a morning.
#[derive(Debug, Clone, Copy)]
pub(super) struct StripNow {
    /// Cover on the morning of `since`; nobody stood there since.
    pub(super) cover: f64,
    pub(super) since: usize,
    /// Length of the spell that ran until yesterday, days.
    pub(super) length: usize,
    /// The first day on which it may be stood on again, and its worth until then.
    pub(super) release: usize,
    pub(super) worth: f64,
    /// The day after the last on which it was stood on.
    pub(super) left: usize,
}

/// A plan of the days before a morning.
pub(super) struct PartPlan {
    pub(super) score: f64,
    pub(super) strips: Vec<StripNow>,
    /// Where each mob stood last.
    pub(super) places: Vec<u16>,
    /// The same for plans that go on alike: made of where mobs stand and when strips were left.
    pub(super) sign: u64,
    /// Its newest day in the trail.
    pub(super) day: Option<usize>,
}

/// A part plan with the first mobs placed for the day.
pub(super) struct BegunDay {
    pub(super) plan: usize,
    pub(super) score: f64,
    /// The score with the worth of all strips, as if no further mob stood anywhere.
    pub(super) hope: f64,
    pub(super) places: Vec<u16>,
    pub(super) sign: u64,
}

/// A begun day with one more mob placed.
pub(super) struct Step {
    pub(super) from: usize,
    pub(super) place: u16,
    pub(super) score: f64,
    pub(super) hope: f64,
    pub(super) sign: u64,
}

/// What a strip comes to if nobody stands there on a day.
#[derive(Clone, Copy)]
pub(super) struct Alone {
    pub(super) then: StripNow,
    /// Score of the day.
    pub(super) score: f64,
}

/// What a strip adds to a plan's sign by the spell that it had last.
pub(super) fn left_sign(strip: usize, left: usize, length: usize) -> u64 {
    mixed([strip, left, length])
}

/// Sets the signs of places apart from those of spells, which are never so long.
const OF_MOB: usize = 1_000_000;

/// What a mob's place adds to a plan's sign.
pub(super) fn place_sign(mob: usize, place: u16) -> u64 {
    mixed([mob, usize::from(place), OF_MOB])
}

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
