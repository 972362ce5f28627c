//! What a round comes to: nitrogen, feed, water, netting, and room for birds that grow.
//!
//! kg N/ha, kg, litres, metres. Every figure names its source; all are advice for the grower to change.

use std::collections::BTreeMap;

use super::HenWalk;
use crate::farm::HenHouse;
use crate::planning::NitrogenSet;
use crate::planning::grazing_sums::LENGTH_OF_ROLL_M;
use crate::quantity::{Day, decimal_text, plural_text};

/// Feed of a hen on a day, least and most, kg.
const FEED_KG: (f64, f64) = (0.10, 0.15);
/// Where that stands.
pub const FEED_SOURCE: &str = "Home Hen Handbook (Australia), section 6";
/// Water of a hen on a day, least and most, litres; in heat up to half a litre.
const WATER_L: (f64, f64) = (0.2, 0.3);
/// Where that stands.
pub const WATER_SOURCE: &str =
    "rule of thumb of extension services, from memory; up to 0.5 L in heat";
/// Days of a year.
const YEAR_DAYS: f64 = 365.0;

/// What a round comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct HenSums {
    /// Nitrogen that a stay leaves on its place: once in a round, kg N/ha.
    pub n_kg_per_ha_in_round: f64,
    /// The most that any place gets in a year of the plan, kg N/ha, by year.
    pub n_kg_per_ha_in_year: BTreeMap<i16, f64>,
    /// Ground of all its places for each bird in a year, m², by year: places used in that year.
    pub m2_per_hen_in_year: BTreeMap<i16, f64>,
    /// Feed a day, least and most, kg.
    pub feed_kg_a_day: (f64, f64),
    /// Water a day, least and most, litres.
    pub water_l_a_day: (f64, f64),
    /// Nets of 50 m round one place.
    pub nets: u32,
    /// The first day on which the birds want more room than a place gives; how to mend it.
    pub room_trouble: Option<(Day, String)>,
}

/// The sums of a walk by a set of nitrogen figures; birds are those of the first day shown.
pub fn hen_sums(house: &HenHouse, walk: &HenWalk, set: NitrogenSet) -> HenSums {
    let first = walk.days.first().map_or(house.first_day, |day| day.day);
    let birds = f64::from(house.birds_on(first));
    let kg_a_day = set.hen_kg_a_year() / YEAR_DAYS;
    let place_ha = walk.facts.place_m2 / 10_000.0;
    let mut by_place: BTreeMap<(i16, usize), f64> = BTreeMap::new();
    let mut most_birds: BTreeMap<i16, u32> = BTreeMap::new();
    for day in walk.days.iter().filter(|day| !day.is_housed) {
        let year = day.day.year();
        let birds = house.birds_on(day.day);
        *by_place.entry((year, day.place)).or_default() += f64::from(birds) * kg_a_day;
        let most = most_birds.entry(year).or_default();
        *most = birds.max(*most);
    }
    let mut in_year: BTreeMap<i16, f64> = BTreeMap::new();
    let mut places: BTreeMap<i16, f64> = BTreeMap::new();
    for ((year, _), kg) in &by_place {
        let most = in_year.entry(*year).or_default();
        *most = most.max(kg / place_ha);
        *places.entry(*year).or_default() += 1.0;
    }
    let m2_per_hen_in_year = places
        .iter()
        .filter_map(|(year, places)| {
            let birds = most_birds.get(year).copied().filter(|birds| *birds > 0)?;
            Some((*year, places * walk.facts.place_m2 / f64::from(birds)))
        })
        .collect();
    let round_m = 2.0 * (house.length_m + house.width_m);
    HenSums {
        n_kg_per_ha_in_round: birds * kg_a_day * f64::from(house.days_per_place) / place_ha,
        n_kg_per_ha_in_year: in_year,
        m2_per_hen_in_year,
        feed_kg_a_day: (birds * FEED_KG.0, birds * FEED_KG.1),
        water_l_a_day: (birds * WATER_L.0, birds * WATER_L.1),
        nets: nets(round_m),
        room_trouble: room_trouble(house, walk),
    }
}

fn nets(round_m: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a run is some hundred metres round"
    )]
    let nets = (round_m / LENGTH_OF_ROLL_M).ceil().clamp(0.0, 1.0e6) as u32;
    nets
}

/// The first day on which birds that grow want more room than their place gives, with what would do.
fn room_trouble(house: &HenHouse, walk: &HenWalk) -> Option<(Day, String)> {
    let place_m2 = walk.facts.place_m2;
    let is_short = |day: Day| {
        house
            .flock_step_on(day)
            .is_some_and(|step| step.m2_each * f64::from(step.birds) > place_m2 * (1.0 + 1e-9))
    };
    let day = walk.days.iter().find(|day| is_short(day.day))?.day;
    let step = house.flock_step_on(day)?;
    let wanted_m2 = step.m2_each * f64::from(step.birds);
    let longer_m = wanted_m2 / house.width_m - house.length_m;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "fewer than the birds there are"
    )]
    let fits = (place_m2 / step.m2_each + 1e-9).floor().max(0.0) as u32;
    Some((
        day,
        format!(
            "{} birds at {} m² want {} m² from {} on, and a place gives {}: a run {} m longer, or {}, would do",
            step.birds,
            decimal_text(step.m2_each, 2),
            decimal_text(wanted_m2, 1),
            day.short_text(),
            decimal_text(place_m2, 1),
            decimal_text((longer_m * 10.0).ceil() / 10.0, 1),
            plural_text(
                u64::from(step.birds.saturating_sub(fits)),
                "bird fewer",
                "birds fewer"
            )
        ),
    ))
}
