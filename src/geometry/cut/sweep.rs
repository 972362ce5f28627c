//! How much ground a ray sweeps over as it turns clockwise about a place, and how far it must turn for a given area.
//!
//! The area is the signed sum of the triangles that the place makes with every side (Green's theorem in polar form), so
//! it holds for bent ground and holes too. Angles are radians clockwise from the start; metres and square metres.

use std::f64::consts::TAU;

use super::super::{Point, Ring};
use super::cross_section::CarefulSum;

/// A direction: sine and cosine of its bearing.
pub(super) type Towards = (f64, f64);

/// A ray from the place about which the sweep turns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Ray {
    /// Radians clockwise from the start.
    pub(super) angle: f64,
    pub(super) towards: Towards,
}

/// Ground seen from a place.
pub(super) struct Sweep {
    sides: Vec<SeenSide>,
    start: Towards,
    /// The corners' directions, in order of their angles.
    corners: Vec<Ray>,
    area_m2: f64,
}

/// A side seen from the place: its ends in clockwise order, as east and north from there.
struct SeenSide {
    low: (f64, f64),
    high: (f64, f64),
    low_angle: f64,
    high_angle: f64,
    /// Twice the area of the triangle; above 0 where it adds ground.
    doubled_m2: f64,
}

impl Sweep {
    /// Rings whose ground lies to their left, seen from `centre`.
    pub(super) fn new(rings: &[Ring], centre: Point, start: Towards) -> Self {
        let from_centre = |corner: Point| {
            (
                corner.east_m - centre.east_m,
                corner.north_m - centre.north_m,
            )
        };
        let sides: Vec<SeenSide> = rings
            .iter()
            .flat_map(Ring::sides)
            .filter_map(|(from, to)| SeenSide::new(from_centre(from), from_centre(to), start))
            .collect();
        let mut corners: Vec<Ray> = sides
            .iter()
            .flat_map(|side| [(side.low, side.low_angle), (side.high, side.high_angle)])
            .map(|((east, north), angle)| {
                let length_m = east.hypot(north);
                Ray {
                    angle: angle % TAU,
                    towards: (east / length_m, north / length_m),
                }
            })
            .collect();
        corners.sort_by(|one, two| one.angle.total_cmp(&two.angle));
        corners.dedup_by(|later, kept| later.angle.total_cmp(&kept.angle).is_eq());
        let mut sum = CarefulSum::default();
        for side in &sides {
            sum.add(side.doubled_m2);
        }
        Self {
            sides,
            start,
            corners,
            area_m2: sum.total() / 2.0,
        }
    }

    pub(super) fn area_m2(&self) -> f64 {
        self.area_m2
    }

    /// The direction at the end of the widest view that shows no ground; none where there is ground all round.
    pub(super) fn after_widest_gap(&self) -> Option<Towards> {
        let mut order: Vec<&SeenSide> = self.sides.iter().collect();
        order.sort_by(|one, two| one.low_angle.total_cmp(&two.low_angle));
        // What reaches over the start hides the first directions.
        let last_high = order.iter().map(|side| side.high_angle).fold(0.0, f64::max);
        let mut seen_to = last_high - TAU;
        let mut widest: Option<(f64, (f64, f64))> = None;
        for side in order {
            let gap = side.low_angle - seen_to;
            if gap > LEAST_GAP && widest.is_none_or(|(most, _)| gap > most) {
                widest = Some((gap, side.low));
            }
            seen_to = seen_to.max(side.high_angle);
        }
        let (_, (east, north)) = widest?;
        let length_m = east.hypot(north);
        Some((east / length_m, north / length_m))
    }

    /// The ray up to which `area_m2` lies; one within `slack_m2` of a corner runs through it.
    pub(super) fn ray_of_area(&self, area_m2: f64, slack_m2: f64) -> Ray {
        let up_to = self
            .corners
            .partition_point(|corner| self.area_up_to_m2(corner.angle, corner.towards) <= area_m2);
        let around = [up_to.checked_sub(1), Some(up_to)];
        for corner in around.into_iter().flatten() {
            if let Some(corner) = self.corners.get(corner)
                && (self.area_up_to_m2(corner.angle, corner.towards) - area_m2).abs() <= slack_m2
            {
                return *corner;
            }
        }
        let low = up_to
            .checked_sub(1)
            .and_then(|index| self.corners.get(index));
        let low = low.map_or(0.0, |corner| corner.angle);
        let high = self.corners.get(up_to).map_or(TAU, |corner| corner.angle);
        let angle = self.solved_angle(area_m2, low, high);
        Ray {
            angle,
            towards: self.towards(angle),
        }
    }

    /// Newton's steps, held within the halved span, between two neighbouring corners.
    fn solved_angle(&self, area_m2: f64, mut low: f64, mut high: f64) -> f64 {
        let mut angle = f64::midpoint(low, high);
        for _ in 0..MOST_STEPS {
            let towards = self.towards(angle);
            let off_m2 = self.area_up_to_m2(angle, towards) - area_m2;
            if off_m2 > 0.0 {
                high = angle;
            } else {
                low = angle;
            }
            let step = off_m2 / self.growth_m2(angle, towards);
            // Told before the span is asked: a step below rounding leaves the angle at an end of it.
            if off_m2 == 0.0 || step.abs() <= f64::EPSILON * angle {
                return angle;
            }
            let next = angle - step;
            let next = if next > low && next < high {
                next
            } else {
                f64::midpoint(low, high)
            };
            angle = next;
        }
        angle
    }

    fn towards(&self, angle: f64) -> Towards {
        let (sine, cosine) = angle.sin_cos();
        (
            self.start.0 * cosine + self.start.1 * sine,
            self.start.1 * cosine - self.start.0 * sine,
        )
    }

    /// Area swept from the start up to a ray.
    fn area_up_to_m2(&self, angle: f64, towards: Towards) -> f64 {
        let mut sum = CarefulSum::default();
        for side in &self.sides {
            let mut share = 0.0;
            if side.low_angle < angle {
                share += side.share_at(angle, towards);
            }
            if side.high_angle > TAU {
                // The part beyond a full turn is swept first.
                share += side.share_at(angle + TAU, towards) - side.share_at(TAU, self.start);
            }
            sum.add(side.doubled_m2 * share.clamp(0.0, 1.0));
        }
        sum.total() / 2.0
    }

    /// Square metres for each radian that the ray turns on.
    fn growth_m2(&self, angle: f64, towards: Towards) -> f64 {
        let turns = [angle, angle + TAU];
        let seen = self.sides.iter().flat_map(|side| {
            turns
                .iter()
                .filter(|at| (side.low_angle..=side.high_angle).contains(*at))
                .map(|at| {
                    let share = side.share_at(*at, towards);
                    let east = (side.high.0 - side.low.0).mul_add(share, side.low.0);
                    let north = (side.high.1 - side.low.1).mul_add(share, side.low.1);
                    side.doubled_m2.signum() * (east * east + north * north) / 2.0
                })
        });
        seen.sum()
    }
}

/// A view narrower than this is none, radians.
const LEAST_GAP: f64 = 1e-7;

/// Halving alone gets to the last digit within these.
const MOST_STEPS: usize = 80;

impl SeenSide {
    /// None where the side points straight at the place.
    fn new(from: (f64, f64), to: (f64, f64), start: Towards) -> Option<Self> {
        let doubled_m2 = cross(from, to);
        if doubled_m2 == 0.0 || !doubled_m2.is_finite() {
            return None;
        }
        // Ground to the left of a side lies on the near hand where the side runs anticlockwise about the place.
        let (low, high) = if doubled_m2 > 0.0 {
            (to, from)
        } else {
            (from, to)
        };
        let dot = |one: (f64, f64), two: (f64, f64)| one.0 * two.0 + one.1 * two.1;
        let low_angle = cross(low, start).atan2(dot(low, start)).rem_euclid(TAU);
        // Rounding up may make a whole turn of what is all but none.
        let low_angle = if low_angle < TAU { low_angle } else { 0.0 };
        let width = doubled_m2.abs().atan2(dot(low, high));
        Some(Self {
            low,
            high,
            low_angle,
            high_angle: low_angle + width,
            doubled_m2,
        })
    }

    /// The share of the side that lies before a ray, whose angle may be beyond a full turn.
    fn share_at(&self, angle: f64, towards: Towards) -> f64 {
        if angle <= self.low_angle {
            return 0.0;
        }
        if angle >= self.high_angle {
            return 1.0;
        }
        let (low, high) = (cross(self.low, towards), cross(self.high, towards));
        let share = low / (low - high);
        if share.is_finite() {
            share.clamp(0.0, 1.0)
        } else {
            0.0
        }
    }
}

fn cross(one: (f64, f64), two: (f64, f64)) -> f64 {
    one.0 * two.1 - one.1 * two.0
}
