//! Floor 1: shapes on the ground. Points, rings, polygons, the farm frame, measures, validity, cutting.
//!
//! [`GroundFrame`] is the plane all shapes lie on; [`geodesic`] gives the measures that are told to people;
//! [`validity`] names faults, and most of the rest takes outlines that have none; [`cut`], [`overlay`], [`buffer`] and
//! [`construct`] make new shapes; [`snap`], [`nearest`], [`label_place`] and [`triangulate`] serve drawing; [`tape`]
//! and [`walked`] turn field notes into places; [`neighbours`] and [`midway`] keep shared boundaries one; [`set_back`] is the
//! ground along chosen sides; [`oblong`] holds oblong places against the ground, [`way_round`] finds ways past it and
//! [`bent_way`] ways that bend no more than a circle.
//!
//! Knows nothing of plots, stock or dates. Lengths are metres in `f64`; the plane has east to the right and north
//! up; bearings are degrees clockwise from north; areas are square metres.

pub mod bent_way;
mod bounds;
mod bow;
pub mod buffer;
pub mod chord;
pub mod construct;
pub mod cut;
mod four_sided;
mod frame;
mod geo_shapes;
pub mod geodesic;
mod inside;
pub mod label_place;
pub mod line;
pub mod midway;
pub mod nearest;
pub mod neighbours;
pub mod oblong;
pub mod overlay;
mod place_key;
mod point;
mod polygon;
pub mod prismoid;
pub mod set_back;
pub mod sides;
pub mod snap;
pub mod tape;
pub mod triangulate;
pub mod validity;
pub mod walked;
pub mod way_round;

pub use bounds::Bounds;
pub use bow::Bow;
pub use four_sided::FourSided;
pub use frame::{GroundFrame, LonLat, PlaceError};
pub use inside::Whereabouts;
pub use point::Point;
pub use polygon::{Outline, Polygon, Ring};
