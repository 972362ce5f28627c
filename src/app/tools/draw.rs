//! Drawing corner by corner: outlines, lines, single places.
//!
//! How corners are put down is in `corners`.

use super::corners::{Corners, Step};
use super::{MapEvent, Preview, Scene, ToolReply, added, only};
use crate::farm::{Farm, Form, Ground, Kind, Shape, TreeRow};
use crate::geometry::{Outline, Point};

/// Draws an outline.
#[derive(Debug, Clone, Default)]
pub struct DrawOutline {
    corners: Corners,
}

/// Draws a line.
#[derive(Debug, Clone, Default)]
pub struct DrawLine {
    corners: Corners,
    is_trees: bool,
}

/// Puts down a single place.
#[derive(Debug, Clone)]
pub struct DrawPlace {
    /// What stands there.
    pub kind: Kind,
}

impl DrawOutline {
    pub(super) fn handle(&mut self, event: MapEvent, scene: Scene<'_>) -> ToolReply {
        match self.corners.follow(event, scene.reach_m, true) {
            Step::GoOn => ToolReply::Nothing,
            Step::End if self.corners.list().len() < 3 => ToolReply::Tell(
                "An outline needs three corners at least: click the next one.".to_owned(),
            ),
            Step::End => {
                let corners = self.corners.take();
                new_ground(
                    scene,
                    scene.area_kind,
                    Shape::Area(Outline::simple(corners)),
                )
            }
        }
    }

    /// The corners so far.
    pub fn corners(&self) -> &[Point] {
        self.corners.list()
    }

    pub(super) fn preview(&self) -> Preview {
        self.corners.preview(true)
    }

    pub(super) fn hint(&self) -> &'static str {
        match self.corners.list().len() {
            0 => "Click the first corner.",
            1 | 2 => "Click the next corner. Backspace takes one back.",
            _ => "Click the next corner; click the first one, or press Enter, to close.",
        }
    }
}

impl DrawLine {
    /// A line that becomes a tree line.
    pub fn of_trees() -> Self {
        Self {
            is_trees: true,
            ..Self::default()
        }
    }

    /// Whether it becomes a tree line whatever was drawn last.
    pub fn is_trees(&self) -> bool {
        self.is_trees
    }

    pub(super) fn handle(&mut self, event: MapEvent, scene: Scene<'_>) -> ToolReply {
        match self.corners.follow(event, scene.reach_m, false) {
            Step::GoOn => ToolReply::Nothing,
            Step::End if self.corners.list().len() < 2 => {
                ToolReply::Tell("A line needs two ends: click the next one.".to_owned())
            }
            Step::End => {
                let corners = self.corners.take();
                new_ground(
                    scene,
                    if self.is_trees {
                        Kind::TreeLine
                    } else {
                        scene.line_kind
                    },
                    Shape::Line(corners),
                )
            }
        }
    }

    /// The corners so far.
    pub fn corners(&self) -> &[Point] {
        self.corners.list()
    }

    pub(super) fn preview(&self) -> Preview {
        self.corners.preview(false)
    }

    pub(super) fn hint(&self) -> &'static str {
        match self.corners.list().len() {
            0 => "Click where it begins.",
            1 => "Click the next corner.",
            _ => "Click the next corner; double-click or press Enter to end.",
        }
    }
}

impl DrawPlace {
    pub(super) fn handle(&mut self, event: MapEvent, scene: Scene<'_>) -> ToolReply {
        match event {
            MapEvent::Clicked { at, .. } => {
                new_ground(scene, self.kind, Shape::Place(at.on_whole_mm()))
            }
            _ => ToolReply::Nothing,
        }
    }
}

/// Puts a new piece of ground on the farm under the first free name of its kind.
pub(super) fn new_ground(scene: Scene<'_>, kind: Kind, shape: Shape) -> ToolReply {
    let ground = piece_of(scene.farm, kind, shape);
    let label = format!("Draw {}", ground.name);
    let (id, edits) = added(scene.farm, ground);
    ToolReply::Commit {
        label,
        edits,
        select: only(id),
    }
}

/// A new piece of ground under the first free name of its kind; the usual kind where this one cannot lie so.
pub(crate) fn piece_of(farm: &Farm, kind: Kind, shape: Shape) -> Ground {
    let form = shape.form();
    let kind = if kind.allows(form) {
        kind
    } else {
        usual_kind(form)
    };
    let mut stem = kind.name().to_owned();
    if let Some(first) = stem.get_mut(0..1) {
        first.make_ascii_uppercase();
    }
    let mut ground = Ground::new(farm.free_name(&stem), kind, shape);
    if kind == Kind::TreeLine {
        ground.trees = Some(USUAL_TREES);
    }
    ground
}

/// Trees of a new line until the grower says otherwise (common practice for small fruit trees, no source).
const USUAL_TREES: TreeRow = TreeRow {
    spacing_m: 5.0,
    first_m: 0.0,
    crown_m: 4.0,
    varieties: Vec::new(),
};

/// What a shape becomes where nothing better is said.
const fn usual_kind(form: Form) -> Kind {
    match form {
        Form::Area => Kind::Plot,
        Form::Line => Kind::Fence,
        Form::Place => Kind::Trough,
    }
}
