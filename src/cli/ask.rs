//! `ask`: the questions a grower asks of a season, each answered by planning. kg DM, head, days.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::process::ExitCode;

use clap::{Args, Subcommand};
use serde_json::Value;

use super::Trouble;
use super::arguments::day;
use super::json::{Fields, print_json, print_text};
use super::moves::planned_to_show;
use crate::farm::{Farm, GroundId, MobId};
use crate::files::open_farm;
use crate::planning::SeasonPlan;
use crate::planning::questions::{
    Asked, Change, Outcome, Remedies, USUAL_BALE_KG_DM, compared, head_carried, lasts_until,
    remedies, stop_day, strip_now,
};
use crate::quantity::{Day, UnitSystem, area_text, decimal_text};
use crate::sheets::answers;

/// A question about a farm.
#[derive(Debug, Clone, Args)]
pub struct AskArguments {
    /// The farm
    pub file: PathBuf,
    /// What is asked
    #[command(subcommand)]
    pub question: Question,
}

/// The days and the ground that a question is about.
#[derive(Debug, Clone, Args)]
pub struct About {
    /// First day asked about; today, or the season's first, where absent
    #[arg(long, value_parser = day)]
    from: Option<Day>,
    /// Last day asked about; the season's last where absent
    #[arg(long, value_parser = day)]
    to: Option<Day>,
    /// The flock by name; the first one where absent
    #[arg(long)]
    mob: Option<String>,
    /// Leys and strips by name, with commas between them; all grazed ground where absent
    #[arg(long, value_delimiter = ',')]
    on: Vec<String>,
    /// As fields
    #[arg(long)]
    json: bool,
}

/// What can be asked.
#[derive(Debug, Clone, Subcommand)]
pub enum Question {
    /// How many head this ground carries over these days with no day short
    Head(About),
    /// Until what day it carries the flock as it is
    Until(About),
    /// What area of one piece (--on) feeds the flock for the day --from
    Strip(About),
    /// What becomes of the season with a figure changed: both plans side by side
    WhatIf {
        /// The same rest all through the year, days
        #[arg(long, value_parser = clap::value_parser!(u32).range(0..=365))]
        rest_days: Option<u32>,
        /// Another number of head in the flock
        #[arg(long)]
        head: Option<u32>,
        /// Another longest stay, days
        #[arg(long, value_parser = clap::value_parser!(u32).range(1..=365))]
        longest_stay_days: Option<u32>,
        /// Growth times this, such as 0.5
        #[arg(long, value_parser = factor)]
        growth_times: Option<f64>,
        #[command(flatten)]
        about: About,
    },
    /// When grazing must stop so that so much grass stands at the end, kg DM/ha
    Stop {
        /// Mean cover to keep, kg DM/ha
        keep: f64,
        #[command(flatten)]
        about: About,
    },
    /// What helps against the short days, each remedy planned again
    Remedies {
        /// Dry matter in one bale, kg
        #[arg(long, default_value_t = USUAL_BALE_KG_DM)]
        bale_kg_dm: f64,
        #[command(flatten)]
        about: About,
    },
}

fn factor(text: &str) -> Result<f64, String> {
    let factor: f64 = text.parse().map_err(|_| "write it like 0.5".to_owned())?;
    if (0.0..=10.0).contains(&factor) {
        Ok(factor)
    } else {
        Err("from 0 to 10".to_owned())
    }
}

/// The farm, its plan, and what was asked about, by number.
struct Desk {
    farm: Farm,
    plan: SeasonPlan,
    days: (Day, Day),
    mob: MobId,
    ground: BTreeSet<GroundId>,
    json: bool,
}

impl Desk {
    fn new(asked: &AskArguments, about: &About, today: Day) -> Result<Self, Trouble> {
        let farm = open_farm(&asked.file)?;
        let season = farm.season;
        let from = about
            .from
            .unwrap_or(today.clamp(season.first_day, season.last_day()));
        let to = about.to.unwrap_or(season.last_day());
        let plan = planned_to_show(&farm, None, None)?;
        let mob = match &about.mob {
            None => farm.mobs.keys().next().copied(),
            Some(name) => farm
                .mobs
                .iter()
                .find(|(_, mob)| mob.name == *name)
                .map(|(id, _)| *id),
        };
        let mob = mob.ok_or_else(|| no_such("flock", about.mob.as_deref(), &mob_names(&farm)))?;
        let mut ground = BTreeSet::new();
        for name in &about.on {
            let found = farm.ground.iter().find(|(_, piece)| piece.name == *name);
            let names: Vec<&str> = crate::farm::grazed_units(&farm)
                .iter()
                .map(|unit| unit.ground.name.as_str())
                .collect();
            ground.insert(
                *found
                    .ok_or_else(|| no_such("ground", Some(name), &names))?
                    .0,
            );
        }
        Ok(Self {
            farm,
            plan,
            days: (from, to),
            mob,
            ground,
            json: about.json,
        })
    }

    fn print(&self, fields: Fields, text: &str) -> Result<ExitCode, Trouble> {
        if self.json {
            let fields = fields
                .put("from", self.days.0.to_string())
                .put("to", self.days.1.to_string());
            print_json(&fields.done())?;
        } else {
            print_text(text)?;
        }
        Ok(ExitCode::SUCCESS)
    }
}

fn mob_names(farm: &Farm) -> Vec<&str> {
    farm.mobs.values().map(|mob| mob.name.as_str()).collect()
}

fn no_such(what: &str, name: Option<&str>, there: &[&str]) -> Trouble {
    let there = if there.is_empty() {
        "there is none".to_owned()
    } else {
        format!("there are: {}", there.join(", "))
    };
    Trouble(match name {
        Some(name) => format!("no {what} is called \"{name}\"; {there}"),
        None => format!("the farm has no {what}: put one in first"),
    })
}

/// Answers a question.
pub(super) fn ask(asked: &AskArguments, today: Day) -> Result<ExitCode, Trouble> {
    let about = match &asked.question {
        Question::Head(about)
        | Question::Until(about)
        | Question::Strip(about)
        | Question::WhatIf { about, .. }
        | Question::Stop { about, .. }
        | Question::Remedies { about, .. } => about,
    };
    let desk = Desk::new(asked, about, today)?;
    let mut watch = |_: f64| true;
    let mut under_way = Asked::new(&desk.farm, &desk.plan, desk.days, &mut watch)?;
    let mob = desk.farm.mobs.get(&desk.mob);
    let who = mob.map_or("", |mob| mob.name.as_str());
    match &asked.question {
        Question::Head(_) => {
            let found = head_carried(&mut under_way, desk.mob, &desk.ground)?;
            let fields = Fields::default()
                .put("head", found.head)
                .put_some("plan", found.with_them.as_ref().map(outcome_fields))
                .put_some(
                    "with_one_more",
                    found.with_one_more.as_ref().map(outcome_fields),
                );
            desk.print(fields, &answers::head_text(&found, desk.days))
        }
        Question::Until(_) => {
            let found = lasts_until(&mut under_way, desk.mob, &desk.ground)?;
            let fields = Fields::default()
                .put_some("last_day", found.last.map(|day| day.to_string()))
                .put_some("plan", found.to_then.as_ref().map(outcome_fields))
                .put_some("a_day_more", found.a_day_more.as_ref().map(outcome_fields));
            desk.print(fields, &answers::until_text(&found, who, desk.days))
        }
        Question::Strip(_) => strip(&desk),
        Question::WhatIf {
            rest_days,
            head,
            longest_stay_days,
            growth_times,
            ..
        } => {
            let changes: Vec<Change> = [
                rest_days.map(Change::RestDays),
                head.map(|head| Change::Head(desk.mob, head)),
                longest_stay_days.map(Change::LongestStayDays),
                growth_times.map(Change::GrowthTimes),
            ]
            .into_iter()
            .flatten()
            .collect();
            if changes.is_empty() {
                return Err(Trouble(
                    "nothing is changed: give --rest-days, --head, --longest-stay-days or --growth-times"
                        .to_owned(),
                ));
            }
            let found = compared(&mut under_way, &changes)?;
            let fields = Fields::default()
                .put("as_is", outcome_fields(&found.as_is))
                .put("changed", outcome_fields(&found.changed));
            desk.print(fields, &answers::comparison_text(&found))
        }
        Question::Stop { keep, .. } => {
            let found = stop_day(&mut under_way, *keep)?;
            let fields = Fields::default()
                .put("keep_kg_per_ha", *keep)
                .put_some("last_day", found.last.map(|day| day.to_string()))
                .put("plan", outcome_fields(&found.then))
                .put_some("a_day_more", found.a_day_more.as_ref().map(outcome_fields));
            desk.print(fields, &answers::stop_text(&found, *keep, desk.days))
        }
        Question::Remedies { bale_kg_dm, .. } => {
            let found = remedies(&mut under_way, *bale_kg_dm)?;
            desk.print(remedy_fields(&found), &answers::remedies_text(&found))
        }
    }
}

fn strip(desk: &Desk) -> Result<ExitCode, Trouble> {
    let day = desk.days.0;
    let ground = desk.ground.first().copied().or_else(|| {
        desk.plan
            .spell_at(desk.mob, desk.plan.index_of(day)?)
            .map(|(ground, _)| ground)
    });
    let found = ground
        .and_then(|ground| strip_now(&desk.farm, &desk.plan, desk.mob, ground, day))
        .ok_or_else(|| {
            Trouble(format!(
                "no cover is known for {day}: name one strip with --on, and a day of the season with --from"
            ))
        })?;
    let fields = Fields::default()
        .put("day", day.to_string())
        .put("demand_kg", found.feed.demand_kg)
        .put("cover_kg_per_ha", found.feed.cover_kg_per_ha)
        .put("leave_kg_per_ha", found.feed.leave_kg_per_ha)
        .put_some("area_m2", found.area_m2)
        .put("piece_m2", found.piece_m2)
        .put_some("piece_days", found.piece_days);
    let told = desk
        .farm
        .mobs
        .get(&desk.mob)
        .map_or_else(String::new, |mob| found.feed.told(mob, UnitSystem::Metric));
    let lasts = found.piece_days.map_or_else(String::new, |days| {
        format!(
            " All of it, {}, lasts {} days, no growth counted.",
            area_text(found.piece_m2, UnitSystem::Metric),
            decimal_text(days, 1)
        )
    });
    desk.print(fields, &format!("{told}{lasts}"))
}

/// The fields of what a plan comes to.
pub(super) fn outcome_fields(outcome: &Outcome) -> Value {
    Fields::default()
        .put("first_day", outcome.first.to_string())
        .put("last_day", outcome.last.to_string())
        .put("short_days", outcome.short_days)
        .put_some(
            "first_short_day",
            outcome.first_short.map(|day| day.to_string()),
        )
        .put("short_kg", outcome.short_kg)
        .put("moves", outcome.moves)
        .put("walk_m", outcome.walk_m)
        .put_some("end_cover_kg_per_ha", outcome.end_cover_kg_per_ha)
        .done()
}

fn remedy_fields(found: &Remedies) -> Fields {
    let rows: Value = found
        .remedies
        .iter()
        .map(|remedy| {
            Fields::default()
                .put("remedy", remedy.words.clone())
                .put("plan", outcome_fields(&remedy.with_it))
                .done()
        })
        .collect();
    Fields::default()
        .put("as_is", outcome_fields(&found.as_is))
        .put("remedies", rows)
}
