//! What the window remembers from one day to the next: units, light, recent farms.
//!
//! Kept in the person's own configuration folder; a missing or broken file means the usual settings.

use std::path::{Path, PathBuf};

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
        };
        drop(settings_file::write_settings(&saved, path));
    }
}
