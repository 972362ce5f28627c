//! Towing from place to place: the way that keeps off what is in the way, and the turn at the end of a line.
//!
//! A straight way is taken where nothing lies in it. A house that is towed from one end only is turned about where the
//! way back runs against the way it came, on a circle with the radius that the grower gives, or its own length (common
//! practice, no source), where there is room for it. Metres, bearings in degrees.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::f64::consts::PI;

use super::HenPlace;
use super::order::OrderCost;
use super::turning::{turned_into, turned_way};
use crate::farm::{HenHouse, TowSide};
use crate::geometry::Point;
use crate::geometry::bent_way::Headed;
use crate::geometry::way_round::{Station, Way, WayFinder};

/// A house with a smaller circle is turned on the spot.
const LEAST_RADIUS_M: f64 = 0.05;

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
    /// Whether it must be turned about and there is no room for that; the way is told as if there were.
    pub lacks_room_to_turn: bool,
}

/// Ways between the places of a house, each found once.
pub(super) struct Towing<'a> {
    ways: WayFinder,
    places: &'a [HenPlace],
    /// Radius of a turn; none for a house that is towed from both ends.
    turn_radius_m: Option<f64>,
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
        let turn_radius_m = match house.handling.tow_side {
            TowSide::BothEnds => None,
            TowSide::OneEnd => Some(house.turn_radius_m()),
        };
        Self {
            ways,
            places,
            turn_radius_m,
            stations: RefCell::default(),
            found: RefCell::default(),
        }
    }

    /// Towing between two steps of a round.
    pub(super) fn tow(&self, from: Step, to: Step) -> HenTow {
        let apart_deg = (from.heading_deg - to.heading_deg + 180.0).rem_euclid(360.0) - 180.0;
        match self.turn_radius_m {
            Some(radius_m) if apart_deg.abs() > 90.0 => self.turned(from, to, radius_m),
            _ => self.way(from.place, to.place),
        }
    }

    /// The same for choosing an order.
    pub(super) fn cost(&self, from: Step, to: Step) -> OrderCost {
        let tow = self.tow(from, to);
        OrderCost {
            barred_moves: u64::from(tow.is_blocked || tow.lacks_room_to_turn),
            tow_mm: millimetres(tow.length_m),
            ..OrderCost::default()
        }
    }

    /// The shortest way with a turn for which there is room.
    fn turned(&self, from: Step, to: Step, radius_m: f64) -> HenTow {
        let headed = |step: Step| Headed {
            at: self.middle(step.place),
            bearing_deg: step.heading_deg,
        };
        let (leaves, comes) = (headed(from), headed(to));
        let plain = || HenTow {
            turns: true,
            ..self.way(from.place, to.place)
        };
        if radius_m < LEAST_RADIUS_M {
            return plain();
        }
        let straight_on = turned_way(&self.ways, leaves, comes, radius_m);
        let found = straight_on.ok_or_else(plain).or_else(|tow| {
            let round = Way {
                corners: tow.way.clone(),
                length_m: tow.length_m,
            };
            let ends = (leaves, comes);
            let joined = turned_into(&self.ways, &round, ends, radius_m);
            joined.filter(|_| !tow.is_blocked).ok_or(tow)
        });
        match found {
            Ok(way) => HenTow {
                way: way.corners,
                length_m: way.length_m,
                turns: true,
                is_blocked: false,
                lacks_room_to_turn: false,
            },
            Err(tow) => HenTow {
                length_m: tow.length_m + PI * radius_m,
                lacks_room_to_turn: true,
                ..tow
            },
        }
    }

    fn middle(&self, place: usize) -> Point {
        self.places
            .get(place)
            .map_or(Point::default(), |place| place.middle)
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
        let (start, end) = (self.middle(from), self.middle(to));
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
                lacks_room_to_turn: false,
            },
            None => HenTow {
                way: Vec::new(),
                length_m: start.distance_m(end),
                turns: false,
                is_blocked: true,
                lacks_room_to_turn: false,
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
