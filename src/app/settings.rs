//! What the window remembers from one day to the next: units, light, recent farms.
//!
//! Kept in the person's own configuration folder; a missing or broken file means the usual settings.

use std::path::{Path, PathBuf};

use super::panels::strips_form::{DirectionWay, SizeWay, StripsChoice};
use crate::files::settings_file;
use crate::quantity::UnitSystem;

/// Remembered settings.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Settings {
    /// Units people read and type.
    pub units: UnitSystem,
    /// Day, night, or as the desktop has it.
    pub light: LightChoice,
    /// Farms opened last, the newest first.
    pub recent: Vec<PathBuf>,
    /// How ground was cut into strips last.
    pub strips: StripsChoice,
    /// Where this is kept; `None` keeps it in memory only (tests).
    pub kept_at: Option<PathBuf>,
}

/// Which light the window takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LightChoice {
    /// As the desktop has it.
    #[default]
    Desktop,
    /// Always by day.
    Day,
    /// Always by night.
    Night,
}

/// Recent farms kept.
const MOST_RECENT: usize = 8;

impl Settings {
    /// The settings of this person on this machine.
    pub fn of_this_person() -> Self {
        let kept_at = directories::ProjectDirs::from("", "", "foldcourse")
            .map(|folders| folders.config_dir().join("settings.ron"));
        let mut settings = kept_at.as_deref().map(Self::read).unwrap_or_default();
        settings.kept_at = kept_at;
        settings
    }

    fn read(path: &Path) -> Self {
        let saved = settings_file::read_settings(path).unwrap_or_default();
        Self {
            units: if saved.imperial {
                UnitSystem::Imperial
            } else {
                UnitSystem::Metric
            },
            light: match saved.light.as_str() {
                "day" => LightChoice::Day,
                "night" => LightChoice::Night,
                _ => LightChoice::Desktop,
            },
            recent: saved
                .recent
                .into_iter()
                .map(PathBuf::from)
                .take(MOST_RECENT)
                .collect(),
            strips: strips_from(&saved.strips),
            kept_at: None,
        }
    }

    /// Puts a farm at the head of the recent ones.
    pub fn remember(&mut self, path: &Path) {
        let full = path.canonicalize().unwrap_or_else(|_| path.to_path_buf());
        self.recent.retain(|known| known != &full);
        self.recent.insert(0, full);
        self.recent.truncate(MOST_RECENT);
        self.keep();
    }

    /// Writes the settings down. A failure is let pass: no work hangs on it.
    pub fn keep(&self) {
        let Some(path) = &self.kept_at else { return };
        let saved = settings_file::SavedSettings {
            imperial: self.units == UnitSystem::Imperial,
            light: match self.light {
                LightChoice::Desktop => "desktop",
                LightChoice::Day => "day",
                LightChoice::Night => "night",
            }
            .to_owned(),
            recent: self
                .recent
                .iter()
                .map(|path| path.to_string_lossy().into_owned())
                .collect(),
            strips: saved_strips(&self.strips),
        };
        drop(settings_file::write_settings(&saved, path));
    }
}

const SIZE_WORDS: [(SizeWay, &str); 4] = [
    (SizeWay::Count, "count"),
    (SizeWay::Area, "area"),
    (SizeWay::Width, "width"),
    (SizeWay::Days, "days"),
];

const DIRECTION_WORDS: [(DirectionWay, &str); 4] = [
    (DirectionWay::Across, "across"),
    (DirectionWay::Side, "side"),
    (DirectionWay::Bearing, "bearing"),
    (DirectionWay::Reaching, "reaching"),
];

fn strips_from(saved: &settings_file::SavedStrips) -> StripsChoice {
    let usual = StripsChoice::default();
    let size = SIZE_WORDS.iter().find(|(_, word)| *word == saved.size);
    let direction = DIRECTION_WORDS
        .iter()
        .find(|(_, word)| *word == saved.direction);
    let or = |text: &str, usual: String| {
        if text.is_empty() {
            usual
        } else {
            text.chars().take(40).collect()
        }
    };
    StripsChoice {
        size: size.map_or(usual.size, |(way, _)| *way),
        direction: direction.map_or(usual.direction, |(way, _)| *way),
        count_text: or(&saved.count, usual.count_text),
        area_text: or(&saved.area, usual.area_text),
        width_text: or(&saved.width, usual.width_text),
        days_text: or(&saved.days, usual.days_text),
    }
}

fn saved_strips(choice: &StripsChoice) -> settings_file::SavedStrips {
    let size = SIZE_WORDS.iter().find(|(way, _)| *way == choice.size);
    let direction = DIRECTION_WORDS
        .iter()
        .find(|(way, _)| *way == choice.direction);
    settings_file::SavedStrips {
        size: size.map_or("", |(_, word)| word).to_owned(),
        direction: direction.map_or("", |(_, word)| word).to_owned(),
        count: choice.count_text.clone(),
        area: choice.area_text.clone(),
        width: choice.width_text.clone(),
        days: choice.days_text.clone(),
    }
}
