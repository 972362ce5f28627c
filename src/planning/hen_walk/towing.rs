//! Towing from place to place: the way that keeps off what is in the way, and the turn at the end of a line.
//!
//! A straight way is taken where nothing lies in it. A house that is towed from one end only is turned about where the
//! way back runs against the way it came: half a circle with its own length as radius (common practice, no source).
//! Metres, bearings in degrees.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::f64::consts::PI;

use super::HenPlace;
use crate::farm::{HenHouse, TowSide};
use crate::geometry::Point;
use crate::geometry::way_round::{Station, WayFinder};

/// What a way that cannot be found costs in the choice of an order, metres: more than any farm is wide.
pub(super) const NO_WAY_M: f64 = 100_000.0;

/// Towing from one place to the next.
#[derive(Debug, Clone, PartialEq)]
pub struct HenTow {
    /// Corners of the way, from middle to middle; none where no way was found.
    pub way: Vec<Point>,
    /// Length with the turn, metres; the straight distance where no way was found.
    pub length_m: f64,
    /// Whether the house is turned about.
    pub turns: bool,
    /// Whether no way keeps off what is in the way.
    pub is_blocked: bool,
}

/// Ways between the places of a house, each found once.
pub(super) struct Towing<'a> {
    ways: WayFinder,
    places: &'a [HenPlace],
    /// Length of half a turn; 0 for a house that is towed from both ends.
    turn_m: f64,
    stations: RefCell<BTreeMap<usize, Station>>,
    found: RefCell<BTreeMap<(usize, usize), HenTow>>,
}

/// A place as it is walked: its index and the way of walking.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Step {
    pub(super) place: usize,
    pub(super) heading_deg: f64,
}

impl<'a> Towing<'a> {
    pub(super) fn new(house: &HenHouse, places: &'a [HenPlace], ways: WayFinder) -> Self {
        let turn_m = match house.handling.tow_side {
            TowSide::BothEnds => 0.0,
            TowSide::OneEnd => PI * house.towed_length_m(),
        };
        Self {
            ways,
            places,
            turn_m,
            stations: RefCell::default(),
            found: RefCell::default(),
        }
    }

    /// Towing between two steps of a round.
    pub(super) fn tow(&self, from: Step, to: Step) -> HenTow {
        let mut tow = self.way(from.place, to.place);
        let apart_deg = (from.heading_deg - to.heading_deg + 180.0).rem_euclid(360.0) - 180.0;
        if self.turn_m > 0.0 && apart_deg.abs() > 90.0 {
            tow.turns = true;
            tow.length_m += self.turn_m;
        }
        tow
    }

    /// The same for choosing an order, whole millimetres.
    pub(super) fn cost_mm(&self, from: Step, to: Step) -> u64 {
        let tow = self.tow(from, to);
        let extra_m = if tow.is_blocked { NO_WAY_M } else { 0.0 };
        millimetres(tow.length_m + extra_m)
    }

    fn way(&self, from: usize, to: usize) -> HenTow {
        let key = (from.min(to), from.max(to));
        let known = self.found.borrow().get(&key).cloned();
        let mut tow = known.unwrap_or_else(|| {
            let tow = self.look(key.0, key.1);
            self.found.borrow_mut().insert(key, tow.clone());
            tow
        });
        if from > to {
            tow.way.reverse();
        }
        tow
    }

    fn look(&self, from: usize, to: usize) -> HenTow {
        let middle = |place: usize| {
            self.places
                .get(place)
                .map_or(Point::default(), |p| p.middle)
        };
        let (start, end) = (middle(from), middle(to));
        let way = self.ways.straight(start, end).or_else(|| {
            self.ways
                .way(&self.station(from, start), &self.station(to, end))
        });
        match way {
            Some(way) => HenTow {
                way: way.corners,
                length_m: way.length_m,
                turns: false,
                is_blocked: false,
            },
            None => HenTow {
                way: Vec::new(),
                length_m: start.distance_m(end),
                turns: false,
                is_blocked: true,
            },
        }
    }

    fn station(&self, place: usize, at: Point) -> Station {
        let known = self.stations.borrow().get(&place).cloned();
        known.unwrap_or_else(|| {
            let station = self.ways.station(at);
            self.stations.borrow_mut().insert(place, station.clone());
            station
        })
    }
}

fn millimetres(length_m: f64) -> u64 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "not negative; a float beyond the range is held at it"
    )]
    let whole = (length_m * 1000.0).round().max(0.0) as u64;
    whole
}
