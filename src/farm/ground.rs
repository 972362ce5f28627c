//! One piece of ground: its name, kind, shape and what grows or grazes on it.
//!
//! Knows nothing of its neighbours or of plans. Metres.

use super::{Basin, Beds, FencePosts, Form, Grazing, GroundId, Kind, TreeRow, TunnelFrame};
use crate::geometry::{Outline, Point};

/// A thing drawn on the map.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    /// What the grower calls it.
    pub name: String,
    /// What it is.
    pub kind: Kind,
    /// Where it lies.
    pub shape: Shape,
    /// The ley or plot that it is a piece of; only strips have one.
    pub within: Option<GroundId>,
    /// Width of a line on the ground, metres; the kind's usual width where absent.
    pub width_m: Option<f64>,
    /// Height above ground, metres (hedge, wood, building, tunnel ridge).
    pub height_m: Option<f64>,
    /// The trees of a tree line.
    pub trees: Option<TreeRow>,
    /// How a tunnel is built.
    pub frame: Option<TunnelFrame>,
    /// The beds of a plot or tunnel.
    pub beds: Option<Beds>,
    /// Posts and rolls of a fence.
    pub posts: Option<FencePosts>,
    /// How deep a pond is.
    pub basin: Option<Basin>,
    /// What stands on it this season, in the grower's words ("leeks", "herb ley, year 2").
    pub crop: String,
    /// The grazing of a ley or strip; the farm's sward where absent.
    pub grazing: Option<Grazing>,
    /// Anything else.
    pub note: String,
    /// Whether the map leaves it where it is: not moved, reshaped or deleted until it is let go.
    pub is_locked: bool,
    /// Whether the length of each side stands on the map.
    pub shows_lengths: bool,
    /// Steps that it lies above (or below) others of its kind of mark; 0 as drawn.
    pub raised: i32,
}

/// Where a thing lies on the farm's plane.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// Outlines with their holes.
    Area(Outline),
    /// A line through these corners, two at least.
    Line(Vec<Point>),
    /// A single place.
    Place(Point),
}

impl Ground {
    /// A piece of ground with a name, kind and shape and nothing else said.
    pub fn new(name: impl Into<String>, kind: Kind, shape: Shape) -> Self {
        Self {
            name: name.into(),
            kind,
            shape,
            within: None,
            width_m: None,
            height_m: None,
            trees: None,
            frame: None,
            beds: None,
            posts: None,
            basin: None,
            crop: String::new(),
            grazing: None,
            note: String::new(),
            is_locked: false,
            shows_lengths: false,
            raised: 0,
        }
    }

    /// The outline, where it is an area.
    pub fn outline(&self) -> Option<&Outline> {
        match &self.shape {
            Shape::Area(outline) => Some(outline),
            Shape::Line(_) | Shape::Place(_) => None,
        }
    }

    /// The corners, where it is a line.
    pub fn line(&self) -> Option<&[Point]> {
        match &self.shape {
            Shape::Line(corners) => Some(corners),
            Shape::Area(_) | Shape::Place(_) => None,
        }
    }

    /// Width on the ground, metres: its own, else the usual one of its kind.
    pub fn drawn_width_m(&self) -> f64 {
        self.width_m.unwrap_or(self.kind.usual_width_m())
    }
}

impl Shape {
    /// The form it lies in.
    pub fn form(&self) -> Form {
        match self {
            Self::Area(_) => Form::Area,
            Self::Line(_) => Form::Line,
            Self::Place(_) => Form::Place,
        }
    }

    /// Every corner, rings in order.
    pub fn corners(&self) -> Vec<Point> {
        match self {
            Self::Area(outline) => outline
                .rings()
                .flat_map(|ring| ring.corners.iter().copied())
                .collect(),
            Self::Line(corners) => corners.clone(),
            Self::Place(place) => vec![*place],
        }
    }

    /// The same shape with every corner put through `change`.
    #[must_use]
    pub fn map_corners(&self, change: impl Fn(Point) -> Point) -> Self {
        let mut shape = self.clone();
        for corner in shape.corners_mut() {
            *corner = change(*corner);
        }
        shape
    }

    /// The corner with this place in the order of [`Self::corners`], to be changed.
    pub fn corner_mut(&mut self, index: usize) -> Option<&mut Point> {
        self.corners_mut().into_iter().nth(index)
    }

    fn corners_mut(&mut self) -> Vec<&mut Point> {
        match self {
            Self::Area(outline) => outline
                .rings_mut()
                .flat_map(|ring| ring.corners.iter_mut())
                .collect(),
            Self::Line(corners) => corners.iter_mut().collect(),
            Self::Place(place) => vec![place],
        }
    }

    /// The sides as pairs of corner indices (in the order of [`Self::corners`]).
    pub fn sides(&self) -> Vec<(usize, usize)> {
        match self {
            Self::Area(outline) => {
                let mut sides = Vec::new();
                let mut base = 0;
                for ring in outline.rings() {
                    let count = ring.corners.len();
                    sides
                        .extend((0..count).map(|place| (base + place, base + (place + 1) % count)));
                    base += count;
                }
                sides
            }
            Self::Line(corners) => (1..corners.len()).map(|place| (place - 1, place)).collect(),
            Self::Place(_) => Vec::new(),
        }
    }

    /// The same shape with a corner put into the side that begins at corner `side_start`.
    #[must_use]
    pub fn with_corner_after(&self, side_start: usize, place: Point) -> Self {
        let mut shape = self.clone();
        if let Some((corners, local)) = shape.list_holding(side_start) {
            corners.insert(local + 1, place);
        }
        shape
    }

    /// The same shape without one corner; `None` where too few would be left.
    pub fn without_corner(&self, index: usize) -> Option<Self> {
        let least = if matches!(self, Self::Area(_)) { 3 } else { 2 };
        let mut shape = self.clone();
        let (corners, local) = shape.list_holding(index)?;
        if corners.len() <= least {
            return None;
        }
        corners.remove(local);
        Some(shape)
    }

    /// The list that holds corner `index`, and its place there.
    fn list_holding(&mut self, index: usize) -> Option<(&mut Vec<Point>, usize)> {
        match self {
            Self::Area(outline) => {
                let mut base = 0;
                for ring in outline.rings_mut() {
                    let count = ring.corners.len();
                    if index < base + count {
                        return Some((&mut ring.corners, index - base));
                    }
                    base += count;
                }
                None
            }
            Self::Line(corners) if index < corners.len() => Some((corners, index)),
            Self::Line(_) | Self::Place(_) => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square() -> Shape {
        let corners = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)];
        Shape::Area(Outline::simple(
            corners
                .map(|(east, north)| Point::new(east, north))
                .to_vec(),
        ))
    }

    #[test]
    fn a_corner_put_in_and_taken_out_leaves_the_shape_as_it_was() {
        let with = square().with_corner_after(3, Point::new(0.0, 5.0));
        assert_eq!(with.corners().len(), 5);
        assert_eq!(with.without_corner(4), Some(square()));
    }

    #[test]
    fn a_triangle_keeps_its_corners() {
        let triangle = square().without_corner(0);
        assert_eq!(triangle.and_then(|shape| shape.without_corner(0)), None);
        assert_eq!(square().without_corner(9), None);
    }
}
