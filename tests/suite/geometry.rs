//! Floor 1 against published figures, brute force and random shapes.

#![expect(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::float_cmp,
    clippy::panic,
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "a test stops at the first thing that is not as it says"
)]

mod bent_way;
mod buffer;
mod construct;
mod cut;
mod fan;
mod frame;
mod geodesic;
mod label_place;
mod line;
mod nearest;
mod neighbours;
mod overlay;
mod shapes;
mod snap;
mod split_by_line;
mod square_to_line;
mod tape;
mod triangulate;
mod validity;
mod walked;
mod way_round;
mod well_known_text;
