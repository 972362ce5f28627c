//! `solve`: a problem's plan, and how it was found.
//!
//! Reads the clock only to tell how long a plan took to find.

use std::ops::ControlFlow;
use std::path::Path;
use std::process::ExitCode;
use std::time::Instant;

use super::Trouble;
use super::json::print_text;
use super::moves::say_nearness;
use crate::files::{planning_json, read_text};
use crate::planning::{
    FULL_EFFORT, Nearness, Plan, Progress, Season, SolveError, SolveOptions, solve as solve_season,
};

/// How to search, and what to tell besides the plan.
pub(super) struct SolveWish {
    /// Per cent of a full search.
    pub(super) effort_percent: f64,
    /// The usual one where absent.
    pub(super) seed: Option<u64>,
    /// Whether to tell how far the plan can be from the best.
    pub(super) bound: bool,
    /// Whether to tell each better plan as it is found.
    pub(super) as_found: bool,
}

/// Prints the plan of a problem.
pub(super) fn solve(file: &Path, wish: &SolveWish) -> Result<ExitCode, Trouble> {
    let text = read_text(file)?;
    let name = file.display().to_string();
    let problem = planning_json::read_problem(&text, &name)?;
    let season = Season::compile(&problem).map_err(|fault| Trouble(format!("{name}: {fault}")))?;
    let plan = found(&season, wish).map_err(|error| refusal(&name, &season, &error))?;
    print_text(&planning_json::plan_text(&season, &plan))?;
    if wish.bound
        && let Some(nearness) = Nearness::of_season(&season, plan.figures.score, &|| true)
    {
        say_nearness(&nearness);
    }
    for warning in &plan.warnings {
        Trouble(format!("warning: {}", warning.wording(&season))).print();
    }
    Ok(ExitCode::SUCCESS)
}

fn found(season: &Season, wish: &SolveWish) -> Result<Plan, SolveError> {
    let usual = SolveOptions::default();
    let options = SolveOptions {
        seed: wish.seed.unwrap_or(usual.seed),
        effort: effort(wish.effort_percent),
        ..usual
    };
    let start = Instant::now();
    solve_season(season, &options, &mut |progress: &Progress<'_>| {
        if wish.as_found && progress.is_better {
            let ms = start.elapsed().as_secs_f64() * 1e3;
            Trouble(format!("after {ms:.2} ms: {:.2}", progress.score)).print();
        }
        ControlFlow::Continue(())
    })
}

#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the percentage is checked to lie between 0.1 and 1000"
)]
fn effort(percent: f64) -> u64 {
    (FULL_EFFORT as f64 * percent / 100.0) as u64
}

fn refusal(name: &str, season: &Season, error: &SolveError) -> Trouble {
    let SolveError::Contradictions(breaches) = error;
    let lines: Vec<String> = breaches
        .iter()
        .map(|breach| breach.wording(season))
        .collect();
    Trouble(format!(
        "{name}: the fixed days contradict the rules: {}; free or move one of the days in each",
        lines.join("; ")
    ))
}
