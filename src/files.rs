//! Floor 4: what is read and written. Knows formats and the disk, and nothing of the window.

pub mod planning_json;
