//! `season` and `problem`: the moves as a form, and as a problem.

use std::path::Path;
use std::process::ExitCode;

use serde_json::Value;

use super::Trouble;
use super::json::{Fields, print_json, print_text};
use crate::farm::Farm;
use crate::files::{open_farm, planning_json};
use crate::planning::{Nearness, SCORE_TOLD, SeasonPlan, live_season_of, problem_from};
use crate::quantity::Day;
use crate::sheets::season_sheet::{
    HenRow, MobRow, SheetDay, half_growth_text, sheet_days, sheet_text, sheet_text_short,
};

/// Prints the moves.
pub(super) fn season(
    file: &Path,
    (from, days): (Option<Day>, Option<u32>),
    (short, json): (bool, bool),
    bound: bool,
) -> Result<ExitCode, Trouble> {
    let farm = open_farm(file)?;
    let plan = planned_to_show(&farm, from, days)?;
    let from = from.unwrap_or(plan.first_day);
    let shown = days.map_or(plan.days, |days| {
        usize::try_from(days).unwrap_or(usize::MAX)
    });
    let rows = sheet_days(&farm, &plan, from, shown);
    if json {
        print_json(&rows.iter().map(day_fields).collect())?;
    } else if short {
        print_text(&sheet_text_short(&rows))?;
    } else {
        let mut form = sheet_text(&farm, &plan, &rows);
        if !farm.mobs.is_empty() {
            let halved = planned_to_show(&with_half_growth(&farm, from), Some(from), days)?;
            form.push_str(&half_growth_text(&halved, from));
        }
        print_text(&form)?;
    }
    if bound && let Some(nearness) = Nearness::of_farm(&farm, &plan, plan.first_day, &|| true) {
        say_nearness(&nearness);
    }
    Ok(ExitCode::SUCCESS)
}

/// Says how far a plan can be from the best on standard error, so that what is printed stays as it is.
pub(super) fn say_nearness(nearness: &Nearness) {
    Trouble(format!("{} {SCORE_TOLD}", nearness.wording())).print();
}

/// The farm with grass growing half as fast from a day's month to the end of the season. Months before it stay, so
/// what has grown by then is as planned.
fn with_half_growth(farm: &Farm, from: Day) -> Farm {
    let mut slow = farm.clone();
    let first = from.max(farm.season.first_day).month_index();
    let last = farm.season.last_day().month_index();
    for (month, growth) in slow.sward.growth_by_month.iter_mut().enumerate() {
        let is_ahead = if first <= last {
            (first..=last).contains(&month)
        } else {
            month >= first || month <= last
        };
        if is_ahead {
            *growth /= 2.0;
        }
    }
    slow
}

/// The farm's own season, made longer where the days asked for reach past its end. Days before it begins are
/// planned on their own.
pub(super) fn planned_to_show(
    farm: &Farm,
    from: Option<Day>,
    days: Option<u32>,
) -> Result<SeasonPlan, Trouble> {
    let season = farm.season;
    let from = from.unwrap_or(season.first_day);
    let (first, last) = match days {
        Some(days) => {
            let last = from.plus_days(i64::from(days) - 1);
            (from.min(season.first_day), last.max(season.last_day()))
        }
        None if from > season.last_day() => {
            return Err(Trouble(format!(
                "{from} lies after the season, which ends on {}: give --days, or a day within it",
                season.last_day()
            )));
        }
        None => (from.min(season.first_day), season.last_day()),
    };
    let whole = u32::try_from(last.days_since(first) + 1).unwrap_or(u32::MAX);
    if whole > crate::farm::Season::MOST_DAYS {
        return Err(Trouble(format!(
            "{whole} days are too many to plan at once: at most {} from the season's first day, {first}",
            crate::farm::Season::MOST_DAYS
        )));
    }
    Ok(live_season_of(farm, first, whole, &mut |_| true)?)
}

fn day_fields(day: &SheetDay) -> Value {
    let mobs: Value = day.mobs.iter().map(mob_fields).collect();
    let hens: Value = day.hens.iter().map(hen_fields).collect();
    Fields::default()
        .put("day", day.day.to_string())
        .put("mobs", mobs)
        .put("hens", hens)
        .done()
}

fn mob_fields(row: &MobRow) -> Value {
    let fields = Fields::default()
        .put("mob", row.mob.clone())
        .put("head", row.head)
        .put("class", row.class)
        .put("state", row.state)
        .put("strip", row.strip.clone())
        .put_some("ley", row.ley.clone())
        .put("moves", row.moved_from.is_some())
        .put_some("moved_from", row.moved_from.clone())
        .put("walk_m", row.walk_m)
        .put("day_of_stay", row.stay.0)
        .put("stay_days", row.stay.1)
        .put_some("leaves_on", row.leaves_on.map(|day| day.to_string()))
        .put_some("next", row.next.clone())
        .put("short_kg", row.short_kg)
        .put_some("days_ahead", row.days_ahead)
        .put("why", row.why.clone());
    let Some(sums) = &row.sums else {
        return fields.done();
    };
    fields
        .put("area_m2", sums.area_m2)
        .put("cover_in_kg_per_ha", sums.cover_in_kg_per_ha)
        .put("cover_now_kg_per_ha", sums.cover_now_kg_per_ha)
        .put("cover_out_kg_per_ha", sums.cover_out_kg_per_ha)
        .put("leave_kg_per_ha", sums.leave_kg_per_ha)
        .put("feed_kg", sums.feed_kg)
        .put("demand_kg", sums.demand_kg)
        .put_some("lasts_days", sums.lasts_days)
        .put("round_m", sums.round_m)
        .put("fence_m", sums.fence_m)
        .put("rolls_of_50_m", sums.rolls)
        .put_some("rested_days", sums.rested_days)
        .put_some("last_by", sums.last_by.clone())
        .put("ready_on", sums.ready_on.to_string())
        .put_some("water", sums.water_name.clone())
        .put_some("water_farthest_m", sums.water_farthest_m)
        .put("water_least_l", sums.water_l.0)
        .put("water_most_l", sums.water_l.1)
        .put_some("gate", sums.gate.as_ref().map(|gate| gate.0.clone()))
        .put_some("gate_m", sums.gate.as_ref().map(|gate| gate.1))
        .put("cautions", sums.cautions.clone())
        .done()
}

fn hen_fields(row: &HenRow) -> Value {
    Fields::default()
        .put("house", row.house.clone())
        .put("hens", row.hens)
        .put("line", row.line.clone())
        .put("place", row.place.0)
        .put("places", row.place.1)
        .put("along_m", row.along_m)
        .put("moves", row.moves)
        .put_some("rested_days", row.rested_days)
        .put("rest_days_wanted", row.rest_days_wanted)
        .put_some("m2_per_hen", row.m2_per_hen)
        .put_some("tow_m", row.tow_m)
        .put("is_housed", row.is_housed)
        .put("state", row.state)
        .put("cautions", row.cautions.clone())
        .done()
}

/// Prints the planning problem of a farm.
pub(super) fn problem(
    file: &Path,
    from: Option<Day>,
    days: Option<u32>,
) -> Result<ExitCode, Trouble> {
    let farm = open_farm(file)?;
    let from = from.unwrap_or(farm.season.first_day);
    let left = u32::try_from(farm.season.last_day().days_since(from) + 1).unwrap_or(0);
    let days = days.unwrap_or(left);
    if days == 0 {
        return Err(Trouble(format!(
            "{from} lies after the season's last day {}: give --days",
            farm.season.last_day()
        )));
    }
    let made = problem_from(&farm, from, days)?;
    print_text(&planning_json::problem_text(&made.problem))?;
    Ok(ExitCode::SUCCESS)
}
