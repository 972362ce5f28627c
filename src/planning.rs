//! Floor 3: problem, plan, solver, rules, reasons; the hen walk; the season that a farm lives.
//!
//! Knows no clock, disk or window: today and seeds are parameters; the same input gives the same plan.

mod season;

pub use season::{HenPlace, SeasonPlan, Spell, Stand};
