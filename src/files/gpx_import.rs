//! Recorded walks (GPX) brought in as ground: tracks and routes as lines or outlines, marked places as places.
//!
//! What was left out or assumed is told in notes. Degrees in, metres of the farm's plane out.

mod reader;

pub use reader::{MarkedPlace, Recorded, RecordedLine, read_gpx};

use super::FileError;
use super::imported::{FARTHEST_M, Imported, ImportedGround, ImportedPiece, stem};
use super::middle::middle_of;
use crate::farm::{Ground, Kind, Shape};
use crate::geometry::walked::{thinned_line, thinned_ring};
use crate::geometry::{GroundFrame, LonLat, Outline, Point, Ring};
use crate::quantity::Day;

/// The most points of one line that are thinned: some fourteen hours at a point a second.
pub const MOST_POINTS: usize = 50_000;

/// What becomes of the lines of a file.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct GpxWish {
    /// Whether a line of three points or more is walked round a piece of ground, and becomes an outline.
    pub as_outline: bool,
    /// Points within so much of the line through the others are left out, metres; 0 keeps all.
    pub thin_m: f64,
}

impl Recorded {
    /// Every place.
    fn places(&self) -> Vec<LonLat> {
        let marked = self.marked.iter().map(|marked| marked.place);
        let lines = self
            .lines
            .iter()
            .flat_map(|line| line.places.iter().copied());
        marked.chain(lines).collect()
    }

    /// A plane with its origin in the middle of everything.
    ///
    /// # Errors
    /// A middle that no plane can lie about.
    pub fn frame(&self, source_name: &str) -> Result<GroundFrame, FileError> {
        let middle = middle_of(&self.places()).unwrap_or_default();
        GroundFrame::new(middle).map_err(|error| {
            FileError::new(
                source_name,
                error.to_string(),
                "look at the coordinates in the file",
            )
        })
    }
}

impl RecordedLine {
    /// The line on a plane.
    ///
    /// # Errors
    /// More than 2,000 km from the plane's origin.
    pub fn points(&self, frame: GroundFrame, source_name: &str) -> Result<Vec<Point>, FileError> {
        self.places
            .iter()
            .map(|place| point_of(*place, frame, source_name, &self.name))
            .collect()
    }
}

/// Makes a farm of the text of a recorded walk; `source_name` is what errors and the farm's name call it.
///
/// # Errors
/// As [`read_gpx`]; more than 2,000 km wide; lines too long to be thinned.
pub fn import_gpx(
    text: &str,
    source_name: &str,
    season_first_day: Day,
    wish: GpxWish,
) -> Result<Imported, FileError> {
    let recorded = read_gpx(text, source_name)?;
    let frame = recorded.frame(source_name)?;
    let name = recorded.name.clone().unwrap_or_else(|| stem(source_name));
    let ground = onto(recorded, source_name, frame, wish)?;
    Ok(ground.into_farm(name, frame, season_first_day))
}

/// Ground of a recorded walk on the plane of a farm that is there already.
///
/// # Errors
/// As [`import_gpx`], the 2,000 km counted from the farm's origin.
pub fn import_gpx_onto(
    text: &str,
    source_name: &str,
    frame: GroundFrame,
    wish: GpxWish,
) -> Result<ImportedGround, FileError> {
    onto(read_gpx(text, source_name)?, source_name, frame, wish)
}

fn onto(
    recorded: Recorded,
    source_name: &str,
    frame: GroundFrame,
    wish: GpxWish,
) -> Result<ImportedGround, FileError> {
    let (mut notes, mut pieces) = (recorded.notes, Vec::new());
    let (mut before, mut after) = (0_usize, 0_usize);
    let (mut lines, mut outlines) = (0_usize, 0_usize);
    for line in &recorded.lines {
        let points = line.points(frame, source_name)?;
        before += points.len();
        let shape = shape_of(points, source_name, &line.name, wish)?;
        after += shape.corners().len();
        let kind = match &shape {
            Shape::Area(_) => Kind::Plot,
            _ => Kind::Track,
        };
        outlines += usize::from(kind == Kind::Plot);
        lines += usize::from(kind == Kind::Track);
        pieces.push(piece(line.name.clone(), kind, shape));
    }
    let mut unnamed = 0_usize;
    for marked in &recorded.marked {
        let point = point_of(marked.place, frame, source_name, &marked.name)?;
        unnamed += usize::from(marked.name.is_empty());
        let name = match marked.name.as_str() {
            "" => format!("Marked place {unnamed}"),
            name => name.to_owned(),
        };
        pieces.push(piece(name, Kind::Trough, Shape::Place(point)));
    }
    if after < before {
        notes.push(format!("{before} points were thinned to {after}."));
    }
    let mut became = |count: usize, one: &str, many: &str| match count {
        0 => {}
        1 => notes.push(format!("1 {one}.")),
        _ => notes.push(format!("{count} {many}.")),
    };
    became(lines, "line became a track", "lines became tracks");
    became(
        outlines,
        "walk round became a plot",
        "walks round became plots",
    );
    let marked = recorded.marked.len();
    became(
        marked,
        "marked place became a trough",
        "marked places became troughs",
    );
    if pieces.is_empty() {
        notes.push("There is no track, route or place in this file: nothing came in.".to_owned());
    }
    Ok(ImportedGround { pieces, notes })
}

fn piece(name: String, kind: Kind, shape: Shape) -> ImportedPiece {
    ImportedPiece {
        ground: Ground::new(name, kind, shape),
        strip_of: None,
    }
}

fn shape_of(
    points: Vec<Point>,
    source_name: &str,
    line_name: &str,
    wish: GpxWish,
) -> Result<Shape, FileError> {
    if wish.thin_m > 0.0 && points.len() > MOST_POINTS {
        return Err(FileError::new(
            source_name,
            format!(
                "it has {} points, and {MOST_POINTS} are the most that are thinned at once",
                points.len()
            ),
            "cut the recording into shorter ones, or bring it in without thinning",
        )
        .at(line_name));
    }
    let ring = Ring::new(points.clone());
    if wish.as_outline && ring.corners.len() >= 3 {
        let ring = if wish.thin_m > 0.0 {
            thinned_ring(&ring, wish.thin_m)
        } else {
            ring
        };
        return Ok(Shape::Area(Outline::simple(ring.corners)));
    }
    Ok(Shape::Line(if wish.thin_m > 0.0 {
        thinned_line(&points, wish.thin_m)
    } else {
        points
    }))
}

fn point_of(
    place: LonLat,
    frame: GroundFrame,
    source_name: &str,
    name: &str,
) -> Result<Point, FileError> {
    let refusal = |cause: String, remedy: &str| FileError::new(source_name, cause, remedy).at(name);
    let point = frame
        .point_from_lonlat(place)
        .map_err(|error| refusal(error.to_string(), "look at the coordinates in the file"))?;
    let distance_m = point.distance_m(Point::default());
    if distance_m > FARTHEST_M || !distance_m.is_finite() {
        return Err(refusal(
            "this lies more than 2,000 km from the middle of the farm".to_owned(),
            "bring in the walks on one farm at a time",
        ));
    }
    Ok(point)
}
