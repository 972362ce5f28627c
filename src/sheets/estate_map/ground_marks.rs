//! One piece of ground as marks: its tint, its pattern and its edge.
//!
//! Holds which kind is drawn how; the patterns themselves are in `patterns` and `line_marks`.

use super::line_marks::{line_marks, place_marks};
use super::{MapScale, Mark, built_marks, patterns};
use crate::farm::{Ground, Kind, Shape};
use crate::geometry::Outline;
use crate::geometry::triangulate::fill_mesh;
use crate::sheets::palette::Ink;

/// What a piece looks like on the day the map stands for.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct GroundLook {
    /// Cover on that morning as a share of the way from residual to ceiling, 0 to 1, where a plan knows it.
    pub tallness: Option<f64>,
    /// Whether strips lie on it, which then show the grass: only its boundary is drawn.
    pub is_under_strips: bool,
    /// What it is drawn as in a year of the course, where the map shows one.
    pub in_year: Option<YearLook>,
}

/// A plot, ley or tunnel as it looks in a year of the course.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct YearLook {
    /// The kind whose pattern it has.
    pub kind: Kind,
    /// Its tint.
    pub ink: Ink,
}

/// The marks of one piece of ground, tint first, edge last.
pub fn ground_marks(ground: &Ground, look: GroundLook, scale: MapScale) -> Vec<Mark> {
    match &ground.shape {
        Shape::Area(outline) => area_marks(ground, outline, look, scale),
        Shape::Line(line) => line_marks(ground, line, scale),
        Shape::Place(place) => place_marks(ground, *place, scale),
    }
}

fn area_marks(ground: &Ground, outline: &Outline, look: GroundLook, scale: MapScale) -> Vec<Mark> {
    let kind = ground.kind;
    let tallness = look.tallness.unwrap_or(0.5).clamp(0.0, 1.0);
    let mut marks = Vec::new();
    let (kind, tint) = look.in_year.map_or_else(
        || (kind, tint(kind, tallness)),
        |year| (year.kind, year.ink),
    );
    if !look.is_under_strips {
        marks.push(fill(outline, tint));
        marks.extend(pattern(kind, ground, outline, tallness, scale));
    }
    let (ink, width, dash) = edge(kind);
    for ring in outline.rings() {
        marks.push(Mark::Stroke {
            line: ring.corners.clone(),
            is_closed: true,
            ink,
            width,
            dash,
        });
    }
    marks
}

fn pattern(
    kind: Kind,
    ground: &Ground,
    outline: &Outline,
    tallness: f64,
    scale: MapScale,
) -> Vec<Mark> {
    let beds = ground
        .beds
        .filter(|_| kind.has_beds())
        .and_then(|beds| built_marks::beds(outline, beds, scale));
    let hoops = ground
        .frame
        .filter(|_| kind.has_frame())
        .and_then(|frame| built_marks::hoops(outline, frame, scale));
    let has_beds = beds.is_some();
    let mut marks = beds.unwrap_or_default();
    match kind {
        // Beds that can be told apart stand instead of the furrows.
        Kind::Plot if has_beds => {}
        Kind::Plot => marks.push(patterns::furrows(outline, scale)),
        Kind::Ley | Kind::Strip => marks.push(patterns::blades(outline, tallness, scale)),
        Kind::Tunnel => marks.extend(hoops.unwrap_or_else(|| patterns::hoops(outline, scale))),
        Kind::Water => {
            marks.extend(patterns::ripples(outline, scale));
            marks.extend(built_marks::basin(ground, outline));
        }
        Kind::Wood | Kind::TreeLine | Kind::Hedge => marks.push(patterns::crowns(outline, scale)),
        Kind::Building => marks.push(patterns::tiles(outline, scale)),
        Kind::KeepOut => marks.push(patterns::crossed(outline, scale)),
        Kind::Track | Kind::Fence | Kind::Gate | Kind::Trough | Kind::Note => {}
    }
    marks
}

fn fill(outline: &Outline, ink: Ink) -> Mark {
    Mark::Fill {
        mesh: fill_mesh(outline),
        ink,
    }
}

/// The step of grass for a tallness from 0 to 1.
fn cover_ink(tallness: f64) -> Ink {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "0 to 8"
    )]
    let step = (tallness * f64::from(Ink::COVER_STEPS)).round() as u8;
    Ink::Cover(step)
}

/// The tint of a kind; grass in steps of one hue from short to tall.
fn tint(kind: Kind, tallness: f64) -> Ink {
    match kind {
        Kind::Plot => Ink::Crop,
        Kind::Ley | Kind::Strip => cover_ink(tallness),
        Kind::Tunnel => Ink::Tunnel,
        Kind::Water | Kind::Trough => Ink::Water,
        Kind::Wood | Kind::TreeLine | Kind::Hedge => Ink::LeyTall,
        Kind::Building => Ink::Building,
        Kind::Track => Ink::Track,
        Kind::KeepOut | Kind::Fence | Kind::Gate | Kind::Note => Ink::Field,
    }
}

fn edge(kind: Kind) -> (Ink, f64, Option<(f64, f64)>) {
    match kind {
        Kind::Plot | Kind::Ley => (Ink::Ink, 1.6, None),
        Kind::Strip => (Ink::Blade, 1.2, Some((5.0, 4.0))),
        Kind::Tunnel => (Ink::Hoop, 1.4, None),
        Kind::Water | Kind::Trough => (Ink::Ripple, 1.4, None),
        Kind::Wood | Kind::TreeLine | Kind::Hedge => (Ink::HedgeEdge, 1.2, None),
        Kind::Building => (Ink::Roof, 1.4, None),
        Kind::Track => (Ink::Rule, 1.0, None),
        Kind::KeepOut | Kind::Fence | Kind::Gate | Kind::Note => (Ink::Soft, 1.2, Some((3.0, 3.0))),
    }
}
