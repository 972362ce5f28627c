//! The sums that a grazier does on the back of an envelope.
//!
//! Cover is kg of dry matter per hectare from ground level, feed kg DM, demand kg DM a day, areas hectares or square
//! metres as named. *Eaten* feed is what goes down the throat; *used share* is eaten over offered: where a residual is
//! taken off, all of what is above it counts as eaten, so the two are never used together (see [`feed_kg`]). A sum with
//! no sensible answer, because a figure is not a number or nothing divides by nothing, is `None`.

mod fence;
mod plate;
mod water;

pub use fence::{LENGTH_OF_ROLL_M, RollsNeeded, long_side_m, rolls_needed, square_share_of_fence};
pub use plate::{PLATE_FORMULAS, PlateFormula, cover_from_plate};
pub use water::{WaterNeed, WaterRange, water_litres_a_day};

/// Feed above the residual on an area, kg DM: cover less what is left, over the area; 0 where there is none.
///
/// *Set up a grazing plan*, AHDB Beef and Lamb, grazing days: 2,500 grazed to 1,600 kg/ha on 2 ha gives 1,800 kg.
pub fn feed_kg(area_ha: f64, cover_kg_per_ha: f64, leave_kg_per_ha: f64) -> Option<f64> {
    let feed_kg = area_ha * not_below_zero(cover_kg_per_ha - leave_kg_per_ha);
    (area_ha >= 0.0).then_some(feed_kg).and_then(known)
}

/// Feed that is eaten where only a share of what stands is used, kg DM.
///
/// University of Idaho (K. Launchbaugh), range supply example: 440,000 lb on a range at 45 % use gives 198,000 lb.
pub fn used_feed_kg(area_ha: f64, standing_kg_per_ha: f64, used_share: f64) -> Option<f64> {
    let is_share = (0.0..=1.0).contains(&used_share);
    let feed_kg = area_ha * standing_kg_per_ha * used_share;
    (is_share && feed_kg >= 0.0)
        .then_some(feed_kg)
        .and_then(known)
}

/// Days a feed lasts a mob that eats `demand_kg` a day, no growth counted.
///
/// *Set up a grazing plan*, AHDB Beef and Lamb: 1,800 kg at 975 kg a day are about two days.
pub fn days_lasting(feed_kg: f64, demand_kg: f64) -> Option<f64> {
    let is_sound = feed_kg >= 0.0 && demand_kg > 0.0;
    is_sound.then(|| feed_kg / demand_kg).and_then(known)
}

/// Days a strip lasts while it grows: spare feed over what demand takes beyond growth.
/// `None` where it grows as fast as it is eaten, so that it never runs out.
///
/// *Making More from Sheep*, Australian Wool Innovation and Meat & Livestock Australia, Tool 8.4, solved for days.
pub fn days_lasting_with_growth(
    feed_kg: f64,
    demand_kg: f64,
    area_ha: f64,
    growth_kg_per_ha_day: f64,
) -> Option<f64> {
    let is_sound = area_ha > 0.0 && growth_kg_per_ha_day >= 0.0;
    let net_kg = demand_kg - growth_kg_per_ha_day * area_ha;
    is_sound.then_some(())?;
    days_lasting(feed_kg, net_kg)
}

/// Area that feeds a mob for some days, ha: demand over the days, divided by the feed of a hectare and the share used.
///
/// The share is 1 where `feed_kg_per_ha` is what stands above a residual that is really left; a waste allowance else.
/// *Penn State Agronomy Guide*, Pennsylvania State University, table 1.8-9, has it for one to seven days.
pub fn area_for_days_ha(
    demand_kg: f64,
    days: f64,
    feed_kg_per_ha: f64,
    used_share: f64,
) -> Option<f64> {
    let is_sound = demand_kg >= 0.0 && days >= 0.0 && feed_kg_per_ha > 0.0;
    let is_share = used_share > 0.0 && used_share <= 1.0;
    let area_ha = demand_kg * days / (feed_kg_per_ha * used_share);
    (is_sound && is_share).then_some(area_ha).and_then(known)
}

/// Paddocks that give a rest: rest over stay, and the one being grazed, rounded up.
///
/// *Four steps to rotational grazing*, Pennsylvania State University, Agronomy Facts 43, step 3: 35 days' rest and
/// 3 days' grazing need 13.
pub fn paddocks_needed(rest_days: u32, stay_days: u32) -> Option<u32> {
    (stay_days > 0).then(|| rest_days.div_ceil(stay_days).saturating_add(1))
}

/// Rest that a number of equal paddocks gives at a stay, days: the turn of all the others.
pub fn rest_reached_days(paddocks: u32, stay_days: u32) -> u32 {
    paddocks.saturating_sub(1).saturating_mul(stay_days)
}

/// Area of one of several equal paddocks.
///
/// *Four steps to rotational grazing*, Agronomy Facts 43, step 4.
pub fn paddock_area_ha(total_ha: f64, paddocks: u32) -> Option<f64> {
    let is_sound = total_ha >= 0.0 && paddocks > 0;
    is_sound
        .then(|| total_ha / f64::from(paddocks))
        .and_then(known)
}

/// Animal units of a herd: head times units each, summed over classes.
///
/// *Four steps to rotational grazing*, Agronomy Facts 43, step 1: 30 cows of 1.6 and a bull of 1.7 are 49.7.
pub fn animal_units(classes: impl IntoIterator<Item = (u32, f64)>) -> Option<f64> {
    let sum: f64 = classes
        .into_iter()
        .map(|(head, units_each)| f64::from(head) * units_each)
        .sum();
    (sum >= 0.0).then_some(sum).and_then(known)
}

/// Animal-unit days: units times days.
pub fn animal_unit_days(animal_units: f64, days: f64) -> Option<f64> {
    (animal_units >= 0.0 && days >= 0.0)
        .then_some(animal_units * days)
        .and_then(known)
}

/// Growth from two covers read `days` apart with no stock between, kg DM/ha a day; below 0 where it shrank.
///
/// *Irish Farmers Journal*, 2016: 2 cm more in 7 days at 250 kg/ha to the centimetre are 71 kg/ha a day.
pub fn growth_between(first_kg_per_ha: f64, second_kg_per_ha: f64, days: f64) -> Option<f64> {
    (days > 0.0)
        .then(|| (second_kg_per_ha - first_kg_per_ha) / days)
        .and_then(known)
}

/// Days of rest from a cover left to a cover to enter at, at an even growth.
///
/// *Farmers Weekly*, August 1997 (P. Bird): 1,500 to 3,000 kg/ha at 60 a day are 25 days.
pub fn days_to_grow(
    left_kg_per_ha: f64,
    enter_kg_per_ha: f64,
    growth_kg_per_ha_day: f64,
) -> Option<f64> {
    (growth_kg_per_ha_day > 0.0)
        .then(|| not_below_zero(enter_kg_per_ha - left_kg_per_ha) / growth_kg_per_ha_day)
        .and_then(known)
}

/// Feed that comes over some days on a hectare, kg DM: what stands above the least that may be left, and growth.
///
/// *Making More from Sheep*, Tool 8.4: 1,700 now, 1,500 to leave and 40 a day over 42 days give 1,880 kg/ha.
pub fn supply_kg_per_ha(
    cover_kg_per_ha: f64,
    leave_kg_per_ha: f64,
    growth_kg_per_ha_day: f64,
    days: f64,
) -> Option<f64> {
    (days >= 0.0)
        .then(|| not_below_zero(cover_kg_per_ha - leave_kg_per_ha + growth_kg_per_ha_day * days))
        .and_then(known)
}

/// Head that a supply keeps on a hectare over some days.
///
/// `spoilt_share` is what is trodden and fouled for each kilogram eaten: 0.15 with 2.9 kg eaten takes 3.335 kg.
/// *Making More from Sheep*, Tool 8.4: 13.4 ewes to the hectare.
pub fn head_per_ha(
    supply_kg_per_ha: f64,
    eats_kg_each: f64,
    spoilt_share: f64,
    days: f64,
) -> Option<f64> {
    let takes_kg = eats_kg_each * (1.0 + spoilt_share) * days;
    let is_sound = supply_kg_per_ha >= 0.0 && spoilt_share >= 0.0 && takes_kg > 0.0;
    is_sound
        .then(|| supply_kg_per_ha / takes_kg)
        .and_then(known)
}

/// Head that eat a hectare's growth as it comes, when a share of it is wasted.
///
/// *Farm Advisory Service Scotland*, September 2020: 24.7 kg/ha a day, a quarter wasted, 1.5 kg each: 12 ewes.
pub fn head_to_match_growth(
    growth_kg_per_ha_day: f64,
    wasted_share: f64,
    eats_kg_each: f64,
) -> Option<f64> {
    let is_sound = growth_kg_per_ha_day >= 0.0 && eats_kg_each > 0.0;
    let is_share = (0.0..=1.0).contains(&wasted_share);
    (is_sound && is_share)
        .then(|| growth_kg_per_ha_day * (1.0 - wasted_share) / eats_kg_each)
        .and_then(known)
}

/// What stock takes off a hectare a day, kg DM: demand over area.
///
/// *Irish Farmers Journal*, 2016: 20 head of 480 kg eating 2 % on 4 ha take 48 kg/ha a day.
pub fn demand_kg_per_ha(demand_kg: f64, area_ha: f64) -> Option<f64> {
    (area_ha > 0.0).then(|| demand_kg / area_ha).and_then(known)
}

/// Feed of a hectare by height, kg DM: height above what is left, times the weight of a centimetre.
///
/// Heights are of one sort: a ruler reads higher than a plate, and one is never used with the other's weight.
/// University of Maine, pasture course, lesson 1, appendix D: 7 in to 3 in at 300 lb/ac to the inch are 1,200 lb/ac.
pub fn feed_by_height_kg_per_ha(height_cm: f64, leave_cm: f64, kg_per_ha_cm: f64) -> Option<f64> {
    (kg_per_ha_cm >= 0.0)
        .then(|| not_below_zero(height_cm - leave_cm) * kg_per_ha_cm)
        .and_then(known)
}

/// How long a strip of a width must be to hold an area, metres.
pub fn strip_length_m(area_m2: f64, width_m: f64) -> Option<f64> {
    let is_sound = area_m2 >= 0.0 && width_m > 0.0;
    is_sound.then(|| area_m2 / width_m).and_then(known)
}

/// The mean cover of several fields, each weighing as its area, kg DM/ha.
pub fn mean_cover_kg_per_ha(fields: &[(f64, f64)]) -> Option<f64> {
    let area_ha: f64 = fields.iter().map(|(area_ha, _)| *area_ha).sum();
    let mass_kg: f64 = fields.iter().map(|(area_ha, cover)| area_ha * cover).sum();
    (area_ha > 0.0).then(|| mass_kg / area_ha).and_then(known)
}

/// The figure, if it is one.
fn known(value: f64) -> Option<f64> {
    value.is_finite().then_some(value)
}

/// 0 for what is below it. What is no number stays none, which `max` would hide.
fn not_below_zero(value: f64) -> f64 {
    if value < 0.0 { 0.0 } else { value }
}
