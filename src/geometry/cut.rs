//! Cutting ground: into strips of equal or given area, into strips of a width, or along a drawn line.
//!
//! The cut lines of strips run along a bearing; the first strip lies farthest to the left of a person looking that
//! way. Strips may fall in several pieces where the ground is bent; holes are kept. Neighbouring strips share the very
//! same corners. Areas are those of the plane, square metres; lengths metres; bearings degrees clockwise from north.
//!
//! # Assumptions
//! The outline is sound (see [`super::validity`]); of one that is not, the pieces still add up, but may overlap.

mod assemble;
mod cross_section;
mod fan;
mod reach;
mod relink;
mod slice;
mod split;
mod split_faces;
mod square_to_line;
mod sweep;

pub use fan::{Fan, strips_about_place};
pub use reach::{gap_to_line_m, gap_to_outline_m};
pub use split::split_by_line;
pub use square_to_line::{LineCourse, SquareCut, strips_square_to_line};

use super::{Outline, Point, Polygon};
use cross_section::{CrossSection, wound_rings};

/// One strip of a cut.
#[derive(Debug, Clone, PartialEq)]
pub struct StripPiece {
    /// The strip's ground; outer rings run anticlockwise, holes clockwise.
    pub outline: Outline,
    /// In how many pieces it falls; above 1 is worth telling.
    pub pieces: usize,
}

/// How large strips are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StripSize {
    /// So many, all of one area.
    Count(usize),
    /// Of this area; what is left over is the last one.
    AreaM2(f64),
    /// Of this width; the last one is as wide as what is left.
    WidthM(f64),
}

/// The most strips one cut makes.
pub const MOST_STRIPS: usize = 10_000;

/// The share of a strip's area by which a line may be moved to run through a corner: below what is promised.
const SLACK: f64 = 1e-10;

/// The share of a strip's width by which a line may be moved to run through a corner: 2 µm on 20 m.
const WIDTH_SLACK: f64 = 1e-7;

/// Why a cut was not made.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum CutError {
    /// The outline encloses no ground, or a figure of it is not a number.
    #[error("there is no ground to cut")]
    NoGround,
    /// No strips were asked for.
    #[error("a cut needs at least one strip")]
    NoStrips,
    /// More strips than a cut makes.
    #[error("that would make {count} strips; at most {MOST_STRIPS} are cut at once")]
    TooManyStrips {
        /// How many it would have been; the largest count where it would be more.
        count: usize,
    },
    /// The bearing is not a number.
    #[error("the direction of the cut is not a number")]
    NotABearing,
    /// The area or width of a strip is not above 0.
    #[error("a strip must be larger than nothing")]
    NoSize,
    /// Strips of one width were asked for where strips meet at one place.
    #[error("strips that meet at one place have no one width: give a number or an area instead")]
    NoOneWidth,
    /// The outline has no such side, or one of no length.
    #[error("there is no such side to cut along: choose another")]
    NoSuchSide,
    /// What strips were to reach is gone.
    #[error("what the strips were to reach is gone: choose something else")]
    NothingToReach,
    /// The drawn line has fewer than two points that differ, or a figure that is not a number.
    #[error("the line needs two points at least")]
    LineTooShort,
    /// The drawn line crosses, touches or doubles back over itself.
    #[error("the line crosses or touches itself")]
    LineCrossesItself,
    /// The drawn line does not run across the ground from boundary to boundary.
    #[error(
        "the line does not cut the ground in two: draw it from one boundary right across to another"
    )]
    LineDoesNotCross,
}

/// Strips of a size, cut along `bearing_deg`.
///
/// # Errors
/// As for each size by itself.
pub fn strips_along(
    outline: &Outline,
    bearing_deg: f64,
    size: StripSize,
) -> Result<Vec<StripPiece>, CutError> {
    match size {
        StripSize::Count(count) => strips_of_equal_area(outline, bearing_deg, count),
        StripSize::AreaM2(area_m2) => strips_of_area(outline, bearing_deg, area_m2),
        StripSize::WidthM(width_m) => strips_of_width(outline, bearing_deg, width_m),
    }
}

/// `count` strips of equal area, cut along `bearing_deg`.
///
/// # Errors
/// No ground, no strips or too many, a bearing that is not a number.
pub fn strips_of_equal_area(
    outline: &Outline,
    bearing_deg: f64,
    count: usize,
) -> Result<Vec<StripPiece>, CutError> {
    if count == 0 {
        return Err(CutError::NoStrips);
    }
    let section = section_of(outline, bearing_deg)?;
    let share_m2 = section.area_m2() / figure(count);
    let areas_m2 = (1..checked_count(count)?).map(|index| share_m2 * figure(index));
    let offsets_m = section.offsets_of_areas(areas_m2, share_m2 * SLACK);
    Ok(slice::strips(&section, &offsets_m))
}

/// Strips of `area_m2` each, cut along `bearing_deg`; what is left over is the last one.
///
/// # Errors
/// No ground, an area not above 0, too many strips, a bearing that is not a number.
pub fn strips_of_area(
    outline: &Outline,
    bearing_deg: f64,
    area_m2: f64,
) -> Result<Vec<StripPiece>, CutError> {
    let section = section_of(outline, bearing_deg)?;
    let count = count_of(section.area_m2(), area_m2)?;
    let areas_m2 = (1..count).map(|index| area_m2 * figure(index));
    let offsets_m = section.offsets_of_areas(areas_m2, area_m2 * SLACK);
    Ok(slice::strips(&section, &offsets_m))
}

/// Strips `width_m` wide, cut along `bearing_deg` from the left; the last one is as wide as what is left.
/// Where the ground is in parts with a gap between them, strips that would hold nothing are left out.
///
/// # Errors
/// No ground, a width not above 0, too many strips, a bearing that is not a number.
pub fn strips_of_width(
    outline: &Outline,
    bearing_deg: f64,
    width_m: f64,
) -> Result<Vec<StripPiece>, CutError> {
    let section = section_of(outline, bearing_deg)?;
    let (least_m, most_m) = section.reach_m();
    let count = count_of(most_m - least_m, width_m)?;
    let offsets_m: Vec<f64> = (1..count)
        .map(|index| width_m.mul_add(figure(index), least_m))
        .map(|offset_m| section.offset_or_corner_m(offset_m, width_m * WIDTH_SLACK))
        .collect();
    let strips = slice::strips(&section, &offsets_m);
    Ok(strips
        .into_iter()
        .filter(|strip| strip.pieces > 0)
        .collect())
}

/// The bearing across the longest side of the first outer ring, so that strips lie along the short way; none where
/// there is no side of any length. Sides that run on all but straight count as one. Degrees, 0 to 360.
pub fn bearing_across_longest_side(outline: &Outline) -> Option<f64> {
    let ring = &outline.parts.first()?.outer;
    let sides: Vec<(Point, Point)> = ring.sides().collect();
    let mut longest: Option<(f64, f64)> = None;
    for (start, &(from, next)) in sides.iter().enumerate() {
        if from.distance_m(next) <= 0.0 {
            continue;
        }
        let first_deg = from.bearing_deg(next);
        let mut end = next;
        for &(on_from, on_to) in sides.iter().cycle().skip(start + 1).take(sides.len()) {
            let turn_deg = (on_from.bearing_deg(on_to) - first_deg + 180.0).rem_euclid(360.0);
            if (turn_deg - 180.0).abs() > STILL_STRAIGHT_DEG {
                break;
            }
            end = on_to;
        }
        let long_m = from.distance_m(end);
        if longest.is_none_or(|(most_m, _)| long_m > most_m) {
            longest = Some((long_m, from.bearing_deg(end)));
        }
    }
    let (_, along_deg) = longest?;
    // Looking along the bearing the ground must lie to the right, as with a side.
    let along_deg = if ring.signed_area_m2() > 0.0 {
        along_deg + 180.0
    } else {
        along_deg
    };
    Some((along_deg + 90.0).rem_euclid(360.0))
}

/// A bend below this leaves a side straight to the eye, degrees (from memory, no source).
const STILL_STRAIGHT_DEG: f64 = 2.0;

/// The bearing along a side of an outer ring, such that the first strip of a cut lies at that side where the
/// ground is not bent back behind it; none where there is no such side or it is of no length.
pub fn bearing_along_side(outline: &Outline, part: usize, side: usize) -> Option<f64> {
    let ring = &outline.parts.get(part)?.outer;
    let (from, to) = ring.sides().nth(side)?;
    if from.distance_m(to) <= 0.0 {
        return None;
    }
    // Looking along the bearing the ground must lie to the right.
    let (from, to) = if ring.signed_area_m2() > 0.0 {
        (to, from)
    } else {
        (from, to)
    };
    Some(from.bearing_deg(to))
}

/// The same ground with every piece that touching rings cut apart as a part of its own.
pub fn parted_at_touches(outline: &Outline) -> Outline {
    let alone = |part: &Polygon| Outline {
        parts: vec![part.clone()],
    };
    let parts = outline.parts.iter().flat_map(|part| {
        let rings = wound_rings(&alone(part))
            .into_iter()
            .map(|ring| ring.corners);
        assemble::polygons(relink::faces(rings.collect()), 0.0)
    });
    Outline {
        parts: parts.collect(),
    }
}

fn section_of(outline: &Outline, bearing_deg: f64) -> Result<CrossSection, CutError> {
    if !bearing_deg.is_finite() {
        return Err(CutError::NotABearing);
    }
    if !outline.is_finite() {
        return Err(CutError::NoGround);
    }
    let section = CrossSection::new(outline, bearing_deg);
    if section.area_m2() > 0.0 && section.area_m2().is_finite() {
        Ok(section)
    } else {
        Err(CutError::NoGround)
    }
}

/// How many strips of a size a whole gives, the rest counted as one unless it is mere rounding.
fn count_of(whole: f64, size: f64) -> Result<usize, CutError> {
    if !(size > 0.0 && size.is_finite()) {
        return Err(CutError::NoSize);
    }
    let count = (whole / size - 1e-9).ceil().max(1.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a whole figure, at least 1; one too large for a count becomes the largest count and is refused"
    )]
    checked_count(count as usize)
}

/// How far round to the right, from straight back, the way on from `node` lies for a walk that came from `back`:
/// the least of several is the leftmost way, straight back the last. Radians, above 0 up to a full turn.
fn leftmost_turn(back: Point, node: Point, on: Point) -> f64 {
    let angle = |to: Point| (to.north_m - node.north_m).atan2(to.east_m - node.east_m);
    let turned = (angle(back) - angle(on)).rem_euclid(std::f64::consts::TAU);
    if turned > 0.0 {
        turned
    } else {
        std::f64::consts::TAU
    }
}

/// A count as a figure to reckon with.
#[expect(
    clippy::cast_precision_loss,
    reason = "counts of strips and corners are far below 2^52"
)]
fn figure(count: usize) -> f64 {
    count as f64
}

fn checked_count(count: usize) -> Result<usize, CutError> {
    if count > MOST_STRIPS {
        return Err(CutError::TooManyStrips { count });
    }
    Ok(count)
}
