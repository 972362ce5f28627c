//! The ground as triangles, in square cells of the screen, kept while the view moves and nothing else changes.
//!
//! A cell holds all that is drawn in it in order, cut off at its sides when it is put down; so a step of panning only
//! moves triangles, and builds the cells that come into view. Pieces that are being reshaped stand apart: they cut a
//! cell's triangles in runs, and are drawn between them.

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::epaint::{Mesh, TessellationOptions, Tessellator};
use egui::{Context, Painter, Pos2, Rect, Shape, Vec2};

use super::GroundView;
use super::paint::mark_shapes;
use crate::farm::{GroundId, Kind};
use crate::geometry::{Bounds, Point};
use crate::sheets::estate_map::Mark;
use crate::sheets::palette::Light;

/// A side of a cell, points of the screen.
pub(super) const CELL: f32 = 256.0;
/// Cells so many beyond those in view are kept.
const KEPT_BEYOND: i64 = 2;

/// Where a piece lies among others: layer, raised by hand, number.
pub(super) type Order = (u8, i32, GroundId);

/// Column and row of a cell, counted from the origin to the east and north.
pub(super) type CellPlace = (i64, i64);

/// What every cell was built for; with any other the cells are of no use.
#[derive(Debug, Clone)]
pub(super) struct Seen {
    pub(super) m_per_point: f64,
    pub(super) light: Light,
    pub(super) pixels_per_point: f32,
    pub(super) hidden: std::collections::BTreeSet<Kind>,
    pub(super) year: Option<i16>,
}

/// The grass on pieces of a cell, in steps from short to tall, as it was drawn.
pub(super) type GrassSteps = Vec<(GroundId, i32)>;

/// Kept cells.
#[derive(Debug, Default)]
pub struct MapCells {
    seen: Option<Seen>,
    looked_at: Option<Point>,
    kept: BTreeMap<CellPlace, Cell>,
}

/// Triangles of one cell.
#[derive(Debug)]
struct Cell {
    /// What stands apart, in order: a run ends before each.
    apart: Vec<Order>,
    grass: GrassSteps,
    runs: Vec<Run>,
}

/// Triangles that are put down together.
#[derive(Debug, Default)]
struct Run {
    mesh: Arc<Mesh>,
    /// The corners from the cell's own corner at the top left.
    corners: Vec<Vec2>,
    /// Where that corner was when the mesh was last moved.
    put_at: Option<Pos2>,
}

impl Seen {
    fn is_like(&self, other: &Self) -> bool {
        self.m_per_point.to_bits() == other.m_per_point.to_bits()
            && self.pixels_per_point.to_bits() == other.pixels_per_point.to_bits()
            && self.light == other.light
            && self.hidden == other.hidden
            && self.year == other.year
    }
}

impl MapCells {
    /// Drops everything.
    pub fn forget_all(&mut self) {
        self.kept.clear();
    }

    /// Drops the cells that a box on the ground comes into, with lines so wide.
    pub fn forget_in(&mut self, bounds: Bounds, widest_m: f64) {
        let Some(seen) = &self.seen else {
            return;
        };
        let bounds = bounds.grown(margin_m(widest_m, seen.m_per_point));
        let m_per_point = seen.m_per_point;
        self.kept
            .retain(|place, _| !room_of(*place, m_per_point).meets(bounds));
    }

    /// Drops what was built for another scale, light, year or choice of kinds, and what lies far out of view.
    /// Whether the view has moved since the last look.
    pub(super) fn look(&mut self, seen: Seen, view: &GroundView) -> bool {
        if self.seen.as_ref().is_none_or(|kept| !kept.is_like(&seen)) {
            self.kept.clear();
            self.seen = Some(seen);
        }
        let ((west, south), (east, north)) = corner_cells(view);
        self.kept.retain(|(column, row), _| {
            (west - KEPT_BEYOND..=east + KEPT_BEYOND).contains(column)
                && (south - KEPT_BEYOND..=north + KEPT_BEYOND).contains(row)
        });
        let has_moved = self.looked_at.is_some_and(|middle| middle != view.middle);
        self.looked_at = Some(view.middle);
        has_moved
    }

    /// Drops the cells in which the grass is no longer as it was drawn: another day, or another plan.
    pub(super) fn look_at_grass(&mut self, step_of: impl Fn(GroundId) -> i32) {
        self.kept.retain(|_, cell| {
            let mut grass = cell.grass.iter();
            grass.all(|(id, step)| step_of(*id) == *step)
        });
    }

    /// Whether a cell is kept that was built with these standing apart.
    pub(super) fn is_built(&self, place: CellPlace, apart: &[Order]) -> bool {
        self.kept
            .get(&place)
            .is_some_and(|cell| cell.apart == apart)
    }

    /// Keeps a cell: the marks of its ground in order, parted where something stands apart.
    pub(super) fn keep(
        &mut self,
        place: CellPlace,
        (apart, grass): (Vec<Order>, GrassSteps),
        runs: Vec<Mesh>,
    ) {
        let runs = runs
            .into_iter()
            .map(|mesh| Run {
                corners: mesh.vertices.iter().map(|at| at.pos.to_vec2()).collect(),
                mesh: Arc::new(mesh),
                put_at: None,
            })
            .collect();
        self.kept.insert(place, Cell { apart, grass, runs });
    }

    /// Puts a cell down, and has each piece that stands apart painted in its turn.
    pub(super) fn paint(
        &mut self,
        painter: &Painter,
        view: &GroundView,
        place: CellPlace,
        mut paint_apart: impl FnMut(&Painter, Order),
    ) {
        let Some(cell) = self.kept.get_mut(&place) else {
            return;
        };
        let on_screen = screen_of(place, view);
        let painter = painter.with_clip_rect(on_screen.intersect(painter.clip_rect()));
        let mut apart = cell.apart.iter();
        for run in &mut cell.runs {
            if !run.corners.is_empty() {
                run.move_to(on_screen.min);
                painter.add(Shape::Mesh(Arc::clone(&run.mesh)));
            }
            if let Some(order) = apart.next() {
                paint_apart(&painter, *order);
            }
        }
    }
}

impl Run {
    /// Moves the triangles, always from where they belong, so that no rounding adds up.
    fn move_to(&mut self, at: Pos2) {
        if self.put_at == Some(at) {
            return;
        }
        self.put_at = Some(at);
        let mesh = Arc::make_mut(&mut self.mesh);
        for (vertex, corner) in mesh.vertices.iter_mut().zip(&self.corners) {
            vertex.pos = at + *corner;
        }
    }
}

/// Patterns may reach so far beyond their ground, points of the screen.
const MARGIN: f64 = 30.0;
/// Crowns and signs may reach so far beyond theirs, metres.
const LEAST_MARGIN_M: f64 = 20.0;

/// How far patterns, crowns and lines reach beyond their ground's box, where the widest line is so wide.
pub(super) fn margin_m(widest_m: f64, m_per_point: f64) -> f64 {
    MARGIN * m_per_point + widest_m.max(LEAST_MARGIN_M)
}

/// Turns marks into triangles of a cell.
pub(super) struct CellPress {
    view: GroundView,
    light: Light,
    tessellator: Tessellator,
    mesh: Mesh,
    runs: Vec<Mesh>,
}

impl CellPress {
    pub(super) fn new(ctx: &Context, place: CellPlace, m_per_point: f64, light: Light) -> Self {
        let options = TessellationOptions {
            // What is kept must not look into a texture that may be laid out anew.
            prerasterized_discs: false,
            ..ctx.tessellation_options(|options| *options)
        };
        let room = room_of(place, m_per_point);
        let screen = Rect::from_min_size(Pos2::ZERO, Vec2::splat(CELL));
        let mut tessellator = Tessellator::new(ctx.pixels_per_point(), options, [1, 1], Vec::new());
        tessellator.set_clip_rect(screen.expand(2.0));
        Self {
            view: GroundView {
                middle: room.centre(),
                m_per_point,
                screen,
            },
            light,
            tessellator,
            mesh: Mesh::default(),
            runs: Vec::new(),
        }
    }

    /// Adds marks to the run.
    pub(super) fn press(&mut self, marks: &[Mark]) {
        let (tessellator, mesh) = (&mut self.tessellator, &mut self.mesh);
        for mark in marks {
            mark_shapes(
                &self.view,
                self.view.screen,
                self.light,
                mark,
                &mut |shape| {
                    tessellator.tessellate_shape(shape, mesh);
                },
            );
        }
    }

    /// Ends the run.
    pub(super) fn part(&mut self) {
        self.runs.push(std::mem::take(&mut self.mesh));
    }

    /// All runs.
    pub(super) fn runs(mut self) -> Vec<Mesh> {
        self.part();
        self.runs
    }
}

/// The ground of a cell.
pub(super) fn room_of((column, row): CellPlace, m_per_point: f64) -> Bounds {
    let side_m = f64::from(CELL) * m_per_point;
    #[expect(
        clippy::cast_precision_loss,
        reason = "cells on the earth are far fewer"
    )]
    let corner = |column: i64, row: i64| Point::new(column as f64 * side_m, row as f64 * side_m);
    Bounds {
        least: corner(column, row),
        most: corner(column + 1, row + 1),
    }
}

/// The cells in view, row by row.
pub(super) fn in_view(view: &GroundView) -> impl Iterator<Item = CellPlace> {
    let ((west, south), (east, north)) = corner_cells(view);
    (south..=north).flat_map(move |row| (west..=east).map(move |column| (column, row)))
}

/// The cells round those in view.
pub(super) fn around_view(view: &GroundView) -> impl Iterator<Item = CellPlace> {
    let ((west, south), (east, north)) = corner_cells(view);
    let is_in_view = move |(column, row): &CellPlace| {
        (west..=east).contains(column) && (south..=north).contains(row)
    };
    (south - 1..=north + 1)
        .flat_map(move |row| (west - 1..=east + 1).map(move |column| (column, row)))
        .filter(move |place| !is_in_view(place))
}

/// The cells in the south-west and north-east of the view.
fn corner_cells(view: &GroundView) -> (CellPlace, CellPlace) {
    let (south_west, north_east) = view.ground_in_view();
    let side_m = f64::from(CELL) * view.m_per_point;
    #[expect(
        clippy::cast_possible_truncation,
        reason = "cells on the earth are far fewer; a cast holds at the ends"
    )]
    let place = |at: Point| {
        (
            (at.east_m / side_m).floor() as i64,
            (at.north_m / side_m).floor() as i64,
        )
    };
    (place(south_west), place(north_east))
}

/// Where a cell lies on the screen; neighbours have the very same side.
fn screen_of(place: CellPlace, view: &GroundView) -> Rect {
    let room = room_of(place, view.m_per_point);
    let low = view.screen_from_ground(room.least);
    let high = view.screen_from_ground(room.most);
    Rect::from_min_max(Pos2::new(low.x, high.y), Pos2::new(high.x, low.y))
}
