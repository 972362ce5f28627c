//! Reasons in the words of the trade, one sentence or two each.

use super::{LeftBecause, MoveReason, NotReady, RunnerUp, ShortCause, ShortReason};
use std::fmt::Write as _;

use crate::planning::Season;
use crate::quantity::{decimal_text, plural_text};

impl MoveReason {
    /// Why the mob left, what it found, and the next best place.
    pub fn wording(&self, season: &Season) -> String {
        let mut text = format!("{}.", self.left_wording(season));
        if let Some(found) = &self.found {
            let rest = match found.rested_days {
                Some(0) => String::from("grazed until yesterday"),
                Some(days) => format!("{} rested", days_text(days)),
                None => String::from("long rested"),
            };
            let _written = write!(
                text,
                " {} is {rest}, {} kg/ha, {} m away.",
                season.place_name(self.to),
                decimal_text(found.cover, 0),
                decimal_text(found.walk_m, 0),
            );
        }
        if let Some(runner_up) = &self.runner_up {
            text.push(' ');
            text += &runner_up.wording(season);
            text.push('.');
        } else if !matches!(self.left_because, LeftBecause::Fixed { .. }) {
            text += " The rules leave no other place for these days.";
        }
        text
    }

    fn left_wording(&self, season: &Season) -> String {
        let from = season.place_name(self.from);
        match &self.left_because {
            LeftBecause::VisitBegins => String::from("The visit begins"),
            LeftBecause::Fixed { lived: true } => String::from("Lived so"),
            LeftBecause::Fixed { lived: false } => String::from("Fixed by hand"),
            LeftBecause::StoodInYard => String::from("Out of the yard"),
            LeftBecause::Closed => format!("{from} is closed from today"),
            LeftBecause::LongestStay { days } => {
                format!("{} on {from}, the longest stay", days_text(*days))
            }
            LeftBecause::TakenOver { by } => {
                let by = season.mobs.get(*by).map_or("another mob", |mob| &mob.name);
                format!("{from} goes to {by} today")
            }
            LeftBecause::GrazedDown { left_kg } => {
                format!(
                    "{from} is grazed down, {} kg left",
                    decimal_text(*left_kg, 0)
                )
            }
            LeftBecause::BetterElsewhere {
                staying_loses_kg: Some(loss),
            } if *loss >= 0.5 => format!(
                "One more day on {from} would lose {} kg",
                decimal_text(*loss, 0)
            ),
            LeftBecause::BetterElsewhere { .. } => {
                format!("The season goes better with {from} left today")
            }
        }
    }
}

impl RunnerUp {
    /// The next best place and by how much it loses.
    pub fn wording(&self, season: &Season) -> String {
        let place = season.place_name(self.place);
        if self.loses_kg < 0.5 {
            return format!("{place} would do as well");
        }
        let loss = decimal_text(self.loses_kg, 0);
        format!("Next best: {place}, worse by {loss} kg")
    }
}

impl ShortReason {
    /// How much hay is to be carried, and why.
    pub fn wording(&self, season: &Season) -> String {
        let hay = format!("{} kg short", decimal_text(self.short_kg, 0));
        match &self.cause {
            ShortCause::Fixed => format!("{hay}: the day is fixed."),
            ShortCause::NothingReady(not_ready) => {
                format!("{hay}: no other strip is ready{}.", not_ready.wording())
            }
            ShortCause::SavedForLater { instead } => {
                format!("{hay}. {}.", instead.wording(season))
            }
        }
    }
}

impl NotReady {
    fn wording(self) -> String {
        let parts = [
            (self.resting, "resting"),
            (self.closed, "closed"),
            (self.taken, "taken"),
            (self.too_low, "too low"),
            (self.kept, "kept for later"),
        ];
        let named: Vec<String> = parts
            .iter()
            .filter(|(count, _)| *count > 0)
            .map(|(count, what)| format!("{count} {what}"))
            .collect();
        if named.is_empty() {
            String::new()
        } else {
            format!(" ({})", named.join(", "))
        }
    }
}

fn days_text(days: usize) -> String {
    plural_text(u64::try_from(days).unwrap_or(u64::MAX), "day", "days")
}
