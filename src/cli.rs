//! Floor 6: the subcommands, the second face of the same floors for scripts and machines without a screen.
//!
//! Knows nothing of the window. Every trouble is one line on standard error and exit 2; a finding that is an error
//! makes `check` exit 1.

mod arguments;
mod ask;
mod built;
mod clean;
mod course;
mod cut;
mod exchange;
mod farm_in_words;
mod hens;
mod json;
mod measure;
mod moves;
mod planting;
mod solving;
mod trouble;

pub use arguments::{Arguments, Verb, read_arguments};
pub use ask::AskArguments;
pub use cut::CutArguments;
pub use farm_in_words::print_without_window;
pub use trouble::Trouble;

use solving::SolveWish;

use crate::files::GpxWish;
use crate::quantity::Day;
use std::process::ExitCode;

/// Does a subcommand; what it says goes to standard output.
pub fn run(verb: &Verb, today: Day) -> ExitCode {
    let done = match verb {
        Verb::Measure { file, json, day } => measure::measure(file, *json, *day),
        Verb::Trees { file, json, output } => built::trees(file, *json, output.as_ref()),
        Verb::Check { file, json } => measure::check(file, *json),
        Verb::Season {
            file,
            from,
            days,
            short,
            json,
            bound,
        } => moves::season(file, (*from, *days), (*short, *json), *bound),
        Verb::Hens { file, json } => hens::hens(file, *json),
        Verb::Problem { file, from, days } => moves::problem(file, *from, *days),
        Verb::Solve {
            problem,
            bound,
            effort,
            seed,
            as_found,
        } => {
            let wish = SolveWish {
                effort_percent: *effort,
                seed: *seed,
                bound: *bound,
                as_found: *as_found,
            };
            solving::solve(problem, &wish)
        }
        Verb::Import {
            source,
            outline,
            thin,
            output,
        } => {
            let wish = (*outline || thin.is_some()).then(|| GpxWish {
                as_outline: *outline,
                thin_m: thin.unwrap_or(0.0),
            });
            exchange::import(source, output, wish, today)
        }
        Verb::Course { file, json } => course::course(file, *json),
        Verb::Clean {
            file,
            year,
            rule,
            json,
        } => clean::clean(file, *year, rule.as_deref(), *json),
        Verb::Loads { file, set, json } => clean::loads_of(file, set.as_deref(), *json),
        Verb::Planting {
            file,
            year,
            csv,
            totals,
        } => planting::planting(file, *year, *csv, *totals),
        Verb::Export { file, output } => exchange::export(file, output),
        Verb::Ask(asked) => ask::ask(asked, today),
        Verb::Cut(asked) => cut::cut(asked, today),
    };
    match done {
        Ok(code) => code,
        Err(trouble) => {
            trouble.print();
            ExitCode::from(2)
        }
    }
}
