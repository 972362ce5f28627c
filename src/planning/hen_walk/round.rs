//! A round: the lines in the order chosen, each walked in one of its ways, and why that order.
//!
//! Joins the places, their closed days and the towing to the search of an order. Metres, days.

use std::cell::RefCell;
use std::collections::BTreeMap;

use super::HenPlace;
use super::beside::{Visit, beside_others};
use super::closed::{ClosedSpan, why_closed};
use super::order::{OrderCost, OrderFound, OrderLine, OrderSearch, Run, find_order};
use super::places::LaidLine;
use super::stays::{Stay, stops};
use super::towing::{Step, Towing};
use crate::farm::{GroundId, HenHouse, HenMark, HenSpot, LineOrder, StopKind};

/// How the order of a round came about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HenOrder {
    /// Whether the program chose it; otherwise the grower listed it.
    pub is_chosen: bool,
    /// Whether no order of these lines costs less.
    pub is_proven: bool,
    /// What it costs: towing for a round, the rest over all planned days.
    pub cost: OrderCost,
    /// What no order can be below, figure by figure.
    pub bound: OrderCost,
    /// Lines of the round that lived days have begun: they stay first.
    pub begun_lines: usize,
    /// The best order found, where the grower's own is walked.
    pub best: Option<OrderCost>,
    /// Names of the houses listed before whose hens come onto its places too.
    pub heeded: Vec<String>,
}

/// A line of a round, walked from its first to its last place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HenLeg {
    /// The line.
    pub line: GroundId,
    /// The number of its first place in the round, from 1.
    pub first: usize,
    /// The number of its last place.
    pub last: usize,
    /// Whether it is begun from the line's end.
    pub is_backwards: bool,
}

/// The places of a round in the order of walking.
pub(super) struct Round {
    pub(super) steps: Vec<Step>,
    pub(super) legs: Vec<HenLeg>,
    pub(super) order: HenOrder,
}

/// All that a round is made of.
pub(super) struct RoundParts<'a> {
    pub(super) house: &'a HenHouse,
    pub(super) lines: &'a [LaidLine],
    pub(super) places: &'a [HenPlace],
    pub(super) closed: &'a [Vec<ClosedSpan>],
    pub(super) towing: &'a Towing<'a>,
    pub(super) stays: &'a [Option<Stay>],
    /// When the hens of houses listed before are on each place.
    pub(super) others: &'a [Vec<Visit>],
}

impl RoundParts<'_> {
    /// Chooses the order, or takes the grower's own.
    pub(super) fn round(&self) -> Round {
        let ways: Vec<Vec<Vec<Step>>> = self.ways();
        let steps_of = |run: Run| -> &[Step] {
            ways.get(run.line)
                .and_then(|ways| ways.get(run.way))
                .map_or(&[], Vec::as_slice)
        };
        let inner: RefCell<BTreeMap<Run, OrderCost>> = RefCell::default();
        let between: RefCell<BTreeMap<(Run, Run), OrderCost>> = RefCell::default();
        let run_cost = |run: Run, walked: usize| {
            let known = inner.borrow().get(&run).copied();
            let towing = known.unwrap_or_else(|| {
                let pairs = steps_of(run).iter().zip(steps_of(run).iter().skip(1));
                let sum = pairs
                    .map(|(a, b)| self.towing.cost(*a, *b))
                    .fold(OrderCost::default(), |sum, tow| sum + tow);
                inner.borrow_mut().insert(run, sum);
                sum
            });
            towing + self.days_cost(steps_of(run), walked)
        };
        let tow = |from: Run, to: Run| {
            let known = between.borrow().get(&(from, to)).copied();
            known.unwrap_or_else(|| {
                let ends = (steps_of(from).last(), steps_of(to).first());
                let tow = match ends {
                    (Some(end), Some(start)) => self.towing.cost(*end, *start),
                    _ => OrderCost::default(),
                };
                between.borrow_mut().insert((from, to), tow);
                tow
            })
        };
        let run_cost = cached(&run_cost);
        let search = OrderSearch {
            lines: ways
                .iter()
                .map(|ways| OrderLine {
                    places: ways.first().map_or(0, Vec::len),
                    runs: ways.len(),
                })
                .collect(),
            run_cost: &run_cost,
            tow: &tow,
            closes_round: self.stays.len() > self.places.len(),
            begun: self.begun(&ways),
        };
        let (runs, order) = self.ordered(&search);
        let mut round = Round {
            steps: Vec::new(),
            legs: Vec::new(),
            order,
        };
        for run in runs {
            let steps = steps_of(run);
            let first = round.steps.len() + 1;
            let is_backwards = run.way % 2 == 1;
            round.steps.extend_from_slice(steps);
            if let Some(line) = self.lines.get(run.line) {
                round.legs.push(HenLeg {
                    line: line.line,
                    first,
                    last: round.steps.len(),
                    is_backwards,
                });
            }
        }
        round
    }

    fn ordered(&self, search: &OrderSearch<'_>) -> (Vec<Run>, HenOrder) {
        let OrderFound {
            runs,
            cost,
            bound,
            is_proven,
        } = find_order(search);
        if self.house.handling.line_order == LineOrder::Chosen {
            let order = HenOrder {
                is_chosen: true,
                is_proven,
                cost,
                bound,
                begun_lines: search.begun.len(),
                best: None,
                heeded: Vec::new(),
            };
            return (runs, order);
        }
        let listed: Vec<Run> = (0..search.lines.len())
            .map(|line| Run { line, way: 0 })
            .collect();
        let listed_cost = search.cost_of(&listed);
        let order = HenOrder {
            is_chosen: false,
            is_proven: is_proven && listed_cost == cost,
            cost: listed_cost,
            bound,
            begun_lines: 0,
            best: Some(cost),
            heeded: Vec::new(),
        };
        (listed, order)
    }

    /// For each line the ways it can be walked: from its beginning or its end, and with more lanes than one from either
    /// of the outer ones; every other lane runs back.
    fn ways(&self) -> Vec<Vec<Vec<Step>>> {
        let mut first = 0;
        let mut all = Vec::new();
        for line in self.lines {
            let lanes: Vec<Vec<usize>> = line
                .lanes
                .iter()
                .map(|lane| {
                    let numbers = (first..first + lane.len()).collect();
                    first += lane.len();
                    numbers
                })
                .collect();
            let mut ways = vec![
                self.walked(&lanes, false, false),
                self.walked(&lanes, false, true),
            ];
            if lanes.len() > 1 {
                ways.push(self.walked(&lanes, true, false));
                ways.push(self.walked(&lanes, true, true));
            }
            all.push(ways);
        }
        all
    }

    fn walked(&self, lanes: &[Vec<usize>], from_last: bool, mut is_back: bool) -> Vec<Step> {
        let mut order: Vec<&Vec<usize>> = lanes.iter().collect();
        if from_last {
            order.reverse();
        }
        let mut steps = Vec::new();
        for lane in order {
            let mut numbers = lane.clone();
            if is_back {
                numbers.reverse();
            }
            steps.extend(numbers.into_iter().map(|place| {
                let bearing_deg = self.places.get(place).map_or(0.0, |p| p.bearing_deg);
                let turned_deg = if is_back { 180.0 } else { 0.0 };
                Step {
                    place,
                    heading_deg: (bearing_deg + turned_deg).rem_euclid(360.0),
                }
            }));
            is_back = !is_back;
        }
        steps
    }

    /// Days on closed ground over every round, rest missing on the first one, and rest missing to or from the hens of
    /// houses listed before.
    fn days_cost(&self, steps: &[Step], walked: usize) -> OrderCost {
        let mut cost = OrderCost::default();
        let count = self.places.len().max(1);
        for (number, step) in steps.iter().enumerate() {
            let (Some(place), Some(closed)) =
                (self.places.get(step.place), self.closed.get(step.place))
            else {
                continue;
            };
            let first = walked + number;
            if let Some(left) = self.house.handling.left_on.get(&place.line)
                && let Some(Some(stay)) = self.stays.get(first)
            {
                let rested = stay.first.days_since(*left) - 1;
                let missing = i64::from(self.house.rest_days_wanted) - rested;
                cost.unrested_days += u64::try_from(missing).unwrap_or(0);
            }
            let others = self.others.get(step.place).map_or(&[][..], Vec::as_slice);
            if closed.is_empty() && others.is_empty() {
                continue;
            }
            let stays = self.stays.iter().skip(first).step_by(count).flatten();
            for stay in stays {
                cost = cost + beside_others(*stay, others, self.house.rest_days_wanted);
                let mut day = stay.first;
                while day <= stay.last {
                    let is_in = !stops(self.house, day, StopKind::Housed);
                    if is_in && why_closed(closed, day).is_some() {
                        cost.closed_days += 1;
                    }
                    day = day.plus_days(1);
                }
            }
        }
        cost
    }

    /// The lines that lived days of the round in hand have begun, in order, each in the way it was walked.
    fn begun(&self, ways: &[Vec<Vec<Step>>]) -> Vec<Run> {
        let mut begun: Vec<(usize, Vec<HenSpot>)> = Vec::new();
        for mark in self.house.handling.marks.values() {
            let HenMark::At { spot, lived: true } = mark else {
                continue;
            };
            let line = self.lines.iter().position(|line| line.line == spot.line);
            let Some(line) = line else { continue };
            match begun.iter().position(|(known, _)| *known == line) {
                Some(place) if place + 1 == begun.len() => {
                    if let Some((_, spots)) = begun.last_mut() {
                        spots.push(*spot);
                    }
                }
                Some(_) => begun = vec![(line, vec![*spot])],
                None => begun.push((line, vec![*spot])),
            }
        }
        begun
            .into_iter()
            .map(|(line, spots)| Run {
                line,
                way: ways.get(line).map_or(0, |ways| self.way_of(ways, &spots)),
            })
            .collect()
    }

    /// The way in which these spots come in this order, the first of them earliest.
    fn way_of(&self, ways: &[Vec<Step>], spots: &[HenSpot]) -> usize {
        let fit = |steps: &Vec<Step>| {
            let at: Vec<usize> = spots
                .iter()
                .filter_map(|spot| {
                    steps.iter().position(|step| {
                        self.places
                            .get(step.place)
                            .is_some_and(|p| p.spot() == *spot)
                    })
                })
                .collect();
            let backwards = at.iter().zip(at.iter().skip(1)).filter(|(a, b)| a > b);
            (backwards.count(), at.first().copied())
        };
        (0..ways.len())
            .min_by_key(|way| ways.get(*way).map(fit))
            .unwrap_or(0)
    }
}

/// Keeps what a run costs at a place of the round, since it is asked for again and again.
fn cached(cost: &dyn Fn(Run, usize) -> OrderCost) -> impl Fn(Run, usize) -> OrderCost + '_ {
    let known: RefCell<BTreeMap<(Run, usize), OrderCost>> = RefCell::default();
    move |run, walked| {
        let found = known.borrow().get(&(run, walked)).copied();
        found.unwrap_or_else(|| {
            let found = cost(run, walked);
            known.borrow_mut().insert((run, walked), found);
            found
        })
    }
}
