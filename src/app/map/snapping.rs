//! Where the pointer snaps to while something is drawn, measured or reshaped, and the sign that says why.
//!
//! The index is built when first asked for and then follows what changes. Alt held, or the switch, leaves the pointer alone.

use std::collections::BTreeSet;

use egui::{Align2, Painter, Shape as ScreenShape, Stroke, Vec2};

use super::GroundView;
use super::furniture::grid_spacing_m;
use super::labels::paint_figure;
use crate::app::theme;
use crate::farm::{Farm, Ground, GroundId, Kind, Shape};
use crate::geometry::Point;
use crate::geometry::snap::{Snap, SnapIndex, SnapKind, SnapRequest, SnapShape};
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
    kept: Option<KeptIndex>,
}

/// What can be snapped to, as it stood.
#[derive(Debug)]
struct KeptIndex {
    index: SnapIndex,
    /// Kinds that are not in it.
    hidden: BTreeSet<Kind>,
    /// Ground that has changed since.
    changed: BTreeSet<GroundId>,
}

/// How near a place must be to be snapped to, in points of the screen.
const REACH: f64 = 9.0;

impl Snapping {
    /// Notes that a piece of ground has changed.
    pub fn forget(&mut self, id: GroundId) {
        if let Some(kept) = &mut self.kept {
            kept.changed.insert(id);
        }
        self.last = None;
    }

    /// Notes that another farm is on the desk.
    pub fn forget_all(&mut self) {
        (self.kept, self.last) = (None, None);
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
        let is_on_grid = self.is_on_grid;
        let index = self.index(farm, hidden);
        let mut request = SnapRequest::new(at, from, REACH * m_per_point);
        request.without = without.iter().map(|id| u64::from(id.0)).collect();
        if is_on_grid {
            request.grid_m = grid_spacing_m(m_per_point);
        }
        let snap = index.snap(&request);
        let place = snap.as_ref().map_or(at, |snap| snap.place);
        self.last = snap;
        place
    }

    /// The index of the farm as it stands: what has changed is put in anew, all of it where that is much.
    fn index(&mut self, farm: &Farm, hidden: &BTreeSet<Kind>) -> &SnapIndex {
        let stands = |kept: &KeptIndex| {
            kept.hidden == *hidden && kept.changed.len() <= farm.ground.len() / 4
        };
        let mut kept = match self.kept.take().filter(stands) {
            Some(kept) => kept,
            None => KeptIndex {
                index: SnapIndex::build(&shapes(farm, hidden)),
                hidden: hidden.clone(),
                changed: BTreeSet::new(),
            },
        };
        for id in std::mem::take(&mut kept.changed) {
            let ground = farm.ground.get(&id);
            let ground = ground.filter(|ground| !hidden.contains(&ground.kind));
            let shapes = ground.map_or_else(Vec::new, |ground| shapes_of(id, ground));
            kept.index.replace(u64::from(id.0), &shapes);
        }
        &self.kept.insert(kept).index
    }
}

fn shapes(farm: &Farm, hidden: &BTreeSet<Kind>) -> Vec<SnapShape> {
    farm.ground
        .iter()
        .filter(|(_, ground)| !hidden.contains(&ground.kind))
        .flat_map(|(id, ground)| shapes_of(*id, ground))
        .collect()
}

fn shapes_of(id: GroundId, ground: &Ground) -> Vec<SnapShape> {
    let owner = u64::from(id.0);
    let open = |places: Vec<Point>| {
        vec![SnapShape {
            owner,
            places,
            closed: false,
        }]
    };
    match &ground.shape {
        Shape::Area(outline) => SnapShape::of_outline(owner, outline),
        Shape::Line(line) => open(line.clone()),
        Shape::Place(place) => open(vec![*place]),
    }
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
