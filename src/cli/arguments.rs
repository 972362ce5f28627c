//! What may be typed after the program's name.

use std::path::PathBuf;

use clap::{Parser, Subcommand};

use super::Trouble;
use super::ask::AskArguments;
use super::cut::CutArguments;
use crate::quantity::Day;

/// Draw the farm once, measure anything on it, plan the daily moves of sheep and hens.
#[derive(Debug, Clone, Parser)]
#[command(name = "foldcourse", version, args_conflicts_with_subcommands = true)]
pub struct Arguments {
    /// A farm to open in the window; the last one, or an example, where none is named
    pub file: Option<PathBuf>,
    /// The day that counts as today (2027-05-14); the wall calendar's where absent
    #[arg(long, global = true, value_parser = day)]
    pub today: Option<Day>,
    /// What to do instead of opening the window
    #[command(subcommand)]
    pub verb: Option<Verb>,
}

/// A subcommand.
#[derive(Debug, Clone, Subcommand)]
pub enum Verb {
    /// Every thing on the farm with its kind, area, perimeter or length, and density
    Measure {
        /// The farm
        file: PathBuf,
        /// The day on which densities are read; the season's first where absent
        #[arg(long, value_parser = day)]
        day: Option<Day>,
        /// As a list of fields
        #[arg(long)]
        json: bool,
    },
    /// Every tree of every tree line: number, variety, how far along, place; as a table for a spreadsheet
    Trees {
        /// The farm
        file: PathBuf,
        /// As a list of fields
        #[arg(long, conflicts_with = "output")]
        json: bool,
        /// The table to be written (.csv); printed where absent
        #[arg(short, long)]
        output: Option<PathBuf>,
    },
    /// What is to be mended on the farm; exit 1 where figures cannot be trusted until it is
    Check {
        /// The farm
        file: PathBuf,
        /// As a list of fields
        #[arg(long)]
        json: bool,
    },
    /// The moves of sheep and hens, day by day, as a form to print
    Season {
        /// The farm
        file: PathBuf,
        /// First day shown; the season's first where absent
        #[arg(long, value_parser = day)]
        from: Option<Day>,
        /// Days shown; to the season's end where absent
        #[arg(long, value_parser = clap::value_parser!(u32).range(1..=3660))]
        days: Option<u32>,
        /// A line for each mob and day
        #[arg(long, conflicts_with = "json")]
        short: bool,
        /// As a list of fields
        #[arg(long)]
        json: bool,
        /// Also how far the plan can be from the best possible, on standard error
        #[arg(long)]
        bound: bool,
    },
    /// A question about the season, answered by planning: how many head, until when, what if, when to stop, what helps
    Ask(Box<AskArguments>),
    /// The walk of every hen house: order of lines and why, rest, room, nitrogen, feed, what to mend
    Hens {
        /// The farm
        file: PathBuf,
        /// As a list of fields
        #[arg(long)]
        json: bool,
    },
    /// The planning problem of this farm, as data
    Problem {
        /// The farm
        file: PathBuf,
        /// First planned day; the season's first where absent
        #[arg(long, value_parser = day)]
        from: Option<Day>,
        /// Days planned; to the season's end where absent
        #[arg(long, value_parser = clap::value_parser!(u32).range(1..=3660))]
        days: Option<u32>,
    },
    /// The plan of a planning problem, as data
    Solve {
        /// The problem
        problem: PathBuf,
        /// Also how far the plan can be from the best possible, on standard error
        #[arg(long)]
        bound: bool,
        /// How much to search, in per cent of a full search
        #[arg(long, value_name = "PER_CENT", default_value = "100", allow_negative_numbers = true, value_parser = effort_percent)]
        effort: f64,
        /// The seed of the search's dice: the same seed gives the same plan
        #[arg(long, value_name = "NUMBER", allow_negative_numbers = true, value_parser = seed)]
        seed: Option<u64>,
        /// Also the score of each better plan as it is found, with the milliseconds until then, on standard error
        #[arg(long)]
        as_found: bool,
    },
    /// The course of crops: which plot and tunnel carries what in which year, and what is amiss in it
    Course {
        /// The farm
        file: PathBuf,
        /// As fields
        #[arg(long)]
        json: bool,
    },
    /// The last day for animals on ground that goes under crop, by the rule that is followed
    Clean {
        /// The farm
        file: PathBuf,
        /// The year; the season's where absent
        #[arg(long)]
        year: Option<i16>,
        /// The rule, by its word; the farm's own choice where absent
        #[arg(long)]
        rule: Option<String>,
        /// As fields
        #[arg(long)]
        json: bool,
    },
    /// Nitrogen, head and room of the season, plot by plot, against the limits
    Loads {
        /// The farm
        file: PathBuf,
        /// The set of nitrogen figures: eu_organic, england or ireland
        #[arg(long)]
        set: Option<String>,
        /// As a list of fields
        #[arg(long)]
        json: bool,
    },
    /// Plants, seed, days and yield of every crop of a year
    Planting {
        /// The farm
        file: PathBuf,
        /// The year; the season's where absent
        #[arg(long)]
        year: Option<i16>,
        /// As comma-separated rows
        #[arg(long)]
        csv: bool,
        /// Rows of the totals by crop and week, in place of each crop's own
        #[arg(long, requires = "csv")]
        totals: bool,
    },
    /// Makes a farm of outlines (.geojson) or of a recorded walk (.gpx)
    Import {
        /// The outlines, or the walk
        source: PathBuf,
        /// A walk goes round a piece of ground: its track becomes an outline
        #[arg(long)]
        outline: bool,
        /// Leave out points of a walk that lie within so many metres of the line through the others
        #[arg(long, value_name = "METRES", value_parser = thinning_m)]
        thin: Option<f64>,
        /// The farm to be written
        #[arg(short, long)]
        output: PathBuf,
    },
    /// Hands the outlines of a farm out as GeoJSON
    Export {
        /// The farm
        file: PathBuf,
        /// The file to be written
        #[arg(short, long)]
        output: PathBuf,
    },
    /// Makes a piece of ground a ley and cuts it into strips
    Cut(Box<CutArguments>),
}

fn thinning_m(text: &str) -> Result<f64, String> {
    let metres: f64 = text
        .parse()
        .map_err(|_| "write it like 1.5, in metres".to_owned())?;
    if (0.0..=1000.0).contains(&metres) {
        Ok(metres)
    } else {
        Err("from 0 to 1000 metres".to_owned())
    }
}

fn seed(text: &str) -> Result<u64, String> {
    let seed = text.parse::<u32>().map(u64::from);
    seed.map_err(|_| format!("a whole number from 0 to {}", u32::MAX))
}

fn effort_percent(text: &str) -> Result<f64, String> {
    let percent: f64 = text
        .parse()
        .map_err(|_| "write it like 2.5, in per cent of a full search".to_owned())?;
    if (0.1..=1000.0).contains(&percent) {
        Ok(percent)
    } else {
        Err("from 0.1 to 1000 per cent of a full search".to_owned())
    }
}

pub(super) fn day(text: &str) -> Result<Day, String> {
    Day::parse_iso(text).map_err(|error| error.to_string())
}

/// Reads what was typed. Help and version are printed by the parser itself.
///
/// # Errors
/// One line that says what is wrong with it.
pub fn read_arguments(
    typed: impl IntoIterator<Item = std::ffi::OsString>,
) -> Result<Arguments, Trouble> {
    Arguments::try_parse_from(typed).map_err(|error| {
        use clap::error::ErrorKind;
        if matches!(
            error.kind(),
            ErrorKind::DisplayHelp | ErrorKind::DisplayVersion
        ) {
            error.exit();
        }
        let whole = error.to_string();
        let first = whole
            .lines()
            .next()
            .unwrap_or("")
            .trim_start_matches("error: ")
            .to_owned();
        let more: Vec<&str> = whole
            .lines()
            .skip(1)
            .map(str::trim)
            .take_while(|line| !line.is_empty())
            .collect();
        Trouble(format!(
            "{first} {} – see `foldcourse --help`",
            more.join(" ")
        ))
    })
}
