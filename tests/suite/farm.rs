//! The document: history, measures, findings.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test may stop the run, and says why"
)]

mod built;
mod course;
mod findings;
mod history;
mod measures;
mod mob_days;
mod net_area;
mod reshape;
mod reshape_any_order;
pub(crate) mod sample;
mod shared_ground;
mod strips;
