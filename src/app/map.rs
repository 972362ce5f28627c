//! The map: view, pointer, painting, labels, animals, furniture.
//!
//! Turns metres into screen points and back; decides nothing about the farm.

mod animals;
mod cache;
mod cells;
mod course_year;
mod disc;
mod furniture;
mod ground_layer;
mod labels;
mod measures_line;
mod paint;
mod pointer;
mod proposal;
mod snapping;
mod strips_preview;
mod surface;
mod taping_overlay;
mod tree_names;
mod view;

pub use cache::MapCache;
pub use cells::MapCells;
pub use course_year::{use_ink, year_bar_ui, year_on_map, year_slider_ui};
pub use ground_layer::PaintedBy;
pub use labels::KeptLabels;
pub use paint::fill_shape;
pub use snapping::Snapping;
pub use surface::{feed, fit_all, map_ui};
pub use view::GroundView;
