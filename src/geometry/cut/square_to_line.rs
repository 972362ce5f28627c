//! Strips whose ends lie along a line, as a track: each cut runs square to the line's course.
//!
//! Along a straight line the cuts are parallel. Along a bent one each is square to the course at its own station, the
//! course turning evenly from the middle of one stretch to the middle of the next. Where such cuts would meet inside
//! the ground all of them run square to the mean course instead. Metres, square metres, degrees.

use super::super::line::{length_m, stretches};
use super::super::{Outline, Point, Whereabouts};
use super::cross_section::{CarefulSum, CrossSection, sine_cosine_deg, wound_rings};
use super::reach::gap_to_line_m;
use super::sweep::Towards;
use super::{
    CutError, StripPiece, StripSize, checked_count, count_of, figure, section_of, slice,
    strips_along,
};

/// Strips along a line.
#[derive(Debug, Clone, PartialEq)]
pub struct SquareCut {
    /// The strips, in the order of the line.
    pub strips: Vec<StripPiece>,
    /// What the cuts are square to.
    pub course: LineCourse,
}

/// What cuts along a line are square to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineCourse {
    /// The line is straight there.
    Straight,
    /// The line's course at each cut.
    Bent,
    /// The mean course: the line bends too much for cuts of their own.
    Mean,
}

/// Strips whose cuts run square to `line`, in its order. The line counts where it is no more than `reach_m` farther
/// from the ground than at its nearest; `None` where that is a single place, about which strips should fan out.
///
/// # Errors
/// No ground, no strips or too many, a size not above 0, a line of fewer than two points.
pub fn strips_square_to_line(
    outline: &Outline,
    line: &[Point],
    reach_m: f64,
    size: StripSize,
) -> Result<Option<SquareCut>, CutError> {
    if line.len() < 2 || !line.iter().all(|point| point.is_finite()) {
        return Err(CutError::LineTooShort);
    }
    section_of(outline, 0.0)?;
    let course = course_along(outline, line, reach_m);
    let (Some(first), Some(last)) = (course.first(), course.last()) else {
        return Ok(None);
    };
    if first.distance_m(*last) < 1.0 {
        return Ok(None);
    }
    let mean_deg = first.bearing_deg(*last);
    // Looking to the line's left, what comes first along it lies to the left.
    let mean = || strips_along(outline, mean_deg - 90.0, size);
    let is_straight = stretches(&course).all(|(from, to)| runs_along(from, to, mean_deg));
    if is_straight {
        let (strips, course) = (mean()?, LineCourse::Straight);
        return Ok(Some(SquareCut { strips, course }));
    }
    let bent = BentCourse::new(&course).strips(outline, size)?;
    Ok(Some(match bent {
        Some(strips) => SquareCut {
            strips,
            course: LineCourse::Bent,
        },
        None => SquareCut {
            strips: mean()?,
            course: LineCourse::Mean,
        },
    }))
}

/// Whether a stretch runs along a bearing as near as anyone could peg it out: a tenth of a degree.
fn runs_along(from: Point, to: Point, bearing_deg: f64) -> bool {
    let off_deg = (from.bearing_deg(to) - bearing_deg + 180.0).rem_euclid(360.0) - 180.0;
    off_deg.abs() < 0.1
}

/// The stretch of a line that runs along the ground.
fn course_along(outline: &Outline, line: &[Point], reach_m: f64) -> Vec<Point> {
    let near_m = gap_to_line_m(outline, line) + reach_m;
    let mut from_m = f64::INFINITY;
    let mut to_m = f64::NEG_INFINITY;
    let mut passed_m = 0.0;
    for (from, to) in stretches(line) {
        let long_m = from.distance_m(to);
        let mut count = |place: Point| {
            let at_m = passed_m + from.distance_m(place);
            from_m = from_m.min(at_m);
            to_m = to_m.max(at_m);
        };
        for place in [from, to] {
            if outline.distance_m(place) <= near_m {
                count(place);
            }
        }
        for corner in outline.rings().flat_map(|ring| ring.corners.iter()) {
            let place = corner.nearest_on_side(from, to);
            if corner.distance_m(place) <= near_m {
                count(place);
            }
        }
        passed_m += long_m;
    }
    part_of_line(line, from_m, to_m)
}

fn part_of_line(line: &[Point], from_m: f64, to_m: f64) -> Vec<Point> {
    let mut part = Vec::new();
    let mut passed_m = 0.0;
    for (from, to) in stretches(line) {
        let long_m = from.distance_m(to);
        if long_m > 0.0 && passed_m + long_m >= from_m && passed_m <= to_m {
            let at =
                |along_m: f64| from.between(to, ((along_m - passed_m) / long_m).clamp(0.0, 1.0));
            part.push(at(from_m));
            part.push(at(to_m));
        }
        passed_m += long_m;
    }
    part.dedup_by(|later, kept| later.distance_m(*kept) < 1e-6);
    part
}

/// A line with the middles of its stretches and their directions.
struct BentCourse<'a> {
    line: &'a [Point],
    long_m: f64,
    middles: Vec<(f64, Towards)>,
}

impl<'a> BentCourse<'a> {
    fn new(line: &'a [Point]) -> Self {
        let mut passed_m = 0.0;
        let middles = stretches(line)
            .map(|(from, to)| {
                let long_m = from.distance_m(to);
                let at_m = passed_m + long_m / 2.0;
                passed_m += long_m;
                (at_m, sine_cosine_deg(from.bearing_deg(to)))
            })
            .collect();
        Self {
            line,
            long_m: length_m(line),
            middles,
        }
    }

    /// The place at a station, the line going straight on beyond its ends, and the direction of a cut there: to the
    /// line's left.
    fn cut_at(&self, along_m: f64) -> Option<(Point, Towards)> {
        let after = self.middles.partition_point(|(at_m, _)| *at_m <= along_m);
        let before = after
            .checked_sub(1)
            .and_then(|index| self.middles.get(index));
        let (sine, cosine) = match (before, self.middles.get(after)) {
            (Some((from_m, from)), Some((to_m, to))) => {
                let share = (along_m - from_m) / (to_m - from_m);
                (
                    (to.0 - from.0).mul_add(share, from.0),
                    (to.1 - from.1).mul_add(share, from.1),
                )
            }
            (Some((_, only)), None) | (None, Some((_, only))) => *only,
            (None, None) => return None,
        };
        let length = sine.hypot(cosine);
        let course = (sine / length, cosine / length);
        let on_line_m = along_m.clamp(0.0, self.long_m);
        let place = super::super::line::station_at(self.line, on_line_m)?.place;
        let beyond_m = along_m - on_line_m;
        let place = place.moved(course.0 * beyond_m, course.1 * beyond_m);
        // The bearing less a quarter turn.
        (length > 0.0).then_some((place, (-course.1, course.0)))
    }

    /// The strips; none where cuts would meet in the ground.
    fn strips(
        &self,
        outline: &Outline,
        size: StripSize,
    ) -> Result<Option<Vec<StripPiece>>, CutError> {
        let whole_m2: f64 = outline.area_m2();
        let (count, each_m2) = match size {
            StripSize::Count(0) => return Err(CutError::NoStrips),
            StripSize::Count(count) => (checked_count(count)?, whole_m2 / figure(count)),
            StripSize::AreaM2(area_m2) => (count_of(whole_m2, area_m2)?, area_m2),
            // One width has no meaning along a bend.
            StripSize::WidthM(_) => return Ok(None),
        };
        let mut strips = Vec::with_capacity(count);
        let mut rest = outline.clone();
        let mut last_cut: Option<(Point, Towards)> = None;
        for index in 1..count {
            let left_m2 = each_m2 * figure(count - index);
            let left_m2 = match size {
                StripSize::Count(_) => left_m2,
                _ => whole_m2 - each_m2 * figure(index),
            };
            let Some(cut) = self.cut_leaving(&rest, rest.area_m2() - left_m2) else {
                return Ok(None);
            };
            if last_cut.is_some_and(|last| meet_in(outline, last, cut)) {
                return Ok(None);
            }
            last_cut = Some(cut);
            let section = CrossSection::towards(&rest, cut.1);
            let offset_m = section.offset_through_m(cut.0);
            let mut both = slice::strips(&section, &[offset_m]).into_iter();
            let (Some(strip), Some(beyond)) = (both.next(), both.next()) else {
                return Ok(None);
            };
            if (strip.outline.area_m2() / each_m2 - 1.0).abs() > 5e-10 {
                return Ok(None);
            }
            strips.push(strip);
            rest = beyond.outline;
        }
        strips.push(StripPiece {
            pieces: rest.parts.len(),
            outline: rest,
        });
        Ok(Some(strips))
    }

    /// The cut that leaves an area to its left, found by false position with halved weights (the Illinois rule,
    /// M. Dowell and P. Jarratt, BIT 11, 1971), and by halving where that is slow.
    fn cut_leaving(&self, ground: &Outline, area_m2: f64) -> Option<(Point, Towards)> {
        let rings = wound_rings(ground);
        let bounds = ground.bounds()?;
        let far_m = self
            .line
            .iter()
            .flat_map(|point| {
                [
                    point.distance_m(bounds.least),
                    point.distance_m(bounds.most),
                ]
            })
            .fold(0.0, f64::max)
            * 2.0;
        let off_m2 = |along_m: f64| {
            let (place, towards) = self.cut_at(along_m)?;
            Some(area_left_m2(&rings, place, towards) - area_m2)
        };
        let (mut low_m, mut high_m) = (-far_m, self.long_m + far_m);
        let (mut low_off, mut high_off) = (off_m2(low_m)?, off_m2(high_m)?);
        if low_off > 0.0 || high_off < 0.0 {
            return None;
        }
        let mut kept_low = None;
        for step in 0..200 {
            let weighted_m = (low_m * high_off - high_m * low_off) / (high_off - low_off);
            let is_between = weighted_m > low_m && weighted_m < high_m;
            let at_m = if is_between && step % 8 != 7 {
                weighted_m
            } else {
                f64::midpoint(low_m, high_m)
            };
            let off = off_m2(at_m)?;
            if off.abs() <= area_m2 * 1e-14 || high_m - low_m <= 1e-13 * far_m {
                return self.cut_at(at_m);
            }
            // An end that stays twice running loses half its weight.
            let keeps_low = off >= 0.0;
            if keeps_low {
                (high_m, high_off) = (at_m, off);
                low_off /= if kept_low == Some(true) { 2.0 } else { 1.0 };
            } else {
                (low_m, low_off) = (at_m, off);
                high_off /= if kept_low == Some(false) { 2.0 } else { 1.0 };
            }
            kept_low = Some(keeps_low);
        }
        self.cut_at(f64::midpoint(low_m, high_m))
    }
}

/// Area of ground to the left of the line through `place`, looking along `towards`.
fn area_left_m2(rings: &[super::super::Ring], place: Point, (sine, cosine): Towards) -> f64 {
    let mut sum = CarefulSum::default();
    let turn = |corner: Point| {
        let (east, north) = (corner.east_m - place.east_m, corner.north_m - place.north_m);
        (
            -(east * sine + north * cosine),
            east * cosine - north * sine,
        )
    };
    for (from, to) in rings.iter().flat_map(super::super::Ring::sides) {
        let (from, to) = (turn(from), turn(to));
        let ((low, high), sign) = if from.1 <= to.1 {
            ((from, to), 1.0)
        } else {
            ((to, from), -1.0)
        };
        if low.1 >= 0.0 {
            continue;
        }
        let top = if high.1 <= 0.0 {
            high
        } else {
            let share = low.1 / (low.1 - high.1);
            ((high.0 - low.0).mul_add(share, low.0), 0.0)
        };
        sum.add(sign * f64::midpoint(low.0, top.0) * (top.1 - low.1));
    }
    sum.total()
}

/// Whether two cuts meet inside the ground.
fn meet_in(
    outline: &Outline,
    (place, towards): (Point, Towards),
    (other, other_towards): (Point, Towards),
) -> bool {
    let cross = towards.0 * other_towards.1 - towards.1 * other_towards.0;
    let (east, north) = (other.east_m - place.east_m, other.north_m - place.north_m);
    let along_m = (east * other_towards.1 - north * other_towards.0) / cross;
    along_m.is_finite()
        && outline.whereabouts(place.moved(towards.0 * along_m, towards.1 * along_m))
            != Whereabouts::Outside
}
