//! The map: view, pointer, painting, labels, animals, furniture.
//!
//! Turns metres into screen points and back; decides nothing about the farm.

mod animals;
mod cache;
mod furniture;
mod labels;
mod measures_line;
mod paint;
mod pointer;
mod snapping;
mod strips_preview;
mod surface;
mod view;

pub use cache::MapCache;
pub use snapping::Snapping;
pub use surface::{feed, fit_all, map_ui};
pub use view::GroundView;
