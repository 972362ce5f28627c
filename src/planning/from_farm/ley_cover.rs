//! The cover of a whole ley on a morning, before it is cut: of the plan where there is one, else grown from readings.
//!
//! kg DM/ha from ground level; strips count by their areas.

use super::cover::{StripSward, cover_on, lived_before};
use crate::farm::{Farm, Ground, GroundId, measure_ground};
use crate::planning::SeasonPlan;
use crate::planning::grazing_sums::mean_cover_kg_per_ha;
use crate::quantity::{Day, hectares_from_m2};

/// A cover and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeyCover {
    /// kg DM/ha.
    pub cover_kg_per_ha: f64,
    /// What is left after grazing, kg DM/ha.
    pub leave_kg_per_ha: f64,
    /// Whether it is the plan's, was read or is taken for granted.
    pub source: CoverSource,
}

/// Where a cover comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CoverSource {
    /// The plan has it for that day.
    Plan(Day),
    /// Read on a day and grown since.
    Read(Day),
    /// Nobody read it: midway between what is left and what is entered, grown since the season's first day.
    Assumed,
}

/// The cover of a ley, or of one strip, on the morning of a day.
pub fn ley_cover(
    farm: &Farm,
    plan: Option<&SeasonPlan>,
    id: GroundId,
    day: Day,
) -> Option<LeyCover> {
    let ground = farm.ground.get(&id)?;
    let mut pieces: Vec<(GroundId, &Ground)> = farm.strips_of(id).collect();
    if pieces.is_empty() {
        pieces.push((id, ground));
    }
    let leave_kg_per_ha = StripSward::of(farm, ground.grazing.as_ref()).leave;
    if let Some(plan) = plan {
        let planned: Vec<(f64, f64)> = pieces
            .iter()
            .filter_map(|(piece, _)| Some((*plan.area_ha.get(piece)?, plan.cover_on(*piece, day)?)))
            .collect();
        if let Some(cover_kg_per_ha) = mean_cover_kg_per_ha(&planned) {
            return Some(LeyCover {
                cover_kg_per_ha,
                leave_kg_per_ha,
                source: CoverSource::Plan(day),
            });
        }
    }
    let lived = lived_before(farm, day);
    let mut grown = Vec::new();
    let mut source = CoverSource::Assumed;
    for (piece, ground) in pieces {
        let area_ha = hectares_from_m2(measure_ground(farm, ground).area_m2?);
        let grazing = ground.grazing.as_ref();
        let morning = cover_on(farm, grazing, area_ha, lived.get(&piece), day);
        grown.push((area_ha, morning.cover));
        if morning.assumed.is_none() {
            source = CoverSource::Read(morning.since);
        }
    }
    Some(LeyCover {
        cover_kg_per_ha: mean_cover_kg_per_ha(&grown)?,
        leave_kg_per_ha,
        source,
    })
}

impl CoverSource {
    /// In a few words, to stand beside the figure.
    pub fn told(self) -> String {
        match self {
            Self::Plan(day) => format!("from the plan on {}", day.short_text()),
            Self::Read(day) => format!("read on {} and grown since", day.short_text()),
            Self::Assumed => "taken for granted: nobody read it here; put your own in".to_owned(),
        }
    }
}
