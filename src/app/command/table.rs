//! The words, the tip and the key of every command.

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
pub(super) const TABLE: [Row; 50] = [
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
        Some((SHIFT, Key::H)),
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
