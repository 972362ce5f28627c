//! Foldcourse: draw the farm once, measure anything on it, plan the daily moves of sheep and hens.
//!
//! The house has floors; a module uses floors below its own, never those above (`tests/tidy.rs` keeps this):
//!
//! | floor | module | holds |
//! | --- | --- | --- |
//! | 6 | [`app`], [`cli`] | the window; the subcommands |
//! | 5 | [`sheets`] | printed forms, as text |
//! | 4 | [`files`] | the saved layout, import, export, safe writing |
//! | 3 | [`planning`] | problem, plan, solver, rules, hen walk |
//! | 2 | [`farm`] | the document: ground, stock, sward, edits, history, findings, measures |
//! | 1 | [`geometry`] | frame, rings, measures, cutting, validity |
//! | 0 | [`quantity`] | civil days, lengths, areas; parsing and wording |

pub mod farm;
pub mod files;
pub mod geometry;
pub mod planning;
pub mod quantity;
