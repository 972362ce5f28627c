//! What is said of a row of the ribbon: to a screen reader, and under the pointer.

use super::ribbon_rows::RibbonRow;
use crate::planning::SeasonPlan;

/// What a screen reader says of a row.
pub(super) fn row_words(plan: &SeasonPlan, row: &RibbonRow) -> String {
    let spells: Vec<String> = row
        .bars
        .iter()
        .take(12)
        .map(|bar| {
            format!(
                "{} {} to {}",
                bar.who,
                plan.day_at(bar.from).short_text(),
                plan.day_at(bar.to).short_text()
            )
        })
        .collect();
    format!(
        "Season of {}: {}",
        row.name,
        if spells.is_empty() {
            "no spells".to_owned()
        } else {
            spells.join("; ")
        }
    )
}

pub(super) fn hover_words(plan: &SeasonPlan, row: &RibbonRow, index: usize) -> String {
    let day = plan.day_at(index).row_text();
    if let Some(bar) = row
        .bars
        .iter()
        .find(|bar| (bar.from..=bar.to).contains(&index))
    {
        let state = if bar.is_lived {
            "lived"
        } else if bar.is_fixed {
            "fixed"
        } else {
            "planned"
        };
        return format!("{day}: {} ({state})", bar.who);
    }
    if let Some((_, _, why)) = row
        .closed
        .iter()
        .find(|(from, to, _)| (*from..=*to).contains(&index))
    {
        return format!("{day}: closed {why}");
    }
    if row.house.is_some() {
        let left = row
            .bars
            .iter()
            .filter(|bar| bar.to < index)
            .map(|bar| index - bar.to - 1);
        return match left.min() {
            Some(days) => format!("{day}: {days} d without hens"),
            None => day,
        };
    }
    let rested = row
        .ground
        .and_then(|ground| plan.days_since_grazed(ground, index));
    match (
        row.ground
            .and_then(|ground| plan.cover.get(&ground)?.get(index).copied()),
        rested,
    ) {
        (Some(cover), Some(days)) => format!("{day}: rested {days} d, cover {cover:.0} kg DM/ha"),
        (Some(cover), None) => format!("{day}: cover {cover:.0} kg DM/ha"),
        _ => day,
    }
}
