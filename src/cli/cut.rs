//! `cut`: ground cut into strips without a window, as the question of strips does it.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::Args;

use super::Trouble;
use super::json::print_text;
use crate::farm::{
    Farm, Ground, GroundId, History, Mob, StripDirection, cut_edits, cut_ground, replaced_by_cut,
    strip_name, strip_stem, taken_strip_name,
};
use crate::files::{open_farm, save_farm};
use crate::geometry::cut::StripSize;
use crate::geometry::geodesic;
use crate::planning::{StripFeed, days_text, ley_cover, rest_told};
use crate::quantity::{Day, UnitSystem, area_text, parse_area_m2, parse_length_m, plural_text};

/// What may be asked of a cut.
#[derive(Debug, Clone, Args)]
pub struct CutArguments {
    /// The farm
    file: PathBuf,
    /// The name of the ground
    #[arg(long)]
    ground: String,
    #[command(flatten)]
    size: SizeArguments,
    /// The mob for which strips are to last some days, or whose days are told
    #[arg(long)]
    mob: Option<String>,
    /// What stands, kg DM/ha; as read and grown to the day where absent
    #[arg(long, requires = "mob")]
    cover: Option<f64>,
    /// What is left, kg DM/ha; the ground's own residual where absent
    #[arg(long, requires = "mob")]
    residual: Option<f64>,
    /// The day for cover and rest; where absent today, held within the season
    #[arg(long, value_parser = super::arguments::day)]
    day: Option<Day>,
    #[command(flatten)]
    direction: DirectionArguments,
    /// What the strips' names begin with; a letter of the ground's name, or all of it, where absent
    #[arg(long)]
    stem: Option<String>,
    /// The farm to be written; the same file where absent
    #[arg(short, long)]
    output: Option<PathBuf>,
}

/// How large strips are: one of these.
#[derive(Debug, Clone, Args)]
#[group(required = true, multiple = false)]
struct SizeArguments {
    /// How many strips, all of one area
    #[arg(long, value_parser = clap::value_parser!(u32).range(1..=10_000))]
    strips: Option<u32>,
    /// The area of a strip (0.15 ha, 1500 m2, 0.4 ac); the last takes the rest
    #[arg(long)]
    area: Option<String>,
    /// The width of a strip (12 m, 40 ft); the last takes the rest
    #[arg(long)]
    width: Option<String>,
    /// The days that a strip is to last the mob; the last takes the rest
    #[arg(long, requires = "mob", value_parser = clap::value_parser!(u32).range(1..=60))]
    days: Option<u32>,
}

/// Which way strips run; across the longest side where absent.
#[derive(Debug, Clone, Args)]
#[group(multiple = false)]
struct DirectionArguments {
    /// Degrees from north along which the cut lines run
    #[arg(long, allow_negative_numbers = true)]
    bearing: Option<f64>,
    /// The side of the outline along which the cut lines run, counted from 1
    #[arg(long, value_parser = clap::value_parser!(u32).range(1..=1_000_000))]
    side: Option<u32>,
    /// The trough, gate, water or track that every strip is to reach
    #[arg(long)]
    reach: Option<String>,
}

/// Makes a piece of ground a ley and cuts it into strips.
pub(super) fn cut(asked: &CutArguments, today: Day) -> Result<ExitCode, Trouble> {
    let path = asked.file.as_path();
    let farm = open_farm(path)?;
    let (id, ground) = named(&farm, path, &asked.ground)?;
    let Some(outline) = ground.outline() else {
        return Err(Trouble(format!(
            "{}: \"{}\" is no area, so it cannot be cut into strips",
            path.display(),
            asked.ground
        )));
    };
    let season = farm.season;
    let day = asked
        .day
        .unwrap_or(today.clamp(season.first_day, season.last_day()));
    let mob = asked
        .mob
        .as_deref()
        .map(|name| mob_named(&farm, path, name));
    let mob = mob.transpose()?;
    let feed = mob.map(|mob| feed_of(&farm, mob, id, asked, day));
    let size = size_of(&asked.size, feed)?;
    let direction = direction_of(&farm, path, &asked.direction)?;
    let cut = cut_ground(&farm, outline, size, direction)?;
    let stem = match &asked.stem {
        Some(stem) if stem.trim().is_empty() => {
            return Err(Trouble(
                "--stem: strips need a name to begin with".to_owned(),
            ));
        }
        Some(stem) => stem.clone(),
        None => strip_stem(&farm, id, &ground),
    };
    if let Some(name) = taken_strip_name(&farm, id, &stem, cut.strips.len()) {
        return Err(Trouble(format!(
            "{name} is the name of other ground already: choose another with --stem"
        )));
    }
    let (label, edits) = cut_edits(&farm, id, &ground, &cut.strips, &stem);
    let areas_m2: Vec<f64> = cut
        .strips
        .iter()
        .map(|strip| geodesic::area_m2(farm.frame, &strip.outline))
        .collect();
    let mut lines = vec![format!("{label}, {}", sizes_told(&areas_m2, feed, &stem))];
    lines.extend(cut.told(|index| strip_name(&stem, index + 1)));
    if let (Some(feed), Some(mob)) = (feed, mob) {
        lines.push(feed.told(mob, UnitSystem::Metric));
        if asked.cover.is_none()
            && let Some(found) = ley_cover(&farm, None, id, day)
        {
            lines.push(format!("The cover is {}.", found.source.told()));
        }
        let stay_days = asked
            .size
            .days
            .or_else(|| whole_days(feed, areas_m2.first()));
        if let Some(stay_days) = stay_days {
            let wanted = farm.rest_days_on(day);
            lines.push(rest_told(
                areas_m2.len(),
                stay_days,
                day.month_name(),
                wanted,
            ));
        }
    }
    lines.extend(replaced_by_cut(&farm, id, &ground).told());
    let mut history = History::new(farm);
    history.commit(&label, edits)?;
    save_farm(history.farm(), asked.output.as_deref().unwrap_or(path))?;
    print_text(&lines.join("\n"))?;
    Ok(ExitCode::SUCCESS)
}

/// "0.21 ha each, L1 to L8", or that the last takes the rest.
fn sizes_told(areas_m2: &[f64], feed: Option<StripFeed>, stem: &str) -> String {
    let size = |area_m2: f64| {
        let area = area_text(area_m2, UnitSystem::Metric);
        match feed.and_then(|feed| feed.days_on(area_m2)) {
            Some(days) => format!("{area} ({})", days_text(days)),
            None => area,
        }
    };
    let (Some(first_m2), Some(last_m2)) = (areas_m2.first(), areas_m2.last()) else {
        return String::new();
    };
    let names = format!(
        "{} to {}",
        strip_name(stem, 1),
        strip_name(stem, areas_m2.len())
    );
    let all_alike = areas_m2
        .iter()
        .all(|area_m2| (area_m2 / first_m2 - 1.0).abs() < 1e-4);
    if all_alike {
        format!("{} each: {names}", size(*first_m2))
    } else {
        format!(
            "{} the first, {} the last, which takes the rest: {names}",
            size(*first_m2),
            size(*last_m2)
        )
    }
}

/// Whole days that a strip lasts; none where it lasts less than one.
fn whole_days(feed: StripFeed, area_m2: Option<&f64>) -> Option<u32> {
    let days = feed.days_on(*area_m2?)?;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "at least one, and a figure too large becomes the largest"
    )]
    (days >= 1.0).then(|| days.floor() as u32)
}

fn named(farm: &Farm, path: &Path, name: &str) -> Result<(GroundId, Ground), Trouble> {
    let found = farm.ground.iter().find(|(_, ground)| ground.name == name);
    found
        .map(|(id, ground)| (*id, ground.clone()))
        .ok_or_else(|| {
            Trouble(format!(
                "{}: no ground is called \"{name}\": see `foldcourse measure`",
                path.display()
            ))
        })
}

fn mob_named<'farm>(farm: &'farm Farm, path: &Path, name: &str) -> Result<&'farm Mob, Trouble> {
    let found = farm.mobs.values().find(|mob| mob.name == name);
    found.ok_or_else(|| {
        let names: Vec<&str> = farm.mobs.values().map(|mob| mob.name.as_str()).collect();
        let there = if names.is_empty() {
            "there are no mobs".to_owned()
        } else {
            format!(
                "there {} {}",
                if names.len() == 1 { "is" } else { "are" },
                names.join(", ")
            )
        };
        Trouble(format!(
            "{}: no mob is called \"{name}\": {there}",
            path.display()
        ))
    })
}

fn feed_of(farm: &Farm, mob: &Mob, id: GroundId, asked: &CutArguments, day: Day) -> StripFeed {
    let found = ley_cover(farm, None, id, day);
    let cover = found.map_or(0.0, |cover| cover.cover_kg_per_ha);
    let leave = found.map_or(0.0, |cover| cover.leave_kg_per_ha);
    StripFeed {
        demand_kg: mob.demand_kg(),
        cover_kg_per_ha: asked.cover.unwrap_or(cover),
        leave_kg_per_ha: asked.residual.unwrap_or(leave),
    }
}

fn size_of(asked: &SizeArguments, feed: Option<StripFeed>) -> Result<StripSize, Trouble> {
    let metric = UnitSystem::Metric;
    if let Some(count) = asked.strips {
        return Ok(StripSize::Count(
            usize::try_from(count).unwrap_or(usize::MAX),
        ));
    }
    if let Some(text) = &asked.area {
        let area_m2 = parse_area_m2(text, metric);
        let area_m2 = area_m2.map_err(|error| Trouble(format!("--area: {error}")))?;
        return Ok(StripSize::AreaM2(area_m2));
    }
    if let Some(text) = &asked.width {
        let width_m = parse_length_m(text, metric);
        let width_m = width_m.map_err(|error| Trouble(format!("--width: {error}")))?;
        return Ok(StripSize::WidthM(width_m));
    }
    let days = asked.days.unwrap_or(1);
    let area_m2 = feed.and_then(|feed| feed.area_m2(f64::from(days)));
    let (cover, leave) = feed.map_or((0.0, 0.0), |feed| {
        (feed.cover_kg_per_ha, feed.leave_kg_per_ha)
    });
    area_m2.map(StripSize::AreaM2).ok_or_else(|| {
        Trouble(format!(
            "--days {}: nothing may be eaten with a cover of {cover:.0} and a residual of {leave:.0} kg DM/ha: give --cover and --residual",
            plural_text(u64::from(days), "day", "days")
        ))
    })
}

fn direction_of(
    farm: &Farm,
    path: &Path,
    asked: &DirectionArguments,
) -> Result<StripDirection, Trouble> {
    if let Some(bearing_deg) = asked.bearing {
        return Ok(StripDirection::Bearing(bearing_deg));
    }
    if let Some(side) = asked.side {
        let side = usize::try_from(side).unwrap_or(usize::MAX);
        return Ok(StripDirection::AlongSide(side.saturating_sub(1)));
    }
    match &asked.reach {
        Some(name) => Ok(StripDirection::Reaching(named(farm, path, name)?.0)),
        None => Ok(StripDirection::AcrossLongestSide),
    }
}
