//! A farm laid out as it is saved. Loses nothing and cannot fail.

mod built;
mod course;
mod hens;

use super::{
    SavedClass, SavedDay, SavedFarm, SavedGrazing, SavedGround, SavedKind, SavedMob,
    SavedMobChange, SavedOrigin, SavedPart, SavedPlace, SavedPoint, SavedSeason, SavedShape,
    SavedSward,
};
use crate::farm::{
    Farm, FixedPlace, Grazing, Ground, GrowthShape, Kind, Mob, MobChange, Shape, StockClass, Sward,
};
use crate::geometry::{Point, Polygon};

/// The farm as layout 1 holds it.
pub(super) fn saved(farm: &Farm) -> SavedFarm {
    let origin = farm.frame.origin();
    let mut saved = SavedFarm {
        foldcourse: 1,
        name: farm.name.clone(),
        note: farm.note.clone(),
        origin: SavedOrigin {
            lon_deg: origin.lon_deg,
            lat_deg: origin.lat_deg,
        },
        next_id: farm.next_id,
        season: SavedSeason {
            first_day: SavedDay(farm.season.first_day),
            days: farm.season.days,
            seed: farm.season.seed,
        },
        sward: saved_sward(&farm.sward),
        ground: farm
            .ground
            .iter()
            .map(|(id, ground)| (id.0, saved_ground(ground)))
            .collect(),
        mobs: farm
            .mobs
            .iter()
            .map(|(id, mob)| (id.0, saved_mob(mob)))
            .collect(),
        hen_houses: farm
            .hen_houses
            .iter()
            .map(|(id, house)| (id.0, hens::house(house)))
            .collect(),
        settled: super::OnceMap::default(),
        course: course::courses(&farm.course),
    };
    for ((mob, day), place) in &farm.fixed {
        let days = saved.settled.0.entry(mob.0).or_default();
        days.0.insert(SavedDay(*day), saved_place(*place));
    }
    saved
}

fn saved_sward(sward: &Sward) -> SavedSward {
    SavedSward {
        growth_by_month: sward.growth_by_month,
        rest_days_by_month: sward.rest_days_by_month,
        lamb_rest_days: sward.lamb_rest_days,
        leave_kg_per_ha: sward.leave_kg_per_ha,
        enter_kg_per_ha: sward.enter_kg_per_ha,
        ceiling_kg_per_ha: sward.ceiling_kg_per_ha,
        is_logistic: sward.growth_shape == GrowthShape::Logistic,
        season_factor: (sward.season_factor.to_bits() != 1.0_f64.to_bits())
            .then_some(sward.season_factor),
        season_factor_from: sward.season_factor_from.map(SavedDay),
        longest_stay_days: sward.longest_stay_days,
        source: sward.source.clone(),
    }
}

fn saved_ground(ground: &Ground) -> SavedGround {
    SavedGround {
        name: ground.name.clone(),
        kind: saved_kind(ground.kind),
        within: ground.within.map(|id| id.0),
        width_m: ground.width_m,
        height_m: ground.height_m,
        trees: ground.trees.as_ref().map(built::trees),
        frame: ground.frame.map(built::frame),
        beds: ground.beds.map(built::beds),
        posts: ground.posts.map(built::posts),
        basin: ground.basin.map(built::basin),
        crop: ground.crop.clone(),
        note: ground.note.clone(),
        grazing: ground.grazing.as_ref().map(saved_grazing),
        is_locked: ground.is_locked,
        shows_lengths: ground.shows_lengths,
        raised: ground.raised,
        shape: match &ground.shape {
            Shape::Area(outline) => {
                SavedShape::Area(outline.parts.iter().map(saved_part).collect())
            }
            Shape::Line(corners) => SavedShape::Line(saved_points(corners)),
            Shape::Place(place) => SavedShape::Place(place.east_m, place.north_m),
        },
    }
}

fn saved_part(part: &Polygon) -> SavedPart {
    SavedPart {
        outer: saved_points(&part.outer.corners),
        holes: part
            .holes
            .iter()
            .map(|hole| saved_points(&hole.corners))
            .collect(),
    }
}

fn saved_points(points: &[Point]) -> Vec<SavedPoint> {
    points
        .iter()
        .map(|point| (point.east_m, point.north_m))
        .collect()
}

fn saved_grazing(grazing: &Grazing) -> SavedGrazing {
    SavedGrazing {
        growth_factor: grazing.growth_factor,
        leave_kg_per_ha: grazing.leave_kg_per_ha,
        enter_kg_per_ha: grazing.enter_kg_per_ha,
        ceiling_kg_per_ha: grazing.ceiling_kg_per_ha,
        end_cover_kg_per_ha: grazing.end_cover_kg_per_ha,
        last_grazed: grazing.last_grazed.map(SavedDay),
        readings: grazing
            .readings
            .iter()
            .map(|reading| (SavedDay(reading.day), reading.cover_kg_per_ha))
            .collect(),
        closed: grazing
            .closed
            .iter()
            .map(|span| (SavedDay(span.from), SavedDay(span.to), span.why.clone()))
            .collect(),
    }
}

fn given_gain(gain_g_per_day: f64) -> Option<f64> {
    (gain_g_per_day.abs() > 0.0).then_some(gain_g_per_day)
}

fn saved_change(change: &MobChange) -> SavedMobChange {
    SavedMobChange {
        from: SavedDay(change.from),
        class: saved_class(change.class),
        head: change.head,
        liveweight_kg: change.liveweight_kg,
        gain_g_per_day: given_gain(change.gain_g_per_day),
    }
}

fn saved_mob(mob: &Mob) -> SavedMob {
    SavedMob {
        name: mob.name.clone(),
        class: saved_class(mob.class),
        head: mob.head,
        liveweight_kg: mob.liveweight_kg,
        eats_kg_per_head: mob.eats_kg_per_head,
        gain_g_per_day: given_gain(mob.gain_g_per_day),
        lambed_on: mob.lambed_on.map(SavedDay),
        changes: mob.changes.iter().map(saved_change).collect(),
        yard: mob.yard.map(|yard| (yard.east_m, yard.north_m)),
        follows: mob
            .follows
            .map(|follows| (follows.mob.0, follows.days_after)),
        visits: mob
            .visits
            .iter()
            .map(|visit| (SavedDay(visit.from), SavedDay(visit.to)))
            .collect(),
    }
}

fn saved_place(place: FixedPlace) -> SavedPlace {
    match (place.place, place.lived) {
        (Some(ground), true) => SavedPlace::Lived(ground.0),
        (None, true) => SavedPlace::LivedInYard,
        (Some(ground), false) => SavedPlace::Fixed(ground.0),
        (None, false) => SavedPlace::FixedInYard,
    }
}

fn saved_class(class: StockClass) -> SavedClass {
    match class {
        StockClass::DryEwes => SavedClass::DryEwes,
        StockClass::EwesInLamb => SavedClass::EwesInLamb,
        StockClass::EwesWithLambs => SavedClass::EwesWithLambs,
        StockClass::Lambs => SavedClass::Lambs,
        StockClass::Rams => SavedClass::Rams,
    }
}

fn saved_kind(kind: Kind) -> SavedKind {
    match kind {
        Kind::Plot => SavedKind::Plot,
        Kind::Ley => SavedKind::Ley,
        Kind::Strip => SavedKind::Strip,
        Kind::Tunnel => SavedKind::Tunnel,
        Kind::TreeLine => SavedKind::TreeLine,
        Kind::Hedge => SavedKind::Hedge,
        Kind::Fence => SavedKind::Fence,
        Kind::Gate => SavedKind::Gate,
        Kind::Track => SavedKind::Track,
        Kind::Water => SavedKind::Water,
        Kind::Trough => SavedKind::Trough,
        Kind::Building => SavedKind::Building,
        Kind::Wood => SavedKind::Wood,
        Kind::KeepOut => SavedKind::KeepOut,
        Kind::Note => SavedKind::Note,
    }
}
