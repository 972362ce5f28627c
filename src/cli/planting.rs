//! `planting`: plants, seed, days and yield of every crop of a year.

use std::path::Path;
use std::process::ExitCode;

use super::Trouble;
use super::course::aligned;
use super::json::print_text;
use crate::farm::CROP_SOURCE;
use crate::files::open_farm;
use crate::planning::planting_rows;
use crate::sheets::planting_sheet::{
    planting_csv, planting_table, planting_totals_csv, planting_totals_table,
};

/// Prints the planting sums of a year.
pub(super) fn planting(
    file: &Path,
    year: Option<i16>,
    csv: bool,
    totals: bool,
) -> Result<ExitCode, Trouble> {
    let farm = open_farm(file)?;
    let year = year.unwrap_or_else(|| farm.season.first_day.year());
    if !(1900..=2199).contains(&year) {
        return Err(Trouble(format!(
            "the year {year} is too far away: years from 1900 to 2199 are understood"
        )));
    }
    let rows = planting_rows(&farm, year);
    if csv {
        let text = if totals {
            planting_totals_csv(&rows)
        } else {
            planting_csv(&farm, &rows)
        };
        print_text(&text)?;
        return Ok(ExitCode::SUCCESS);
    }
    if rows.is_empty() {
        print_text(&format!("The course has no crop in {year}.\n"))?;
        return Ok(ExitCode::SUCCESS);
    }
    print_text(&format!(
        "{}, planting for {year}\n\n{}\nBy week:\n{}\nSpacing, days and usual yields: {CROP_SOURCE}.\n",
        farm.name,
        aligned(&planting_table(&farm, &rows)),
        aligned(&planting_totals_table(&rows)),
    ))?;
    Ok(ExitCode::SUCCESS)
}
