//! Beds laid out on ground: where they lie, how much of it they take, how many plants they hold.
//!
//! Beds lie side by side with a path between each two, the whole block in the middle of the ground. A bed that the
//! boundary cuts counts as long as its middle line inside, and with the area that is left of it. Metres and square
//! metres; what is told is taken on the ellipsoid.

use super::{Beds, Farm, Ground};
use crate::geometry::chord::{chords, place_along_and_across, reach_along_and_across};
use crate::geometry::cut::bearing_across_longest_side;
use crate::geometry::{Outline, Point, Polygon, geodesic, overlay};

/// More beds than this are not laid out.
const MOST_BEDS: u32 = 2_000;
/// What the ground may be too narrow by for one more bed, metres: drawn corners lie on whole millimetres.
const FORGIVEN_M: f64 = 0.005;

/// Beds on a piece of ground.
#[derive(Debug, Clone, PartialEq)]
pub struct BedLayout {
    /// The way they run, degrees.
    pub bearing_deg: f64,
    /// The middle line of each bed inside the ground; a bed that falls in pieces gives several.
    pub middles: Vec<(Point, Point)>,
    /// All that the beds cover.
    pub ground: Outline,
    /// Places across, metres from the plane's origin to the right of the bearing: left edge of each bed.
    pub left_edges_m: Vec<f64>,
}

/// What the beds of a piece of ground come to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BedSums {
    /// The way they run, degrees.
    pub bearing_deg: f64,
    /// Beds, pieces counted each.
    pub beds: usize,
    /// Length of all beds, metres.
    pub length_m: f64,
    /// Area of all beds, square metres.
    pub area_m2: f64,
    /// Share of the ground, 0 to 1.
    pub share: f64,
    /// Plants at the spacing said: bed area by what one plant takes.
    pub plants: u64,
}

/// Why beds are not laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BedGap {
    /// The ground is narrower than one bed, or holds nothing.
    NoRoom,
    /// More than 2000.
    TooMany,
}

impl BedGap {
    /// Why, in a sentence.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::NoRoom => "No bed of that width has room here.",
            Self::TooMany => "That would make more than 2000 beds: give a wider bed.",
        }
    }
}

/// Lays beds out on an outline.
///
/// # Errors
/// No room for one, or too many.
pub fn lay_out_beds(outline: &Outline, beds: Beds) -> Result<BedLayout, BedGap> {
    let (mut layout, whole) = middles_of(outline, beds)?;
    layout.ground = overlay::in_both(&whole, outline);
    Ok(layout)
}

/// Why beds cannot be laid out, where they cannot; cheaper than laying them out.
pub fn bed_gap(outline: &Outline, beds: Beds) -> Option<BedGap> {
    middles_of(outline, beds).err()
}

/// The layout without the ground its beds cover, and the beds uncut.
fn middles_of(outline: &Outline, beds: Beds) -> Result<(BedLayout, Outline), BedGap> {
    let bearing_deg = beds
        .bearing_deg
        .or_else(|| longest_way_deg(outline))
        .ok_or(BedGap::NoRoom)?;
    let (along, across) = reach_along_and_across(outline, bearing_deg).ok_or(BedGap::NoRoom)?;
    let left_edges_m = left_edges_m(across, beds)?;
    let place = |along_m, across_m| place_along_and_across(bearing_deg, along_m, across_m);
    let mut layout = BedLayout {
        bearing_deg,
        middles: Vec::new(),
        ground: Outline::default(),
        left_edges_m: Vec::new(),
    };
    let mut whole = Outline::default();
    for left_m in left_edges_m {
        let right_m = left_m + beds.bed_width_m;
        let middle = place(along.0, left_m + beds.bed_width_m / 2.0);
        let pieces = chords(outline, middle, bearing_deg);
        if pieces.is_empty() {
            continue;
        }
        layout.middles.extend(pieces);
        layout.left_edges_m.push(left_m);
        whole.parts.push(Polygon::simple(vec![
            place(along.0 - 1.0, left_m),
            place(along.0 - 1.0, right_m),
            place(along.1 + 1.0, right_m),
            place(along.1 + 1.0, left_m),
        ]));
    }
    if layout.middles.is_empty() {
        return Err(BedGap::NoRoom);
    }
    Ok((layout, whole))
}

/// The sums of ground whose beds are said; none for other ground.
pub fn bed_sums(farm: &Farm, ground: &Ground) -> Option<Result<BedSums, BedGap>> {
    let (outline, beds) = (ground.outline()?, ground.beds?);
    let layout = match lay_out_beds(outline, beds) {
        Ok(layout) => layout,
        Err(gap) => return Some(Err(gap)),
    };
    let lengths_m = layout
        .middles
        .iter()
        .map(|(from, to)| geodesic::distance_m(farm.frame, *from, *to));
    let area_m2 = geodesic::area_m2(farm.frame, &layout.ground);
    let row_m = beds.bed_width_m / f64::from(beds.rows.max(1));
    Some(Ok(BedSums {
        bearing_deg: layout.bearing_deg,
        beds: layout.middles.len(),
        length_m: lengths_m.sum(),
        area_m2,
        share: area_m2 / geodesic::area_m2(farm.frame, outline),
        plants: plants_on(area_m2, row_m, beds.plant_spacing_m),
    }))
}

/// Plants on an area at a spacing between rows and in the row: area by the product of the two, whole plants;
/// none where a spacing is not above 0.
pub fn plants_on(area_m2: f64, row_m: f64, plant_m: f64) -> u64 {
    let plants = (area_m2 / (row_m * plant_m) + 1e-6).floor();
    let is_spaced = row_m > 0.0 && plant_m > 0.0;
    if !(is_spaced && plants > 0.0 && plants < 1e15) {
        return 0;
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held between 0 and 1e15"
    )]
    let whole = plants as u64;
    whole
}

/// The bearing along the longest side, degrees, 0 to 180.
pub fn longest_way_deg(outline: &Outline) -> Option<f64> {
    bearing_across_longest_side(outline).map(|bearing_deg| (bearing_deg - 90.0).rem_euclid(180.0))
}

/// Left edge of each bed between two places across, the block in the middle.
fn left_edges_m((least_m, most_m): (f64, f64), beds: Beds) -> Result<Vec<f64>, BedGap> {
    let (width_m, pitch_m) = (beds.bed_width_m, beds.bed_width_m + beds.path_width_m);
    let room_m = most_m - least_m;
    let count = ((room_m + beds.path_width_m + FORGIVEN_M) / pitch_m).floor();
    if !(count >= 1.0 && width_m > 0.0) {
        return Err(BedGap::NoRoom);
    }
    if count > f64::from(MOST_BEDS) {
        return Err(BedGap::TooMany);
    }
    let block_m = count * pitch_m - beds.path_width_m;
    let first_m = least_m + (room_m - block_m) / 2.0;
    Ok((0..MOST_BEDS)
        .map(f64::from)
        .take_while(|place| *place < count)
        .map(|place| pitch_m.mul_add(place, first_m))
        .collect())
}
