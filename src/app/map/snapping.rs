//! Where the pointer snaps to while something is drawn, measured or reshaped, and the sign that says why.
//!
//! The index is built when first asked for after a change. Alt held, or the switch, leaves the pointer alone.

use std::collections::BTreeSet;

use egui::{Align2, Painter, Shape as ScreenShape, Stroke, Vec2};

use super::GroundView;
use super::furniture::grid_spacing_m;
use super::labels::paint_figure;
use crate::app::theme;
use crate::farm::{Farm, GroundId, Kind, Shape};
use crate::geometry::Point;
use crate::geometry::snap::{ALL_KINDS, Snap, SnapIndex, SnapKind, SnapRequest, SnapShape};
use crate::sheets::palette::{Ink, Light};

/// The snapping of the map.
#[derive(Debug, Default)]
pub struct Snapping {
    /// Whether the person has switched it off.
    pub is_off: bool,
    /// Whether the crossings of the grid that the map shows are places to snap to.
    pub is_on_grid: bool,
    /// Where the pointer snapped to last.
    pub last: Option<Snap>,
    index: Option<(BTreeSet<GroundId>, SnapIndex)>,
}

/// How near a place must be to be snapped to, in points of the screen.
const REACH: f64 = 9.0;

impl Snapping {
    /// Notes that the ground has changed.
    pub fn forget(&mut self) {
        self.index = None;
        self.last = None;
    }

    /// The place meant by the pointer. `without` are pieces that are being reshaped and so do not hold
    /// still; `hidden` kinds are not snapped to.
    pub fn place(
        &mut self,
        farm: &Farm,
        (without, hidden): (&BTreeSet<GroundId>, &BTreeSet<Kind>),
        at: Point,
        from: Option<Point>,
        m_per_point: f64,
    ) -> Point {
        if self.is_off {
            self.last = None;
            return at;
        }
        if self
            .index
            .as_ref()
            .is_none_or(|(left_out, _)| left_out != without)
        {
            self.index = Some((
                without.clone(),
                SnapIndex::build(&shapes(farm, without, hidden)),
            ));
        }
        let mut request = SnapRequest::new(at, from, REACH * m_per_point);
        request.kinds = ALL_KINDS.into_iter().collect();
        if self.is_on_grid {
            request.grid_m = grid_spacing_m(m_per_point);
        }
        self.last = self
            .index
            .as_ref()
            .and_then(|(_, index)| index.snap(&request));
        self.last.as_ref().map_or(at, |snap| snap.place)
    }
}

fn shapes(farm: &Farm, without: &BTreeSet<GroundId>, hidden: &BTreeSet<Kind>) -> Vec<SnapShape> {
    farm.ground
        .iter()
        .filter(|(id, ground)| !without.contains(id) && !hidden.contains(&ground.kind))
        .flat_map(|(id, ground)| {
            let owner = u64::from(id.0);
            match &ground.shape {
                Shape::Area(outline) => SnapShape::of_outline(owner, outline),
                Shape::Line(line) => vec![SnapShape {
                    owner,
                    places: line.clone(),
                    closed: false,
                }],
                Shape::Place(place) => vec![SnapShape {
                    owner,
                    places: vec![*place],
                    closed: false,
                }],
            }
        })
        .collect()
}

/// The sign at the place, its guide lines, and in a word why it is there.
pub(super) fn paint_snap(painter: &Painter, view: &GroundView, snap: &Snap, light: Light) {
    let act = theme::colour(Ink::Act, light);
    for (from, to) in &snap.guides {
        let ends = [view.screen_from_ground(*from), view.screen_from_ground(*to)];
        painter.extend(ScreenShape::dashed_line(
            &ends,
            Stroke::new(1.0, act),
            4.0,
            4.0,
        ));
    }
    let at = view.screen_from_ground(snap.place);
    let stroke = Stroke::new(1.6, act);
    match snap.kind {
        SnapKind::Corner | SnapKind::Crossing => {
            painter.rect_stroke(
                egui::Rect::from_center_size(at, Vec2::splat(11.0)),
                1.0,
                stroke,
                egui::StrokeKind::Middle,
            );
        }
        _ => {
            painter.circle_stroke(at, 5.5, stroke);
        }
    }
    paint_figure(
        painter,
        at + Vec2::new(12.0, -12.0),
        Align2::LEFT_BOTTOM,
        word(snap.kind),
        light,
    );
}

/// Why, in a word.
const fn word(kind: SnapKind) -> &'static str {
    match kind {
        SnapKind::Corner => "corner",
        SnapKind::Crossing => "crossing",
        SnapKind::Middle => "middle",
        SnapKind::Square => "square",
        SnapKind::InLine => "in line",
        SnapKind::Parallel => "parallel",
        SnapKind::FixedAngle => "even bearing",
        SnapKind::AlongSide => "on the side",
        SnapKind::Grid => "grid",
    }
}
