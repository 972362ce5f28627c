//! What typing about the handling of a hen house does: lanes, stops, sheep it follows, birds that grow.
//!
//! Changes a house that is not yet on the farm; metres, degrees, days, birds.

use super::change::{Given, HouseField, gone};
use super::figures;
use crate::farm::{FlockStep, HenHouse, HenStop, LeftStretch};
use crate::geometry::line;

/// Longest way behind the sheep: dung and its larvae are long gone (the range is common practice, no source).
const MOST_DAYS_AFTER: u32 = 60;
/// Most ground that a bird is given on a day, m².
const MOST_M2_EACH: f64 = 1_000.0;

/// Puts a typed text into the house; what was changed, in words.
pub(super) fn change(
    given: Given<'_>,
    house: &mut HenHouse,
    field: HouseField,
    typed: &str,
) -> Result<&'static str, String> {
    match field {
        HouseField::LaneBearing => {
            let bearing = |typed: &str| figures::decimal(typed, 0.0..=360.0, "degrees");
            house.handling.lane_bearing_deg = figures::unless_empty(typed, bearing)?;
            Ok("way of its lanes")
        }
        HouseField::LeftOn(line) => {
            let near = house.first_day;
            match figures::unless_empty(typed, |typed| figures::day(typed, near))? {
                Some(day) => house.handling.left_on.insert(line, day),
                None => house.handling.left_on.remove(&line),
            };
            Ok("last hens along a line")
        }
        HouseField::FollowDays => {
            let days = figures::whole(typed, 0..=MOST_DAYS_AFTER, "days")?;
            let follows = house.handling.follows.as_mut().ok_or_else(gone)?;
            follows.days_after = days;
            Ok("days after the sheep")
        }
        HouseField::StretchFrom(place) | HouseField::StretchTo(place) => {
            let stretches = &mut house.handling.left_stretches;
            let stretch = stretches.get_mut(place).ok_or_else(gone)?;
            change_stretch(given, stretch, field, typed)?;
            Ok("a stretch left out")
        }
        HouseField::StopFrom(place) | HouseField::StopTo(place) | HouseField::StopWhy(place) => {
            let stop = house.handling.stops.get_mut(place).ok_or_else(gone)?;
            change_stop(stop, field, typed)
        }
        HouseField::StepFrom(place)
        | HouseField::StepBirds(place)
        | HouseField::StepRoom(place) => {
            let step = house.handling.flock_steps.get_mut(place).ok_or_else(gone)?;
            change_step(given, step, field, typed)?;
            house.handling.flock_steps.sort_by_key(|step| step.from);
            Ok("growing flock")
        }
        _ => Err(gone()),
    }
}

fn change_stretch(
    given: Given<'_>,
    stretch: &mut LeftStretch,
    field: HouseField,
    typed: &str,
) -> Result<(), String> {
    let ground = given.farm.ground.get(&stretch.line).ok_or_else(gone)?;
    let end_m = line::length_m(ground.line().ok_or_else(gone)?);
    let at_m = figures::length_m(typed, given.units, 0.0..=end_m)?;
    let (from_m, to_m) = match field {
        HouseField::StretchFrom(_) => (at_m, stretch.to_m),
        _ => (stretch.from_m, at_m),
    };
    if from_m >= to_m {
        return Err("It would end before it begins: put the later end first.".to_owned());
    }
    (stretch.from_m, stretch.to_m) = (from_m, to_m);
    Ok(())
}

fn change_stop(stop: &mut HenStop, field: HouseField, typed: &str) -> Result<&'static str, String> {
    match field {
        HouseField::StopFrom(_) => {
            stop.from = figures::day(typed, stop.from)?;
            stop.to = stop.to.max(stop.from);
        }
        HouseField::StopTo(_) => {
            let to = figures::day(typed, stop.to)?;
            if to < stop.from {
                return Err(format!(
                    "It begins on {}: put a later day.",
                    figures::day_text(stop.from)
                ));
            }
            stop.to = to;
        }
        _ => typed.trim().clone_into(&mut stop.why),
    }
    Ok("a stop")
}

fn change_step(
    given: Given<'_>,
    step: &mut FlockStep,
    field: HouseField,
    typed: &str,
) -> Result<(), String> {
    match field {
        HouseField::StepFrom(_) => step.from = figures::day(typed, given.near)?,
        HouseField::StepBirds(_) => step.birds = figures::whole(typed, 0..=100_000, "birds")?,
        _ => step.m2_each = figures::decimal(typed, 0.0..=MOST_M2_EACH, "m²")?,
    }
    Ok(())
}
