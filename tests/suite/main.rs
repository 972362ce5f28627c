//! The project's tests in one binary, a module for each floor's part.

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

mod planning;
