//! Gives several stays their strips anew at once, as well as can be: stays are assigned to strips.
//!
//! The stays drawn never follow each other within a mob, so that each walk hangs on one of them alone, and no strip is given
//! twice. Under that, what a stay costs on a strip does not hang on where the other stays go, and no other way to give these
//! strips is better. Knows no temperatures but as a measure of what is too dear to look at.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]

use super::assignment::assign;
use super::board::Board;
use super::ground::place_number;
use super::moves::{Stay, stay_at};
use super::random::Dice;
use super::strip_sum::Prices;

/// Stays given anew at once, at most.
const MOST_STAYS: usize = 16;
/// A strip that costs a stay this many temperatures more than what it has is not looked at further.
const TOO_DEAR: f64 = 40.0;

/// Stages the best new strips for some stays about a day drawn by the dice; false where they stay as they are.
pub(super) fn reassign(
    board: &mut Board<'_>,
    dice: &mut Dice,
    prices: &Prices,
    temperature: f64,
) -> bool {
    board.clear_staged();
    let stays = draw_stays(board, dice);
    if stays.len() < 2 {
        return false;
    }
    let n_columns = board.ground.n_strips + stays.len();
    let costs = costs(board, &stays, prices, TOO_DEAR * temperature);
    let yard = board.ground.yard;
    for (stay, column) in stays.iter().zip(assign(&costs, stays.len(), n_columns)) {
        let place = place_number(column).min(yard);
        if place != stay.place {
            board.stage(stay.mob, stay.start, stay.end, place);
        }
    }
    !board.is_nothing_staged()
}

/// Stays that neither follow each other within a mob nor share a strip.
fn draw_stays(board: &Board<'_>, dice: &mut Dice) -> Vec<Stay> {
    let ground = board.ground;
    let middle = usize::from(ground.free_list[dice.below(ground.free_list.len())].1);
    let reach = 3 + dice.below(4 * ground.longest.min(8) + 4);
    let end = (middle + reach).min(ground.n_days);
    let mut stays: Vec<Stay> = Vec::new();
    for mob in 0..ground.n_mobs {
        let mut day = middle.saturating_sub(reach);
        let mut is_after_drawn = false;
        while day < end {
            if !ground.free[mob * ground.n_days + day] {
                day += 1;
                is_after_drawn = false;
                continue;
            }
            let stay = stay_at(board, mob, day);
            day = stay.end;
            let is_shared = |other: &Stay| other.place == stay.place && stay.place != ground.yard;
            let is_drawn = !is_after_drawn && !dice.one_in(4) && !stays.iter().any(is_shared);
            is_after_drawn = is_drawn;
            if is_drawn {
                stays.push(stay);
            }
        }
    }
    while stays.len() > MOST_STAYS {
        stays.remove(dice.below(stays.len()));
    }
    stays
}

/// What each stay costs on each strip and, in a column of its own after the strips, in the yard; endless where it cannot
/// stand or where that costs more than `dearest` above what it has.
fn costs(board: &mut Board<'_>, stays: &[Stay], prices: &Prices, dearest: f64) -> Vec<f64> {
    let n_strips = board.ground.n_strips;
    let n_columns = n_strips + stays.len();
    let mut costs = vec![f64::INFINITY; stays.len() * n_columns];
    board.lift_stays(stays);
    let idle: Vec<f64> = (0..n_strips)
        .map(|strip| board.priced_now(strip, prices))
        .collect();
    for (row, stay) in stays.iter().enumerate() {
        let cells = &mut costs[row * n_columns..(row + 1) * n_columns];
        let yard = board.ground.yard;
        let in_yard =
            ways_score(board, stay, yard) + board.hay(stay.mob, stay.start, stay.end, yard);
        cells[n_strips + row] = in_yard;
        let mut limit = f64::INFINITY;
        // The strip it has comes first, since it says what is too dear.
        let own = usize::from(stay.place);
        let others = (0..n_strips).filter(|&strip| strip != own);
        for strip in std::iter::once(own)
            .filter(|&own| own < n_strips)
            .chain(others)
        {
            let ways = ways_score(board, stay, place_number(strip)) - idle[strip];
            if let Some(cost) = board.priced_with(stay, strip, prices, limit - ways) {
                cells[strip] = cost + ways;
            }
            limit = in_yard.min(cells.get(own).copied().unwrap_or(in_yard)) + dearest;
        }
    }
    board.put_back(stays);
    costs
}

/// The score of a stay's ways to a place and on from it, whatever stands before and after.
fn ways_score(board: &Board<'_>, stay: &Stay, place: u16) -> f64 {
    let ground = board.ground;
    let row = stay.mob * ground.n_days;
    let here = ground.walk_score(stay.mob, board.comes_from(row + stay.start), place);
    let goes_on = stay.end < ground.n_days && !ground.starts[row + stay.end];
    let next = board.places[row + stay.end.min(ground.n_days - 1)];
    if goes_on && next != super::ground::AWAY {
        here + ground.walk_score(stay.mob, place, next)
    } else {
        here
    }
}
