//! What the season looks like at one glance: the feed wedge, supply against demand, rest reached, and what each strip bore.
//!
//! A reading of a finished plan as plain rows; knows nothing of how they are drawn. kg DM, kg DM/ha, days, hectares.

use super::clean_ground::course_ground_of;
use super::farm_season::{SeasonPlan, Stand};
use super::loads::NitrogenSet;
use crate::farm::{Farm, GroundId};
use crate::quantity::Day;

/// One strip of the feed wedge.
#[derive(Debug, Clone, PartialEq)]
pub struct WedgeBar {
    /// The strip.
    pub ground: GroundId,
    /// Its name.
    pub name: String,
    /// Cover on the morning, kg DM/ha.
    pub cover_kg_per_ha: f64,
    /// What the line asks for at this place in the row, kg DM/ha.
    pub line_kg_per_ha: f64,
}

/// One day of supply and demand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SupplyDay {
    /// The day.
    pub day: Day,
    /// What the open strips and leys grow where none is full, kg DM.
    pub growth_kg: f64,
    /// What all flocks want, kg DM.
    pub demand_kg: f64,
    /// What they do not find on the strips, kg DM.
    pub short_kg: f64,
}

/// The shortest rest of one strip.
#[derive(Debug, Clone, PartialEq)]
pub struct RestBar {
    /// The strip.
    pub ground: GroundId,
    /// Its name.
    pub name: String,
    /// Stays in the season.
    pub stays: usize,
    /// Days without sheep between two stays, the fewest in the season; `None` for a single stay.
    pub shortest_days: Option<usize>,
    /// The rest that was owed there, days.
    pub owed_days: u32,
}

/// What one strip bore in the season.
#[derive(Debug, Clone, PartialEq)]
pub struct BorneBar {
    /// The strip.
    pub ground: GroundId,
    /// Its name.
    pub name: String,
    /// Sheep days to the hectare.
    pub sheep_days_per_ha: f64,
    /// Nitrogen that sheep left there, kg to the hectare.
    pub n_kg_per_ha: f64,
}

/// The strips that are open on a day, tallest first, against the line from the cover to enter at down to what is left.
///
/// The line falls evenly from the first strip to the last. Strips above it have grass in hand, strips below it are behind.
pub fn feed_wedge(farm: &Farm, plan: &SeasonPlan, day: Day) -> Vec<WedgeBar> {
    let open = plan
        .cover
        .keys()
        .filter(|id| is_open(farm, plan, **id, day));
    let mut bars: Vec<WedgeBar> = open
        .filter_map(|id| {
            Some(WedgeBar {
                ground: *id,
                name: farm.ground.get(id)?.name.clone(),
                cover_kg_per_ha: plan.cover_on(*id, day)?,
                line_kg_per_ha: 0.0,
            })
        })
        .collect();
    let height = |bar: &WedgeBar| bar.cover_kg_per_ha;
    bars.sort_by(|a, b| {
        height(b)
            .total_cmp(&height(a))
            .then(a.ground.cmp(&b.ground))
    });
    let (enter, leave) = (farm.sward.enter_kg_per_ha, farm.sward.leave_kg_per_ha);
    #[expect(clippy::cast_precision_loss, reason = "strips of a farm are few")]
    let steps = bars.len().saturating_sub(1).max(1) as f64;
    for (place, bar) in bars.iter_mut().enumerate() {
        #[expect(clippy::cast_precision_loss, reason = "strips of a farm are few")]
        let share = place as f64 / steps;
        bar.line_kg_per_ha = enter - (enter - leave) * share;
    }
    bars
}

/// Supply and demand on every planned day.
pub fn supply_and_demand(farm: &Farm, plan: &SeasonPlan) -> Vec<SupplyDay> {
    (0..plan.days)
        .map(|index| {
            let day = plan.day_at(index);
            let pieces = plan.area_ha.iter();
            let open = pieces.filter(|(id, _)| is_open(farm, plan, **id, day));
            let here = farm.mobs.values().filter(|mob| mob.is_here(day));
            SupplyDay {
                day,
                growth_kg: open
                    .map(|(id, area_ha)| area_ha * growth_on(farm, *id, day))
                    .sum(),
                demand_kg: here.map(|mob| mob.as_on(day).demand_kg()).sum(),
                short_kg: plan.short_on(index),
            }
        })
        .collect()
}

fn growth_on(farm: &Farm, id: GroundId, day: Day) -> f64 {
    let ground = farm.ground.get(&id);
    let grazing = ground.and_then(|ground| ground.grazing.as_ref());
    farm.sward.growth_on(day) * grazing.map_or(1.0, |grazing| grazing.growth_factor)
}

/// Whether sheep may stand on a piece on a day: neither closed by hand nor for a crop.
fn is_open(farm: &Farm, plan: &SeasonPlan, id: GroundId, day: Day) -> bool {
    let ground = farm.ground.get(&id);
    let grazing = ground.and_then(|ground| ground.grazing.as_ref());
    let course = course_ground_of(farm, id);
    let mut clean = plan.clean.iter();
    let is_for_crop = clean
        .any(|span| span.ground == course && (span.span.first..=span.span.last).contains(&day));
    !is_for_crop && !grazing.is_some_and(|grazing| grazing.is_closed(day))
}

/// The shortest rest of every strip, in the order of their numbers.
pub fn rests(farm: &Farm, plan: &SeasonPlan) -> Vec<RestBar> {
    let pieces = plan.cover.keys();
    pieces
        .filter_map(|id| {
            let name = farm.ground.get(id)?.name.clone();
            let mut stays: Vec<(usize, usize)> = Vec::new();
            let mut spells = plan.spells_of(*id);
            spells.sort_by_key(|spell| (spell.from, spell.to));
            for spell in spells {
                match stays.last_mut() {
                    // Flocks that follow each other without a day between make one stay.
                    Some((_, to)) if spell.from <= *to + 1 => *to = spell.to.max(*to),
                    _ => stays.push((spell.from, spell.to)),
                }
            }
            let pairs = stays.iter().zip(stays.iter().skip(1));
            let shortest = pairs
                .map(|((_, to), (from, _))| (from - to - 1, *to))
                .min_by_key(|(days, to)| (*days, *to));
            let owed_after = shortest
                .map(|(_, to)| to)
                .or(stays.last().map(|(_, to)| *to));
            Some(RestBar {
                ground: *id,
                name,
                stays: stays.len(),
                shortest_days: shortest.map(|(days, _)| days),
                owed_days: owed_after.map_or(0, |to| farm.rest_days_on(plan.day_at(to))),
            })
        })
        .collect()
}

/// What every strip bore over the planned days, nitrogen by a published set, in the order of their numbers.
pub fn borne(farm: &Farm, plan: &SeasonPlan, set: NitrogenSet) -> Vec<BorneBar> {
    let pieces = plan.area_ha.iter().filter(|(_, area_ha)| **area_ha > 0.0);
    pieces
        .filter_map(|(id, area_ha)| {
            let name = farm.ground.get(id)?.name.clone();
            let (mut sheep_days, mut n_kg) = (0.0, 0.0);
            for (mob, days) in &plan.stands {
                let Some(mob) = farm.mobs.get(mob) else {
                    continue;
                };
                for (index, _) in days
                    .iter()
                    .enumerate()
                    .filter(|(_, at)| **at == Stand::On(*id))
                {
                    let now = mob.as_on(plan.day_at(index));
                    let head = f64::from(now.head);
                    sheep_days += head;
                    n_kg += head * set.sheep_kg_a_year(now.class, now.liveweight_kg) / 365.0;
                }
            }
            Some(BorneBar {
                ground: *id,
                name,
                sheep_days_per_ha: sheep_days / area_ha,
                n_kg_per_ha: n_kg / area_ha,
            })
        })
        .collect()
}
