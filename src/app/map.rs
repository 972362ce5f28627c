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
mod proposal;
mod snapping;
mod surface;
mod taping_overlay;
mod tree_names;
mod view;

pub use cache::MapCache;
pub use paint::fill_shape;
pub use snapping::Snapping;
pub use surface::{feed, fit_all, map_ui};
pub use view::GroundView;
