//! Floor 1: shapes on the ground. Points, rings, polygons, the farm frame, measures, validity, cutting.
//!
//! Knows nothing of plots, stock or dates. Lengths are metres in `f64`; the plane has east to the right and north
//! up; bearings are degrees clockwise from north; areas are square metres.

mod bounds;
pub mod buffer;
pub mod construct;
pub mod cut;
mod frame;
mod geo_shapes;
pub mod geodesic;
mod inside;
pub mod label_place;
pub mod line;
pub mod nearest;
pub mod neighbours;
pub mod overlay;
mod place_key;
mod point;
mod polygon;
pub mod sides;
pub mod snap;
pub mod tape;
pub mod triangulate;
pub mod validity;
pub mod walked;

pub use bounds::Bounds;
pub use frame::{GroundFrame, LonLat, PlaceError};
pub use inside::Whereabouts;
pub use point::Point;
pub use polygon::{Outline, Polygon, Ring};
