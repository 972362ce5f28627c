//! Flocks that stand where a hen house is to be towed on a day. Knows plans and outlines; moves nothing. Metres.

use crate::farm::{Farm, GroundId, MobId};
use crate::geometry::Point;
use crate::planning::{SeasonPlan, Stand};
use crate::quantity::Day;

/// How closely a way is looked at, metres: no strip that stock stand on is narrower.
const LOOKED_AT_EVERY_M: f64 = 0.5;

/// A flock on ground that a way runs through.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FlockOnWay {
    /// The mob.
    pub mob: MobId,
    /// The ground.
    pub ground: GroundId,
    /// Whether it stands there only until it is moved on that day.
    pub is_moved_off: bool,
}

/// The mobs that stand on this day, or until they are moved on it, on ground which a way runs through. The way is a line
/// of corners.
pub fn flocks_on_way(farm: &Farm, plan: &SeasonPlan, way: &[Point], day: Day) -> Vec<FlockOnWay> {
    let runs_through = |ground: &GroundId| {
        let outline = farm.ground.get(ground).and_then(|ground| ground.outline());
        outline.is_some_and(|outline| {
            let legs = way.iter().zip(way.iter().skip(1));
            legs.flat_map(|(from, to)| looked_at(*from, *to))
                .any(|place| outline.contains(place))
        })
    };
    let mut found = Vec::new();
    for mob in farm.mobs.keys() {
        let now = plan.stand_on(*mob, day);
        let before = plan.stand_on(*mob, day.plus_days(-1));
        let stands = [(now, false), (before, true)];
        for (stand, is_moved_off) in stands {
            if let Stand::On(ground) = stand
                && !(is_moved_off && before == now)
                && runs_through(&ground)
            {
                found.push(FlockOnWay {
                    mob: *mob,
                    ground,
                    is_moved_off,
                });
            }
        }
    }
    found
}

/// In words: where the flock stands, and what to do about it.
pub fn flock_on_way_told(farm: &Farm, flock: FlockOnWay) -> String {
    let mob = farm
        .mobs
        .get(&flock.mob)
        .map_or("", |mob| mob.name.as_str());
    let ground = farm.ground.get(&flock.ground);
    let ground = ground.map_or("", |ground| ground.name.as_str());
    let (stay, remedy) = if flock.is_moved_off {
        (
            "stand until they are moved",
            "move them first, or tow round them",
        )
    } else {
        ("stand", "tow round them")
    };
    format!(
        "the way runs through {ground}, where {mob} {stay}: {remedy}, and turn the current off before netting is moved"
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
