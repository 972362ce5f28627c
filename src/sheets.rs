//! Floor 5: what the program draws and prints, as marks and text.
//!
//! Knows no disk and no window: the same marks serve screen, picture and paper. Ground is in metres, widths of
//! strokes in points (one ninety-sixth of an inch at 100 %).

pub mod answers;
pub mod estate_map;
pub mod palette;
pub mod planting_sheet;
pub mod season_sheet;
