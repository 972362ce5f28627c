//! Every act that can be asked for: its words, its key, whether it can be done now.
//!
//! Menus, buttons, keys, the finder and tests all draw from this one table.

use egui::{Key, KeyboardShortcut, Modifiers};

use super::desk::Desk;

/// An act.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Command {
    /// Select, move, reshape.
    Pick,
    /// Draw an outline.
    Outline,
    /// Draw a line.
    Line,
    /// Draw a rectangle.
    Square,
    /// Put down a single place.
    Place,
    /// Split along a line.
    Split,
    /// Cut into strips.
    Strips,
    /// Draw a tunnel.
    Tunnel,
    /// Draw a tree line.
    Trees,
    /// Copy in a row.
    Row,
    /// Measure.
    Ruler,
    /// Take back.
    Undo,
    /// Do again.
    Redo,
    /// Take everything back.
    UndoAll,
    /// Remove what is selected.
    Delete,
    /// Show the whole farm.
    FitAll,
    /// Show what is selected.
    FitSelected,
    /// Closer.
    ZoomIn,
    /// Wider.
    ZoomOut,
    /// The day before.
    DayBefore,
    /// The day after.
    DayAfter,
    /// Today.
    Today,
    /// Settle that the mob stands here this day.
    FixHere,
    /// Note that it was lived.
    LogDone,
    /// Free a settled day.
    Unfix,
    /// The page of the flocks.
    Flocks,
    /// The page of the hens.
    Hens,
    /// The page of the season and the grass.
    SeasonGrass,
    /// The page of the course of crops.
    Course,
    /// The course of the year in view on the map.
    CourseOnMap,
    /// Find or do.
    Find,
    /// New farm.
    New,
    /// Open a farm.
    Open,
    /// Save.
    Save,
    /// Save under a name.
    SaveAs,
    /// Bring outlines in.
    Import,
    /// Hand outlines out.
    Export,
    /// Metres and hectares, or yards and acres.
    Units,
    /// Day, night, desktop.
    Light,
    /// Snap, or leave the pointer alone.
    Snap,
    /// Move corners alone, or with the neighbours'.
    HoldApart,
    /// The sheet of keys.
    Keys,
    /// Close the window.
    Close,
}

/// Where a command is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CommandFacts {
    /// What it says.
    pub text: &'static str,
    /// What it does, in a sentence.
    pub tip: &'static str,
    /// Its key.
    pub key: Option<KeyboardShortcut>,
}

const CTRL: Modifiers = Modifiers::COMMAND;
const CTRL_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);
const PLAIN: Modifiers = Modifiers::NONE;
const SHIFT: Modifiers = Modifiers::SHIFT;

/// A command with its words, its tip and its key.
type Row = (
    Command,
    &'static str,
    &'static str,
    Option<(Modifiers, Key)>,
);

/// Every command's row.
const TABLE: [Row; 43] = [
    (
        Command::Pick,
        "Pick",
        "Select, move and reshape what is on the map",
        Some((PLAIN, Key::V)),
    ),
    (
        Command::Outline,
        "Outline",
        "Draw a piece of ground corner by corner",
        Some((PLAIN, Key::O)),
    ),
    (
        Command::Line,
        "Line",
        "Draw a fence, hedge, track or tree line",
        Some((PLAIN, Key::L)),
    ),
    (
        Command::Square,
        "Square",
        "Draw a rectangle: one side, then how wide",
        Some((PLAIN, Key::R)),
    ),
    (
        Command::Place,
        "Place",
        "Put down a trough or gate",
        Some((PLAIN, Key::P)),
    ),
    (
        Command::Split,
        "Cut",
        "Split ground in two along a line",
        Some((PLAIN, Key::C)),
    ),
    (
        Command::Strips,
        "Strips",
        "Cut a ley into strips of equal area",
        Some((PLAIN, Key::S)),
    ),
    (
        Command::Tunnel,
        "Tunnel",
        "Draw a tunnel: one side, then how wide",
        Some((PLAIN, Key::T)),
    ),
    (
        Command::Trees,
        "Trees",
        "Draw a line of trees",
        Some((PLAIN, Key::E)),
    ),
    (
        Command::Row,
        "Copy in a row …",
        "Copy what is selected side by side",
        Some((PLAIN, Key::W)),
    ),
    (
        Command::Ruler,
        "Ruler",
        "Measure; nothing is left on the map",
        Some((PLAIN, Key::M)),
    ),
    (
        Command::Undo,
        "Undo",
        "Take the last step back",
        Some((CTRL, Key::Z)),
    ),
    (
        Command::Redo,
        "Redo",
        "Make the step again",
        Some((CTRL_SHIFT, Key::Z)),
    ),
    (
        Command::UndoAll,
        "Undo everything",
        "Take back every step since the farm was opened",
        Some((PLAIN, Key::F9)),
    ),
    (
        Command::Delete,
        "Delete",
        "Remove what is selected",
        Some((PLAIN, Key::Delete)),
    ),
    (
        Command::FitAll,
        "Show the whole farm",
        "Fit the map to everything drawn",
        Some((PLAIN, Key::F)),
    ),
    (
        Command::FitSelected,
        "Show what is selected",
        "Fit the map to what is selected",
        Some((SHIFT, Key::F)),
    ),
    (
        Command::ZoomIn,
        "Closer",
        "Go closer to the ground",
        Some((PLAIN, Key::Plus)),
    ),
    (
        Command::ZoomOut,
        "Wider",
        "See more ground",
        Some((PLAIN, Key::Minus)),
    ),
    (
        Command::DayBefore,
        "The day before",
        "Go one day back",
        Some((PLAIN, Key::Comma)),
    ),
    (
        Command::DayAfter,
        "The day after",
        "Go one day on",
        Some((PLAIN, Key::Period)),
    ),
    (
        Command::Today,
        "Today",
        "Go to today",
        Some((PLAIN, Key::Home)),
    ),
    (
        Command::FixHere,
        "Fix this day here",
        "The flock stands here on this day, whatever else changes",
        None,
    ),
    (
        Command::LogDone,
        "Log as done",
        "It was lived as planned, up to this day",
        None,
    ),
    (
        Command::Unfix,
        "Free this day",
        "Let the planner choose this day again",
        None,
    ),
    (
        Command::Flocks,
        "Flocks …",
        "Sheep: head, weight, what they eat, days on the farm, yard",
        Some((PLAIN, Key::A)),
    ),
    (
        Command::Hens,
        "Hens …",
        "Hen houses: size, lines they walk, days on a place, rest",
        Some((PLAIN, Key::H)),
    ),
    (
        Command::SeasonGrass,
        "Season and grass …",
        "First and last day, growth and rest by month, what is left",
        Some((PLAIN, Key::G)),
    ),
    (
        Command::Course,
        "Course …",
        "Which plot and tunnel carries what in which year",
        Some((PLAIN, Key::Y)),
    ),
    (
        Command::CourseOnMap,
        "Course on the map",
        "The map as it is in a year of the course, or on the day in view",
        Some((SHIFT, Key::Y)),
    ),
    (
        Command::Find,
        "Find or do …",
        "Type what you want",
        Some((CTRL, Key::K)),
    ),
    (
        Command::New,
        "New farm …",
        "Begin an empty farm",
        Some((CTRL, Key::N)),
    ),
    (Command::Open, "Open …", "Open a farm", Some((CTRL, Key::O))),
    (Command::Save, "Save", "Save the farm", Some((CTRL, Key::S))),
    (
        Command::SaveAs,
        "Save as …",
        "Save the farm under another name",
        Some((CTRL_SHIFT, Key::S)),
    ),
    (
        Command::Import,
        "Import …",
        "Bring outlines in from a GeoJSON file",
        Some((CTRL, Key::I)),
    ),
    (
        Command::Export,
        "Export …",
        "Hand outlines out as a GeoJSON file",
        Some((CTRL, Key::E)),
    ),
    (
        Command::Units,
        "Hectares or acres",
        "Change between metres and yards",
        Some((PLAIN, Key::U)),
    ),
    (
        Command::Light,
        "Light or dark",
        "Change between day and night colours",
        Some((PLAIN, Key::D)),
    ),
    (
        Command::Snap,
        "Snap on or off",
        "Draw to corners, sides and even bearings; Alt held leaves the pointer alone",
        Some((PLAIN, Key::N)),
    ),
    (
        Command::HoldApart,
        "Hold corners apart",
        "Move a corner alone, or with the neighbours' corners that lie on it",
        Some((PLAIN, Key::J)),
    ),
    (
        Command::Keys,
        "Sheet of keys",
        "Show every key",
        Some((PLAIN, Key::F1)),
    ),
    (
        Command::Close,
        "Close",
        "Close the window",
        Some((CTRL, Key::Q)),
    ),
];

impl Command {
    /// Every command; keys with more modifiers come before the same key with fewer.
    pub const ALL: [Self; 43] = [
        Self::Pick,
        Self::Outline,
        Self::Line,
        Self::Square,
        Self::Place,
        Self::Split,
        Self::Strips,
        Self::Tunnel,
        Self::Trees,
        Self::Row,
        Self::Ruler,
        Self::Redo,
        Self::Undo,
        Self::UndoAll,
        Self::Delete,
        Self::FitSelected,
        Self::FitAll,
        Self::ZoomIn,
        Self::ZoomOut,
        Self::DayBefore,
        Self::DayAfter,
        Self::Today,
        Self::FixHere,
        Self::LogDone,
        Self::Unfix,
        Self::Flocks,
        Self::Hens,
        Self::SeasonGrass,
        Self::CourseOnMap,
        Self::Course,
        Self::Find,
        Self::New,
        Self::Open,
        Self::SaveAs,
        Self::Save,
        Self::Import,
        Self::Export,
        Self::Units,
        Self::Light,
        Self::Snap,
        Self::HoldApart,
        Self::Keys,
        Self::Close,
    ];

    /// Words, tip and key.
    pub fn facts(self) -> CommandFacts {
        let row = TABLE.iter().find(|(command, ..)| *command == self);
        let (text, tip, key) =
            row.map_or(("", "", None), |(_, text, tip, key)| (*text, *tip, *key));
        let key = key.map(|(modifiers, key)| KeyboardShortcut::new(modifiers, key));
        CommandFacts { text, tip, key }
    }

    /// Whether it can be done now.
    pub fn is_available(self, desk: &Desk) -> bool {
        match self {
            Self::Undo | Self::UndoAll => desk.history.undo_label().is_some(),
            Self::Redo => desk.history.redo_label().is_some(),
            Self::Delete | Self::FitSelected => !desk.selected.is_empty(),
            Self::Strips | Self::Row => desk
                .selected_one()
                .is_some_and(|(_, ground)| ground.outline().is_some()),
            Self::FixHere => super::season_acts::fix_here(desk).is_some(),
            Self::LogDone => super::season_acts::log_done(desk).is_some(),
            Self::Unfix => super::season_acts::unfix(desk).is_some(),
            _ => true,
        }
    }

    /// Whether it is done on the map, which must then be in view.
    pub const fn is_on_map(self) -> bool {
        matches!(
            self,
            Self::Pick
                | Self::Outline
                | Self::Line
                | Self::Square
                | Self::Place
                | Self::Split
                | Self::Strips
                | Self::Tunnel
                | Self::Trees
                | Self::Row
                | Self::Ruler
                | Self::Delete
                | Self::FitAll
                | Self::FitSelected
                | Self::ZoomIn
                | Self::ZoomOut
                | Self::Flocks
                | Self::Hens
                | Self::SeasonGrass
        )
    }

    /// Why it cannot be done now, where it cannot.
    pub const fn why_not(self) -> &'static str {
        match self {
            Self::Undo | Self::UndoAll => "Nothing to undo.",
            Self::Redo => "Nothing to do again.",
            Self::Row => "Select one area first, then copy it in a row.",
            Self::Strips => "Select one ley or plot first, then cut it into strips.",
            Self::FixHere => {
                "Select a strip that is open this day, on a day on which a flock is on the farm."
            }
            Self::LogDone => "Nothing is planned up to this day that could be logged.",
            Self::Unfix => "This day is not settled.",
            _ => "Select something first.",
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use super::*;

    #[test]
    fn every_command_stands_in_the_table() {
        for command in Command::ALL {
            assert!(!command.facts().text.is_empty(), "{command:?}");
        }
    }

    #[test]
    fn no_two_commands_share_a_key() {
        let mut taken: BTreeMap<String, Command> = BTreeMap::new();
        for command in Command::ALL {
            if let Some(key) = command.facts().key {
                let clash = taken.insert(format!("{key:?}"), command);
                assert_eq!(clash, None, "{command:?} shares {key:?}");
            }
        }
    }
}
