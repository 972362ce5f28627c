//! All ground in the order in which it lies, from kept cells; what is being reshaped is drawn as it would become.
//!
//! Metres; a cell's side is in points of the screen.

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::Painter;

use super::cells::{self, CellPlace, CellPress, MapCells, Order, Seen};
use super::{MapCache, course_year, paint};
use crate::app::desk::Desk;
use crate::app::tools::Preview;
use crate::farm::{Ground, GroundId, Kind};
use crate::geometry::Bounds;
use crate::planning::SeasonPlan;
use crate::quantity::Day;
use crate::sheets::estate_map::{GroundLook, Mark};
use crate::sheets::palette::Light;

/// The order in which kinds lie on each other, the undermost first.
const fn layer(kind: Kind) -> u8 {
    match kind {
        Kind::Wood | Kind::Ley | Kind::Plot => 0,
        Kind::Strip => 1,
        Kind::Water | Kind::KeepOut => 2,
        Kind::Track => 3,
        Kind::Building | Kind::Tunnel => 4,
        Kind::Hedge | Kind::TreeLine => 5,
        Kind::Fence => 6,
        Kind::Gate | Kind::Trough => 7,
        Kind::Note => 8,
    }
}

/// A piece that is drawn as it would become.
struct Apart {
    order: Order,
    /// Where it is and where it would be.
    bounds: Option<Bounds>,
    marks: Vec<Mark>,
}

/// Paints all ground in view.
pub(super) fn paint_ground(painter: &Painter, desk: &mut Desk, preview: &Preview, light: Light) {
    let year = course_year::year_on_map(desk);
    let seen = Seen {
        m_per_point: desk.view.m_per_point,
        light,
        pixels_per_point: painter.ctx().pixels_per_point(),
        hidden: desk.hidden.clone(),
        year,
    };
    let mut kept = std::mem::take(&mut desk.map_cells);
    let mut marks = std::mem::take(&mut desk.map_cache);
    let has_moved = kept.look(seen, &desk.view);
    let painted = (desk.day, desk.plan.clone());
    if !is_same_day_and_plan(&painted, desk.map_painted.as_ref()) {
        kept.look_at_grass(|id| MapCache::grass_step(tallness(desk, id)));
        desk.map_painted = Some(painted);
    }
    let apart = pieces_apart(desk, preview, year);
    let mut layer = Layer {
        painter,
        desk,
        light,
        year,
        marks: &mut marks,
    };
    for place in cells::in_view(&desk.view) {
        let here = layer.apart_in(place, &apart);
        if !kept.is_built(place, &here) {
            layer.build(&mut kept, place, here);
        }
        kept.paint(painter, &desk.view, place, |painter, order| {
            let piece = apart.iter().find(|piece| piece.order == order);
            if let Some(piece) = piece {
                paint::paint_marks(painter, &desk.view, light, &piece.marks);
            }
        });
    }
    // While the map is panned, a cell of those that come into view next is built ahead in each frame.
    if has_moved {
        let mut ahead = cells::around_view(&desk.view);
        if let Some(place) = ahead.find(|place| !kept.is_built(*place, &[])) {
            let here = layer.apart_in(place, &apart);
            layer.build(&mut kept, place, here);
        }
    }
    desk.map_cells = kept;
    desk.map_cache = marks;
}

/// The day and plan that the grass was last painted by.
pub type PaintedBy = (Day, Option<Arc<SeasonPlan>>);

fn is_same_day_and_plan(now: &PaintedBy, before: Option<&PaintedBy>) -> bool {
    before.is_some_and(|before| {
        let is_same_plan = match (&now.1, &before.1) {
            (Some(one), Some(two)) => Arc::ptr_eq(one, two),
            (None, None) => true,
            _ => false,
        };
        is_same_plan && now.0 == before.0
    })
}

/// What is being reshaped, in the order in which it lies.
fn pieces_apart(desk: &Desk, preview: &Preview, year: Option<i16>) -> Vec<Apart> {
    let changed: BTreeMap<GroundId, &Ground> = preview
        .changed
        .iter()
        .map(|(id, ground)| (*id, ground))
        .collect();
    let removed = preview.removed.iter().copied();
    let mut pieces: Vec<Apart> = changed
        .keys()
        .copied()
        .chain(removed.filter(|id| !changed.contains_key(id)))
        .filter_map(|id| {
            let order = order_of(desk, year, id)?;
            let becomes = changed.get(&id).filter(|_| !preview.removed.contains(&id));
            let marks = becomes.map_or_else(Vec::new, |ground| {
                let look = look_of(desk, year, id);
                MapCache::fresh_marks(ground, look, desk.view.m_per_point)
            });
            let corners = becomes.iter().flat_map(|ground| ground.shape.corners());
            let new = Bounds::of_points(corners);
            let old = desk.neighbourhood().bounds(id);
            let bounds = match (old, new) {
                (Some(old), Some(new)) => Some(old.joined(new)),
                (old, new) => old.or(new),
            };
            Some(Apart {
                order,
                bounds,
                marks,
            })
        })
        .collect();
    pieces.sort_by_key(|piece| piece.order);
    pieces
}

/// Where a piece lies among others; nothing for what is not shown.
fn order_of(desk: &Desk, year: Option<i16>, id: GroundId) -> Option<Order> {
    let ground = desk.farm().ground.get(&id)?;
    let is_out = year.is_some() && course_year::is_hidden(desk, id);
    if is_out || desk.hidden.contains(&ground.kind) {
        return None;
    }
    // The boundary of a ley lies over its strips.
    let layer = if desk.reckoned().is_cut(id) {
        2
    } else {
        layer(ground.kind)
    };
    Some((layer, ground.raised, id))
}

fn look_of(desk: &Desk, year: Option<i16>, id: GroundId) -> GroundLook {
    let in_year = year.and_then(|year| course_year::year_look(desk, id, year));
    GroundLook {
        tallness: tallness(desk, id),
        is_under_strips: desk.reckoned().is_cut(id) && in_year.is_none(),
        in_year,
    }
}

/// What is at hand while the ground is painted.
struct Layer<'map> {
    painter: &'map Painter,
    desk: &'map Desk,
    light: Light,
    year: Option<i16>,
    marks: &'map mut MapCache,
}

impl Layer<'_> {
    fn m_per_point(&self) -> f64 {
        self.desk.view.m_per_point
    }

    /// A cell's ground with as much around it as patterns and lines reach beyond theirs.
    fn reach_of(&self, place: CellPlace) -> Bounds {
        let margin_m = cells::margin_m(self.desk.reckoned().widest_m(), self.m_per_point());
        cells::room_of(place, self.m_per_point()).grown(margin_m)
    }

    fn apart_in(&self, place: CellPlace, apart: &[Apart]) -> Vec<Order> {
        if apart.is_empty() {
            return Vec::new();
        }
        let reach = self.reach_of(place);
        let is_here = |piece: &&Apart| piece.bounds.is_some_and(|bounds| bounds.meets(reach));
        apart
            .iter()
            .filter(is_here)
            .map(|piece| piece.order)
            .collect()
    }

    fn build(&mut self, kept: &mut MapCells, place: CellPlace, apart: Vec<Order>) {
        let near = self.desk.neighbourhood().near(self.reach_of(place));
        let mut orders: Vec<Order> = near
            .into_iter()
            .filter_map(|id| order_of(self.desk, self.year, id))
            .collect();
        orders.sort_unstable();
        let mut press = CellPress::new(self.painter.ctx(), place, self.m_per_point(), self.light);
        let mut grass = Vec::new();
        let mut before = apart.iter().copied().peekable();
        for order in orders {
            while before.next_if(|next| *next < order).is_some() {
                press.part();
            }
            if before.peek() == Some(&order) {
                continue;
            }
            let (.., id) = order;
            if let Some(ground) = self.desk.farm().ground.get(&id) {
                let look = look_of(self.desk, self.year, id);
                if matches!(ground.kind, Kind::Ley | Kind::Strip) {
                    grass.push((id, MapCache::grass_step(look.tallness)));
                }
                press.press(self.marks.marks(id, ground, look, self.m_per_point()));
            }
        }
        for _ in before {
            press.part();
        }
        kept.keep(place, (apart, grass), press.runs());
    }
}

/// How tall the grass stands on the day in view, 0 at the residual, 1 at the ceiling.
fn tallness(desk: &Desk, id: GroundId) -> Option<f64> {
    let cover = desk.plan.as_ref()?.cover_on(id, desk.day)?;
    let sward = &desk.farm().sward;
    let grazing = desk.farm().ground.get(&id)?.grazing.as_ref();
    let leave = grazing
        .and_then(|grazing| grazing.leave_kg_per_ha)
        .unwrap_or(sward.leave_kg_per_ha);
    let ceiling = grazing
        .and_then(|grazing| grazing.ceiling_kg_per_ha)
        .unwrap_or(sward.ceiling_kg_per_ha);
    (ceiling > leave).then(|| ((cover - leave) / (ceiling - leave)).clamp(0.0, 1.0))
}
