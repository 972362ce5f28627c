//! Floor 0: what a figure is. Civil days, lengths, areas, masses, and how they are worded and read.
//!
//! Knows nothing of ground, stock or files. Lengths are metres, areas square metres, masses kilograms, in `f64`.

mod day;
mod decay;
mod parsing;
mod tape_figures;
mod units;
mod volumes;
mod wording;
mod year_day;

pub use day::{Day, DayError, MONTH_NAMES};
pub use decay::decay;
pub use parsing::{FigureError, parse_area_m2, parse_bearing_deg, parse_length_m};
pub use tape_figures::{
    TypedPlace, parse_along_m, parse_aside_m, parse_compass_deg, parse_place, parse_tape_m,
};
pub use units::{
    M_PER_FOOT, M_PER_YARD, M2_PER_ACRE, M2_PER_HECTARE, UnitSystem, acres_from_m2,
    hectares_from_m2,
};
pub use volumes::{LITRES_PER_GALLON, made_length_text, volume_text, water_text};
pub use wording::{
    area_both_text, area_text, count_text, decimal_text, length_text, length_text_precise,
    mass_text, plural_text,
};
pub use year_day::YearDay;
