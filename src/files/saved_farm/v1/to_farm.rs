//! A saved farm checked and turned into the document.
//!
//! What a person may yet mend in the window (visits that overlap, a strip whose ley was removed) passes and becomes a
//! finding; what would make figures or drawing meaningless is refused here with its field. Every rule is also kept on
//! saving, since a save reads its own text back.

mod built;
mod course;
mod fault;
mod ground;
mod hens;
mod numbers;
mod stock;

use std::collections::BTreeMap;

use self::fault::{Fault, key};
use super::{SavedFarm, SavedOrigin, SavedPlace, SavedSeason, SavedSward};
use crate::farm::{
    Courses, Farm, FixedPlace, GroundId, GrowthShape, HenHouseId, MobId, Season, Sward,
};
use crate::geometry::{GroundFrame, LonLat};

type Checked<T> = Result<T, Fault>;

/// The farm that a file holds.
pub(super) fn farm(saved: SavedFarm) -> Checked<Farm> {
    let numbers = numbers::Numbers::of(&saved)?;
    let settled = settled_days(&saved, &numbers)?;
    let mut farm = Farm {
        name: saved.name,
        note: saved.note,
        frame: frame(&saved.origin)?,
        ground: BTreeMap::new(),
        mobs: BTreeMap::new(),
        hen_houses: BTreeMap::new(),
        sward: sward(saved.sward)?,
        season: season(&saved.season)?,
        fixed: settled,
        course: Courses::default(),
        next_id: saved.next_id,
    };
    if let Some(saved) = saved.course {
        farm.course =
            course::courses(saved, &numbers).map_err(|fault| fault.within(&[key("course")]))?;
    }
    for (id, saved) in saved.ground.0 {
        let ground = ground::ground(saved, &numbers)
            .map_err(|fault| fault.within(&[key("ground"), key(id)]))?;
        farm.ground.insert(GroundId(id), ground);
    }
    for (id, saved) in saved.mobs.0 {
        let mob =
            stock::mob(saved, &numbers).map_err(|fault| fault.within(&[key("mobs"), key(id)]))?;
        farm.mobs.insert(MobId(id), mob);
    }
    for (id, saved) in saved.hen_houses.0 {
        let house = hens::hen_house(saved, &numbers)
            .map_err(|fault| fault.within(&[key("hen_houses"), key(id)]))?;
        farm.hen_houses.insert(HenHouseId(id), house);
    }
    Ok(farm)
}

fn frame(origin: &SavedOrigin) -> Checked<GroundFrame> {
    let place = |field: &str| [key("origin"), key(field)];
    fault::within(origin.lon_deg, -180.0, 180.0, "degrees east of Greenwich")
        .map_err(|fault| fault.within(&place("lon_deg")))?;
    fault::within(origin.lat_deg, -90.0, 90.0, "degrees north of the equator")
        .map_err(|fault| fault.within(&place("lat_deg")))?;
    GroundFrame::new(LonLat::new(origin.lon_deg, origin.lat_deg)).map_err(|error| {
        Fault::new(error.to_string(), "write a place on the earth").within(&[key("origin")])
    })
}

fn season(saved: &SavedSeason) -> Checked<Season> {
    if saved.days == 0 || saved.days > Season::MOST_DAYS {
        return Err(Fault::new(
            format!("a season of {} days cannot be planned", saved.days),
            format!("write 1 to {} days", Season::MOST_DAYS),
        )
        .within(&[key("season"), key("days")]));
    }
    Ok(Season {
        first_day: saved.first_day.0,
        days: saved.days,
        seed: saved.seed,
    })
}

fn sward(saved: SavedSward) -> Checked<Sward> {
    let figures = [
        ("leave_kg_per_ha", saved.leave_kg_per_ha),
        ("enter_kg_per_ha", saved.enter_kg_per_ha),
        ("ceiling_kg_per_ha", saved.ceiling_kg_per_ha),
        ("season_factor", saved.season_factor.unwrap_or(1.0)),
    ];
    for (field, figure) in figures {
        fault::figure(figure).map_err(|fault| fault.within(&[key("sward"), key(field)]))?;
    }
    for (month, growth) in saved.growth_by_month.iter().enumerate() {
        fault::figure(*growth).map_err(|fault| {
            fault.within(&[
                key("sward"),
                key("growth_by_month"),
                super::super::place::Step::Item(month),
            ])
        })?;
    }
    Ok(Sward {
        growth_by_month: saved.growth_by_month,
        rest_days_by_month: saved.rest_days_by_month,
        lamb_rest_days: saved.lamb_rest_days,
        leave_kg_per_ha: saved.leave_kg_per_ha,
        enter_kg_per_ha: saved.enter_kg_per_ha,
        ceiling_kg_per_ha: saved.ceiling_kg_per_ha,
        growth_shape: if saved.is_logistic {
            GrowthShape::Logistic
        } else {
            GrowthShape::Capped
        },
        season_factor: saved.season_factor.unwrap_or(1.0),
        season_factor_from: saved.season_factor_from.map(|day| day.0),
        longest_stay_days: saved.longest_stay_days,
        source: saved.source,
    })
}

fn settled_days(
    saved: &SavedFarm,
    numbers: &numbers::Numbers,
) -> Checked<BTreeMap<(MobId, crate::quantity::Day), FixedPlace>> {
    let mut settled = BTreeMap::new();
    for (mob, days) in &saved.settled.0 {
        let mob_place = [key("settled"), key(mob)];
        numbers
            .mob(*mob)
            .map_err(|fault| fault.within(&mob_place))?;
        for (day, place) in &days.0 {
            let (ground, lived) = match *place {
                SavedPlace::Lived(ground) => (Some(ground), true),
                SavedPlace::LivedInYard => (None, true),
                SavedPlace::Fixed(ground) => (Some(ground), false),
                SavedPlace::FixedInYard => (None, false),
            };
            if let Some(ground) = ground {
                numbers
                    .ground(ground)
                    .map_err(|fault| fault.within(&[key("settled"), key(mob), key(day)]))?;
            }
            let place = FixedPlace {
                place: ground.map(GroundId),
                lived,
            };
            settled.insert((MobId(*mob), day.0), place);
        }
    }
    Ok(settled)
}
