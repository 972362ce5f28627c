//! The order of the lines of a round: which line first, from which end, on which side.
//!
//! A line can be walked in some ways (its *runs*); each takes the same number of places. What a run costs depends on
//! the run and on how many places were walked before it, and on nothing else: every line takes a fixed number of
//! places, so the place in the round at which a line begins follows from *which* lines were walked, not from their
//! order. Places that cannot be used are left out before the search, the same for every order, so they do not disturb
//! this. The least cost over subsets of lines and last runs is therefore exact (dynamic programming over subsets:
//! M. Held, R. M. Karp, *A dynamic programming approach to sequencing problems*, Journal of SIAM 10, 1962).
//!
//! Costs are compared one after the other: days on closed ground, days of rest that are missing, moves that cannot be
//! made, millimetres of towing.
//! Whole numbers, so that sums do not depend on their order.

use std::ops::Add;

/// With more lines than this the order is improved step by step and told with a gap.
pub const MOST_LINES_EXACT: usize = 8;
/// Changes that are tried on an order of many lines.
const MOST_TRIES: usize = 60_000;

/// What an order costs; the earlier field outweighs the later.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct OrderCost {
    /// Days on closed ground.
    pub closed_days: u64,
    /// Days of rest missing before hens return.
    pub unrested_days: u64,
    /// Moves for which there is no way, or no room to turn about.
    pub barred_moves: u64,
    /// Towing, millimetres.
    pub tow_mm: u64,
}

/// A search for an order.
pub struct OrderSearch<'a> {
    /// For each line: the places it takes and how many runs there are.
    pub lines: Vec<OrderLine>,
    /// What a run costs by itself: line, run, places walked before it in the round.
    pub run_cost: &'a dyn Fn(Run, usize) -> OrderCost,
    /// Towing from the end of one run to the beginning of another.
    pub tow: &'a dyn Fn(Run, Run) -> OrderCost,
    /// Whether the house goes from the last line to the first again.
    pub closes_round: bool,
    /// Runs that are already begun or done, in order; the search begins after them.
    pub begun: Vec<Run>,
}

/// A line in a search.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OrderLine {
    /// Its places.
    pub places: usize,
    /// The ways it can be walked, at least 1.
    pub runs: usize,
}

/// A way of walking a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Run {
    /// The line, from 0.
    pub line: usize,
    /// The way, from 0.
    pub way: usize,
}

/// The order found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OrderFound {
    /// Every line once.
    pub runs: Vec<Run>,
    /// What it costs.
    pub cost: OrderCost,
    /// What no order can be below, figure by figure; the cost itself where the order is proven best.
    pub bound: OrderCost,
    /// Whether no order costs less.
    pub is_proven: bool,
}

impl Add for OrderCost {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self {
            closed_days: self.closed_days.saturating_add(other.closed_days),
            unrested_days: self.unrested_days.saturating_add(other.unrested_days),
            barred_moves: self.barred_moves.saturating_add(other.barred_moves),
            tow_mm: self.tow_mm.saturating_add(other.tow_mm),
        }
    }
}

impl OrderCost {
    /// The lesser of each figure.
    fn least(self, other: Self) -> Self {
        Self {
            closed_days: self.closed_days.min(other.closed_days),
            unrested_days: self.unrested_days.min(other.unrested_days),
            barred_moves: self.barred_moves.min(other.barred_moves),
            tow_mm: self.tow_mm.min(other.tow_mm),
        }
    }

    /// The greater of each figure.
    fn most(self, other: Self) -> Self {
        Self {
            closed_days: self.closed_days.max(other.closed_days),
            unrested_days: self.unrested_days.max(other.unrested_days),
            barred_moves: self.barred_moves.max(other.barred_moves),
            tow_mm: self.tow_mm.max(other.tow_mm),
        }
    }

    /// Each figure less the other's, 0 at least.
    #[must_use]
    pub fn beyond(self, other: Self) -> Self {
        Self {
            closed_days: self.closed_days.saturating_sub(other.closed_days),
            unrested_days: self.unrested_days.saturating_sub(other.unrested_days),
            barred_moves: self.barred_moves.saturating_sub(other.barred_moves),
            tow_mm: self.tow_mm.saturating_sub(other.tow_mm),
        }
    }
}

impl OrderSearch<'_> {
    /// The cost of an order of runs.
    pub fn cost_of(&self, runs: &[Run]) -> OrderCost {
        let mut sum = OrderCost::default();
        let mut walked = 0;
        for (place, run) in runs.iter().enumerate() {
            sum = sum + (self.run_cost)(*run, walked);
            if let Some(before) = place.checked_sub(1).and_then(|before| runs.get(before)) {
                sum = sum + (self.tow)(*before, *run);
            }
            walked += self.places_of(*run);
        }
        sum + self.closing(runs.first(), runs.last())
    }

    fn closing(&self, first: Option<&Run>, last: Option<&Run>) -> OrderCost {
        match (first, last) {
            (Some(first), Some(last)) if self.closes_round => (self.tow)(*last, *first),
            _ => OrderCost::default(),
        }
    }

    fn places_of(&self, run: Run) -> usize {
        self.lines.get(run.line).map_or(0, |line| line.places)
    }

    /// Every run of every line.
    fn runs(&self) -> Vec<Run> {
        let runs_of =
            |(line, facts): (usize, &OrderLine)| (0..facts.runs).map(move |way| Run { line, way });
        self.lines.iter().enumerate().flat_map(runs_of).collect()
    }
}

/// The best order: exact up to [`MOST_LINES_EXACT`] lines that are not begun, improved step by step beyond.
///
/// # Assumptions
/// `begun` names every line once at most.
pub fn find_order(search: &OrderSearch<'_>) -> OrderFound {
    let open = search.lines.len().saturating_sub(search.begun.len());
    if open <= MOST_LINES_EXACT {
        let runs = exact(search);
        let cost = search.cost_of(&runs);
        return OrderFound {
            runs,
            cost,
            bound: cost,
            is_proven: true,
        };
    }
    let runs = improved(search);
    let (cost, bound) = (search.cost_of(&runs), bound(search));
    OrderFound {
        is_proven: cost == bound,
        runs,
        cost,
        bound,
    }
}

/// The least cost of having walked a set of lines with a certain run last, and the run before that.
#[derive(Debug, Clone, Copy)]
struct Reached {
    cost: OrderCost,
    before: Option<usize>,
}

fn exact(search: &OrderSearch<'_>) -> Vec<Run> {
    let is_open = |run: &Run| search.begun.iter().all(|begun| begun.line != run.line);
    let open: Vec<Run> = search.runs().into_iter().filter(is_open).collect();
    if open.is_empty() {
        return search.begun.clone();
    }
    // Where the round closes, its first run decides what the last one costs: each is tried in turn.
    let firsts: Vec<Option<usize>> = if search.closes_round && search.begun.is_empty() {
        (0..open.len()).map(Some).collect()
    } else {
        vec![None]
    };
    let mut best: Option<(OrderCost, Vec<Run>)> = None;
    for first in firsts {
        let Some(found) = best_from(search, &open, first) else {
            continue;
        };
        if best.as_ref().is_none_or(|(cost, _)| found.0 < *cost) {
            best = Some(found);
        }
    }
    best.map_or_else(Vec::new, |(_, runs)| runs)
}

/// The best order of the open runs, its first one given or free.
fn best_from(
    search: &OrderSearch<'_>,
    open: &[Run],
    first: Option<usize>,
) -> Option<(OrderCost, Vec<Run>)> {
    let mut lines: Vec<usize> = open.iter().map(|run| run.line).collect();
    lines.dedup();
    let bit_of = |run: &Run| {
        lines
            .iter()
            .position(|line| *line == run.line)
            .map(|bit| 1_usize << bit)
    };
    let bits: Vec<usize> = open.iter().filter_map(bit_of).collect();
    let begun_places: usize = search.begun.iter().map(|run| search.places_of(*run)).sum();
    let mut sets: Vec<Vec<Option<Reached>>> = vec![vec![None; open.len()]; 1 << lines.len()];
    for (number, (run, bit)) in open.iter().zip(&bits).enumerate() {
        if first.is_some_and(|first| first != number) {
            continue;
        }
        let tow = search
            .begun
            .last()
            .map_or(OrderCost::default(), |last| (search.tow)(*last, *run));
        let cost = tow + (search.run_cost)(*run, begun_places);
        if let Some(slot) = sets.get_mut(*bit).and_then(|runs| runs.get_mut(number)) {
            *slot = Some(Reached { cost, before: None });
        }
    }
    for set in 1..sets.len() {
        let here = sets.get(set).cloned().unwrap_or_default();
        let walked = begun_places + places_in(search, &lines, set);
        for (next, (run, bit)) in open.iter().zip(&bits).enumerate() {
            if set & bit != 0 || here.iter().all(Option::is_none) {
                continue;
            }
            let own = (search.run_cost)(*run, walked);
            let Some(reached) = cheapest_step(search, open, &here, *run, own) else {
                continue;
            };
            if let Some(slot) = sets
                .get_mut(set | bit)
                .and_then(|runs| runs.get_mut(next))
                .filter(|slot| slot.is_none_or(|old| reached.cost < old.cost))
            {
                *slot = Some(reached);
            }
        }
    }
    read_best(search, open, &bits, &sets)
}

fn places_in(search: &OrderSearch<'_>, lines: &[usize], set: usize) -> usize {
    lines
        .iter()
        .enumerate()
        .filter(|(bit, _)| set & (1 << bit) != 0)
        .map(|(_, line)| search.lines.get(*line).map_or(0, |line| line.places))
        .sum()
}

/// The cheapest way to a run from those reached.
fn cheapest_step(
    search: &OrderSearch<'_>,
    open: &[Run],
    here: &[Option<Reached>],
    run: Run,
    own: OrderCost,
) -> Option<Reached> {
    let mut best: Option<Reached> = None;
    for (number, (from, reached)) in open.iter().zip(here).enumerate() {
        let Some(reached) = reached else { continue };
        let cost = reached.cost + (search.tow)(*from, run) + own;
        if best.is_none_or(|best| cost < best.cost) {
            best = Some(Reached {
                cost,
                before: Some(number),
            });
        }
    }
    best
}

/// Reads the cheapest way through all lines back from its end.
fn read_best(
    search: &OrderSearch<'_>,
    open: &[Run],
    bits: &[usize],
    sets: &[Vec<Option<Reached>>],
) -> Option<(OrderCost, Vec<Run>)> {
    let mut best: Option<(OrderCost, Vec<Run>)> = None;
    let full = sets.len().checked_sub(1)?;
    for last in 0..open.len() {
        let Some(reached) = sets.get(full)?.get(last).copied().flatten() else {
            continue;
        };
        let mut back = Vec::new();
        let (mut set, mut at) = (full, Some(last));
        while let Some(number) = at {
            back.push(*open.get(number)?);
            let before = sets.get(set)?.get(number).copied().flatten()?.before;
            set &= !bits.get(number)?;
            at = before;
        }
        back.reverse();
        let mut runs = search.begun.clone();
        runs.extend(back);
        let cost = reached.cost + search.closing(runs.first(), runs.last());
        if best.as_ref().is_none_or(|(least, _)| cost < *least) {
            best = Some((cost, runs));
        }
    }
    best
}

/// An order of many lines: the nearest line next, then lines put elsewhere and stretches turned about as long as it
/// helps.
fn improved(search: &OrderSearch<'_>) -> Vec<Run> {
    let mut runs = nearest_next(search);
    let fixed = search.begun.len();
    let mut cost = search.cost_of(&runs);
    let mut tries = 0;
    loop {
        let mut has_improved = false;
        for from in fixed..runs.len() {
            for to in fixed..runs.len() {
                for changed in changes(search, &runs, from, to) {
                    tries += 1;
                    let changed_cost = search.cost_of(&changed);
                    if changed_cost < cost {
                        (runs, cost, has_improved) = (changed, changed_cost, true);
                    }
                    if tries >= MOST_TRIES {
                        return runs;
                    }
                }
            }
        }
        if !has_improved {
            return runs;
        }
    }
}

/// A line walked at another place in each of its ways, and a stretch of lines walked backwards.
fn changes(search: &OrderSearch<'_>, runs: &[Run], from: usize, to: usize) -> Vec<Vec<Run>> {
    let Some(run) = runs.get(from) else {
        return Vec::new();
    };
    let ways = search.lines.get(run.line).map_or(0, |line| line.runs);
    let mut changed: Vec<Vec<Run>> = (0..ways)
        .map(|way| {
            let mut moved = runs.to_vec();
            moved.remove(from);
            moved.insert(to.min(moved.len()), Run { way, ..*run });
            moved
        })
        .collect();
    if from < to {
        let mut turned = runs.to_vec();
        if let Some(stretch) = turned.get_mut(from..=to) {
            stretch.reverse();
        }
        changed.push(turned);
    }
    changed
}

fn nearest_next(search: &OrderSearch<'_>) -> Vec<Run> {
    let mut runs = search.begun.clone();
    let mut walked: usize = runs.iter().map(|run| search.places_of(*run)).sum();
    while runs.len() < search.lines.len() {
        let next = search
            .runs()
            .into_iter()
            .filter(|run| runs.iter().all(|done| done.line != run.line))
            .min_by_key(|run| {
                let tow = runs
                    .last()
                    .map_or(OrderCost::default(), |last| (search.tow)(*last, *run));
                (search.run_cost)(*run, walked) + tow
            });
        let Some(next) = next else { break };
        walked += search.places_of(next);
        runs.push(next);
    }
    runs
}

/// What no order can be below, figure by figure: each line at its best time, entered by its shortest way.
fn bound(search: &OrderSearch<'_>) -> OrderCost {
    let all_places: usize = search.lines.iter().map(|line| line.places).sum();
    let mut sum = OrderCost::default();
    let mut dearest_entry = OrderCost::default();
    let every_run = search.runs();
    for (line, facts) in search.lines.iter().enumerate() {
        let fixed = search.begun.iter().find(|run| run.line == line);
        let runs: Vec<Run> = match fixed {
            Some(run) => vec![*run],
            None => (0..facts.runs).map(|way| Run { line, way }).collect(),
        };
        let walked = 0..=all_places.saturating_sub(facts.places);
        let least = runs
            .iter()
            .flat_map(|run| walked.clone().map(|walked| (search.run_cost)(*run, walked)))
            .reduce(OrderCost::least);
        let entry = every_run
            .iter()
            .filter(|from| from.line != line)
            .flat_map(|from| runs.iter().map(|run| (search.tow)(*from, *run)))
            .reduce(OrderCost::least)
            .unwrap_or_default();
        dearest_entry = dearest_entry.most(entry);
        sum = sum + least.unwrap_or_default() + entry;
    }
    // The first line of a round that does not close is entered from nowhere.
    if search.closes_round {
        sum
    } else {
        sum.beyond(dearest_entry)
    }
}
