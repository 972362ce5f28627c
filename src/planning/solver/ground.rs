//! Everything about a season that the search looks up and never changes, laid out for speed.
//!
//! Places are numbers: a strip's index, then [`Ground::yard`], then [`AWAY`]. Units as in [`super::super::season`].

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]

use std::collections::BTreeMap;

use super::super::contradictions::free_days;
use super::super::replay::replay;
use super::super::rules::{BreachCause, ENTRY_TOLERANCE, breaches, lived_days};
use crate::farm::GrowthShape;

use super::super::season::{Place, Season, distance_m};

/// The place number of a mob that is not on the farm.
pub(super) const AWAY: u16 = u16::MAX;
/// No mob in a strip's list of days.
pub(super) const NOBODY: u8 = u8::MAX;
/// Several mobs in a strip's list of days, as lived days may have it.
pub(super) const COMPANY: u8 = u8::MAX - 1;
/// A lived day's long stay is forgiven.
pub(super) const FORGIVE_STAY: u8 = 1;
/// A lived day's missing rest is forgiven.
pub(super) const FORGIVE_REST: u8 = 2;
/// A lived day's low cover is forgiven.
pub(super) const FORGIVE_COVER: u8 = 4;
/// Distances are tabled up to this many strips, and reckoned each time beyond.
const MOST_TABLED: usize = 512;

/// The season as the search reads it.
#[derive(Debug, Clone)]
pub(super) struct Ground {
    pub(super) n_days: usize,
    pub(super) n_words: usize,
    pub(super) n_strips: usize,
    pub(super) n_mobs: usize,
    /// The place number of the yard.
    pub(super) yard: u16,
    pub(super) growth: Vec<f64>,
    pub(super) growth_shape: GrowthShape,
    /// Growth summed before each day, kg DM/ha at factor 1.
    pub(super) grown: Vec<f64>,
    pub(super) rest: Vec<f64>,
    pub(super) longest: usize,
    pub(super) strips: Vec<GroundStrip>,
    /// Days on which each strip is closed, as bits, `n_words` to a strip.
    pub(super) closed: Vec<u64>,
    /// Demand by mob and day.
    pub(super) demand: Vec<f64>,
    /// Demand summed before each day, by mob, with one more day than the season has.
    pub(super) demanded: Vec<f64>,
    /// Demand of the mobs together, by strip and day, where lived days have several on one strip.
    shared_demand: BTreeMap<(usize, usize), f64>,
    /// Days of each mob that are its own to plan.
    pub(super) free: Vec<bool>,
    /// Days on which each mob starts a visit.
    pub(super) starts: Vec<bool>,
    /// Days of each mob that may belong to the same stay as the day before: both free, and in one visit.
    pub(super) goes_on: Vec<bool>,
    /// Where each mob starts the visit that holds day 0.
    pub(super) stood: Vec<u16>,
    /// All free days, as mob and day.
    pub(super) free_list: Vec<(u8, u16)>,
    /// What lived days are forgiven, by strip and day; empty where nothing is.
    pub(super) forgiven: Vec<u8>,
    /// Strips by distance from each strip, nearest first, `n_near` of them.
    pub(super) near: Vec<u16>,
    pub(super) n_near: usize,
    pub(super) short_weight: f64,
    pub(super) walk_weight: f64,
    pub(super) move_weight: f64,
    yards: Vec<[f64; 2]>,
    distance: Vec<f64>,
    yard_distance: Vec<f64>,
}

/// One strip as the search reads it.
#[derive(Debug, Clone)]
pub(super) struct GroundStrip {
    pub(super) area: f64,
    pub(super) one_over_area: f64,
    pub(super) cover: f64,
    pub(super) leave: f64,
    /// Least cover to begin a spell, a hair below the rule so that sums of other order still keep it.
    pub(super) enter: f64,
    pub(super) ceiling: f64,
    pub(super) factor: f64,
    /// Score of each kg/ha lost.
    pub(super) lost_weight: f64,
    /// Score of each kg/ha missing at the end.
    pub(super) bare_weight: f64,
    pub(super) end_cover: f64,
    /// Last day of the former spell, and the rest it owes; far back where none is remembered.
    pub(super) former_last: i64,
    pub(super) former_owed: f64,
    pub(super) stood: usize,
    /// Growth on open days summed before each day; empty where the strip is never closed.
    pub(super) grown_open: Vec<f64>,
    at: [f64; 2],
}

impl Ground {
    /// Lays out a season whose plainest legal stands are given.
    pub(super) fn new(season: &Season, plainest: &[Vec<Place>]) -> Self {
        let (n_days, n_strips, n_mobs) = (season.n_days, season.strips.len(), season.mobs.len());
        let n_words = n_days.div_ceil(64);
        let n_near = n_strips.min(12);
        let mut ground = Self {
            n_days,
            n_words,
            n_strips,
            n_mobs,
            yard: place_number(n_strips),
            growth: season.growth.clone(),
            growth_shape: season.growth_shape,
            grown: running_sum(season.growth.iter().copied()),
            rest: season.rest.clone(),
            longest: season.longest_stay,
            strips: (0..n_strips)
                .map(|index| ground_strip(season, index))
                .collect(),
            closed: closed_bits(season, n_words),
            demand: season
                .mobs
                .iter()
                .flat_map(|mob| mob.demand.clone())
                .collect(),
            demanded: season
                .mobs
                .iter()
                .flat_map(|mob| running_sum(mob.demand.iter().copied()))
                .collect(),
            shared_demand: shared_demand(season, plainest),
            free: free_days(season).into_iter().flatten().collect(),
            starts: season
                .mobs
                .iter()
                .flat_map(|mob| mob.starts.clone())
                .collect(),
            goes_on: Vec::new(),
            stood: Vec::new(),
            free_list: Vec::new(),
            forgiven: Vec::new(),
            near: Vec::new(),
            n_near,
            short_weight: season.weights.short,
            walk_weight: season.weights.walk_per_m,
            move_weight: season.weights.move_each,
            yards: season.mobs.iter().map(|mob| mob.yard).collect(),
            distance: Vec::new(),
            yard_distance: Vec::new(),
        };
        ground.stood = season
            .mobs
            .iter()
            .map(|mob| ground.number_of(mob.stood))
            .collect();
        ground.list_free_days();
        ground.forgive_lived(season, plainest);
        ground.table_distances();
        ground
    }

    /// The number of a place.
    pub(super) fn number_of(&self, place: Place) -> u16 {
        match place {
            Place::Away => AWAY,
            Place::Yard => self.yard,
            Place::Strip(index) => place_number(index),
        }
    }

    /// The place with this number.
    pub(super) fn place_of(&self, number: u16) -> Place {
        if number == AWAY {
            Place::Away
        } else if number == self.yard {
            Place::Yard
        } else {
            Place::Strip(usize::from(number))
        }
    }

    /// What is asked of a strip on a day by whoever is there.
    pub(super) fn demand_on(&self, strip: usize, day: usize, who: u8) -> f64 {
        if who == COMPANY {
            return self
                .shared_demand
                .get(&(strip, day))
                .copied()
                .unwrap_or(0.0);
        }
        self.demand[usize::from(who) * self.n_days + day]
    }

    /// The score of walking from one place to another, neither of them away.
    pub(super) fn walk_score(&self, mob: usize, from: u16, to: u16) -> f64 {
        if from == to {
            return 0.0;
        }
        self.walk_weight * self.distance_m(mob, from, to) + self.move_weight
    }

    fn distance_m(&self, mob: usize, from: u16, to: u16) -> f64 {
        let (from, to) = (usize::from(from), usize::from(to));
        if from >= self.n_strips {
            return self.yard_distance[mob * self.n_strips + to];
        }
        if to >= self.n_strips {
            return self.yard_distance[mob * self.n_strips + from];
        }
        match self.distance.get(from * self.n_strips + to) {
            Some(distance) => *distance,
            None => distance_m(self.strips[from].at, self.strips[to].at),
        }
    }

    fn list_free_days(&mut self) {
        self.goes_on = vec![false; self.free.len()];
        for mob in 0..self.n_mobs {
            for day in 0..self.n_days {
                let cell = mob * self.n_days + day;
                if self.free[cell] {
                    self.goes_on[cell] = day > 0 && self.free[cell - 1] && !self.starts[cell];
                    let mob = u8::try_from(mob).unwrap_or(u8::MAX);
                    let day = u16::try_from(day).unwrap_or(u16::MAX);
                    self.free_list.push((mob, day));
                }
            }
        }
    }

    /// Notes which lived days break a rule even in the plainest plan: facts that cost the search nothing.
    fn forgive_lived(&mut self, season: &Season, plainest: &[Vec<Place>]) {
        let lived = lived_days(season);
        if !lived.iter().flatten().any(|&lived| lived) {
            return;
        }
        self.forgiven = vec![0; self.n_strips * self.n_days];
        let cover = replay(season, plainest).cover;
        for breach in breaches(season, plainest, &cover) {
            let (true, Place::Strip(strip), Ok(day)) =
                (breach.lived, breach.place, usize::try_from(breach.day))
            else {
                continue;
            };
            self.forgiven[strip * self.n_days + day] |= match breach.cause {
                BreachCause::TooLong { .. } => FORGIVE_STAY,
                BreachCause::NotRested { .. } => FORGIVE_REST,
                BreachCause::TooLow { .. } => FORGIVE_COVER,
                _ => 0,
            };
        }
    }

    fn table_distances(&mut self) {
        let n = self.n_strips;
        for yard in &self.yards {
            let distances = self.strips.iter().map(|strip| distance_m(*yard, strip.at));
            self.yard_distance.extend(distances);
        }
        for from in 0..n {
            let distances: Vec<f64> = self
                .strips
                .iter()
                .map(|to| distance_m(self.strips[from].at, to.at))
                .collect();
            let mut order: Vec<usize> = (0..n).filter(|&to| to != from).collect();
            order.sort_by(|&a, &b| distances[a].total_cmp(&distances[b]).then(a.cmp(&b)));
            // A strip's own number fills the list where there are too few others.
            order.resize(self.n_near.max(order.len()), from);
            let nearest = order.into_iter().take(self.n_near).map(place_number);
            self.near.extend(nearest);
            if n <= MOST_TABLED {
                self.distance.extend(distances);
            }
        }
    }
}

/// The number of a strip's index; problems are held to far fewer strips.
pub(super) fn place_number(index: usize) -> u16 {
    u16::try_from(index).unwrap_or(AWAY - 1)
}

fn ground_strip(season: &Season, index: usize) -> GroundStrip {
    let strip = &season.strips[index];
    let is_closed_ever = strip.closed.iter().any(|&closed| closed);
    let open_growth = strip.closed.iter().zip(&season.growth);
    let open_growth = open_growth.map(|(&closed, &growth)| if closed { 0.0 } else { growth });
    let far_back = i64::MIN / 4;
    let rested = strip.former.map(|former| former.rested);
    GroundStrip {
        area: strip.area,
        one_over_area: 1.0 / strip.area,
        cover: strip.cover,
        leave: strip.leave,
        enter: strip.enter - 0.1 * ENTRY_TOLERANCE * strip.enter,
        ceiling: strip.ceiling,
        factor: strip.growth_factor,
        lost_weight: season.weights.lost * strip.area,
        bare_weight: season.weights.bare * strip.area,
        end_cover: strip.end_cover.unwrap_or(f64::NEG_INFINITY),
        former_last: rested.map_or(far_back, |days| {
            -1 - i64::try_from(days).unwrap_or(i64::MAX / 4)
        }),
        former_owed: strip.former.map_or(0.0, |former| former.owed),
        stood: strip.stood_days,
        grown_open: if is_closed_ever {
            running_sum(open_growth)
        } else {
            Vec::new()
        },
        at: strip.at,
    }
}

fn shared_demand(season: &Season, plainest: &[Vec<Place>]) -> BTreeMap<(usize, usize), f64> {
    let mut demand: BTreeMap<(usize, usize), (usize, f64)> = BTreeMap::new();
    for (mob, places) in season.mobs.iter().zip(plainest) {
        for (day, place) in places.iter().enumerate() {
            if let Place::Strip(strip) = *place {
                let entry = demand.entry((strip, day)).or_default();
                entry.0 += 1;
                entry.1 += mob.demand[day];
            }
        }
    }
    demand.retain(|_, (mobs, _)| *mobs > 1);
    demand
        .into_iter()
        .map(|(cell, (_, sum))| (cell, sum))
        .collect()
}

fn running_sum(values: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut sums = vec![0.0];
    let mut sum = 0.0;
    sums.extend(values.map(|value| {
        sum += value;
        sum
    }));
    sums
}

fn closed_bits(season: &Season, n_words: usize) -> Vec<u64> {
    let mut bits = vec![0; season.strips.len() * n_words];
    for (index, strip) in season.strips.iter().enumerate() {
        for (day, _) in strip
            .closed
            .iter()
            .enumerate()
            .filter(|(_, closed)| **closed)
        {
            bits[index * n_words + day / 64] |= 1 << (day % 64);
        }
    }
    bits
}
