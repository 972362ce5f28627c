//! Floor 4: farms on disk, seen from outside.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a test may stop the run, and says why"
)]

mod bad_course;
mod bad_layout;
mod broken_bytes;
mod examples;
mod geojson_refused;
mod geojson_round_trip;
mod gpx;
mod random_course;
mod random_farm;
mod random_handling;
mod sample;
mod saved_farm;
mod writing;
