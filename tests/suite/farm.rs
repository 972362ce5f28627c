//! The document: history, measures, findings.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test may stop the run, and says why"
)]

mod findings;
mod history;
mod measures;
pub(crate) mod sample;
mod shared_ground;
mod strips;
