//! What the grower types about animals, grass, season and ground: one field, one step of the history.
//!
//! Rows are plain data, changes are plain functions of the farm; only `field` and the pages paint. A page takes the
//! place of the facts column, so that map and ribbon stay in view while figures change.

mod built_change;
mod built_facts;
mod built_fields;
mod built_here;
mod buttons;
mod change;
mod chart;
mod course;
mod course_change;
mod field;
mod figures;
mod flocks;
mod grass_change;
mod grass_here;
mod ground_change;
mod ground_here;
mod hens;
mod hens_day;
mod hens_stops;
mod hens_stretches;
mod hens_walk;
mod house_change;
mod house_handling;
mod house_press;
mod mob_behind;
mod mob_change;
mod mob_choice;
mod mob_later;
mod mob_press;
mod month_curve;
mod page;
mod pictures;
mod questions;
mod season;
mod season_change;
mod settle;
mod varieties;

pub use built_here::{built_here_ui, plain_facts};
pub use change::{
    BuiltField, CourseField, CropField, Given, GrassField, GroundField, HouseField, MobField,
    SeasonField, Target, change,
};
pub use course::{CourseTab, CourseView, close_course, course_page_ui, open_course};
pub use field::{FieldRow, Span, fact_ui};
pub use grass_here::grass_here_ui;
pub use ground_here::ground_here_ui;
pub use mob_change::put_yard;
pub use page::{no_flock_ui, open_page, page_ui, pages_ui};
pub use questions::{ask_what_helps, is_short_ahead};
pub use settle::{FormState, Page, settle, settle_now};
