//! Tests of the window, driven the way a screen reader drives it: by names and keys.

#![expect(
    clippy::expect_used,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops where it is"
)]

mod forms_desk;
mod forms_flocks;
mod forms_grass;
mod forms_ground;
mod forms_hens;
mod forms_season;
