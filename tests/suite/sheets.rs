//! The map's inks as other eyes and grey paper see them.

mod colour_vision;
