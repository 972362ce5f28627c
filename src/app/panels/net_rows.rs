//! The rows that say what of a piece is grazed or cropped, and what lies on it.

use crate::app::desk::Desk;
use crate::farm::{GroundId, Kind};
use crate::quantity::{area_both_text, area_text};

/// Things named under an area at most.
const MOST_TAKEN: usize = 6;
/// Stands for a figure that is not known while the piece is dragged.
const IN_HAND: &str = "when let go";

/// Name and figure of the net area and of each thing that it is less by; nothing where nothing lies on the piece.
pub(super) fn net_rows(desk: &Desk, id: GroundId) -> Vec<(String, String)> {
    let Some(net) = desk
        .neighbourhood()
        .net_area(id)
        .filter(|net| !net.taken.is_empty())
    else {
        return Vec::new();
    };
    let is_plot = desk
        .farm()
        .ground
        .get(&id)
        .is_some_and(|ground| ground.kind == Kind::Plot);
    let name = if is_plot { "Cropped" } else { "Grazed" };
    let is_in_hand = desk.in_hand.measures(id).is_some();
    let figure = |text: String| if is_in_hand { "–".to_owned() } else { text };
    let net_text = if is_in_hand {
        IN_HAND.to_owned()
    } else {
        area_both_text(net.net_m2, desk.units())
    };
    let mut rows = vec![(name.to_owned(), net_text)];
    rows.extend(net.taken.iter().take(MOST_TAKEN).map(|taken| {
        let name = format!("less {} {}", taken.kind.name(), taken.name);
        (name, figure(area_text(taken.area_m2, desk.units())))
    }));
    let rest: f64 = net
        .taken
        .iter()
        .skip(MOST_TAKEN)
        .map(|taken| taken.area_m2)
        .sum();
    if net.taken.len() > MOST_TAKEN {
        let count = net.taken.len() - MOST_TAKEN;
        rows.push((
            format!("less {count} more"),
            figure(area_text(rest, desk.units())),
        ));
    }
    rows
}
