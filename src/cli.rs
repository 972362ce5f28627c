//! Floor 6: the subcommands, the second face of the same floors for scripts and machines without a screen.
//!
//! Knows nothing of the window. Every trouble is one line on standard error and exit 2; a finding that is an error
//! makes `check` exit 1.

mod arguments;
mod cut;
mod exchange;
mod farm_in_words;
mod json;
mod measure;
mod moves;
mod trouble;

pub use arguments::{Arguments, Verb, read_arguments};
pub use cut::CutArguments;
pub use farm_in_words::print_without_window;
pub use trouble::Trouble;

use crate::quantity::Day;
use std::process::ExitCode;

/// Does a subcommand; what it says goes to standard output.
pub fn run(verb: &Verb, today: Day) -> ExitCode {
    let done = match verb {
        Verb::Measure { file, json, day } => measure::measure(file, *json, *day),
        Verb::Check { file, json } => measure::check(file, *json),
        Verb::Season {
            file,
            from,
            days,
            short,
            json,
        } => moves::season(file, *from, *days, *short, *json),
        Verb::Problem { file, from, days } => moves::problem(file, *from, *days),
        Verb::Solve { problem } => moves::solve(problem),
        Verb::Import { source, output } => exchange::import(source, output, today),
        Verb::Export { file, output } => exchange::export(file, output),
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
