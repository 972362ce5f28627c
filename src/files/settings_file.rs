//! The window's remembered settings as a small file.
//!
//! Unknown or broken content is no trouble: the caller takes the usual settings. Knows no window.

use std::path::Path;

use serde::{Deserialize, Serialize};

use super::FileError;
use super::safe_write::write_safely;

/// The settings as they are written.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct SavedSettings {
    /// Yards and acres rather than metres and hectares.
    pub imperial: bool,
    /// `day`, `night` or `desktop`.
    pub light: String,
    /// Farms opened last, the newest first.
    pub recent: Vec<String>,
    /// How ground was cut into strips last.
    pub strips: SavedStrips,
}

/// The last choices in the question of strips, as they stood in its fields.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct SavedStrips {
    /// `count`, `area`, `width` or `days`.
    pub size: String,
    /// `across`, `side`, `bearing` or `reaching`.
    pub direction: String,
    /// Number of strips.
    pub count: String,
    /// Area of a strip.
    pub area: String,
    /// Width of a strip.
    pub width: String,
    /// Days on a strip.
    pub days: String,
}

/// A settings file is a few lines; anything longer is none.
const MOST_BYTES: u64 = 64 * 1024;

/// Reads settings; `None` where there are none to be understood.
pub fn read_settings(path: &Path) -> Option<SavedSettings> {
    if std::fs::metadata(path).ok()?.len() > MOST_BYTES {
        return None;
    }
    ron::from_str(&std::fs::read_to_string(path).ok()?).ok()
}

/// Writes settings, making the folder where it is missing.
///
/// # Errors
/// Whatever the disk says.
pub fn write_settings(settings: &SavedSettings, path: &Path) -> Result<(), FileError> {
    let told = |cause: String| {
        FileError::new(
            path.display().to_string(),
            &cause,
            "check that the folder can be written to",
        )
    };
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder).map_err(|error| told(error.to_string()))?;
    }
    let text = ron::ser::to_string_pretty(settings, ron::ser::PrettyConfig::default())
        .map_err(|error| told(error.to_string()))?;
    write_safely(path, text.as_bytes())
}
