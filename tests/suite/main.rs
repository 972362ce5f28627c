//! Every test that looks at the program from outside, in one binary.

#![expect(
    unreachable_pub,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_sign_loss,
    reason = "tests stop at what they did not expect, on figures that they make themselves"
)]

mod cli;
mod farm;
mod files;
mod geometry;
mod moves;
mod planning;
mod published;
mod quantity;
mod sheets;
