//! Strips that fan out from one place, so that each of them reaches it: a trough, a gate, a water point.
//!
//! Ground is halved along the first ray; in either half a ray is a whole straight line, so it is sliced as any other
//! cut. The strip that lies over the far end of the first line is put together again. Metres and square metres.

use std::collections::BTreeSet;
use std::f64::consts::PI;

use super::super::place_key::PlaceKey;
use super::super::{Outline, Point, Polygon, Whereabouts};
use super::cross_section::{CrossSection, sine_cosine_deg, wound_rings};
use super::sweep::{Ray, Sweep, Towards};
use super::{CutError, SLACK, StripPiece, StripSize, assemble, checked_count, count_of, figure};
use super::{relink, slice};

/// Strips that all begin at one place.
#[derive(Debug, Clone, PartialEq)]
pub struct Fan {
    /// The strips, clockwise.
    pub strips: Vec<StripPiece>,
    /// Where they meet.
    pub centre: Point,
}

/// Strips that fan out from `place`, clockwise.
///
/// A place within `reach_m` of the boundary, or outside the ground, counts as lying on the boundary where that is
/// nearest; one farther inside has strips all round it, the first of which begins at `bearing_deg`.
///
/// # Errors
/// No ground, a bearing or place that is not a number, no strips or too many, a size not above 0, a width.
pub fn strips_about_place(
    outline: &Outline,
    place: Point,
    reach_m: f64,
    bearing_deg: f64,
    size: StripSize,
) -> Result<Fan, CutError> {
    if !(bearing_deg.is_finite() && place.is_finite()) {
        return Err(CutError::NotABearing);
    }
    let whole = super::section_of(outline, 0.0)?;
    let (outline, centre) = with_centre(outline, place, reach_m);
    let rings = wound_rings(&outline);
    let north = Sweep::new(&rings, centre, (0.0, 1.0));
    let start = north
        .after_widest_gap()
        .unwrap_or_else(|| sine_cosine_deg(bearing_deg));
    let sweep = Sweep::new(&rings, centre, start);
    let whole_m2 = sweep.area_m2();
    let (count, each_m2) = match size {
        StripSize::Count(0) => return Err(CutError::NoStrips),
        StripSize::Count(count) => (checked_count(count)?, whole_m2 / figure(count)),
        StripSize::AreaM2(area_m2) => (count_of(whole.area_m2(), area_m2)?, area_m2),
        StripSize::WidthM(_) => return Err(CutError::NoOneWidth),
    };
    let rays: Vec<Ray> = (1..count)
        .map(|index| sweep.ray_of_area(each_m2 * figure(index), each_m2 * SLACK))
        .collect();
    let strips = sectors(&outline, centre, start, &rays);
    Ok(Fan { strips, centre })
}

/// The outline with a corner at the place on its boundary where strips are to meet, and that place; the place itself
/// where it lies well inside.
fn with_centre(outline: &Outline, place: Point, reach_m: f64) -> (Outline, Point) {
    let Some(near) = outline.nearest_side(place) else {
        return (outline.clone(), place);
    };
    let is_inside = outline.whereabouts(place) == Whereabouts::Inside;
    let in_hole = !is_inside && near.ring > 0;
    if (is_inside || in_hole) && near.distance_m > reach_m {
        return (outline.clone(), place);
    }
    if let Some(corner) = outline.corner_within(near.place, CORNER_M) {
        return (outline.clone(), corner.place);
    }
    (with_corner(outline, near.place), near.place)
}

/// A place as near as this to a corner is the corner.
const CORNER_M: f64 = 0.01;

/// How near a side must pass for a place to become a corner of it.
const ON_SIDE_M: f64 = 1e-6;

/// The outline with a place that lies on a side made a corner; as it is where none does.
fn with_corner(outline: &Outline, place: Point) -> Outline {
    let mut outline = outline.clone();
    let is_corner = outline.rings().any(|ring| ring.corners.contains(&place));
    if is_corner {
        return outline;
    }
    if let Some(side) = outline.side_within(place, ON_SIDE_M)
        && let Some(ring) = outline
            .parts
            .get_mut(side.part)
            .and_then(|part| ring_mut(part, side.ring))
    {
        ring.corners.insert(side.corner + 1, place);
    }
    outline
}

fn ring_mut(part: &mut Polygon, ring: usize) -> Option<&mut super::super::Ring> {
    match ring.checked_sub(1) {
        None => Some(&mut part.outer),
        Some(hole) => part.holes.get_mut(hole),
    }
}

/// The ground between neighbouring rays, the first from `start` on; one more than there are rays.
fn sectors(outline: &Outline, centre: Point, start: Towards, rays: &[Ray]) -> Vec<StripPiece> {
    if rays.is_empty() {
        let parts = outline.parts.clone();
        return vec![piece_of(parts)];
    }
    let (left, right) = halves(outline, centre, start);
    let before_back = rays.partition_point(|ray| ray.angle < PI - ON_BACK);
    let has_back_ray = rays
        .get(before_back)
        .is_some_and(|ray| ray.angle <= PI + ON_BACK);
    let (first, second) = rays.split_at(before_back);
    let second = second.get(usize::from(has_back_ray)..).unwrap_or_default();
    let mut strips = cut_by_rays(with_corner(&right, centre), centre, first);
    let mut others = cut_by_rays(with_corner(&left, centre), centre, second);
    if !has_back_ray && !others.is_empty() {
        let old: BTreeSet<PlaceKey> = outline
            .rings()
            .flat_map(|ring| ring.corners.iter().map(|corner| PlaceKey(*corner)))
            .chain([PlaceKey(centre)])
            .collect();
        if let Some(last) = strips.pop() {
            strips.push(put_together(&last.outline, &others.remove(0).outline, &old));
        }
    }
    strips.extend(others);
    strips
}

/// A ray this near to the far side of the first line lies on it, radians.
const ON_BACK: f64 = 1e-13;

/// The ground to the left and to the right of the line through `centre`.
fn halves(ground: &Outline, centre: Point, towards: Towards) -> (Outline, Outline) {
    let section = CrossSection::towards(ground, towards);
    let offset_m = section.offset_through_m(centre);
    let mut halves = slice::strips(&section, &[offset_m])
        .into_iter()
        .map(|half| half.outline);
    (
        halves.next().unwrap_or_default(),
        halves.next().unwrap_or_default(),
    )
}

/// Half the ground, cut along rays that turn clockwise.
fn cut_by_rays(half: Outline, centre: Point, rays: &[Ray]) -> Vec<StripPiece> {
    let mut strips = Vec::with_capacity(rays.len() + 1);
    let mut rest = half;
    for ray in rays {
        let (strip, beyond) = halves(&rest, centre, ray.towards);
        strips.push(piece_of(strip.parts));
        rest = beyond;
    }
    strips.push(piece_of(rest.parts));
    strips
}

fn piece_of(parts: Vec<Polygon>) -> StripPiece {
    StripPiece {
        pieces: parts.len(),
        outline: Outline { parts },
    }
}

/// Two pieces that share sides as one. Corners that only their common line had made fall away again.
fn put_together(one: &Outline, two: &Outline, old: &BTreeSet<PlaceKey>) -> StripPiece {
    let keys = |outline: &Outline| -> BTreeSet<PlaceKey> {
        let corners = outline.rings().flat_map(|ring| ring.corners.iter());
        corners.map(|corner| PlaceKey(*corner)).collect()
    };
    let in_both: BTreeSet<PlaceKey> = keys(one).intersection(&keys(two)).copied().collect();
    let rings: Vec<Vec<Point>> = one
        .rings()
        .chain(two.rings())
        .map(|ring| ring.corners.clone())
        .collect();
    let speck_m2 = (one.area_m2() + two.area_m2()) * 1e-15;
    let mut parts = assemble::polygons(relink::faces(rings), speck_m2);
    let is_made = |corner: &Point| {
        let key = PlaceKey(*corner);
        in_both.contains(&key) && !old.contains(&key)
    };
    for part in &mut parts {
        part.outer.corners.retain(|corner| !is_made(corner));
        for hole in &mut part.holes {
            hole.corners.retain(|corner| !is_made(corner));
        }
    }
    piece_of(parts)
}
