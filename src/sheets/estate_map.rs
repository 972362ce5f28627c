//! The estate map: every piece of ground as marks in our own hand, tint and pattern together.
//!
//! Knows no window and no paper: marks lie in metres on the farm's plane, strokes are in points. How fine a pattern
//! is drawn follows from the scale it is seen at, so it reads at every zoom.

mod built_marks;
mod ground_marks;
mod hatch;
mod line_marks;
mod mark;
mod patterns;

pub use ground_marks::{GroundLook, YearLook, ground_marks};
pub use mark::{MapScale, Mark};
