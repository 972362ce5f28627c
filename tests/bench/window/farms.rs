//! Generated farms of many pieces. Invented; metres.

use foldcourse::farm::{Farm, Ground, GroundId, Kind, Shape};
use foldcourse::geometry::{GroundFrame, LonLat, Outline, Point};
use foldcourse::quantity::Day;

/// A farm of pieces of every kind of area in rows, each a bent outline of eight corners about 60 m across.
pub(crate) fn generated(pieces: u32) -> Farm {
    let kinds = [
        Kind::Plot,
        Kind::Ley,
        Kind::Wood,
        Kind::Tunnel,
        Kind::Water,
        Kind::KeepOut,
    ];
    let frame = GroundFrame::new(LonLat::new(-1.0, 52.0)).unwrap();
    let mut farm = Farm::new("Generated", frame, Day::parse_iso("2027-04-01").unwrap());
    let in_a_row = f64::from(pieces).sqrt().ceil();
    for (place, kind) in (0..pieces).zip(kinds.iter().cycle()) {
        let row = (f64::from(place) / in_a_row).floor();
        let column = f64::from(place) - row * in_a_row;
        let middle = Point::new(column * 70.0, row * 70.0);
        let corner = |turn: u32| {
            let reach_m = if turn.is_multiple_of(2) { 32.0 } else { 26.0 };
            middle.towards(f64::from(turn) * 45.0, reach_m)
        };
        let outline = Outline::simple((0..8).rev().map(corner).collect());
        let ground = Ground::new(format!("Piece {place}"), *kind, Shape::Area(outline));
        farm.ground.insert(GroundId(place + 1), ground);
    }
    farm.next_id = pieces + 1;
    farm
}

/// How many pieces stand in a row of [`tiled`].
pub(crate) const IN_A_ROW: u32 = 55;

/// Where the corner between four pieces of [`tiled`] lies: a grid of 60 m, every corner shifted a little, so that no
/// side lies in line with the next.
pub(crate) fn tiled_corner(column: u32, row: u32) -> Point {
    let shift = |salt: u32| f64::from((column * 37 + row * 101 + salt) % 17) * 0.5 - 4.0;
    Point::new(
        f64::from(column) * 60.0 + shift(0),
        f64::from(row) * 60.0 + shift(7),
    )
    .on_whole_mm()
}

/// A farm of four-sided plots, leys and woods that share every side with their neighbours.
pub(crate) fn tiled(pieces: u32) -> Farm {
    let kinds = [Kind::Plot, Kind::Ley, Kind::Wood, Kind::KeepOut, Kind::Plot];
    let frame = GroundFrame::new(LonLat::new(-1.0, 52.0)).unwrap();
    let mut farm = Farm::new("Tiled", frame, Day::parse_iso("2027-04-01").unwrap());
    for (place, kind) in (0..pieces).zip(kinds.iter().cycle()) {
        let (column, row) = (place % IN_A_ROW, place / IN_A_ROW);
        let corners = [(0, 0), (1, 0), (1, 1), (0, 1)];
        let outline = corners.map(|(east, north)| tiled_corner(column + east, row + north));
        let outline = Outline::simple(outline.to_vec());
        let ground = Ground::new(format!("Piece {place}"), *kind, Shape::Area(outline));
        farm.ground.insert(GroundId(place + 1), ground);
    }
    farm.next_id = pieces + 1;
    farm
}
