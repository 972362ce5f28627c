//! What the pointer does on the map: small machines fed our own events in metres.
//!
//! No toolkit in here, so every tool is tested without a window. A tool keeps its preview to itself and hands over
//! edits only when an act is complete; Escape drops the preview and touches nothing.

mod corners;
mod draw;
mod hole;
mod pick;
mod reshape;
mod ruler;
mod select_box;
mod shared_corner;
mod split;
mod square;
mod yard;

pub(crate) use draw::piece_of;
pub use draw::{DrawLine, DrawOutline, DrawPlace};
pub use hole::DrawHole;
pub use pick::{Pick, ground_at};
pub use reshape::{Becomes, Reshape, ReshapeAct, signed_area_text};
pub use ruler::Ruler;
pub use split::Split;
pub use square::DrawSquare;
pub use yard::PutYard;

use std::collections::BTreeSet;

use crate::farm::{Edit, Farm, Ground, GroundId, Kind, Neighbourhood};
use crate::geometry::{Bounds, Point};

/// Something that happened on the map, in metres on the plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MapEvent {
    /// The pointer is here, nothing pressed.
    Moved(Point),
    /// Pressed and let go in one place.
    Clicked {
        /// Where.
        at: Point,
        /// Whether what was selected stays selected.
        adds: bool,
    },
    /// Twice in one place.
    DoubleClicked(Point),
    /// A drag begins.
    DragStarted(Point),
    /// A drag begins that is to select everything in a box; to every tool but picking a drag like any.
    BoxStarted(Point),
    /// A drag goes on.
    Dragged(Point),
    /// A drag ends.
    DragEnded(Point),
    /// Done with what is being drawn.
    Finish,
    /// Take the last corner back, or delete what is selected.
    Back,
    /// Drop what is being drawn.
    Escape,
}

/// What a tool may look at.
#[derive(Debug, Clone, Copy)]
pub struct Scene<'a> {
    /// The farm as it stands.
    pub farm: &'a Farm,
    /// What is selected.
    pub selected: &'a BTreeSet<GroundId>,
    /// How near counts as on it, metres.
    pub reach_m: f64,
    /// What an outline drawn now becomes.
    pub area_kind: Kind,
    /// What a line drawn now becomes.
    pub line_kind: Kind,
    /// Whether a corner moves alone, without the neighbours' corners that lie on it.
    pub holds_apart: bool,
    /// Kinds that are not shown and so cannot be picked.
    pub hidden: &'a BTreeSet<Kind>,
    /// What lies where, so that a look at one place costs by what is there and not by the farm.
    pub neighbourhood: &'a Neighbourhood,
}

impl<'a> Scene<'a> {
    /// Ground whose box comes within a reach of a box, in the order of its numbers.
    pub(crate) fn ground_near(
        self,
        bounds: Bounds,
        reach_m: f64,
    ) -> impl Iterator<Item = (GroundId, &'a Ground)> {
        let near = self.neighbourhood.near(bounds.grown(reach_m));
        near.into_iter()
            .filter_map(move |id| self.farm.ground.get(&id).map(|ground| (id, ground)))
    }
}

/// What a tool asks for.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum ToolReply {
    /// Nothing beyond a new preview.
    #[default]
    Nothing,
    /// Select this, or nothing.
    Select(BTreeSet<GroundId>),
    /// One step of the history; afterwards this is selected.
    Commit {
        /// What undo calls it.
        label: String,
        /// The edits.
        edits: Vec<Edit>,
        /// Selected afterwards.
        select: BTreeSet<GroundId>,
    },
    /// Something the person should know.
    Tell(String),
}

/// What a tool shows while it works.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Preview {
    /// The line or ring so far, the pointer's place last.
    pub line: Vec<Point>,
    /// Whether it is a ring.
    pub is_closed: bool,
    /// Whether area and lengths are worth showing.
    pub shows_measures: bool,
    /// Whether the turn at the last corner and the ground that an open line would enclose are told too.
    pub shows_turn_and_area: bool,
    /// Ground drawn as it would become, instead of as it is.
    pub changed: Vec<(GroundId, Ground)>,
    /// Ground that would be new.
    pub added: Vec<Ground>,
    /// Ground that would go.
    pub removed: BTreeSet<GroundId>,
    /// Lines to mark: chosen sides, the line to mirror across.
    pub strokes: Vec<Vec<Point>>,
    /// Words and figures at places.
    pub figures: Vec<(Point, String)>,
}

/// One of the tools.
#[derive(Debug, Clone)]
pub enum Tool {
    /// Select, move, reshape.
    Pick(Pick),
    /// An outline, corner by corner.
    Outline(DrawOutline),
    /// A line, corner by corner.
    Line(DrawLine),
    /// A rectangle by three clicks.
    Square(DrawSquare),
    /// A single place.
    Place(DrawPlace),
    /// Split ground along a line.
    Split(Split),
    /// Measure and leave nothing behind.
    Ruler(Ruler),
    /// Where a mob's yard is.
    Yard(PutYard),
    /// A hole in a piece of ground.
    Hole(DrawHole),
    /// An act of reshaping that is looked at before it is done.
    Reshape(Box<Reshape>),
}

impl Default for Tool {
    fn default() -> Self {
        Self::Pick(Pick::default())
    }
}

impl Tool {
    /// Takes an event.
    pub fn handle(&mut self, event: MapEvent, scene: Scene<'_>) -> ToolReply {
        match self {
            Self::Pick(tool) => tool.handle(event, scene),
            Self::Outline(tool) => tool.handle(event, scene),
            Self::Line(tool) => tool.handle(event, scene),
            Self::Square(tool) => tool.handle(event, scene),
            Self::Place(tool) => tool.handle(event, scene),
            Self::Split(tool) => tool.handle(event, scene),
            Self::Ruler(tool) => tool.handle(event),
            Self::Yard(tool) => {
                let (reply, is_done) = tool.handle(event, scene);
                if is_done {
                    *self = Self::default();
                }
                reply
            }
            Self::Hole(tool) => tool.handle(event, scene),
            Self::Reshape(tool) => {
                let (reply, is_done) = tool.handle(event, scene);
                if is_done {
                    *self = Self::default();
                }
                reply
            }
        }
    }

    /// What to show.
    pub fn preview(&self) -> Preview {
        match self {
            Self::Pick(tool) => tool.preview(),
            Self::Outline(tool) => tool.preview(),
            Self::Line(tool) => tool.preview(),
            Self::Square(tool) => tool.preview(),
            Self::Place(_) | Self::Yard(_) => Preview::default(),
            Self::Split(tool) => tool.preview(),
            Self::Ruler(tool) => tool.preview(),
            Self::Hole(tool) => tool.preview(),
            Self::Reshape(tool) => tool.preview(),
        }
    }

    /// What to do next, in one sentence.
    pub fn hint(&self) -> &'static str {
        match self {
            Self::Pick(tool) => tool.hint(),
            Self::Outline(tool) => tool.hint(),
            Self::Line(tool) => tool.hint(),
            Self::Square(tool) => tool.hint(),
            Self::Place(_) => "Click where it stands.",
            Self::Split(tool) => tool.hint(),
            Self::Ruler(tool) => tool.hint(),
            Self::Yard(_) => PutYard::hint(),
            Self::Hole(tool) => tool.hint(),
            Self::Reshape(tool) => tool.hint(),
        }
    }

    /// The name on its button.
    pub fn name(&self) -> &'static str {
        match self {
            Self::Pick(_) => "Pick",
            Self::Outline(_) => "Outline",
            Self::Line(tool) if tool.is_trees() => "Trees",
            Self::Line(_) => "Line",
            Self::Square(tool) if tool.kind().is_some() => "Tunnel",
            Self::Square(_) => "Square",
            Self::Place(_) => "Place",
            Self::Split(_) => "Cut",
            Self::Ruler(_) => "Ruler",
            Self::Yard(_) => "Yard",
            Self::Hole(_) => "Hole",
            Self::Reshape(_) => "Reshape",
        }
    }

    /// The corner that the next stretch starts from.
    pub fn last_corner(&self) -> Option<Point> {
        match self {
            Self::Pick(_) | Self::Place(_) | Self::Yard(_) | Self::Reshape(_) => None,
            Self::Outline(tool) => tool.corners().last().copied(),
            Self::Line(tool) => tool.corners().last().copied(),
            Self::Square(tool) => tool.side().last().copied(),
            Self::Split(tool) => tool.corners().last().copied(),
            Self::Ruler(tool) => tool.corners().last().copied(),
            Self::Hole(tool) => tool.corners().last().copied(),
        }
    }

    /// Whether its events want to snap, and which pieces are on the move and so cannot be snapped to.
    pub fn snaps(&self) -> Option<BTreeSet<GroundId>> {
        match self {
            Self::Pick(tool) => tool.reshaped(),
            Self::Reshape(tool) => tool.snaps(),
            _ => Some(BTreeSet::new()),
        }
    }

    /// Whether it is in the middle of something.
    pub fn is_busy(&self) -> bool {
        matches!(self, Self::Reshape(_))
            || !self.preview().line.is_empty()
            || !self.preview().changed.is_empty()
    }
}

/// A set of one.
pub(crate) fn only(id: GroundId) -> BTreeSet<GroundId> {
    BTreeSet::from([id])
}

/// The edits that put a new piece of ground on the farm, and its number.
pub(crate) fn added(farm: &Farm, ground: Ground) -> (GroundId, Vec<Edit>) {
    let id = GroundId(farm.next_id);
    (id, vec![Edit::add_ground(id, ground)])
}
