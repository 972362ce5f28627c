//! How heavily ground is stocked: on the day on its strip, on the day over the whole plot, over the season.
//!
//! Each with the words that say what is divided by what. Head, livestock units and kg liveweight per hectare; areas are
//! those measured on the earth.

use super::farm_season::SeasonPlan;
use crate::farm::{
    Density, Farm, GroundId, LivestockUnitSet, Mob, MobId, density_of, measure_ground,
};
use crate::quantity::Day;

/// What the density on a strip is.
pub const ON_STRIP_TOLD: &str = "On the strip: those standing on it this day, by its own area.";
/// What the density over a plot is.
pub const OVER_PLOT_TOLD: &str =
    "Over the whole: those standing on any of its strips this day, by the area of all of it.";
/// What the density over a season is.
pub const OVER_SEASON_TOLD: &str = "Over the season: days stood on any of its strips, by the area of all of it and the days of the season.";

/// Densities of one piece of ground.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Densities {
    /// Those on the piece itself, by its own area.
    pub on_strip: Option<Density>,
    /// Those on the plot it belongs to, by the plot's area.
    pub over_plot: Option<Density>,
    /// The plot's season, as a mean over its days.
    pub over_season: Option<Density>,
    /// The plot: the ley of a strip, else the piece itself.
    pub plot: Option<GroundId>,
}

/// How heavily a piece is stocked on a day and over the season; nothing of ground that no plan grazes.
pub fn densities(
    farm: &Farm,
    plan: &SeasonPlan,
    id: GroundId,
    day: Day,
    set: LivestockUnitSet,
) -> Densities {
    let plot = farm
        .ground
        .get(&id)
        .and_then(|ground| ground.within)
        .unwrap_or(id);
    let mut pieces: Vec<GroundId> = farm.strips_of(plot).map(|(strip, _)| strip).collect();
    pieces.push(plot);
    if !pieces.iter().any(|piece| plan.cover.contains_key(piece)) {
        return Densities::default();
    }
    let area_m2 = |id| measure_ground(farm, farm.ground.get(&id)?).area_m2;
    let mob = |id: &MobId| farm.mobs.get(id);
    let today = |piece: GroundId| {
        let stands = plan.mobs_on(piece, day);
        let stands = stands.iter().filter_map(mob).map(|mob| (mob, 1.0));
        stands.collect::<Vec<(&Mob, f64)>>()
    };
    let on_strip = today(id);
    let on_plot: Vec<_> = pieces.iter().flat_map(|piece| today(*piece)).collect();
    let stood: Vec<_> = pieces
        .iter()
        .flat_map(|piece| plan.spells_of(*piece))
        .filter_map(|spell| {
            Some((
                mob(&spell.mob)?,
                share(spell.to - spell.from + 1, plan.days),
            ))
        })
        .collect();
    let density = |stands: Vec<(&Mob, f64)>, id| density_of(stands, area_m2(id)?, set);
    Densities {
        on_strip: (!on_strip.is_empty())
            .then(|| density(on_strip, id))
            .flatten(),
        over_plot: (!on_plot.is_empty())
            .then(|| density(on_plot, plot))
            .flatten(),
        over_season: density(stood, plot),
        plot: Some(plot),
    }
}

#[expect(clippy::cast_precision_loss, reason = "day counts stay far below 2^53")]
fn share(days: usize, of: usize) -> f64 {
    days as f64 / of.max(1) as f64
}
