//! The kinds of change that the search tries: whole stays, their borders, exchanges between stays, mobs and strips.
//!
//! A proposal only fills the board's staged list; it never touches fixed days. Knows no scores.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]

use super::board::Board;
use super::ground::{AWAY, Ground};
use super::random::Dice;
use super::strip_sum::{last_set, next_set};

/// A stay: a mob on one place from day `start` to before day `end`, all of them free days.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stay {
    pub(super) mob: usize,
    pub(super) start: usize,
    pub(super) end: usize,
    pub(super) place: u16,
}

/// Stages a change of some kind; false where the dice gave none that makes sense.
pub(super) fn propose(board: &mut Board<'_>, dice: &mut Dice) -> bool {
    board.clear_staged();
    let ground = board.ground;
    let free = ground.free_list[dice.below(ground.free_list.len())];
    let (mob, day) = (usize::from(free.0), usize::from(free.1));
    match dice.below(100) {
        0..24 => change_stay(board, dice, mob, day),
        24..50 => shift_border(board, dice, mob, day),
        50..62 => swap_stays(board, dice, mob, day),
        62..74 => insert_stay(board, dice, mob, day),
        74..80 => rotate_stays(board, dice, mob, day),
        80..88 => shift_days(board, dice, mob, day),
        88..92 => swap_roles(board, dice, mob, day),
        92..95 => swap_mobs(board, dice, mob, day),
        _ => close_up(board, dice, mob, day),
    }
}

/// The stay that holds a free day.
pub(super) fn stay_at(board: &Board<'_>, mob: usize, day: usize) -> Stay {
    let ground = board.ground;
    let row = mob * ground.n_days;
    let place = board.places[row + day];
    let goes_on = |day: usize| ground.goes_on[row + day];
    let fits = |day: usize| board.places[row + day] == place;
    let mut start = day;
    while goes_on(start) && fits(start - 1) {
        start -= 1;
    }
    let mut end = day + 1;
    while end < ground.n_days && goes_on(end) && fits(end) {
        end += 1;
    }
    Stay {
        mob,
        start,
        end,
        place,
    }
}

fn all_free(ground: &Ground, mob: usize, start: usize, end: usize) -> bool {
    let row = mob * ground.n_days;
    end <= ground.n_days && ground.free[row + start..row + end].iter().all(|&free| free)
}

/// Days of rest that a stay on a strip would lack before and after it; endless where it is closed or taken.
fn rest_lacking(board: &Board<'_>, place: u16, start: usize, end: usize) -> f64 {
    let ground = board.ground;
    let strip = usize::from(place);
    let row = board.strip_row(strip);
    if !board.is_open(strip, start, end) {
        return f64::INFINITY;
    }
    let next = next_set(row, end);
    let lacking = |from: usize, to: usize| (ground.rest[from] - days(to - from - 1)).max(0.0);
    let before = match last_set(row, start) {
        Some(last) if last + 1 == start => 0.0,
        Some(last) => lacking(last, start),
        None => {
            let former = &ground.strips[strip];
            let rested = i64::try_from(start).unwrap_or(0) - former.former_last - 1;
            (former.former_owed - days(usize::try_from(rested).unwrap_or(0))).max(0.0)
        }
    };
    let after = match next {
        Some(next) if next == end => 0.0,
        Some(next) => lacking(end - 1, next),
        None => 0.0,
    };
    before + after
}

#[expect(clippy::cast_precision_loss, reason = "day counts stay far below 2^53")]
fn days(count: usize) -> f64 {
    count as f64
}

/// A strip to try for these days: often one that is rested, sometimes one near by, rarely the yard.
fn draw_place(board: &Board<'_>, dice: &mut Dice, stay: &Stay) -> u16 {
    let ground = board.ground;
    if ground.n_strips == 0 || dice.one_in(60) {
        return ground.yard;
    }
    let tries = if dice.one_in(4) { 1 } else { 8 };
    let is_near = dice.one_in(3);
    let beside = if dice.one_in(2) {
        stay.start.checked_sub(1)
    } else {
        Some(stay.end)
    };
    let beside = beside.filter(|&day| day < ground.n_days);
    let anchor = beside.map_or(ground.yard, |day| board.place(stay.mob, day));
    let mut least = (f64::INFINITY, ground.yard);
    for _ in 0..tries {
        let place = if is_near && usize::from(anchor) < ground.n_strips {
            let pick = dice.below(ground.n_near);
            ground.near[usize::from(anchor) * ground.n_near + pick]
        } else {
            super::ground::place_number(dice.below(ground.n_strips))
        };
        if place == stay.place {
            continue;
        }
        let lacking = rest_lacking(board, place, stay.start, stay.end);
        if lacking <= 0.0 {
            return place;
        }
        if lacking < least.0 || tries == 1 {
            least = (lacking, place);
        }
    }
    least.1
}

/// Moves a whole stay to another strip; a mob that is there takes the old place.
fn change_stay(board: &mut Board<'_>, dice: &mut Dice, mob: usize, day: usize) -> bool {
    let stay = stay_at(board, mob, day);
    let place = draw_place(board, dice, &stay);
    if place == stay.place {
        return false;
    }
    stage_with_exchange(board, &stay, place)
}

/// Stages a stay elsewhere, sending whoever is there to the place it leaves.
fn stage_with_exchange(board: &mut Board<'_>, stay: &Stay, place: u16) -> bool {
    let ground = board.ground;
    board.stage(stay.mob, stay.start, stay.end, place);
    let strip = usize::from(place);
    if strip >= ground.n_strips {
        return true;
    }
    for day in stay.start..stay.end {
        if !board.is_stood_on(strip, day) {
            continue;
        }
        let Some(other) = board.mob_on(strip, day) else {
            return false;
        };
        if other == stay.mob {
            continue;
        }
        if !ground.free[other * ground.n_days + day] {
            return false;
        }
        board.stage(other, day, day + 1, stay.place);
    }
    true
}

/// Moves the border between two stays by a few days.
fn shift_border(board: &mut Board<'_>, dice: &mut Dice, mob: usize, day: usize) -> bool {
    let stay = stay_at(board, mob, day);
    let length = 1 + if dice.one_in(3) { dice.below(3) } else { 0 };
    let ground = board.ground;
    if dice.one_in(2) {
        let start = stay.end;
        let end = (start + length).min(ground.n_days);
        if start >= end || !all_free(ground, mob, start, end) {
            return false;
        }
        stage_with_exchange(
            board,
            &Stay {
                start,
                end,
                place: board.place(mob, start),
                ..stay
            },
            stay.place,
        )
    } else {
        let end = stay.start;
        let start = end.saturating_sub(length);
        if start >= end || !all_free(ground, mob, start, end) {
            return false;
        }
        stage_with_exchange(
            board,
            &Stay {
                start,
                end,
                place: board.place(mob, start),
                ..stay
            },
            stay.place,
        )
    }
}

/// Exchanges the places of two stays, of one mob or of two.
fn swap_stays(board: &mut Board<'_>, dice: &mut Dice, mob: usize, day: usize) -> bool {
    let ground = board.ground;
    let first = stay_at(board, mob, day);
    let other = ground.free_list[dice.below(ground.free_list.len())];
    let (mut other_mob, mut other_day) = (usize::from(other.0), usize::from(other.1));
    if dice.one_in(2) {
        // Near in time: stays a few days apart change places more often with gain.
        other_mob = mob;
        let reach = 6 * ground.longest.min(8);
        other_day = (day + dice.below(2 * reach + 1)).saturating_sub(reach);
        if other_day >= ground.n_days || !ground.free[mob * ground.n_days + other_day] {
            return false;
        }
    }
    let second = stay_at(board, other_mob, other_day);
    if first.place == second.place {
        return false;
    }
    if first.mob != second.mob && first.start < second.end && second.start < first.end {
        return false;
    }
    board.stage(first.mob, first.start, first.end, second.place);
    board.stage(second.mob, second.start, second.end, first.place);
    true
}

/// Puts a new stay in from a day on.
fn insert_stay(board: &mut Board<'_>, dice: &mut Dice, mob: usize, day: usize) -> bool {
    let ground = board.ground;
    let length = 1 + dice.below(ground.longest.min(8));
    let mut end = day + 1;
    while end < ground.n_days && end < day + length && ground.free[mob * ground.n_days + end] {
        end += 1;
    }
    let stay = Stay {
        mob,
        start: day,
        end,
        place: board.place(mob, day),
    };
    let place = draw_place(board, dice, &stay);
    if place == stay.place {
        return false;
    }
    stage_with_exchange(board, &stay, place)
}

/// Lets two runs of stays that follow each other change their order.
fn rotate_stays(board: &mut Board<'_>, dice: &mut Dice, mob: usize, day: usize) -> bool {
    let ground = board.ground;
    let start = stay_at(board, mob, day).start;
    let mut run = |start: usize| {
        let n_stays = if dice.one_in(2) { 1 } else { 1 + dice.below(4) };
        let mut end = start;
        for _ in 0..n_stays {
            if end < ground.n_days && ground.free[mob * ground.n_days + end] {
                end = stay_at(board, mob, end).end;
            }
        }
        end
    };
    let middle = run(start);
    let end = run(middle);
    if middle == end {
        return false;
    }
    let shift = end - middle;
    for day in start..middle {
        let place = board.place(mob, day);
        board.stage(mob, day + shift, day + shift + 1, place);
    }
    for day in middle..end {
        let place = board.place(mob, day);
        board.stage(mob, day + start - middle, day + start - middle + 1, place);
    }
    true
}

/// Brings a stretch of days forward or back by one: the stay at one end grows, the one at the other shrinks.
fn shift_days(board: &mut Board<'_>, dice: &mut Dice, mob: usize, day: usize) -> bool {
    let ground = board.ground;
    let length = 2 + dice.below(8 * ground.longest.min(8));
    let start = day;
    let mut end = start + 1;
    while end < ground.n_days && end < start + length && ground.free[mob * ground.n_days + end] {
        end += 1;
    }
    if end < start + 2 {
        return false;
    }
    if dice.one_in(2) {
        for day in start + 1..end {
            let place = board.place(mob, day - 1);
            board.stage(mob, day, day + 1, place);
        }
    } else {
        for day in start..end - 1 {
            let place = board.place(mob, day + 1);
            board.stage(mob, day, day + 1, place);
        }
    }
    true
}

/// Lets two strips change their roles over a stretch of days, for every mob.
fn swap_roles(board: &mut Board<'_>, dice: &mut Dice, mob: usize, day: usize) -> bool {
    let ground = board.ground;
    let one = board.place(mob, day);
    if usize::from(one) >= ground.n_strips {
        return false;
    }
    let other = super::ground::place_number(dice.below(ground.n_strips));
    if other == one {
        return false;
    }
    let (start, end) = match dice.below(3) {
        0 => (0, ground.n_days),
        1 => (stay_at(board, mob, day).start, ground.n_days),
        _ => {
            let start = stay_at(board, mob, day).start;
            let length = 1 + dice.below(60);
            (start, (start + length).min(ground.n_days))
        }
    };
    for (from, to) in [(one, other), (other, one)] {
        let mut at = start;
        while let Some(day) = next_set(board.strip_row(usize::from(from)), at) {
            if day >= end {
                break;
            }
            at = day + 1;
            let mob = board.mob_on(usize::from(from), day);
            let Some(mob) = mob.filter(|mob| ground.free[mob * ground.n_days + day]) else {
                continue;
            };
            board.stage(mob, day, day + 1, to);
        }
    }
    true
}

/// Lets two mobs change places over some days.
fn swap_mobs(board: &mut Board<'_>, dice: &mut Dice, mob: usize, day: usize) -> bool {
    let ground = board.ground;
    if ground.n_mobs < 2 {
        return false;
    }
    let other = (mob + 1 + dice.below(ground.n_mobs - 1)) % ground.n_mobs;
    let stay = stay_at(board, mob, day);
    let length = if dice.one_in(2) {
        stay.end - stay.start
    } else {
        1 + dice.below(12)
    };
    let end = (stay.start + length).min(ground.n_days);
    let both_free = (stay.start..end)
        .take_while(|&day| {
            ground.free[mob * ground.n_days + day] && ground.free[other * ground.n_days + day]
        })
        .count();
    for day in stay.start..stay.start + both_free {
        let (mine, theirs) = (board.place(mob, day), board.place(other, day));
        if mine != theirs && mine != AWAY && theirs != AWAY {
            board.stage(mob, day, day + 1, theirs);
            board.stage(other, day, day + 1, mine);
        }
    }
    !board.is_nothing_staged()
}

/// Drops a stay and lets a neighbour run on over its days.
fn close_up(board: &mut Board<'_>, dice: &mut Dice, mob: usize, day: usize) -> bool {
    let ground = board.ground;
    let stay = stay_at(board, mob, day);
    let beside = if dice.one_in(2) {
        stay.start.checked_sub(1)
    } else {
        Some(stay.end)
    };
    let Some(beside) = beside.filter(|&day| day < ground.n_days) else {
        return false;
    };
    let place = board.place(mob, beside);
    if place == AWAY || place == stay.place {
        return false;
    }
    stage_with_exchange(board, &stay, place)
}
