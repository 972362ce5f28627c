//! Measured on the ground: corners by two tapes, offsets from a base line, a walk with compass and tape, a walked
//! boundary. What is typed, what it comes to, and how it gets onto the farm in one step.
//!
//! Paints nothing: the page and the map read it. Metres on the plane.

mod acts;
mod base_line;
mod corners;
mod overlay;
mod two_tapes;
mod walk_round;
mod walked;

pub use acts::{is_ready, open, open_walk_file, put, take_event};
pub use base_line::BaseLine;
pub use corners::{KnownCorner, corner_lists, corner_typed, known_at};
pub use overlay::{Overlay, OverlayLine, OverlayMark, Pen, overlay};
pub use two_tapes::{Hand, TwoTapes};
pub use walk_round::{NEEDLE_HELP, WalkRound};
pub use walked::{Walked, WalkedShape};

use crate::farm::Kind;

/// How it was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Way {
    /// One corner by two tapes from known corners.
    #[default]
    TwoTapes,
    /// Corners by how far along a base line and how far aside.
    BaseLine,
    /// Sides and bearings all the way round.
    WalkRound,
    /// Points of a phone or receiver.
    Walked,
}

impl Way {
    /// All four, in the order in which the page shows them.
    pub const ALL: [Self; 4] = [
        Self::TwoTapes,
        Self::BaseLine,
        Self::WalkRound,
        Self::Walked,
    ];

    /// Its name on the page.
    pub const fn name(self) -> &'static str {
        match self {
            Self::TwoTapes => "Two tapes",
            Self::BaseLine => "Base line",
            Self::WalkRound => "Compass and tape",
            Self::Walked => "Walked with a phone",
        }
    }

    /// What to do, in a sentence or two.
    pub const fn help(self) -> &'static str {
        match self {
            Self::TwoTapes => {
                "A new corner from two known ones: say which two, then what the tape reads from each."
            }
            Self::BaseLine => {
                "A tape laid from one known corner to another; for each new corner, how far along it and how far aside."
            }
            Self::WalkRound => {
                "Once round the piece: for each side its length and its compass bearing, back to where you began."
            }
            Self::Walked => {
                "A boundary or track walked with a phone or receiver: paste its points, degrees north then east, one on a line, or bring its file in."
            }
        }
    }

    /// How many known corners it starts from.
    pub const fn known_corners(self) -> usize {
        match self {
            Self::TwoTapes | Self::BaseLine => 2,
            Self::WalkRound => 1,
            Self::Walked => 0,
        }
    }
}

/// What is to be said of figures that do not come to a shape yet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wanting {
    /// In a sentence.
    pub text: String,
    /// Whether something typed is wrong, not only missing.
    pub is_trouble: bool,
}

impl Wanting {
    /// Something is still to be typed or clicked.
    pub fn missing(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            is_trouble: false,
        }
    }

    /// Something typed is wrong.
    pub fn wrong(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            is_trouble: true,
        }
    }
}

/// The field that takes the focus when the page is painted next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Focus {
    /// A known corner, counted from 0.
    Corner(usize),
    /// A tape, counted from 0.
    Tape(usize),
    /// A field of a row, both counted from 0.
    Row(usize, usize),
    /// The points of a walk.
    Points,
    /// How far a walk is thinned.
    Thinning,
    /// How far a point may be wrong.
    PointError,
    /// How far the needle is off.
    Needle,
}

/// Everything of the page; kept while it is shut, so that nothing typed is lost.
#[derive(Debug, Clone)]
pub struct Taping {
    /// Whether the page is open.
    pub is_open: bool,
    /// Which of the four is in view.
    pub way: Way,
    /// Known corners, by number.
    pub ends: [Option<KnownCorner>; 2],
    /// What is being typed in their fields.
    pub end_texts: [String; 2],
    /// Why a typed corner was not found.
    pub end_trouble: [Option<String>; 2],
    /// The known corner that the next click on the map gives.
    pub wants: Option<usize>,
    /// Two tapes.
    pub two_tapes: TwoTapes,
    /// A base line.
    pub base_line: BaseLine,
    /// A walk round.
    pub walk_round: WalkRound,
    /// A walked boundary.
    pub walked: Walked,
    /// What a place becomes.
    pub place_kind: Kind,
    /// The field that takes the focus next.
    pub focus: Option<Focus>,
}

impl Default for Taping {
    fn default() -> Self {
        Self {
            is_open: false,
            way: Way::default(),
            ends: [None, None],
            end_texts: [String::new(), String::new()],
            end_trouble: [None, None],
            wants: None,
            two_tapes: TwoTapes::default(),
            base_line: BaseLine::default(),
            walk_round: WalkRound::default(),
            walked: Walked::default(),
            place_kind: Kind::Gate,
            focus: None,
        }
    }
}

impl Taping {
    /// Takes a known corner and goes on to what is missing next.
    pub fn set_end(&mut self, number: usize, corner: KnownCorner) {
        if let Some(text) = self.end_texts.get_mut(number) {
            text.clone_from(&corner.name);
        }
        if let Some(trouble) = self.end_trouble.get_mut(number) {
            *trouble = None;
        }
        if let Some(end) = self.ends.get_mut(number) {
            *end = Some(corner);
        }
        self.go_on();
    }

    /// Puts the cursor where something is missing: a known corner, which a click on the map gives too, or a figure.
    pub fn go_on(&mut self) {
        self.want_next();
        self.focus = Some(match self.wants {
            Some(number) => Focus::Corner(number),
            None => self.first_field(),
        });
    }

    /// Lets the next click give the first known corner that is missing.
    pub(super) fn want_next(&mut self) {
        let needed = self.ends.iter().take(self.way.known_corners());
        self.wants = needed.into_iter().position(Option::is_none);
    }

    /// The first field behind the known corners that has nothing in it.
    fn first_field(&self) -> Focus {
        match self.way {
            Way::TwoTapes => Focus::Tape(usize::from(!self.two_tapes.texts[0].trim().is_empty())),
            Way::BaseLine => Focus::Row(self.base_line.rows.len().saturating_sub(1), 0),
            Way::WalkRound => Focus::Row(self.walk_round.rows.len().saturating_sub(1), 0),
            Way::Walked => Focus::Points,
        }
    }

    /// Whether the points or rows of the way in view hold something, so that nobody asks any more what to do.
    pub fn is_under_way(&self) -> bool {
        match self.way {
            Way::TwoTapes => false,
            Way::BaseLine => filled_rows(&self.base_line.rows).count() > 2,
            Way::WalkRound => filled_rows(&self.walk_round.rows).count() > 2,
            Way::Walked => self.walked.file.is_some() || !self.walked.text.is_empty(),
        }
    }

    /// Both known corners.
    ///
    /// # Errors
    /// The one that is missing.
    pub fn both_ends(&self) -> Result<[&KnownCorner; 2], Wanting> {
        match &self.ends {
            [Some(first), Some(second)] => Ok([first, second]),
            [None, _] => Err(Wanting::missing(
                "Click the first known corner on the map, or type it.",
            )),
            _ => Err(Wanting::missing(
                "Click the second known corner on the map, or type it.",
            )),
        }
    }
}

/// Rows of two figures with an empty one to go on with at the end.
pub fn with_empty_row(rows: &mut Vec<[String; 2]>) {
    let is_empty = |row: &[String; 2]| row.iter().all(|text| text.trim().is_empty());
    if rows.len() < MOST_ROWS && !rows.last().is_some_and(is_empty) {
        rows.push([String::new(), String::new()]);
    }
}

/// Rows that hold something: number from 1 and the two texts. Empty rows at the end are none.
pub(super) fn filled_rows(rows: &[[String; 2]]) -> impl Iterator<Item = (usize, &[String; 2])> {
    let is_filled = |row: &&[String; 2]| row.iter().any(|text| !text.trim().is_empty());
    let count = rows.len() - rows.iter().rev().take_while(|row| !is_filled(row)).count();
    (1..).zip(rows.iter().take(count))
}

/// The most rows of a table.
const MOST_ROWS: usize = 500;
