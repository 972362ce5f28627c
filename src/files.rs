//! Floor 4: farms on disk. The saved layout, import and export, and writing that never harms what was there.
//!
//! Knows nothing of window or paper. Every refusal is a [`FileError`]: file, place, cause and remedy in one line.

mod example;
mod file_error;
mod geojson_export;
mod geojson_import;
mod gpx_import;
mod imported;
mod middle;
pub mod planning_json;
mod reading;
mod safe_write;
mod saved_farm;
pub mod settings_file;
mod tree_table;

pub use example::example_farm;
pub use file_error::FileError;
pub use geojson_export::export_geojson;
pub use geojson_import::{import_geojson, import_geojson_onto};
pub use gpx_import::{
    GpxWish, MOST_POINTS, MarkedPlace, Recorded, RecordedLine, import_gpx, import_gpx_onto,
    read_gpx,
};
pub use imported::{Imported, ImportedGround, ImportedPiece};
pub use reading::{LARGEST_FILE_BYTES, read_text};
pub use safe_write::{previous_path, write_safely};
pub use saved_farm::{farm_from_text, farm_text, open_farm, save_farm};
pub use tree_table::tree_table;
