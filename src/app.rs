//! Floor 6: the window. Map, tools, panels, questions, keys.
//!
//! Knows nothing of the command line. Panels build plain rows first, then paint them; tools are small machines fed
//! our own events in metres; the farm changes only through its history.

pub mod asking;
pub mod command;
pub mod desk;
pub mod dialogs;
pub mod dispatch;
pub mod entry;
pub mod file_acts;
pub mod file_chooser;
pub mod finder;
pub mod forms;
pub mod handling;
pub mod in_hand;
mod keys;
pub mod live;
pub mod map;
pub mod panels;
pub mod planner;
pub mod reckoned;
pub mod reshape_acts;
pub mod season_acts;
pub mod settings;
pub mod spell_drag;
pub mod start;
pub mod taping;
pub mod theme;
pub mod tools;
pub mod window;
