//! Slices ground along parallel lines, all at once.
//!
//! Each side is cut where it passes a line; every crossing is reckoned once and shared by the strips on both sides of
//! the line. A corner that lies on a line counts as beyond it, so that each ring passes each line an even number of
//! times; ground lies between a way down and the next way up along the line. Corners on the line between the two become
//! corners of both strips, so that sides which lie along the line fall away cleanly.

use super::super::{Outline, Point};
use super::cross_section::{CrossSection, along_at, share_at, turned_sides};
use super::{StripPiece, assemble, relink};

/// A ring passing a line.
struct Crossing {
    line: usize,
    upward: bool,
    place: Point,
    /// Where along the line, and how that changes with the offset, to order crossings at one corner.
    along_m: f64,
    lean: f64,
}

/// A run of a ring within one strip, from crossing to crossing.
struct Run {
    strip: usize,
    places: Vec<Point>,
    ends_at: usize,
}

#[derive(Default)]
struct Pieces {
    crossings: Vec<Crossing>,
    /// For each crossing the run that starts there.
    runs: Vec<Option<Run>>,
    /// Rings by strip.
    rings: Vec<(usize, Vec<Point>)>,
}

/// The strips between lines at these rising offsets; one more than there are lines.
pub(super) fn strips(section: &CrossSection, offsets_m: &[f64]) -> Vec<StripPiece> {
    let mut pieces = Pieces::default();
    for (ring, turned) in section.rings.iter().zip(&section.turned) {
        cut_ring(&ring.corners, turned, offsets_m, &mut pieces);
    }
    join_runs(&corners_on_lines(section, offsets_m), &mut pieces);
    let mut by_strip: Vec<Vec<Vec<Point>>> = vec![Vec::new(); offsets_m.len() + 1];
    for (strip, ring) in pieces.rings {
        if let Some(rings) = by_strip.get_mut(strip) {
            rings.push(ring);
        }
    }
    let speck_m2 = section.area_m2() * 1e-15;
    by_strip
        .into_iter()
        .map(|rings| {
            let parts = assemble::polygons(relink::faces(rings), speck_m2);
            StripPiece {
                pieces: parts.len(),
                outline: Outline { parts },
            }
        })
        .collect()
}

/// Cuts one ring into runs; a ring that passes no line is kept whole.
fn cut_ring(corners: &[Point], turned: &[(f64, f64)], offsets_m: &[f64], pieces: &mut Pieces) {
    let strip_of = |across: f64| offsets_m.partition_point(|offset_m| *offset_m <= across);
    let first_crossing = pieces.crossings.len();
    // What lies before the first crossing belongs to the end of the last run.
    let mut before_first: Option<Vec<Point>> = None;
    let mut places: Vec<Point> = Vec::new();
    let next_corners = corners.iter().cycle().skip(1);
    let sides = corners.iter().zip(next_corners).zip(turned_sides(turned));
    for ((corner, next_corner), (from, to)) in sides {
        places.push(*corner);
        let (mut strip, last_strip) = (strip_of(from.1), strip_of(to.1));
        while strip != last_strip {
            let upward = strip < last_strip;
            let line = if upward { strip } else { strip - 1 };
            let offset_m = offsets_m.get(line).copied().unwrap_or(0.0);
            let crossing = crossing_of((*corner, from), (*next_corner, to), line, offset_m);
            let place = crossing.place;
            places.push(place);
            let ended = std::mem::replace(&mut places, vec![place]);
            if before_first.is_some() {
                pieces.end_run(strip, ended, pieces.crossings.len());
            } else {
                before_first = Some(ended);
            }
            pieces.crossings.push(crossing);
            pieces.runs.push(None);
            strip = if upward { strip + 1 } else { strip - 1 };
        }
    }
    let strip = turned.first().map_or(0, |first| strip_of(first.1));
    if let Some(before_first) = before_first {
        places.extend(before_first);
        pieces.end_run(strip, places, first_crossing);
    } else {
        pieces.rings.push((strip, places));
    }
}

impl Pieces {
    /// Sets the run that started at the last crossing.
    fn end_run(&mut self, strip: usize, places: Vec<Point>, ends_at: usize) {
        if let Some(run) = self.runs.last_mut() {
            *run = Some(Run {
                strip,
                places,
                ends_at,
            });
        }
    }
}

/// Where the side between two corners, each with its turned place, passes a line. Reckoned from the lower end, so
/// that the same side walked either way gives the same place to the last digit.
fn crossing_of(
    from: (Point, (f64, f64)),
    to: (Point, (f64, f64)),
    line: usize,
    offset_m: f64,
) -> Crossing {
    let upward = from.1.1 < to.1.1;
    let (low, high) = if upward { (from, to) } else { (to, from) };
    let t = share_at(low.1, high.1, offset_m);
    let place = if t <= 0.5 {
        low.0.between(high.0, t)
    } else {
        high.0.between(low.0, 1.0 - t)
    };
    let lean = (high.1.0 - low.1.0) / (high.1.1 - low.1.1);
    Crossing {
        line,
        upward,
        place,
        along_m: along_at(low.1, high.1, offset_m),
        lean,
    }
}

/// For each line the corners on it, as place along it and place, in order.
fn corners_on_lines(section: &CrossSection, offsets_m: &[f64]) -> Vec<Vec<(f64, Point)>> {
    let mut on_lines: Vec<Vec<(f64, Point)>> = vec![Vec::new(); offsets_m.len()];
    for (ring, turned) in section.rings.iter().zip(&section.turned) {
        for (corner, (along_m, across_m)) in ring.corners.iter().zip(turned) {
            // Lines at one offset are all given the corner.
            let first = offsets_m.partition_point(|offset_m| offset_m < across_m);
            let last = offsets_m.partition_point(|offset_m| offset_m <= across_m);
            for line in on_lines.iter_mut().take(last).skip(first) {
                line.push((*along_m, *corner));
            }
        }
    }
    for line in &mut on_lines {
        line.sort_by(|one, two| one.0.total_cmp(&two.0));
    }
    on_lines
}

/// Joins runs along the lines into rings.
fn join_runs(on_lines: &[Vec<(f64, Point)>], pieces: &mut Pieces) {
    let partners = partners(on_lines.len(), &pieces.crossings);
    for start in 0..pieces.runs.len() {
        let mut ring = Vec::new();
        let mut strip = None;
        let mut at = start;
        while let Some(run) = pieces.runs.get_mut(at).and_then(Option::take) {
            ring.extend(run.places);
            strip = Some(run.strip);
            let Some(&next) = partners.get(run.ends_at) else {
                break;
            };
            if let (Some(from), Some(to)) = (
                pieces.crossings.get(run.ends_at),
                pieces.crossings.get(next),
            ) {
                walk_along_line(on_lines, from, to, &mut ring);
            }
            at = next;
        }
        if let Some(strip) = strip {
            pieces.rings.push((strip, ring));
        }
    }
}

/// Adds the corners on a line between two crossings of it, in the order walked.
fn walk_along_line(
    on_lines: &[Vec<(f64, Point)>],
    from: &Crossing,
    to: &Crossing,
    ring: &mut Vec<Point>,
) {
    let Some(line) = on_lines.get(from.line) else {
        return;
    };
    let (least_m, most_m) = (from.along_m.min(to.along_m), from.along_m.max(to.along_m));
    let first = line.partition_point(|(along_m, _)| *along_m <= least_m);
    let last = line.partition_point(|(along_m, _)| *along_m < most_m);
    let between = line
        .iter()
        .take(last)
        .skip(first)
        .map(|(_, corner)| *corner);
    if from.along_m <= to.along_m {
        ring.extend(between);
    } else {
        ring.extend(between.collect::<Vec<_>>().into_iter().rev());
    }
}

/// For each crossing the one at the other end of the ground along its line.
fn partners(line_count: usize, crossings: &[Crossing]) -> Vec<usize> {
    let mut ups: Vec<Vec<usize>> = vec![Vec::new(); line_count];
    let mut downs = ups.clone();
    for (index, crossing) in crossings.iter().enumerate() {
        let side = if crossing.upward {
            &mut ups
        } else {
            &mut downs
        };
        if let Some(list) = side.get_mut(crossing.line) {
            list.push(index);
        }
    }
    let mut partners: Vec<usize> = (0..crossings.len()).collect();
    for (mut ups, mut downs) in ups.into_iter().zip(downs) {
        sort_along(&mut ups, crossings);
        sort_along(&mut downs, crossings);
        for (up, down) in ups.iter().zip(&downs) {
            if let Some(partner) = partners.get_mut(*up) {
                *partner = *down;
            }
            if let Some(partner) = partners.get_mut(*down) {
                *partner = *up;
            }
        }
    }
    partners
}

/// In order along the line just before it: at one place the side that leans farther on comes first.
fn sort_along(list: &mut [usize], crossings: &[Crossing]) {
    let key = |index: &usize| {
        crossings
            .get(*index)
            .map_or((0.0, 0.0), |at| (at.along_m, -at.lean))
    };
    list.sort_by(|one, two| {
        let ((one_m, one_lean), (two_m, two_lean)) = (key(one), key(two));
        one_m.total_cmp(&two_m).then(one_lean.total_cmp(&two_lean))
    });
}
