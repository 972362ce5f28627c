//! Flocks that stand where a hen house is to be towed on a day. Knows plans and outlines; moves nothing. Metres.

use crate::farm::{Farm, GroundId, MobId};
use crate::geometry::Point;
use crate::planning::{SeasonPlan, Stand};
use crate::quantity::Day;

/// How closely a way is looked at, metres: no strip that stock stand on is narrower.
const LOOKED_AT_EVERY_M: f64 = 0.5;

/// The mobs that stand on this day on ground which a way runs through, with that ground. The way is a line of corners.
pub fn flocks_on_way(
    farm: &Farm,
    plan: &SeasonPlan,
    way: &[Point],
    day: Day,
) -> Vec<(MobId, GroundId)> {
    let stands = farm.mobs.keys().filter_map(|mob| {
        let Stand::On(ground) = plan.stand_on(*mob, day) else {
            return None;
        };
        Some((*mob, ground))
    });
    let runs_through = |ground: &GroundId| {
        let outline = farm.ground.get(ground).and_then(|ground| ground.outline());
        outline.is_some_and(|outline| {
            let legs = way.iter().zip(way.iter().skip(1));
            legs.flat_map(|(from, to)| looked_at(*from, *to))
                .any(|place| outline.contains(place))
        })
    };
    stands.filter(|(_, ground)| runs_through(ground)).collect()
}

/// In words: where the flock stands, and what to do about it.
pub fn flock_on_way_told(farm: &Farm, (mob, ground): (MobId, GroundId)) -> String {
    let mob = farm.mobs.get(&mob).map_or("", |mob| mob.name.as_str());
    let ground = farm
        .ground
        .get(&ground)
        .map_or("", |ground| ground.name.as_str());
    format!(
        "the way runs through {ground}, where {mob} stand: tow round them, and turn the current off before netting is moved"
    )
}

fn looked_at(from: Point, to: Point) -> impl Iterator<Item = Point> {
    let steps = (from.distance_m(to) / LOOKED_AT_EVERY_M)
        .ceil()
        .clamp(1.0, 1e4);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held between 1 and ten thousand"
    )]
    let count = steps as u32;
    (0..=count).map(move |step| from.between(to, f64::from(step) / steps))
}
