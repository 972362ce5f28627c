//! The cheapest way to give each row a column of its own.
//!
//! By shortest augmenting paths (from memory: Jonker and Volgenant, "A shortest augmenting path algorithm for dense and
//! sparse linear assignment problems", Computing 38, 1987). Knows nothing of stays or strips.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a row or column of the table whose lengths made the lists"
)]

/// The column of each row, for `n_rows` rows of costs one after the other: each row has a column of its own, and the sum of
/// costs is as small as can be. Costs may be endless; then a row may be left with a column it cannot have, which happens
/// only where it has no other. There are at least as many columns as rows.
pub(super) fn assign(costs: &[f64], n_rows: usize, n_columns: usize) -> Vec<usize> {
    let mut search = Search {
        costs,
        n_columns,
        row_of: vec![None; n_columns],
        row_price: vec![0.0; n_rows],
        column_price: vec![0.0; n_columns],
        least: vec![0.0; n_columns],
        before: vec![None; n_columns],
        is_reached: vec![false; n_columns],
    };
    for row in 0..n_rows {
        search.seat(row);
    }
    let mut chosen = vec![0; n_rows];
    for (column, row) in search.row_of.iter().enumerate() {
        if let Some(row) = row {
            chosen[*row] = column;
        }
    }
    chosen
}

struct Search<'a> {
    costs: &'a [f64],
    n_columns: usize,
    /// Who has each column so far.
    row_of: Vec<Option<usize>>,
    row_price: Vec<f64>,
    column_price: Vec<f64>,
    /// The cheapest way to each column, and the column before it on that way.
    least: Vec<f64>,
    before: Vec<Option<usize>>,
    is_reached: Vec<bool>,
}

impl Search<'_> {
    /// Gives one more row a column, moving others where that is cheaper.
    fn seat(&mut self, new: usize) {
        self.least.fill(f64::INFINITY);
        self.is_reached.fill(false);
        let mut reached = None;
        let mut row = new;
        loop {
            let Some((next, step)) = self.nearest(row, reached) else {
                return;
            };
            self.pay(new, step);
            self.is_reached[next] = true;
            reached = Some(next);
            match self.row_of[next] {
                Some(holder) => row = holder,
                None => break,
            }
        }
        // Everyone on the way moves on by one.
        while let Some(column) = reached {
            let former = self.before[column];
            self.row_of[column] =
                Some(former.map_or(new, |former| self.row_of[former].unwrap_or(new)));
            reached = former;
        }
    }

    /// The nearest column not yet reached, and how much farther it is.
    fn nearest(&mut self, row: usize, from: Option<usize>) -> Option<(usize, f64)> {
        let mut best = None;
        let mut step = f64::INFINITY;
        for column in 0..self.n_columns {
            if self.is_reached[column] {
                continue;
            }
            let cost = self.costs[row * self.n_columns + column];
            let way = cost - self.row_price[row] - self.column_price[column];
            if way < self.least[column] {
                self.least[column] = way;
                self.before[column] = from;
            }
            if self.least[column] < step || best.is_none() {
                step = self.least[column];
                best = Some(column);
            }
        }
        best.map(|column| (column, step))
    }

    /// Moves the prices so that the next column is reached for nothing.
    fn pay(&mut self, new: usize, step: f64) {
        if !step.is_finite() {
            return;
        }
        self.row_price[new] += step;
        for column in 0..self.n_columns {
            if self.is_reached[column] {
                if let Some(row) = self.row_of[column] {
                    self.row_price[row] += step;
                }
                self.column_price[column] -= step;
            } else {
                self.least[column] -= step;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::random::Dice;
    use super::assign;

    /// The cheapest by trying everything.
    fn cheapest(costs: &[f64], n_columns: usize, row: usize, taken: &mut Vec<bool>) -> f64 {
        let Some(own) = costs.chunks(n_columns).nth(row) else {
            return 0.0;
        };
        let mut least = f64::INFINITY;
        for column in 0..n_columns {
            if !taken[column] {
                taken[column] = true;
                least = least.min(own[column] + cheapest(costs, n_columns, row + 1, taken));
                taken[column] = false;
            }
        }
        least
    }

    #[test]
    fn an_assignment_is_as_cheap_as_the_best_of_all_of_them() {
        let mut dice = Dice::new(7);
        for case in 0..400 {
            let n_rows = 1 + dice.below(5);
            let n_columns = n_rows + dice.below(3);
            let costs: Vec<f64> = (0..n_rows * n_columns)
                .map(|cell| {
                    // Each row has a column that only it can have, as each stay has its yard.
                    let is_barred = dice.one_in(4) && cell % n_columns != cell / n_columns;
                    let cost = f64::from(u32::try_from(dice.below(41)).unwrap_or(0)) - 20.0;
                    if is_barred { f64::INFINITY } else { cost }
                })
                .collect();
            let chosen = assign(&costs, n_rows, n_columns);
            let mut seen = chosen.clone();
            seen.sort_unstable();
            seen.dedup();
            assert_eq!(seen.len(), n_rows, "case {case}: a column is given twice");
            let sum: f64 = chosen
                .iter()
                .enumerate()
                .map(|(row, column)| costs[row * n_columns + column])
                .sum();
            let best = cheapest(&costs, n_columns, 0, &mut vec![false; n_columns]);
            assert!((sum - best).abs() < 1e-9, "case {case}: {sum} for {best}");
        }
    }
}
