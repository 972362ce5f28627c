//! The sums behind a stay: feed, days it lasts, fence to put up, water, rest, cautions.
//!
//! Everything is taken from farm and plan; each rule of thumb names its source where it stands.

use crate::farm::{Farm, Ground, GroundId, Kind, Mob, Shape};
use crate::geometry::{Outline, Point, geodesic};
use crate::planning::SeasonPlan;
use crate::planning::grazing_sums::{LENGTH_OF_ROLL_M, rolls_needed};
use crate::planning::grazing_sums::{WaterNeed, water_litres_a_day};
use crate::planning::grazing_sums::{days_lasting_with_growth, feed_kg};
use crate::quantity::Day;

/// Figures of a strip for a mob's stay.
#[derive(Debug, Clone, PartialEq)]
pub struct StripSums {
    /// Area, square metres, geodesic.
    pub area_m2: f64,
    /// Cover on the stay's first morning, kg DM/ha.
    pub cover_in_kg_per_ha: f64,
    /// Cover on the morning after the stay's last day, kg DM/ha.
    pub cover_out_kg_per_ha: f64,
    /// Cover this morning, kg DM/ha.
    pub cover_now_kg_per_ha: f64,
    /// Residual, kg DM/ha.
    pub leave_kg_per_ha: f64,
    /// Feed above the residual on the stay's first morning, kg DM.
    pub feed_kg: f64,
    /// What the mob eats in a day, kg DM.
    pub demand_kg: f64,
    /// Days the feed lasts with growth; `None` where it grows as fast as it is eaten.
    pub lasts_days: Option<f64>,
    /// Length round, metres.
    pub round_m: f64,
    /// Fence to put up: round less what lies on the ley's own boundary, metres.
    pub fence_m: f64,
    /// Rolls of 50 m for it.
    pub rolls: u32,
    /// Full days since the last spell before this stay, in this season; `None`: not yet grazed in it.
    pub rested_days: Option<usize>,
    /// Who stood here last.
    pub last_by: Option<String>,
    /// The day on which its rest will be done after this stay.
    pub ready_on: Day,
    /// Nearest trough or water.
    pub water_name: Option<String>,
    /// Metres from there to the strip's farthest corner.
    pub water_farthest_m: Option<f64>,
    /// Water the mob needs in a day, litres, least and most.
    pub water_l: (f64, f64),
    /// Nearest gate on the map, and metres from it to the strip.
    pub gate: Option<(String, f64)>,
    /// What to look out for, a sentence each.
    pub cautions: Vec<String>,
}

/// The farthest that water should be from any corner of a strip, metres: 800 ft is given as the most for cattle
/// (Iowa State University and West Virginia University extension, pasture layout; 244 m); rounded.
pub(super) const WATER_WALK_M: f64 = 250.0;
/// Poaching must be kept off water by this much, metres: Reduction and Prevention of Agricultural Diffuse Pollution
/// (England) Regulations 2018 (SI 2018/151), regulation 10(1).
const WATER_EDGE_M: f64 = 5.0;
/// How near a fence line must lie to a ley's boundary to be the same fence, metres.
const SAME_FENCE_M: f64 = 0.5;

/// The figures for a mob on a piece of ground; day indices of the stay's first day, today, and the stay's last day.
pub(super) fn strip_sums(
    farm: &Farm,
    plan: &SeasonPlan,
    mob: &Mob,
    id: GroundId,
    (first, index, last): (usize, usize, usize),
) -> Option<StripSums> {
    let ground = farm.ground.get(&id)?;
    let outline = ground.outline()?;
    let covers = plan.cover.get(&id)?;
    let (cover_in, cover_now, cover_out) = (
        *covers.get(first)?,
        *covers.get(index)?,
        *covers.get(last + 1)?,
    );
    let measured = geodesic::outline_measures(farm.frame, outline);
    let area_ha = measured.area_m2 / 10_000.0;
    let leave = farm.leave_on(id);
    let feed = feed_kg(area_ha, cover_in, leave).unwrap_or(0.0);
    let demand_kg = mob.demand_kg();
    let growth = farm.sward.growth_on(plan.day_at(first))
        * ground
            .grazing
            .as_ref()
            .map_or(1.0, |grazing| grazing.growth_factor);
    let fence_m = fence_to_put_up_m(farm, ground, outline);
    let former = plan
        .spells_of(id)
        .into_iter()
        .rev()
        .find(|spell| spell.to < first);
    let rest_days = i64::from(farm.rest_days_on(plan.day_at(last)));
    let water = nearest_water(farm, outline);
    Some(StripSums {
        area_m2: measured.area_m2,
        cover_in_kg_per_ha: cover_in,
        cover_out_kg_per_ha: cover_out,
        cover_now_kg_per_ha: cover_now,
        leave_kg_per_ha: leave,
        feed_kg: feed,
        demand_kg,
        lasts_days: days_lasting_with_growth(feed, demand_kg, area_ha, growth),
        round_m: measured.outer_perimeter_m,
        fence_m,
        rolls: rolls_needed(fence_m, 0.0, LENGTH_OF_ROLL_M).map_or(0, |needed| needed.rolls),
        rested_days: former.map(|spell| first - spell.to - 1),
        last_by: former
            .and_then(|spell| farm.mobs.get(&spell.mob))
            .map(|mob| format!("{} ({})", mob.name, mob.class.name())),
        ready_on: plan.day_at(last).plus_days(rest_days + 1),
        water_farthest_m: water.as_ref().map(|(_, distance_m)| *distance_m),
        water_name: water.map(|(name, _)| name),
        water_l: water_need(mob),
        gate: nearest_gate(farm, outline),
        cautions: cautions(
            farm,
            ground,
            outline,
            mob,
            measured.area_m2,
            plan.day_at(index),
        ),
    })
}

/// Metres of the strip's sides that do not lie on the boundary of its ley, where there is one.
fn fence_to_put_up_m(farm: &Farm, ground: &Ground, outline: &Outline) -> f64 {
    let ley = ground
        .within
        .and_then(|ley| farm.ground.get(&ley))
        .and_then(Ground::outline);
    let Some(ley) = ley else { return 0.0 };
    let on_boundary = |place: Point| {
        ley.nearest_side(place)
            .is_some_and(|near| near.distance_m <= SAME_FENCE_M)
    };
    outline
        .rings()
        .flat_map(crate::geometry::Ring::sides)
        .filter(|(from, to)| {
            ![0.0, 0.25, 0.5, 0.75, 1.0]
                .iter()
                .all(|share| on_boundary(from.between(*to, *share)))
        })
        .map(|(from, to)| geodesic::distance_m(farm.frame, from, to))
        .sum()
}

/// Name of the nearest trough or water, and the way from there to the farthest corner.
fn nearest_water(farm: &Farm, outline: &Outline) -> Option<(String, f64)> {
    let corners: Vec<Point> = outline
        .rings()
        .flat_map(|ring| ring.corners.iter().copied())
        .collect();
    farm.ground
        .values()
        .filter(|ground| ground.kind == Kind::Trough)
        .filter_map(|ground| match &ground.shape {
            Shape::Place(place) => Some((ground.name.clone(), *place)),
            Shape::Line(line) => line.first().map(|place| (ground.name.clone(), *place)),
            Shape::Area(area) => area
                .rings()
                .next()?
                .corners
                .first()
                .map(|place| (ground.name.clone(), *place)),
        })
        .map(|(name, place)| {
            (
                name,
                corners
                    .iter()
                    .map(|corner| corner.distance_m(place))
                    .fold(0.0, f64::max),
            )
        })
        .min_by(|a, b| a.1.total_cmp(&b.1).then_with(|| a.0.cmp(&b.0)))
}

/// Name of the nearest gate, and metres from it to the strip; 0 where it opens into the strip.
fn nearest_gate(farm: &Farm, outline: &Outline) -> Option<(String, f64)> {
    farm.ground
        .values()
        .filter(|ground| ground.kind == Kind::Gate)
        .map(|gate| {
            let corners = gate.shape.corners();
            let distance_m = corners
                .into_iter()
                .map(|corner| outline.distance_m(corner))
                .fold(f64::INFINITY, f64::min);
            (gate.name.clone(), distance_m)
        })
        .min_by(|a, b| a.1.total_cmp(&b.1).then_with(|| a.0.cmp(&b.0)))
}

fn water_need(mob: &Mob) -> (f64, f64) {
    use crate::farm::StockClass;
    let need = match mob.class {
        StockClass::EwesWithLambs => WaterNeed::Milking,
        StockClass::EwesInLamb => WaterNeed::InLamb,
        StockClass::DryEwes | StockClass::Lambs | StockClass::Rams => WaterNeed::Maintenance,
    };
    let head = f64::from(mob.head);
    water_litres_a_day(need, mob.liveweight_kg).map_or((0.0, 0.0), |range| {
        (range.least_l * head, range.most_l * head)
    })
}

fn cautions(
    farm: &Farm,
    ground: &Ground,
    outline: &Outline,
    mob: &Mob,
    area_m2: f64,
    day: Day,
) -> Vec<String> {
    let mut found = Vec::new();
    for other in farm
        .ground
        .values()
        .filter(|other| other.kind == Kind::Water)
    {
        let distance_m = other
            .shape
            .corners()
            .into_iter()
            .map(|corner| outline.distance_m(corner))
            .fold(f64::INFINITY, f64::min);
        if distance_m < WATER_EDGE_M {
            found.push(format!(
                "{} lies {distance_m:.1} m away: keep them {WATER_EDGE_M:.0} m off its edge",
                other.name
            ));
        }
    }
    let head_per_ha = f64::from(mob.head) * 10_000.0 / area_m2.max(1.0);
    if head_per_ha > 1200.0 {
        found.push(format!(
            "{head_per_ha:.0} head/ha: dung and urine fall in patches above 1200"
        ));
    }
    if let Some(grazing) = &ground.grazing
        && let Some(span) = grazing
            .closed
            .iter()
            .find(|span| (0..=3).contains(&span.from.days_since(day)))
    {
        found.push(format!(
            "closes on {}: {}",
            span.from.short_text(),
            span.why
        ));
    }
    if !ground.note.is_empty() {
        found.push(ground.note.clone());
    }
    found
}
