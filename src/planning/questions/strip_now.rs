//! What area feeds a mob for a day on a piece as it stands this morning. Square metres, kg DM, kg DM/ha.

use super::super::farm_season::SeasonPlan;
use super::super::strip_sums::StripFeed;
use crate::farm::{Farm, GroundId, MobId};
use crate::quantity::{Day, M2_PER_HECTARE};

/// The area of a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StripNow {
    /// What the mob eats, what stands and what is left.
    pub feed: StripFeed,
    /// Area for one day, no growth counted; none where nothing may be eaten.
    pub area_m2: Option<f64>,
    /// The whole piece.
    pub piece_m2: f64,
    /// Days that the whole piece lasts, no growth counted.
    pub piece_days: Option<f64>,
}

/// The area that feeds a mob for a day on a piece on the morning of `day`; none where there is no cover of it or no
/// such mob.
pub fn strip_now(
    farm: &Farm,
    plan: &SeasonPlan,
    mob: MobId,
    ground: GroundId,
    day: Day,
) -> Option<StripNow> {
    let feed = StripFeed {
        demand_kg: farm.mobs.get(&mob)?.demand_kg(),
        cover_kg_per_ha: plan.cover_on(ground, day)?,
        leave_kg_per_ha: farm.leave_on(ground),
    };
    let piece_m2 = plan.area_ha.get(&ground)? * M2_PER_HECTARE;
    Some(StripNow {
        feed,
        area_m2: feed.area_m2(1.0),
        piece_m2,
        piece_days: feed.days_on(piece_m2),
    })
}
