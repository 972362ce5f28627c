//! The window without a screen: worked by pointer, keys and names, judged by what is on the farm afterwards.
//!
//! The real input path is taken throughout; only the pictures need a renderer. Metres on the ground.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test may stop the run, and says why"
)]

mod choosing;
mod course;
mod days;
mod drawing;
mod filing;
mod forms_built;
mod forms_desk;
mod forms_flocks;
mod forms_grass;
mod forms_ground;
mod forms_hens;
mod forms_season;
mod handling;
mod keys;
mod picture;
mod pictures;
mod questions;
mod quiet;
mod reshaping;
mod reshaping_acts;
mod ribbon;
mod sitting;
mod strips;
mod taping;
