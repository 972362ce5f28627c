//! A boundary or track walked with a phone or receiver: its points, thinned, with its area and how sure that is.
//!
//! Worked out once for what is typed and kept until that changes.

use super::Wanting;
use crate::app::desk::Desk;
use crate::farm::Shape;
use crate::files::{MOST_POINTS, Recorded, RecordedLine};
use crate::geometry::validity::is_sound;
use crate::geometry::walked::{thinned_line, thinned_ring, walked_area};
use crate::geometry::{GroundFrame, LonLat, Outline, Point, Ring, geodesic};
use crate::quantity::{UnitSystem, parse_place, parse_tape_m};

/// A file of a walk that was brought in.
#[derive(Debug, Clone, PartialEq)]
pub struct WalkFile {
    /// The file as the person named it.
    pub name: String,
    /// What it holds.
    pub recorded: Recorded,
}

/// What is asked for.
#[derive(Debug, Clone)]
pub struct Walked {
    /// Points as typed or pasted, one on a line.
    pub text: String,
    /// The file, in place of typed points.
    pub file: Option<WalkFile>,
    /// Which line of the file; every one where there is none.
    pub line: Option<usize>,
    /// Whether it becomes a line rather than an outline.
    pub is_line: bool,
    /// Whether the file's marked places come too.
    pub brings_marked: bool,
    /// How far a point may lie off and be left out.
    pub thinning: String,
    /// How far a point may be wrong.
    pub point_error: String,
    kept: Option<(Asked, Result<Vec<WalkedShape>, Wanting>)>,
}

/// What the kept answer was worked out from.
#[derive(Debug, Clone, PartialEq)]
struct Asked {
    text: String,
    file: Option<String>,
    line: Option<usize>,
    is_line: bool,
    thinning: String,
    point_error: String,
    units: UnitSystem,
    frame: GroundFrame,
}

/// One walked line and what becomes of it.
#[derive(Debug, Clone, PartialEq)]
pub struct WalkedShape {
    /// Its name in the file; empty for typed points.
    pub name: String,
    /// The plane it lies on: the farm's, or one of its own where the farm is empty and elsewhere.
    pub frame: GroundFrame,
    /// The points as walked.
    pub before: Vec<Point>,
    /// The corners that are kept.
    pub after: Vec<Point>,
    /// Whether it is an outline.
    pub is_ring: bool,
    /// Area or length as walked, on the ellipsoid.
    pub size_before: f64,
    /// Area or length of what is kept.
    pub size_after: f64,
    /// Standard error of the area, square metres.
    pub area_error_m2: f64,
    /// The tolerance that was used, metres.
    pub thinning_m: f64,
    /// The point error that was used, metres.
    pub point_error_m: f64,
    /// Whether the outline crosses itself or is otherwise unsound.
    pub is_unsound: bool,
}

impl Default for Walked {
    fn default() -> Self {
        Self {
            text: String::new(),
            file: None,
            line: None,
            is_line: false,
            brings_marked: false,
            thinning: "1 m".to_owned(),
            point_error: "3 m".to_owned(),
            kept: None,
        }
    }
}

impl WalkedShape {
    /// The shape that goes onto the farm.
    pub fn shape(&self) -> Shape {
        if self.is_ring {
            Shape::Area(Outline::simple(self.after.clone()))
        } else {
            Shape::Line(self.after.clone())
        }
    }
}

impl Walked {
    /// Every line asked for, worked out anew where something has changed.
    ///
    /// # Errors
    /// What is missing or wrong.
    pub fn work_out(&mut self, desk: &Desk) -> Result<&[WalkedShape], Wanting> {
        let asked = Asked {
            text: self.text.clone(),
            file: self.file.as_ref().map(|file| file.name.clone()),
            line: self.line,
            is_line: self.is_line,
            thinning: self.thinning.clone(),
            point_error: self.point_error.clone(),
            units: desk.units(),
            frame: desk.farm().frame,
        };
        if self.kept.as_ref().is_none_or(|(known, _)| *known != asked) {
            let found = self.found(desk);
            self.kept = Some((asked, found));
        }
        self.answer()
    }

    /// The answer that was worked out last.
    ///
    /// # Errors
    /// What is missing or wrong.
    pub fn answer(&self) -> Result<&[WalkedShape], Wanting> {
        match &self.kept {
            Some((_, Ok(shapes))) => Ok(shapes),
            Some((_, Err(wanting))) => Err(wanting.clone()),
            None => Err(nothing_yet()),
        }
    }

    /// Drops what was typed or brought in, and keeps how it is thinned.
    pub fn clear(&mut self) {
        self.text.clear();
        self.file = None;
        self.line = None;
        self.kept = None;
    }

    fn found(&self, desk: &Desk) -> Result<Vec<WalkedShape>, Wanting> {
        let units = desk.units();
        let figure = |what: &str, text: &str| {
            parse_tape_m(text, units).map_err(|error| Wanting::wrong(format!("{what}: {error}.")))
        };
        let thinning_m = figure("Thinning", &self.thinning)?;
        let point_error_m = figure("Error of a point", &self.point_error)?;
        let recorded = match &self.file {
            Some(file) => file.recorded.clone(),
            None => Recorded {
                lines: vec![typed_line(&self.text)?],
                ..Recorded::default()
            },
        };
        let name = self.file.as_ref().map_or("Points", |file| &file.name);
        let frame = frame_for(desk, &recorded, name)?;
        let lines = recorded.lines.iter().enumerate();
        let wanted = lines.filter(|(place, _)| self.line.is_none_or(|line| line == *place));
        let mut shapes = Vec::new();
        for (_, line) in wanted {
            let points = line
                .points(frame, name)
                .map_err(|error| Wanting::wrong(error.to_string()))?;
            if points.len() > MOST_POINTS {
                return Err(Wanting::wrong(format!(
                    "{} has {} points, and {MOST_POINTS} are the most that are thinned at once: cut the recording into shorter ones.",
                    line.name,
                    points.len()
                )));
            }
            shapes.push(self.shape_of(&line.name, frame, points, [thinning_m, point_error_m])?);
        }
        Ok(shapes)
    }

    fn shape_of(
        &self,
        name: &str,
        frame: GroundFrame,
        before: Vec<Point>,
        [thinning_m, point_error_m]: [f64; 2],
    ) -> Result<WalkedShape, Wanting> {
        let is_ring = !self.is_line;
        let ring = Ring::new(before.clone());
        if is_ring && ring.corners.len() < 3 {
            return Err(Wanting::missing(format!(
                "An outline needs three points at least; {} so far.",
                ring.corners.len()
            )));
        }
        let after = match (is_ring, thinning_m > 0.0) {
            (true, true) => thinned_ring(&ring, thinning_m).corners,
            (true, false) => ring.corners,
            (false, true) => thinned_line(&before, thinning_m),
            (false, false) => before.clone(),
        };
        let size = |corners: &[Point]| {
            if is_ring {
                geodesic::area_m2(frame, &Outline::simple(corners.to_vec()))
            } else {
                geodesic::length_m(frame, corners)
            }
        };
        let kept = Ring::new(after.clone());
        Ok(WalkedShape {
            name: name.to_owned(),
            frame,
            is_ring,
            size_before: size(&before),
            size_after: size(&after),
            area_error_m2: walked_area(&kept, point_error_m).standard_error_m2,
            thinning_m,
            point_error_m,
            is_unsound: is_ring && !is_sound(&Outline::simple(after.clone())),
            before,
            after,
        })
    }
}

/// Farther than this from the farm's zero point a walk lays a new plane under an empty farm, metres.
const ELSEWHERE_M: f64 = 20_000.0;

/// The farm's plane; for a farm with nothing drawn yet that lies elsewhere, one about the walk.
fn frame_for(desk: &Desk, recorded: &Recorded, name: &str) -> Result<GroundFrame, Wanting> {
    let frame = desk.farm().frame;
    if !desk.farm().ground.is_empty() {
        return Ok(frame);
    }
    let own = recorded
        .frame(name)
        .map_err(|error| Wanting::wrong(error.to_string()))?;
    let apart_m = geodesic::distance_between_m(frame.origin(), own.origin());
    Ok(if apart_m > ELSEWHERE_M { own } else { frame })
}

fn nothing_yet() -> Wanting {
    Wanting::missing("Paste the points, one on a line, or bring a file in.")
}

/// The places in a text: one on each line, empty lines left out.
fn typed_line(text: &str) -> Result<RecordedLine, Wanting> {
    let mut places: Vec<LonLat> = Vec::new();
    for (number, line) in (1..).zip(text.lines()) {
        if line.trim().is_empty() {
            continue;
        }
        let place = parse_place(line)
            .map_err(|error| Wanting::wrong(format!("Line {number}: {error}.")))?;
        let place = LonLat::new(place.lon_deg, place.lat_deg);
        if places.last() != Some(&place) {
            places.push(place);
        }
    }
    match places.len() {
        0 => Err(nothing_yet()),
        1 => Err(Wanting::missing("One point so far: add the next line.")),
        _ => Ok(RecordedLine {
            name: String::new(),
            places,
        }),
    }
}
