//! What may be typed after the program's name.

use std::path::PathBuf;

use clap::{Parser, Subcommand};

use super::Trouble;
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
    },
    /// Makes a farm of a GeoJSON file
    Import {
        /// The outlines
        source: PathBuf,
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
