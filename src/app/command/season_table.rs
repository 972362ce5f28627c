//! The commands of a season that is being lived: spells moved by keys, weather, early moves, questions.
//!
//! Rows as in the table of all others, and gone through after it.

use egui::{Key, Modifiers};

use super::Command;
use super::table::Row;

const SHIFT: Modifiers = Modifiers::SHIFT;
const ALT: Modifiers = Modifiers::ALT;
const ALT_SHIFT: Modifiers = Modifiers::ALT.plus(Modifiers::SHIFT);

/// The rows.
pub(super) const SEASON_TABLE: &[Row] = &[
    (
        Command::SpellLonger,
        "Spell a day longer",
        "Fix the chosen spell with a day more at its end",
        Some((ALT_SHIFT, Key::ArrowRight)),
    ),
    (
        Command::SpellShorter,
        "Spell a day shorter",
        "Fix the chosen spell without its last day",
        Some((ALT_SHIFT, Key::ArrowLeft)),
    ),
    (
        Command::SpellLater,
        "Spell a day later",
        "Fix the chosen spell a day later",
        Some((ALT, Key::ArrowRight)),
    ),
    (
        Command::SpellEarlier,
        "Spell a day earlier",
        "Fix the chosen spell a day earlier",
        Some((ALT, Key::ArrowLeft)),
    ),
    (
        Command::SpellAbove,
        "Spell to the strip above",
        "Fix the chosen spell on the strip above it in the ribbon",
        Some((ALT, Key::ArrowUp)),
    ),
    (
        Command::SpellBelow,
        "Spell to the strip below",
        "Fix the chosen spell on the strip below it in the ribbon",
        Some((ALT, Key::ArrowDown)),
    ),
    (
        Command::StayLonger,
        "Stay a day longer",
        "Keep the flock a day longer where it stands today: weather, or a late start; again for another day",
        None,
    ),
    (
        Command::MovedToday,
        "Moved today",
        "The flock left its strip today, earlier than planned; the rest is planned again",
        None,
    ),
    (
        Command::WhatHelps,
        "What helps?",
        "Look for what helps against the short days ahead: fewer head, hay, a strip opened sooner, a longer stay",
        None,
    ),
    (
        Command::Questions,
        "Questions …",
        "How many head, until when, what if, when to stop, what helps on short days",
        Some((SHIFT, Key::Q)),
    ),
];
