//! The program: a subcommand where one is named, else the window, else words where there is no display.

use std::process::ExitCode;

use foldcourse::cli::{self, Trouble};
use foldcourse::quantity::Day;

fn main() -> ExitCode {
    let arguments = match cli::read_arguments(std::env::args_os()) {
        Ok(arguments) => arguments,
        Err(trouble) => return given_up(&trouble),
    };
    let today = arguments.today.unwrap_or_else(day_on_the_wall);
    match &arguments.verb {
        Some(verb) => cli::run(verb, today),
        None => match open(arguments.file.as_deref(), today) {
            Ok(()) => ExitCode::SUCCESS,
            Err(trouble) => given_up(&trouble),
        },
    }
}

fn given_up(trouble: &Trouble) -> ExitCode {
    trouble.print();
    ExitCode::from(2)
}

fn day_on_the_wall() -> Day {
    let date = jiff::ZonedDateTime::now().date();
    Day::new(date.year(), date.month(), date.day()).unwrap_or(Day::EARLIEST)
}

#[cfg(feature = "window")]
fn open(file: Option<&std::path::Path>, today: Day) -> Result<(), Trouble> {
    use foldcourse::app::start;

    let opened = start::farm_to_open(file)?;
    if start::has_display() {
        return Ok(start::run(&opened, today)?);
    }
    cli::print_without_window(
        &opened.farm,
        "No display here, so no window: the farm in words.",
        today,
    )
}

#[cfg(not(feature = "window"))]
fn open(file: Option<&std::path::Path>, today: Day) -> Result<(), Trouble> {
    let farm = match file {
        Some(path) => foldcourse::files::open_farm(path)?,
        None => foldcourse::files::example_farm()?,
    };
    cli::print_without_window(&farm, "Built without the window: the farm in words.", today)
}
