//! Boundaries walked with a receiver: how sure their area is, and fewer corners. Metres and square metres.

use super::{Point, Ring};

/// An area and how sure it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WalkedArea {
    /// Square metres on the plane.
    pub area_m2: f64,
    /// Standard error, square metres: two in three areas walked so lie within it of the true one.
    pub standard_error_m2: f64,
}

/// The area of a ring whose corners each have an independent error of `point_error_m`, the standard deviation along
/// each axis.
///
/// Variance = σ²/4 · Σ (distance between the corners before and after)² + n · σ⁴ / 2: N. R. Chrisman and B. S.
/// Yandell, *Effects of point error on area calculations: a statistical model*, Surveying and Mapping 48, 1988,
/// pages 241–246 (from memory; the tests hold it against simulated walks).
///
/// # Assumptions
/// Errors of neighbouring corners are independent. Those of a receiver drift slowly, so a walk with a point every
/// second is less sure than this says: give the corners of the thinned ring, and the error of one fix.
pub fn walked_area(ring: &Ring, point_error_m: f64) -> WalkedArea {
    let corners = &ring.corners;
    let count = corners.len();
    let before = corners.iter().cycle().skip(count.saturating_sub(1));
    let after = corners.iter().cycle().skip(1);
    let (squares, counted) =
        before
            .zip(after)
            .take(count)
            .fold((0.0, 0.0), |(squares, counted), (before, after)| {
                (squares + before.distance_m(*after).powi(2), counted + 1.0)
            });
    let variance = point_error_m.powi(2);
    WalkedArea {
        area_m2: ring.area_m2(),
        standard_error_m2: (variance / 4.0 * squares + counted * variance * variance / 2.0).sqrt(),
    }
}

/// A line with the points left out that lie within `tolerance_m` of the line through those kept; the ends stay.
///
/// D. H. Douglas and T. K. Peucker, *Algorithms for the reduction of the number of points required to represent a
/// digitized line or its caricature*, The Canadian Cartographer 10, 1973. Every point left out lies within the
/// tolerance of the stretch that passes it.
pub fn thinned_line(line: &[Point], tolerance_m: f64) -> Vec<Point> {
    let mut keep = vec![false; line.len()];
    for end in [0, line.len().saturating_sub(1)] {
        if let Some(kept) = keep.get_mut(end) {
            *kept = true;
        }
    }
    // A stack in place of recursion: a walk of many thousand points may nest as deep.
    let mut open = vec![(0, line.len().saturating_sub(1))];
    while let Some((first, last)) = open.pop() {
        let Some((farthest, off_m)) = farthest_between(line, first, last) else {
            continue;
        };
        if off_m > tolerance_m {
            if let Some(kept) = keep.get_mut(farthest) {
                *kept = true;
            }
            open.push((first, farthest));
            open.push((farthest, last));
        }
    }
    let kept = line.iter().zip(keep).filter(|(_, kept)| *kept);
    kept.map(|(point, _)| *point).collect()
}

/// A ring thinned in the same way, between its first corner and the one farthest from that.
/// A ring that would keep fewer than three corners is given back as it is.
pub fn thinned_ring(ring: &Ring, tolerance_m: f64) -> Ring {
    let Some(&first) = ring.corners.first() else {
        return ring.clone();
    };
    let farthest = ring
        .corners
        .iter()
        .enumerate()
        .max_by(|(_, one), (_, two)| first.distance_m(**one).total_cmp(&first.distance_m(**two)))
        .map_or(0, |(index, _)| index);
    let (out, mut back) = (
        ring.corners
            .iter()
            .take(farthest + 1)
            .copied()
            .collect::<Vec<_>>(),
        ring.corners
            .iter()
            .skip(farthest)
            .copied()
            .collect::<Vec<_>>(),
    );
    back.push(first);
    let mut corners = thinned_line(&out, tolerance_m);
    corners.pop();
    corners.extend(thinned_line(&back, tolerance_m));
    corners.pop();
    if corners.len() < 3 {
        return ring.clone();
    }
    Ring::new(corners)
}

/// The point between two places of a line that lies farthest off the stretch joining them.
fn farthest_between(line: &[Point], first: usize, last: usize) -> Option<(usize, f64)> {
    let (from, to) = (*line.get(first)?, *line.get(last)?);
    line.iter()
        .enumerate()
        .take(last)
        .skip(first + 1)
        .map(|(index, point)| (index, point.distance_m(point.nearest_on_side(from, to))))
        .fold(
            None,
            |farthest: Option<(usize, f64)>, found| match farthest {
                Some(farthest) if farthest.1 >= found.1 => Some(farthest),
                _ => Some(found),
            },
        )
}
