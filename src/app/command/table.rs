//! The words, the tip and the key of every command, one row each.
//!
//! Keys with more modifiers come before the same key with fewer, since the first that fits is done.

use egui::{Key, Modifiers};

use super::Command;

const CTRL: Modifiers = Modifiers::COMMAND;
const CTRL_SHIFT: Modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);
const PLAIN: Modifiers = Modifiers::NONE;
const SHIFT: Modifiers = Modifiers::SHIFT;

/// A command with its words, its tip and its key.
pub(super) type Row = (
    Command,
    &'static str,
    &'static str,
    Option<(Modifiers, Key)>,
);

/// Every command's row.
pub(super) const TABLE: &[Row] = &[
    (
        Command::Mend,
        "Mend an overlap or gap …",
        "Show how neighbours that overlap or leave a sliver can be mended",
        Some((SHIFT, Key::G)),
    ),
    (
        Command::Join,
        "Join into one …",
        "Make one piece of ground of those selected that touch",
        Some((SHIFT, Key::J)),
    ),
    (
        Command::Headland,
        "Headland or set-back …",
        "Set out a headland of some width, all round or along chosen sides",
        Some((SHIFT, Key::E)),
    ),
    (
        Command::KeepClear,
        "Keep ground clear round it …",
        "Put a keep-out of some width round tree lines, hedges, fences or water",
        Some((SHIFT, Key::K)),
    ),
    (
        Command::Hole,
        "Hole",
        "Draw a hole in a piece of ground corner by corner, such as a pond in a ley",
        Some((SHIFT, Key::O)),
    ),
    (
        Command::CutOut,
        "Take out of the ground under it …",
        "Make a hole in the plot or ley on which the selected area lies",
        None,
    ),
    (
        Command::FillHole,
        "Fill a hole …",
        "Give the ground in a hole back, or draw it as ground of its own",
        None,
    ),
    (
        Command::Mirror,
        "Mirror …",
        "Mirror what is selected across a line or a side",
        Some((SHIFT, Key::M)),
    ),
    (
        Command::Turn,
        "Turn …",
        "Turn what is selected by degrees or by dragging",
        Some((SHIFT, Key::T)),
    ),
    (
        Command::Pick,
        "Pick",
        "Select, move and reshape what is on the map",
        Some((PLAIN, Key::V)),
    ),
    (Command::Open, "Open …", "Open a farm", Some((CTRL, Key::O))),
    (
        Command::Outline,
        "Outline",
        "Draw a piece of ground corner by corner",
        Some((PLAIN, Key::O)),
    ),
    (
        Command::Lock,
        "Lock or let go",
        "Hold what is selected in its place on the map, or let it go again",
        Some((CTRL, Key::L)),
    ),
    (
        Command::Lengths,
        "Lengths on the map",
        "Write the length of each side beside it on the map, or take the figures away",
        Some((SHIFT, Key::L)),
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
        Command::Pictures,
        "Pictures …",
        "Grass in hand, growth and appetite, rest, sheep days and nitrogen by strip",
        Some((SHIFT, Key::P)),
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
        Command::SaveAs,
        "Save as …",
        "Save the farm under another name",
        Some((CTRL_SHIFT, Key::S)),
    ),
    (Command::Save, "Save", "Save the farm", Some((CTRL, Key::S))),
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
        Command::Export,
        "Export …",
        "Hand outlines out as a GeoJSON file",
        Some((CTRL, Key::E)),
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
        Command::TreeList,
        "List the trees …",
        "Every tree of the selected line, or of the farm, by number and variety",
        None,
    ),
    (
        Command::Ruler,
        "Ruler",
        "Measure; nothing is left on the map",
        Some((PLAIN, Key::M)),
    ),
    (
        Command::Taped,
        "Measured on the ground …",
        "Put onto the map what was taped, paced by compass or walked with a phone",
        Some((PLAIN, Key::X)),
    ),
    (
        Command::TwoTapes,
        "Corner from two tapes …",
        "A corner by its distance from two known ones",
        None,
    ),
    (
        Command::BaseLine,
        "Offsets from a base line …",
        "Corners by how far along a taped line and how far aside",
        None,
    ),
    (
        Command::WalkRound,
        "Walk with compass and tape …",
        "An outline by the length and bearing of every side",
        None,
    ),
    (
        Command::Walked,
        "Walked boundary …",
        "An outline or line from points of a phone, pasted or from a file",
        None,
    ),
    (
        Command::Redo,
        "Redo",
        "Make the step again",
        Some((CTRL_SHIFT, Key::Z)),
    ),
    (
        Command::Undo,
        "Undo",
        "Take the last step back",
        Some((CTRL, Key::Z)),
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
        Command::SelectAll,
        "Select everything",
        "Select everything that the map shows",
        Some((CTRL, Key::A)),
    ),
    (
        Command::Copies,
        "Copy beside",
        "Put a copy of what is selected beside it",
        Some((CTRL, Key::D)),
    ),
    (
        Command::North,
        "Nudge north",
        "Move what is selected a metre to the north",
        Some((CTRL, Key::ArrowUp)),
    ),
    (
        Command::East,
        "Nudge east",
        "Move what is selected a metre to the east",
        Some((CTRL, Key::ArrowRight)),
    ),
    (
        Command::South,
        "Nudge south",
        "Move what is selected a metre to the south",
        Some((CTRL, Key::ArrowDown)),
    ),
    (
        Command::West,
        "Nudge west",
        "Move what is selected a metre to the west",
        Some((CTRL, Key::ArrowLeft)),
    ),
    (
        Command::Raise,
        "Lay above",
        "Draw what is selected over others of its sort",
        Some((PLAIN, Key::CloseBracket)),
    ),
    (
        Command::Lower,
        "Lay below",
        "Draw what is selected under others of its sort",
        Some((PLAIN, Key::OpenBracket)),
    ),
    (
        Command::Shown,
        "Show and hide …",
        "Choose which kinds the map shows",
        Some((SHIFT, Key::H)),
    ),
    (
        Command::Note,
        "Note on the map",
        "Put words down on the map",
        Some((SHIFT, Key::N)),
    ),
    (
        Command::Find,
        "Find or do …",
        "Type what you want",
        Some((CTRL, Key::K)),
    ),
    (
        Command::KeepMeasure,
        "Keep the measurement",
        "Leave the ruler's line and its lengths on the map as a note",
        Some((PLAIN, Key::K)),
    ),
    (
        Command::FitSelected,
        "Show what is selected",
        "Fit the map to what is selected",
        Some((SHIFT, Key::F)),
    ),
    (
        Command::FitAll,
        "Show the whole farm",
        "Fit the map to everything drawn",
        Some((PLAIN, Key::F)),
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
        Command::CourseOnMap,
        "Course on the map",
        "The map as it is in a year of the course, or on the day in view",
        Some((SHIFT, Key::Y)),
    ),
    (
        Command::Course,
        "Course …",
        "Which plot and tunnel carries what in which year",
        Some((PLAIN, Key::Y)),
    ),
    (
        Command::New,
        "New farm …",
        "Begin an empty farm",
        Some((CTRL, Key::N)),
    ),
    (
        Command::Import,
        "Import …",
        "Bring in outlines from a GeoJSON file, or a walk from a GPX file",
        Some((CTRL, Key::I)),
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
        Command::SnapGrid,
        "Snap to the grid on or off",
        "Draw to the crossings of the grid that the map shows, where nothing drawn is nearer",
        Some((CTRL, Key::G)),
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
