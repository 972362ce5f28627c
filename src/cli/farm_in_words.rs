//! What the program says where no window can be opened: the farm's measures and the next seven days' moves.

use super::Trouble;
use super::json::print_text;
use super::measure::{Stocked, measure_text};
use super::moves::planned_to_show;
use crate::farm::Farm;
use crate::quantity::Day;
use crate::sheets::season_sheet::{sheet_days, sheet_text};

/// Says why there is no window, then prints measures and seven days of moves.
///
/// # Errors
/// Where standard output cannot be written.
pub fn print_without_window(farm: &Farm, reason: &str, today: Day) -> Result<(), Trouble> {
    let season = Stocked::of(farm, Some(today));
    print_text(&format!("{reason}\n\n{}\n", measure_text(farm, &season)))?;
    let first = farm.season.first_day;
    let from = if today < first || today > farm.season.last_day() {
        first
    } else {
        today
    };
    if from == today {
        print_text(&format!("The next seven days from {}:\n", from.long_text()))?;
    } else {
        let text = format!(
            "Today, {}, lies outside the season; its first seven days:\n",
            today.long_text()
        );
        print_text(&text)?;
    }
    match planned_to_show(farm, None, None) {
        Ok(plan) => print_text(&sheet_text(farm, &plan, &sheet_days(farm, &plan, from, 7))),
        Err(Trouble(text)) => print_text(&format!("No moves are planned: {text}\n")),
    }
}
