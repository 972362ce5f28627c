//! What the facts column says of stocking: head, livestock units and liveweight over the whole ley and the season.

use super::facts_rows::{FactGroup, ground_name};
use crate::app::desk::Desk;
use crate::farm::{Density, GroundId, LivestockUnitSet};
use crate::planning::{ON_STRIP_TOLD, OVER_PLOT_TOLD, OVER_SEASON_TOLD, densities};
use crate::quantity::{decimal_text, mass_text};

/// How heavily it is stocked over the whole ley and over the season, with what is divided by what: read seldom, and long, so
/// it stands below what is done every day.
pub fn stocking_of(desk: &Desk, id: GroundId) -> Option<FactGroup> {
    let plan = desk.plan.as_deref()?;
    plan.index_of(desk.day)?;
    let set = LivestockUnitSet::England2023;
    let found = densities(desk.farm(), plan, id, desk.day, set);
    let text = |density: Density| {
        format!(
            "{} head, {} units, {} per ha",
            decimal_text(density.head_per_ha, 1),
            decimal_text(density.livestock_units_per_ha, 2),
            mass_text(density.liveweight_kg_per_ha)
        )
    };
    let plot = ground_name(desk, found.plot?);
    let mut group = FactGroup {
        heading: format!("Stocking of {plot}"),
        ..FactGroup::default()
    };
    if found.on_strip.is_some() {
        group.sources.push(ON_STRIP_TOLD.to_owned());
    }
    let rows = [
        ("All of it, this day", found.over_plot, OVER_PLOT_TOLD),
        ("All of it, the season", found.over_season, OVER_SEASON_TOLD),
    ];
    for (name, density, told) in rows {
        if let Some(density) = density {
            group.rows.push((name.to_owned(), text(density)));
            group.sources.push(told.to_owned());
        }
    }
    group
        .sources
        .push(format!("Livestock units: {}.", set.source()));
    Some(group)
}
