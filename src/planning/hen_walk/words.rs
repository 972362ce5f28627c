//! What a walk says of itself: why the order is so, rest that is missing, ways that cannot be found.
//!
//! Sentences without a full stop, for lists; `order_words` are whole sentences.

use super::{HenFacts, HenTow, HenWalk};
use crate::farm::{HenHouse, HenMark, StopKind};
use crate::quantity::{Day, UnitSystem, length_text, plural_text};

/// What the grower should know of a walk, the lines and overlaps left aside.
pub(super) fn notes_of(
    house: &HenHouse,
    facts: &HenFacts,
    tows: &[HenTow],
    closed: &[(Day, String)],
) -> Vec<String> {
    let mut notes: Vec<String> = rest_note(house, facts).into_iter().collect();
    let blocked = tows.iter().filter(|tow| tow.is_blocked).count();
    if blocked > 0 && facts.places > 1 {
        notes.push(format!(
            "for {} no way was found that keeps off water, crops, trees, fences and buildings by half the house's width; \
             draw a gate, or tow it another way",
            plural_text(count(blocked), "move", "moves")
        ));
    }
    if let Some((first, why)) = closed.first() {
        notes.push(format!(
            "hens stand on closed ground on {}, first on {}: {why}",
            plural_text(count(closed.len()), "day", "days"),
            first.short_text()
        ));
    }
    notes
}

/// Says where the round is too short for the rest that is wanted, and how many places would do.
fn rest_note(house: &HenHouse, facts: &HenFacts) -> Option<String> {
    if facts.rest_days >= facts.rest_days_wanted {
        return None;
    }
    let needed = places_needed(house);
    Some(format!(
        "each place rests {} and {} are wanted: {} in the round would do, and there are {}",
        plural_text(u64::from(facts.rest_days), "day", "days"),
        facts.rest_days_wanted,
        plural_text(u64::from(needed), "place", "places"),
        facts.places
    ))
}

/// Places in a round that give the rest wanted.
pub(super) fn places_needed(house: &HenHouse) -> u32 {
    house.rest_days_wanted.div_ceil(house.days_per_place.max(1)) + 1
}

/// Why the lines come in this order, in short sentences.
pub fn order_words(house: &HenHouse, walk: &HenWalk) -> Vec<String> {
    let Some(order) = &walk.order else {
        return vec![
            "It follows the sheep: their strips give its order, lane by lane across each."
                .to_owned(),
        ];
    };
    let tow = |tow_mm: u64| {
        #[expect(clippy::cast_precision_loss, reason = "a farm's way in millimetres")]
        let length_m = tow_mm as f64 / 1000.0;
        length_text(length_m, UnitSystem::Metric)
    };
    let gap = order.cost.beyond(order.bound);
    let mut words = Vec::new();
    if walk.legs.len() < 2 && !order.is_chosen {
        return words;
    }
    if order.begun_lines > 0 {
        words.push(format!(
            "{} of this round begun on lived days; the others come after.",
            plural_text(count(order.begun_lines), "line is", "lines are")
        ));
    }
    words.push(match (order.is_chosen, order.is_proven) {
        (true, true) => "No other order of its lines, ends and sides is better; this is proven.".to_owned(),
        (true, false) => format!(
            "Improved step by step, not proven best: at most {} more on closed ground, {} more of missing rest{} and {} more \
             towing than the best there can be.",
            plural_text(gap.closed_days, "day", "days"),
            plural_text(gap.unrested_days, "day", "days"),
            barred(gap.barred_moves),
            tow(gap.tow_mm),
        ),
        (false, true) => "As you listed them, and no other order is better.".to_owned(),
        (false, false) => listed_words(order, &tow),
    });
    words.push(format!(
        "Counted in turn: days on closed ground ({}), days of rest missing before hens return ({}){}, towing ({} from first \
         to last place{}).",
        order.cost.closed_days,
        order.cost.unrested_days,
        barred(order.cost.barred_moves),
        tow(order.cost.tow_mm),
        if walk.days.len() > walk.facts.places { " and back" } else { "" }
    ));
    if !order.heeded.is_empty() {
        words.push(format!(
            "Hens of {} come onto its places too: a day of both on one place counts as closed, and the rest between them as \
             rest.",
            order.heeded.join(", ")
        ));
    }
    let is_fixed = |mark: &HenMark| matches!(mark, HenMark::At { lived: false, .. });
    if house.handling.marks.values().any(is_fixed) {
        words.push("Days on which you fixed its place are left out of this count.".to_owned());
    }
    if house
        .handling
        .stops
        .iter()
        .any(|stop| stop.kind != StopKind::Housed)
        || order.cost.closed_days > 0
    {
        words.push(
            "Days without towing and shut-in days move every later place, whatever the order."
                .to_owned(),
        );
    }
    words
}

/// As a further member of a list; empty where there are none.
fn barred(moves: u64) -> String {
    if moves == 0 {
        return String::new();
    }
    let moves = plural_text(moves, "move", "moves");
    format!(", {moves} without a way or room to turn")
}

fn listed_words(order: &super::HenOrder, tow: &dyn Fn(u64) -> String) -> String {
    let Some(best) = order.best else {
        return "As you listed them.".to_owned();
    };
    let fewer = order.cost.beyond(best);
    let mut days = String::new();
    if fewer.closed_days > 0 {
        let fewer = plural_text(fewer.closed_days, "day", "days");
        days.extend([fewer.as_str(), " fewer on closed ground and "]);
    } else if fewer.unrested_days > 0 {
        let fewer = plural_text(fewer.unrested_days, "day", "days");
        days.extend([fewer.as_str(), " fewer of missing rest and "]);
    } else if fewer.barred_moves > 0 {
        let fewer = plural_text(fewer.barred_moves, "move", "moves");
        days.extend([fewer.as_str(), " fewer without a way or room to turn and "]);
    }
    format!(
        "As you listed them. Another order has {days}{} towing against {}: let the program choose.",
        tow(best.tow_mm),
        tow(order.cost.tow_mm)
    )
}

fn count(many: usize) -> u64 {
    u64::try_from(many).unwrap_or(u64::MAX)
}
