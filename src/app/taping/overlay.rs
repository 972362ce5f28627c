//! What the page shows on the map while figures are typed: plain lines and marks in metres.

use super::{Taping, Way};
use crate::app::desk::Desk;
use crate::geometry::Point;
use crate::geometry::tape::place_from_base_line;
use crate::quantity::length_text_precise;

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pen {
    /// What it becomes.
    Firm,
    /// What it is measured from.
    Dashed,
    /// What was measured.
    Thin,
}

/// A line or ring.
#[derive(Debug, Clone, PartialEq)]
pub struct OverlayLine {
    /// Its corners.
    pub points: Vec<Point>,
    /// Whether it is a ring.
    pub is_closed: bool,
    /// How it is drawn.
    pub pen: Pen,
}

/// A place with a word beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OverlayMark {
    /// The word.
    pub text: String,
    /// Whether it is what Enter puts down.
    pub is_chosen: bool,
}

/// Everything shown.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Overlay {
    /// Lines, the undermost first.
    pub lines: Vec<OverlayLine>,
    /// Places with their words.
    pub marks: Vec<(Point, OverlayMark)>,
}

impl Overlay {
    fn line(&mut self, points: Vec<Point>, is_closed: bool, pen: Pen) {
        if points.len() > 1 {
            self.lines.push(OverlayLine {
                points,
                is_closed,
                pen,
            });
        }
    }

    fn mark(&mut self, place: Point, text: impl Into<String>, is_chosen: bool) {
        let text = text.into();
        self.marks.push((place, OverlayMark { text, is_chosen }));
    }
}

/// The most corners that carry their number.
const MOST_NUMBERED: usize = 60;

/// What is to be shown now.
pub fn overlay(desk: &Desk) -> Overlay {
    let taping = &desk.taping;
    let mut shown = Overlay::default();
    if !taping.is_open {
        return shown;
    }
    number_selected(desk, &mut shown);
    let ends = taping
        .ends
        .iter()
        .take(taping.way.known_corners())
        .flatten();
    let places: Vec<Point> = ends.map(|end| end.place).collect();
    if taping.way == Way::WalkRound {
        if let Some(start) = places.first() {
            shown.mark(*start, "start", false);
        }
    } else {
        for (place, number) in places.iter().zip(1..) {
            shown.mark(*place, format!("known {number}"), false);
        }
        shown.line(places, false, Pen::Dashed);
    }
    match taping.way {
        Way::TwoTapes => two_tapes(desk, taping, &mut shown),
        Way::BaseLine => base_line(desk, taping, &mut shown),
        Way::WalkRound => walk_round(desk, taping, &mut shown),
        Way::Walked => walked(taping, &mut shown),
    }
    shown
}

/// Corners of what is selected carry their numbers while a corner is asked for.
fn number_selected(desk: &Desk, shown: &mut Overlay) {
    if desk.taping.wants.is_none() {
        return;
    }
    if let Some((_, ground)) = desk.selected_one() {
        let corners = ground.shape.corners();
        for (corner, number) in corners.into_iter().take(MOST_NUMBERED).zip(1..) {
            shown.mark(corner, format!("{number}"), false);
        }
    }
}

fn two_tapes(desk: &Desk, taping: &Taping, shown: &mut Overlay) {
    let Ok([first, second]) = taping.both_ends() else {
        return;
    };
    let found = taping.two_tapes.corners(taping.both_ends(), desk.units());
    let Ok(corners) = found else { return };
    let hand = taping.two_tapes.hand(corners, desk.last_pointer);
    for meant in [hand.other(), hand] {
        let Some(corner) = corners.get(meant.index()) else {
            continue;
        };
        let pen = if meant == hand { Pen::Firm } else { Pen::Thin };
        shown.line(vec![first.place, *corner, second.place], false, pen);
        shown.mark(*corner, meant.letter(), meant == hand);
    }
}

fn base_line(desk: &Desk, taping: &Taping, shown: &mut Overlay) {
    let Ok([first, second]) = taping.both_ends() else {
        return;
    };
    let (corners, _) = taping.base_line.corners(taping.both_ends(), desk.units());
    let length_m = first.place.distance_m(second.place);
    for (corner, number) in corners.iter().zip(1..) {
        let along_m = ((corner.east_m - first.place.east_m)
            * (second.place.east_m - first.place.east_m)
            + (corner.north_m - first.place.north_m)
                * (second.place.north_m - first.place.north_m))
            / length_m;
        if let Some(foot) = place_from_base_line(first.place, second.place, along_m, 0.0) {
            shown.line(vec![foot, *corner], false, Pen::Thin);
        }
        if number <= MOST_NUMBERED {
            shown.mark(*corner, format!("{number}"), true);
        }
    }
    let is_closed = !taping.base_line.is_line && corners.len() > 2;
    shown.line(corners, is_closed, Pen::Firm);
}

fn walk_round(desk: &Desk, taping: &Taping, shown: &mut Overlay) {
    let [start, _] = &taping.ends;
    let walked = taping
        .walk_round
        .walked_so_far(start.as_ref(), desk.units());
    match taping.walk_round.walk(start.as_ref(), desk.units()) {
        Ok(walk) => {
            shown.line(walked.clone(), false, Pen::Dashed);
            if let (Some(end), true) = (walked.last(), walk.misclosure_m() > 0.0005) {
                let gap = length_text_precise(walk.misclosure_m(), desk.units());
                shown.mark(*end, format!("{gap} off"), false);
            }
            shown.line(walk.adjusted, true, Pen::Firm);
        }
        Err(_) => shown.line(walked, false, Pen::Firm),
    }
}

fn walked(taping: &Taping, shown: &mut Overlay) {
    let Ok(shapes) = taping.walked.answer() else {
        return;
    };
    for shape in shapes {
        shown.line(shape.before.clone(), shape.is_ring, Pen::Thin);
    }
    for shape in shapes {
        shown.line(shape.after.clone(), shape.is_ring, Pen::Firm);
    }
}
