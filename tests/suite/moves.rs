//! From the farm to its moves: the hens' walk, the grazier's sums, the planning problem of a layout.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::float_cmp,
    reason = "a test may stop the run, and says why"
)]

mod clean_ground;
mod from_farm;
mod grazing_sums;
mod hen_following;
mod hen_order;
mod hen_round;
mod hen_turning;
mod hen_walk;
mod hens_beside;
mod loads;
mod mobs_behind;
mod questions;
