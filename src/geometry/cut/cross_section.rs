//! How much ground lies to one side of a cut line, and where a line must lie to leave a given area there.
//!
//! Seen along the cut, with `across` running to the right, the area up to an offset is the sum over all sides of
//! ∫ along d(across), cut off at the offset (Green's theorem); the cut line itself adds nothing. Between two corners
//! the width of the ground is a straight line of the offset, so the area is a quadratic, solved in closed form and
//! then polished once against the whole sum. Metres and square metres.

use super::super::{Bounds, Outline, Point, Ring};

/// An outline seen along a cut direction: outer rings anticlockwise, holes clockwise.
pub(super) struct CrossSection {
    pub(super) rings: Vec<Ring>,
    /// The rings' corners as (along, across), right-handed: `along` runs against the bearing, `across` to its right.
    pub(super) turned: Vec<Vec<(f64, f64)>>,
    base: Point,
    sine: f64,
    cosine: f64,
    corner_offsets_m: Vec<f64>,
    area_m2: f64,
}

impl CrossSection {
    pub(super) fn new(outline: &Outline, bearing_deg: f64) -> Self {
        Self::towards(outline, sine_cosine_deg(bearing_deg))
    }

    /// Seen along a direction given by the sine and cosine of its bearing.
    pub(super) fn towards(outline: &Outline, (sine, cosine): (f64, f64)) -> Self {
        let base = outline.bounds().map_or(Point::default(), Bounds::centre);
        let mut section = Self {
            rings: wound_rings(outline),
            turned: Vec::new(),
            base,
            sine,
            cosine,
            corner_offsets_m: Vec::new(),
            area_m2: 0.0,
        };
        let turn = |ring: &Ring| {
            ring.corners
                .iter()
                .map(|corner| section.turn(*corner))
                .collect()
        };
        section.turned = section.rings.iter().map(turn).collect();
        section.gather_offsets();
        section.area_m2 = section.area_up_to_m2(f64::INFINITY);
        section
    }

    /// The offset of the line through a place: that of its own corner, where it is one.
    pub(super) fn offset_through_m(&self, place: Point) -> f64 {
        self.offset_or_corner_m(self.turn(place).1, 2.0 * self.rounding_m())
    }

    /// By how much the turn may put a corner aside.
    fn rounding_m(&self) -> f64 {
        let base = self.base;
        let size_m = self
            .turned
            .iter()
            .flatten()
            .fold(base.east_m.abs().max(base.north_m.abs()), |size_m, at| {
                size_m.max(at.0.abs()).max(at.1.abs())
            });
        16.0 * f64::EPSILON * size_m
    }

    /// Lists the corners' offsets. Those that differ by no more than the rounding of the turn are made one, so that
    /// a line along a side runs along all of it.
    fn gather_offsets(&mut self) {
        let mut offsets: Vec<f64> = self.turned.iter().flatten().map(|at| at.1).collect();
        offsets.sort_by(f64::total_cmp);
        let rounding_m = self.rounding_m();
        offsets.dedup_by(|later, kept| *later - *kept <= rounding_m);
        for at in self.turned.iter_mut().flatten() {
            let above = offsets.partition_point(|offset_m| *offset_m <= at.1);
            if let Some(kept) = above.checked_sub(1).and_then(|index| offsets.get(index)) {
                at.1 = *kept;
            }
        }
        self.corner_offsets_m = offsets;
    }

    pub(super) fn area_m2(&self) -> f64 {
        self.area_m2
    }

    /// Least and most offset of any corner.
    pub(super) fn reach_m(&self) -> (f64, f64) {
        let offsets = &self.corner_offsets_m;
        let end = |offset: Option<&f64>| offset.copied().unwrap_or(0.0);
        (end(offsets.first()), end(offsets.last()))
    }

    /// A place as (along, across) in metres about the middle of the outline.
    fn turn(&self, place: Point) -> (f64, f64) {
        let (east, north) = (
            place.east_m - self.base.east_m,
            place.north_m - self.base.north_m,
        );
        (
            -(east * self.sine + north * self.cosine),
            east * self.cosine - north * self.sine,
        )
    }

    /// The offset itself, or that of a corner no farther off than `slack_m`.
    pub(super) fn offset_or_corner_m(&self, offset_m: f64, slack_m: f64) -> f64 {
        let at = self
            .corner_offsets_m
            .partition_point(|corner_m| *corner_m < offset_m);
        let around = self
            .corner_offsets_m
            .iter()
            .skip(at.saturating_sub(1))
            .take(2);
        around
            .copied()
            .find(|corner_m| (corner_m - offset_m).abs() <= slack_m)
            .unwrap_or(offset_m)
    }

    /// The offsets that leave these areas, which must rise, to their left. A line within `slack_m2` of a corner
    /// passes through it, so that no speck is left there.
    pub(super) fn offsets_of_areas(
        &self,
        areas_m2: impl Iterator<Item = f64>,
        slack_m2: f64,
    ) -> Vec<f64> {
        let mut known = KnownAreas {
            section: self,
            areas_m2: vec![None; self.corner_offsets_m.len()],
        };
        let mut offsets_m: Vec<f64> = Vec::new();
        for area_m2 in areas_m2 {
            let offset_m = self.offset_of_area(area_m2, slack_m2, &mut known);
            // Rounding must not let a later line fall before an earlier one.
            let least_m = offsets_m.last().copied().unwrap_or(f64::NEG_INFINITY);
            offsets_m.push(offset_m.max(least_m));
        }
        offsets_m
    }

    fn offset_of_area(&self, area_m2: f64, slack_m2: f64, known: &mut KnownAreas<'_>) -> f64 {
        let offsets = &self.corner_offsets_m;
        // The last corner offset that leaves no more than the area.
        let (mut low, mut high) = (0, offsets.len().saturating_sub(1));
        while low + 1 < high {
            let middle = usize::midpoint(low, high);
            if known.area_up_to_m2(middle) <= area_m2 {
                low = middle;
            } else {
                high = middle;
            }
        }
        let (Some(&low_m), Some(&high_m)) = (offsets.get(low), offsets.get(high)) else {
            return 0.0;
        };
        let missing_m2 = area_m2 - known.area_up_to_m2(low);
        if missing_m2.abs() <= slack_m2 {
            return low_m;
        }
        if (area_m2 - known.area_up_to_m2(high)).abs() <= slack_m2 {
            return high_m;
        }
        self.solved_offset_m(area_m2, missing_m2, low_m, high_m)
    }

    /// The offset between two neighbouring corner offsets at which the area is met, `missing_m2` beyond the lower.
    fn solved_offset_m(&self, area_m2: f64, missing_m2: f64, low_m: f64, high_m: f64) -> f64 {
        let (low_width_m, high_width_m) = self.widths_between_m(low_m, high_m);
        let bend = (high_width_m - low_width_m) / (high_m - low_m);
        let squared = low_width_m * low_width_m + 2.0 * bend * missing_m2;
        // The root written so that nothing cancels, whichever way the ground widens.
        let step_m = 2.0 * missing_m2 / (low_width_m + squared.max(0.0).sqrt());
        let step_m = if step_m.is_finite() { step_m } else { 0.0 };
        let solved_m = (low_m + step_m).clamp(low_m, high_m);
        let width_m = low_width_m + bend * (solved_m - low_m);
        let polished_m = solved_m + (area_m2 - self.area_up_to_m2(solved_m)) / width_m;
        if polished_m.is_finite() {
            polished_m.clamp(low_m, high_m)
        } else {
            solved_m
        }
    }

    /// Area to the left of an offset.
    pub(super) fn area_up_to_m2(&self, offset_m: f64) -> f64 {
        let mut sum = CarefulSum::default();
        for (from, to) in self.turned.iter().flat_map(|ring| turned_sides(ring)) {
            let ((low, high), sign) = if from.1 <= to.1 {
                ((from, to), 1.0)
            } else {
                ((to, from), -1.0)
            };
            if low.1 >= offset_m {
                continue;
            }
            let top = if high.1 <= offset_m {
                high
            } else {
                (along_at(low, high, offset_m), offset_m)
            };
            sum.add(sign * f64::midpoint(low.0, top.0) * (top.1 - low.1));
        }
        sum.total()
    }

    /// Width of the ground just after `low_m` and just before `high_m`, with no corner between them.
    fn widths_between_m(&self, low_m: f64, high_m: f64) -> (f64, f64) {
        let (mut low_sum, mut high_sum) = (CarefulSum::default(), CarefulSum::default());
        for (from, to) in self.turned.iter().flat_map(|ring| turned_sides(ring)) {
            let ((low, high), sign) = if from.1 <= to.1 {
                ((from, to), 1.0)
            } else {
                ((to, from), -1.0)
            };
            if low.1 <= low_m && high.1 >= high_m {
                low_sum.add(sign * along_at(low, high, low_m));
                high_sum.add(sign * along_at(low, high, high_m));
            }
        }
        (low_sum.total().max(0.0), high_sum.total().max(0.0))
    }
}

/// Areas up to corner offsets, each summed once.
struct KnownAreas<'a> {
    section: &'a CrossSection,
    areas_m2: Vec<Option<f64>>,
}

impl KnownAreas<'_> {
    fn area_up_to_m2(&mut self, corner: usize) -> f64 {
        let Some(known) = self.areas_m2.get_mut(corner) else {
            return 0.0;
        };
        *known.get_or_insert_with(|| {
            let offset_m = self.section.corner_offsets_m.get(corner);
            offset_m.map_or(0.0, |offset_m| self.section.area_up_to_m2(*offset_m))
        })
    }
}

/// Every side of a turned ring, the closing one included.
pub(super) fn turned_sides(
    ring: &[(f64, f64)],
) -> impl Iterator<Item = ((f64, f64), (f64, f64))> + '_ {
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).map(|(from, to)| (*from, *to))
}

/// Where along the side from `low` to `high` meets an offset between them; reckoned from the nearer end.
pub(super) fn along_at(low: (f64, f64), high: (f64, f64), offset_m: f64) -> f64 {
    let t = share_at(low, high, offset_m);
    if t <= 0.5 {
        (high.0 - low.0).mul_add(t, low.0)
    } else {
        (low.0 - high.0).mul_add(1.0 - t, high.0)
    }
}

/// The share of the way from `low` to `high` at which an offset is met.
pub(super) fn share_at(low: (f64, f64), high: (f64, f64), offset_m: f64) -> f64 {
    ((offset_m - low.1) / (high.1 - low.1)).clamp(0.0, 1.0)
}

/// The rings with outer ones anticlockwise and holes clockwise; rings of no ground are left out.
pub(super) fn wound_rings(outline: &Outline) -> Vec<Ring> {
    let mut rings = Vec::new();
    for part in &outline.parts {
        for (index, ring) in part.rings().enumerate() {
            let area_m2 = ring.signed_area_m2();
            let mut ring = ring.clone();
            ring.corners.dedup();
            if (area_m2 > 0.0) != (index == 0) {
                ring.corners.reverse();
            }
            if ring.corners.len() > 2 {
                rings.push(ring);
            }
        }
    }
    rings
}

/// Sine and cosine, exact for the four main directions.
pub(super) fn sine_cosine_deg(bearing_deg: f64) -> (f64, f64) {
    let bearing_deg = bearing_deg.rem_euclid(360.0);
    let mains = [
        (0.0, (0.0, 1.0)),
        (90.0, (1.0, 0.0)),
        (180.0, (0.0, -1.0)),
        (270.0, (-1.0, 0.0)),
    ];
    for (main_deg, sine_cosine) in mains {
        if bearing_deg.total_cmp(&main_deg).is_eq() {
            return sine_cosine;
        }
    }
    bearing_deg.to_radians().sin_cos()
}

/// A sum that keeps what rounding would lose (A. Neumaier, *Rundungsfehleranalyse einiger Verfahren zur Summation
/// endlicher Summen*, Zeitschrift für Angewandte Mathematik und Mechanik 54, 1974).
#[derive(Default)]
pub(super) struct CarefulSum {
    sum: f64,
    lost: f64,
}

impl CarefulSum {
    pub(super) fn add(&mut self, value: f64) {
        let sum = self.sum + value;
        self.lost += if self.sum.abs() >= value.abs() {
            (self.sum - sum) + value
        } else {
            (value - sum) + self.sum
        };
        self.sum = sum;
    }

    pub(super) fn total(&self) -> f64 {
        self.sum + self.lost
    }
}
