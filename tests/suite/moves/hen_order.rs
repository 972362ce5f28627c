//! The order of lines: exact against every order there is, and honest about the gap where there are too many.

use foldcourse::planning::hen_order::{OrderCost, OrderLine, OrderSearch, Run, find_order};
use proptest::prelude::*;

/// Tables of costs that know no ground: lines with places and runs, towing, and closed days by run and places walked.
#[derive(Debug, Clone)]
struct Tables {
    lines: Vec<(usize, usize)>,
    tow: Vec<u64>,
    days: Vec<u64>,
    closes_round: bool,
    begun: usize,
}

impl Tables {
    fn number(&self, run: Run) -> usize {
        self.lines
            .iter()
            .take(run.line)
            .map(|(_, runs)| runs)
            .sum::<usize>()
            + run.way
    }

    fn run_cost(&self, run: Run, walked: usize) -> OrderCost {
        let pick =
            |salt: usize| self.days[(self.number(run) * 31 + walked * 7 + salt) % self.days.len()];
        OrderCost {
            closed_days: pick(0) % 4,
            unrested_days: pick(1) % 3,
            barred_moves: pick(3) / 39,
            tow_mm: pick(2),
        }
    }

    /// Barred moves and millimetres.
    fn tow(&self, from: Run, to: Run) -> (u64, u64) {
        let tow = self.tow[(self.number(from) * 13 + self.number(to) * 5) % self.tow.len()];
        (tow / 45, tow)
    }

    fn with_search<T>(&self, act: impl FnOnce(&OrderSearch<'_>) -> T) -> T {
        act(&OrderSearch {
            lines: self
                .lines
                .iter()
                .map(|(places, runs)| OrderLine {
                    places: *places,
                    runs: *runs,
                })
                .collect(),
            run_cost: &|run, walked| self.run_cost(run, walked),
            tow: &|from, to| {
                let (barred_moves, tow_mm) = self.tow(from, to);
                OrderCost {
                    barred_moves,
                    tow_mm,
                    ..OrderCost::default()
                }
            },
            closes_round: self.closes_round,
            begun: (0..self.begun.min(self.lines.len()))
                .map(|line| Run { line, way: 0 })
                .collect(),
        })
    }

    /// The cost of an order, added up step by step without the search.
    fn cost(&self, order: &[Run]) -> Figures {
        let (mut closed, mut unrested, mut barred, mut tow, mut walked) = (0, 0, 0, 0, 0);
        for (place, run) in order.iter().enumerate() {
            let own = self.run_cost(*run, walked);
            closed += own.closed_days;
            unrested += own.unrested_days;
            barred += own.barred_moves;
            tow += own.tow_mm;
            if place > 0 {
                let (no_way, tow_mm) = self.tow(order[place - 1], *run);
                barred += no_way;
                tow += tow_mm;
            }
            walked += self.lines[run.line].0;
        }
        if self.closes_round {
            let (no_way, tow_mm) = self.tow(order[order.len() - 1], order[0]);
            barred += no_way;
            tow += tow_mm;
        }
        (closed, unrested, barred, tow)
    }

    /// The least cost over every order and every run.
    fn brute(&self, order: &mut Vec<Run>, least: &mut Option<Figures>) {
        if order.len() == self.lines.len() {
            let cost = self.cost(order);
            if least.is_none_or(|least| cost < least) {
                *least = Some(cost);
            }
            return;
        }
        for (line, (_, runs)) in self.lines.iter().enumerate() {
            if order.iter().any(|run| run.line == line) {
                continue;
            }
            let is_begun = order.len() < self.begun;
            if is_begun && line != order.len() {
                continue;
            }
            for way in 0..if is_begun { 1 } else { *runs } {
                order.push(Run { line, way });
                self.brute(order, least);
                order.pop();
            }
        }
    }
}

fn tables(lines: std::ops::Range<usize>) -> impl Strategy<Value = Tables> {
    (
        prop::collection::vec((1_usize..5, 1_usize..4), lines),
        prop::collection::vec(0_u64..50, 7..60),
        prop::collection::vec(0_u64..40, 7..90),
        any::<bool>(),
        0_usize..3,
    )
        .prop_map(|(lines, tow, days, closes_round, begun)| Tables {
            lines,
            tow,
            days,
            closes_round,
            begun,
        })
}

/// Closed days, days of rest missing, barred moves, millimetres towed.
type Figures = (u64, u64, u64, u64);

fn figures(cost: OrderCost) -> Figures {
    let OrderCost {
        closed_days,
        unrested_days,
        barred_moves,
        tow_mm,
    } = cost;
    (closed_days, unrested_days, barred_moves, tow_mm)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(120))]

    #[test]
    fn the_exact_order_is_as_good_as_the_best_of_all_orders(tables in tables(1..6)) {
        let found = tables.with_search(find_order);
        let mut least = None;
        tables.brute(&mut Vec::new(), &mut least);
        prop_assert!(found.is_proven);
        prop_assert_eq!(Some(figures(found.cost)), least);
        prop_assert_eq!(tables.cost(&found.runs), figures(found.cost));
    }

    #[test]
    fn an_order_of_many_lines_says_no_more_than_it_knows(tables in tables(9..13)) {
        let tables = Tables { begun: 0, ..tables };
        let found = tables.with_search(find_order);
        let mut lines: Vec<usize> = found.runs.iter().map(|run| run.line).collect();
        lines.sort_unstable();
        prop_assert_eq!(lines, (0..tables.lines.len()).collect::<Vec<_>>());
        prop_assert_eq!(tables.cost(&found.runs), figures(found.cost));
        let (cost, bound) = (found.cost, found.bound);
        prop_assert!(bound.closed_days <= cost.closed_days);
        prop_assert!(bound.unrested_days <= cost.unrested_days);
        prop_assert!(bound.barred_moves <= cost.barred_moves);
        prop_assert!(bound.tow_mm <= cost.tow_mm);
        prop_assert!(!found.is_proven || cost == bound);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6))]

    #[test]
    fn six_lines_in_two_ways_are_exact_too(tables in tables(6..7)) {
        let mut tables = tables;
        for (_, runs) in &mut tables.lines {
            *runs = (*runs).min(2);
        }
        let found = tables.with_search(find_order);
        let mut least = None;
        tables.brute(&mut Vec::new(), &mut least);
        prop_assert_eq!(Some(figures(found.cost)), least);
    }
}

#[test]
fn the_bound_of_many_lines_is_below_the_best_order_of_all() {
    // Nine lines in one way each: the round of 1 m steps is best, and every order can be bounded by it.
    let ring = |from: usize, to: usize| {
        let apart = from.abs_diff(to);
        1000 * u64::try_from(apart.min(9 - apart)).unwrap()
    };
    let search = OrderSearch {
        lines: vec![OrderLine { places: 2, runs: 1 }; 9],
        run_cost: &|_, _| OrderCost::default(),
        tow: &|from, to| OrderCost {
            tow_mm: ring(from.line, to.line),
            ..OrderCost::default()
        },
        closes_round: true,
        begun: Vec::new(),
    };
    let found = find_order(&search);
    assert_eq!(found.cost.tow_mm, 9_000, "{:?}", found.runs);
    assert!(found.is_proven, "the shortest entries add up to the same");
}
