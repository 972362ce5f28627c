//! A corner from two tapes: what is typed, both corners it may be, and which of them is meant.

use super::{KnownCorner, Wanting};
use crate::geometry::Point;
use crate::geometry::tape::{TapeError, corners_from_two_tapes};
use crate::quantity::{UnitSystem, length_text_precise, parse_tape_m};

/// One of the two corners where tapes meet, seen from the first known corner towards the second.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hand {
    /// On the left: corner A.
    Left,
    /// On the right: corner B.
    Right,
}

impl Hand {
    /// The letter on the map.
    pub const fn letter(self) -> &'static str {
        match self {
            Self::Left => "A",
            Self::Right => "B",
        }
    }

    /// Its place in the pair that the tapes give.
    pub const fn index(self) -> usize {
        match self {
            Self::Left => 0,
            Self::Right => 1,
        }
    }

    /// The other one.
    pub const fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
}

/// What is typed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct TwoTapes {
    /// What the tape reads from the first and from the second known corner.
    pub texts: [String; 2],
    /// The corner that was chosen; the one nearer the pointer where none was.
    pub chosen: Option<Hand>,
}

impl TwoTapes {
    /// Both corners, left first.
    ///
    /// # Errors
    /// What is missing, or by how much the tapes do not meet.
    pub fn corners(
        &self,
        ends: Result<[&KnownCorner; 2], Wanting>,
        units: UnitSystem,
    ) -> Result<[Point; 2], Wanting> {
        let [first, second] = ends?;
        let mut lengths_m = [0.0; 2];
        for ((text, length_m), from) in self.texts.iter().zip(&mut lengths_m).zip([first, second]) {
            if text.trim().is_empty() {
                return Err(Wanting::missing(format!(
                    "Type what the tape reads from {}.",
                    from.name
                )));
            }
            *length_m = parse_tape_m(text, units)
                .map_err(|error| Wanting::wrong(format!("Tape from {}: {error}.", from.name)))?;
        }
        let [from_a_m, from_b_m] = lengths_m;
        corners_from_two_tapes(first.place, second.place, from_a_m, from_b_m)
            .map_err(|error| Wanting::wrong(in_words(error, units)))
    }

    /// The corner that is meant.
    pub fn hand(&self, corners: [Point; 2], pointer: Option<Point>) -> Hand {
        let [left, right] = corners;
        self.chosen.unwrap_or_else(|| match pointer {
            Some(at) if at.distance_m(right) < at.distance_m(left) => Hand::Right,
            _ => Hand::Left,
        })
    }
}

fn in_words(error: TapeError, units: UnitSystem) -> String {
    match error {
        TapeError::TooShort { shortfall_m } => format!(
            "The tapes do not meet: {} too short together.",
            length_text_precise(shortfall_m, units)
        ),
        TapeError::TooLong { excess_m } => format!(
            "The tapes do not meet: the longer one is {} too long, or the other too short.",
            length_text_precise(excess_m, units)
        ),
        TapeError::SamePlace => {
            "Both known corners are the same place: choose another one.".to_owned()
        }
        TapeError::NotALength | TapeError::TooFewSides => {
            "A tape cannot read below nothing.".to_owned()
        }
    }
}
