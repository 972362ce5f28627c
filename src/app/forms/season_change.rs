//! What typing about the season and the farm's sward does to the farm. kg DM/ha, kg DM/ha/day, days.

use super::change::{Given, SeasonField};
use super::figures;
use crate::app::season_acts::Act;
use crate::farm::{Edit, Farm, GrowthPreset, GrowthShape, Season, Sward};
use crate::quantity::MONTH_NAMES;

/// Fastest growth that is taken for one (from memory: the best spring days pass 150).
const MOST_GROWTH: f64 = 300.0;
/// The most by which a year's growth is believed to pass the usual, per cent.
const MOST_FACTOR: f64 = 300.0;
/// Tallest cover that is taken for one.
pub(super) const MOST_COVER: f64 = 15_000.0;
/// Unit of covers.
pub(super) const COVER_UNIT: &str = "kg DM/ha";

pub(super) fn change(given: Given<'_>, field: SeasonField, typed: &str) -> Result<Act, String> {
    match field {
        SeasonField::FirstDay | SeasonField::LastDay | SeasonField::Days | SeasonField::Seed => {
            change_season(given, field, typed)
        }
        _ => change_sward(given, field, typed),
    }
}

fn change_season(given: Given<'_>, field: SeasonField, typed: &str) -> Result<Act, String> {
    let old = given.farm.season;
    let mut season = old;
    let label = match field {
        SeasonField::FirstDay => {
            season.first_day = figures::day(typed, old.first_day)?;
            // A season that is begun earlier or later still ends on the day that was set; a new year's season keeps
            // its length.
            let left = old.last_day().days_since(season.first_day) + 1;
            if let Ok(days) = u32::try_from(left)
                && (1..=Season::MOST_DAYS).contains(&days)
            {
                season.days = days;
            }
            "First day of the season"
        }
        SeasonField::LastDay => {
            let last = figures::day(typed, old.last_day())?;
            season.days = days_until(season, last)?;
            "Last day of the season"
        }
        SeasonField::Days => {
            season.days = figures::whole(typed, 1..=Season::MOST_DAYS, "days")?;
            "Days of the season"
        }
        _ => {
            season.seed = typed
                .trim()
                .parse()
                .map_err(|_| "A whole number of 0 or more is wanted.".to_owned())?;
            "Search number"
        }
    };
    let edit = Edit::Season { old, new: season };
    Ok((label.to_owned(), vec![edit]))
}

fn days_until(season: Season, last: crate::quantity::Day) -> Result<u32, String> {
    let days = last.days_since(season.first_day) + 1;
    u32::try_from(days)
        .ok()
        .filter(|days| (1..=Season::MOST_DAYS).contains(days))
        .ok_or_else(|| {
            format!(
                "The season begins on {}: its last day comes then or later, within ten years.",
                figures::day_text(season.first_day)
            )
        })
}

fn change_sward(given: Given<'_>, field: SeasonField, typed: &str) -> Result<Act, String> {
    let old = &given.farm.sward;
    let mut sward = old.clone();
    let cover = |typed| figures::decimal(typed, 0.0..=MOST_COVER, COVER_UNIT);
    let label = match field {
        SeasonField::Growth(month) => {
            let growth = figures::decimal(typed, 0.0..=MOST_GROWTH, "kg DM/ha a day")?;
            put(&mut sward.growth_by_month, month, growth);
            format!("Growth in {}", month_name(month))
        }
        SeasonField::Rest(month) => {
            let days = figures::whole(typed, 0..=365, "days")?;
            put(&mut sward.rest_days_by_month, month, days);
            format!("Rest owed after {}", month_name(month))
        }
        SeasonField::Leave => {
            sward.leave_kg_per_ha = cover(typed)?;
            "Cover to leave".to_owned()
        }
        SeasonField::Enter => {
            sward.enter_kg_per_ha = cover(typed)?;
            "Cover to enter at".to_owned()
        }
        SeasonField::Ceiling => {
            sward.ceiling_kg_per_ha = cover(typed)?;
            "Cover at which growth stops".to_owned()
        }
        SeasonField::LambRest => {
            sward.lamb_rest_days =
                figures::unless_empty(typed, |typed| figures::whole(typed, 1..=365, "days"))?;
            "Rest while lambs are here".to_owned()
        }
        SeasonField::Factor => {
            let percent = figures::decimal(typed, 0.0..=MOST_FACTOR, "%")?;
            sward.season_factor = percent / 100.0;
            "Growth this year".to_owned()
        }
        SeasonField::FactorFrom => {
            let near = old
                .season_factor_from
                .unwrap_or(given.farm.season.first_day);
            sward.season_factor_from =
                figures::unless_empty(typed, |typed| figures::day(typed, near))?;
            "Since when growth differs".to_owned()
        }
        SeasonField::LongestStay => {
            sward.longest_stay_days = figures::whole(typed, 1..=365, "days")?;
            "Longest stay on a strip".to_owned()
        }
        _ => {
            typed.trim().clone_into(&mut sward.source);
            "Where the grass figures come from".to_owned()
        }
    };
    check_covers(
        sward.leave_kg_per_ha,
        sward.enter_kg_per_ha,
        sward.ceiling_kg_per_ha,
    )
    .or_else(|why| {
        if covers_differ(old, &sward) {
            Err(why)
        } else {
            Ok(())
        }
    })?;
    Ok((label, vec![sward_edit(given.farm, sward)]))
}

/// Takes a course of growth to begin from, with its source.
pub(super) fn take_preset(farm: &Farm, preset: &GrowthPreset) -> Act {
    let mut sward = farm.sward.clone();
    let is_southern = farm.frame.lonlat_from_point(farm.middle()).lat_deg < 0.0;
    sward.growth_by_month = preset.months(&farm.sward.growth_by_month, is_southern);
    preset.source.clone_into(&mut sward.source);
    (
        format!("Growth: {}", preset.name),
        vec![sward_edit(farm, sward)],
    )
}

/// Takes another shape of regrowth.
pub(super) fn take_shape(farm: &Farm, shape: GrowthShape) -> Act {
    let mut sward = farm.sward.clone();
    sward.growth_shape = shape;
    (
        format!("Regrowth: {}", shape.name()),
        vec![sward_edit(farm, sward)],
    )
}

fn sward_edit(farm: &Farm, sward: Sward) -> Edit {
    Edit::Sward {
        old: Box::new(farm.sward.clone()),
        new: Box::new(sward),
    }
}

/// Refuses covers with which nothing could ever be grazed.
pub(super) fn check_covers(leave: f64, enter: f64, ceiling: f64) -> Result<(), String> {
    let text = figures::figure_text;
    if enter < leave {
        return Err(format!(
            "They would enter at {} and leave {}: enter at what is left, or above.",
            text(enter),
            text(leave)
        ));
    }
    if ceiling < enter || ceiling <= leave {
        return Err(format!(
            "Growth would stop at {}, and they enter at {}: nothing could ever be grazed.",
            text(ceiling),
            text(enter)
        ));
    }
    Ok(())
}

fn covers_differ(old: &Sward, new: &Sward) -> bool {
    let covers = |sward: &Sward| {
        [
            sward.leave_kg_per_ha.to_bits(),
            sward.enter_kg_per_ha.to_bits(),
            sward.ceiling_kg_per_ha.to_bits(),
        ]
    };
    covers(old) != covers(new)
}

fn put<T>(months: &mut [T], month: usize, value: T) {
    if let Some(slot) = months.get_mut(month) {
        *slot = value;
    }
}

pub(super) fn month_name(month: usize) -> &'static str {
    MONTH_NAMES.get(month).copied().unwrap_or("")
}
