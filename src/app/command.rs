//! Every act that can be asked for: its words, its key, whether it can be done now.
//!
//! Menus, buttons, keys, the finder and tests all draw from this one table.

mod season_table;
mod table;

use egui::KeyboardShortcut;

use self::season_table::SEASON_TABLE;
use self::table::{Row, TABLE};
use super::desk::Desk;
use super::panels::tree_list;
use super::reshape_acts;
use super::spell_drag::spell_by_key;

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
    /// The list of every tree.
    TreeList,
    /// Measure.
    Ruler,
    /// The page of what was measured on the ground.
    Taped,
    /// A corner from two tapes.
    TwoTapes,
    /// Offsets from a base line.
    BaseLine,
    /// A walk with compass and tape.
    WalkRound,
    /// A walked boundary.
    Walked,
    /// Mend an overlap or gap.
    Mend,
    /// Join areas into one.
    Join,
    /// Set out a headland.
    Headland,
    /// Keep ground clear round lines.
    KeepClear,
    /// Draw a hole.
    Hole,
    /// Take an area out of the ground under it.
    CutOut,
    /// Fill a hole.
    FillHole,
    /// Mirror what is selected.
    Mirror,
    /// Turn what is selected.
    Turn,
    /// Take back.
    Undo,
    /// Do again.
    Redo,
    /// Take everything back.
    UndoAll,
    /// Remove what is selected.
    Delete,
    /// Select everything.
    SelectAll,
    /// Copy what is selected.
    Copies,
    /// Move what is selected a metre.
    North,
    /// Move what is selected a metre.
    East,
    /// Move what is selected a metre.
    South,
    /// Move what is selected a metre.
    West,
    /// Hold in place, or let go.
    Lock,
    /// The length of each side on the map.
    Lengths,
    /// Above others of its sort.
    Raise,
    /// Below others of its sort.
    Lower,
    /// Which kinds the map shows.
    Shown,
    /// Words on the map.
    Note,
    /// Keep what the ruler measures.
    KeepMeasure,
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
    /// Keep the mob a day longer where it stands today.
    StayLonger,
    /// The mob left its strip today.
    MovedToday,
    /// The chosen spell a day longer.
    SpellLonger,
    /// The chosen spell a day shorter.
    SpellShorter,
    /// The chosen spell a day later.
    SpellLater,
    /// The chosen spell a day earlier.
    SpellEarlier,
    /// The chosen spell on the strip above.
    SpellAbove,
    /// The chosen spell on the strip below.
    SpellBelow,
    /// The page of the flocks.
    Flocks,
    /// The page of the hens.
    Hens,
    /// The page of the season and the grass.
    SeasonGrass,
    /// The page of questions about the season.
    Questions,
    /// The page of pictures of the season.
    Pictures,
    /// What helps against the short days ahead.
    WhatHelps,
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
    /// Snap to the grid too, or not.
    SnapGrid,
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

/// Every row, in the order in which keys are looked for.
fn rows() -> impl Iterator<Item = &'static Row> {
    TABLE.iter().chain(SEASON_TABLE)
}

impl Command {
    /// Every command; keys with more modifiers come before the same key with fewer.
    pub fn all() -> impl Iterator<Item = Self> {
        rows().map(|(command, ..)| *command)
    }

    /// Words, tip and key.
    pub fn facts(self) -> CommandFacts {
        let row = rows().find(|(command, ..)| *command == self);
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
            Self::Delete
            | Self::FitSelected
            | Self::KeepClear
            | Self::Mirror
            | Self::Turn
            | Self::Copies
            | Self::Lock
            | Self::Lengths
            | Self::Raise
            | Self::Lower => !desk.selected.is_empty(),
            Self::North | Self::East | Self::South | Self::West => {
                super::handling::nudged(desk, 1.0, 0.0).is_some()
            }
            Self::SelectAll => !desk.farm().ground.is_empty(),
            Self::KeepMeasure => super::handling::kept_measure(desk).is_some(),
            Self::Strips | Self::Row => desk
                .selected_one()
                .is_some_and(|(_, ground)| ground.outline().is_some()),
            Self::TreeList => tree_list::has_trees(desk),
            Self::Mend => reshape_acts::mend(desk).is_some(),
            Self::Join => reshape_acts::join(desk).is_some(),
            Self::Headland => reshape_acts::headland(desk).is_some(),
            Self::CutOut => reshape_acts::cut_out(desk).is_some(),
            Self::FillHole => reshape_acts::fill_hole(desk).is_some(),
            Self::FixHere => super::season_acts::fix_here(desk).is_some(),
            Self::LogDone => super::season_acts::log_done(desk).is_some(),
            Self::Unfix => super::season_acts::unfix(desk).is_some(),
            Self::StayLonger | Self::MovedToday => super::season_acts::spell_today(desk).is_some(),
            Self::WhatHelps => super::forms::is_short_ahead(desk),
            spell if spell.is_of_spell() => spell_by_key(desk, spell).is_some(),
            _ => true,
        }
    }

    /// Whether it moves the chosen spell in the ribbon.
    pub const fn is_of_spell(self) -> bool {
        matches!(
            self,
            Self::SpellLonger
                | Self::SpellShorter
                | Self::SpellLater
                | Self::SpellEarlier
                | Self::SpellAbove
                | Self::SpellBelow
        )
    }

    /// Whether its key does something in a field that is typed in.
    pub const fn is_key_of_text(self) -> bool {
        matches!(
            self,
            Self::SelectAll | Self::North | Self::East | Self::South | Self::West
        )
    }

    /// Whether it is done on the map, which must then be in view; the others go with a page as well.
    pub const fn is_on_map(self) -> bool {
        !matches!(
            self,
            Self::Undo
                | Self::Redo
                | Self::UndoAll
                | Self::DayBefore
                | Self::DayAfter
                | Self::Today
                | Self::FixHere
                | Self::LogDone
                | Self::Unfix
                | Self::StayLonger
                | Self::MovedToday
                | Self::SpellLonger
                | Self::SpellShorter
                | Self::SpellLater
                | Self::SpellEarlier
                | Self::SpellAbove
                | Self::SpellBelow
                | Self::Course
                | Self::CourseOnMap
                | Self::Find
                | Self::New
                | Self::Open
                | Self::Save
                | Self::SaveAs
                | Self::Import
                | Self::Export
                | Self::Units
                | Self::Light
                | Self::Keys
                | Self::Close
        )
    }

    /// Why it cannot be done now, where it cannot.
    pub const fn why_not(self) -> &'static str {
        match self {
            Self::Undo | Self::UndoAll => "Nothing to undo.",
            Self::Redo => "Nothing to do again.",
            Self::TreeList => "No tree line here has trees: say how far apart they stand.",
            Self::Row => "Select one area first, then copy it in a row.",
            Self::Strips => "Select one ley or plot first, then cut it into strips.",
            Self::Mend => "No overlap and no gap is there to mend.",
            Self::Join => "Select two areas or more that touch, then join them.",
            Self::Headland => "Select one area first, then set out its headland.",
            Self::CutOut => "Select an area first, such as a pond, that lies on other ground.",
            Self::FillHole => "Select one area that has a hole.",
            Self::FixHere => {
                "Select a strip that is open this day, on a day on which a flock is on the farm."
            }
            Self::LogDone => "Nothing is planned up to this day that could be logged.",
            Self::Unfix => "This day is not settled.",
            Self::WhatHelps => "No day is short from today on.",
            Self::StayLonger | Self::MovedToday => "No flock stands on a strip today.",
            spell if spell.is_of_spell() => {
                "Choose a spell first: select its strip and go to a day of it from today on."
            }
            Self::SelectAll => "Nothing is drawn yet.",
            Self::KeepMeasure => "Measure something with the ruler first, then keep it.",
            Self::North | Self::East | Self::South | Self::West => {
                "Select something first that is not locked."
            }
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
        for command in Command::all() {
            assert!(!command.facts().text.is_empty(), "{command:?}");
        }
    }

    #[test]
    fn no_two_commands_share_a_key() {
        let mut taken: BTreeMap<String, Command> = BTreeMap::new();
        for command in Command::all() {
            if let Some(key) = command.facts().key {
                let clash = taken.insert(format!("{key:?}"), command);
                assert_eq!(clash, None, "{command:?} shares {key:?}");
            }
        }
    }
}
