//! Floor 1 against published figures, brute force and random shapes.

mod frame;
mod geodesic;
mod shapes;
