//! The season's printed form: for each day what a grazier looks for first, as plain rows and as text.
//!
//! Rows are made once and worded twice: as text for paper and screen, and by the command line as fields. Metres,
//! hectares, kg DM.

mod day_rows;
mod sums;
mod text;

pub use day_rows::{HenRow, MobRow, SheetDay, sheet_days};
pub use text::{half_growth_text, sheet_text, sheet_text_short};
