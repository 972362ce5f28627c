//! How ground is to be cut into strips, in the farm's own terms: a size, a direction or something to reach.
//!
//! Window and command line ask alike and are told alike. Metres, square metres, degrees.

use super::{Farm, Ground, GroundId, Kind, Shape};
use crate::geometry::cut::{
    CutError, LineCourse, StripPiece, StripSize, bearing_across_longest_side, bearing_along_side,
    gap_to_line_m, gap_to_outline_m, strips_about_place, strips_along, strips_square_to_line,
};
use crate::geometry::label_place::label_place;
use crate::geometry::{Outline, Point, Ring};

/// Which way strips run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StripDirection {
    /// Across the longest side, so that strips are short.
    AcrossLongestSide,
    /// Along this side of the outline, counted over the outer rings of all parts.
    AlongSide(usize),
    /// Along a bearing, degrees.
    Bearing(f64),
    /// So that every strip reaches this: a trough, a gate, water, a track.
    Reaching(GroundId),
}

/// Ground as it would be cut.
#[derive(Debug, Clone, PartialEq)]
pub struct StripCut {
    /// The strips in order.
    pub strips: Vec<StripPiece>,
    /// The bearing along which cut lines run, where they are parallel; degrees, 0 to 180.
    pub bearing_deg: Option<f64>,
    /// Where strips meet, where they do.
    pub meets_at: Option<Point>,
    /// Whether cuts follow the mean course of a line that bends too much for cuts square to it.
    pub follows_mean: bool,
    /// What was to be reached, and by which strips it is not.
    pub reaching: Option<Reaching>,
}

/// How strips stand to what they are to reach.
#[derive(Debug, Clone, PartialEq)]
pub struct Reaching {
    /// Its name for people.
    pub name: String,
    /// From the whole ground to it, metres.
    pub off_m: f64,
    /// Strips that do not reach it, from 0.
    pub out_of_reach: Vec<usize>,
    /// Strips of several pieces of which one or more does not reach it, from 0.
    pub partly: Vec<usize>,
}

/// Stock walk this far to a trough beside the fence, so it counts as reached, metres (common practice, no source).
pub const REACH_M: f64 = 3.0;

/// What strips may be asked to reach, the nearest first.
pub fn reachable(farm: &Farm, outline: &Outline) -> Vec<(GroundId, f64)> {
    let mut found: Vec<(GroundId, f64)> = farm
        .ground
        .iter()
        .filter(|(_, ground)| {
            matches!(
                ground.kind,
                Kind::Trough | Kind::Gate | Kind::Water | Kind::Track
            )
        })
        .map(|(id, ground)| (*id, gap_m(outline, ground)))
        .collect();
    found.sort_by(|one, two| one.1.total_cmp(&two.1).then(one.0.cmp(&two.0)));
    found
}

/// Cuts the ground as asked, changing nothing.
///
/// # Errors
/// Ground that is gone or no area, a side or thing to reach that is not there, a size that makes no strips.
pub fn cut_ground(
    farm: &Farm,
    outline: &Outline,
    size: StripSize,
    direction: StripDirection,
) -> Result<StripCut, CutError> {
    let bearing_deg =
        match direction {
            StripDirection::Reaching(id) => {
                let goal = farm.ground.get(&id).ok_or(CutError::NothingToReach)?;
                return cut_reaching(outline, size, goal);
            }
            // Held in the eastern half, strips are numbered from the west or north, as one reads.
            StripDirection::AcrossLongestSide => bearing_across_longest_side(outline)
                .map(|bearing_deg| bearing_deg.rem_euclid(180.0)),
            StripDirection::AlongSide(side) => side_of(outline, side)
                .and_then(|(part, side)| bearing_along_side(outline, part, side)),
            StripDirection::Bearing(bearing_deg) => Some(bearing_deg),
        };
    let bearing_deg = bearing_deg.ok_or(CutError::NoSuchSide)?;
    Ok(StripCut {
        strips: strips_along(outline, bearing_deg, size)?,
        bearing_deg: Some(line_bearing_deg(bearing_deg)),
        meets_at: None,
        follows_mean: false,
        reaching: None,
    })
}

/// The bearing of a line that has no front: 0 to below 180 degrees.
pub fn line_bearing_deg(bearing_deg: f64) -> f64 {
    let bearing_deg = bearing_deg.rem_euclid(180.0);
    // What would be written 180.0 is written 0.0.
    if bearing_deg > 179.95 {
        0.0
    } else {
        bearing_deg
    }
}

/// Part and side of a side counted over all outer rings.
fn side_of(outline: &Outline, side: usize) -> Option<(usize, usize)> {
    let mut left = side;
    for (part, polygon) in outline.parts.iter().enumerate() {
        let count = polygon.outer.corners.len();
        if left < count {
            return Some((part, left));
        }
        left -= count;
    }
    None
}

/// The ends of every side that [`StripDirection::AlongSide`] counts.
pub fn countable_sides(outline: &Outline) -> Vec<(Point, Point)> {
    let rings = outline.parts.iter().map(|part| &part.outer);
    rings.flat_map(Ring::sides).collect()
}

fn cut_reaching(outline: &Outline, size: StripSize, goal: &Ground) -> Result<StripCut, CutError> {
    let width_m = goal.drawn_width_m();
    let square = match goal_of(outline, goal) {
        Goal::Place(place) => Err(place),
        Goal::Line(line) => {
            match strips_square_to_line(outline, &line, REACH_M + width_m / 2.0, size)? {
                Some(cut) => Ok(cut),
                None => Err(nearest_of_line(outline, &line)),
            }
        }
    };
    let (strips, meets_at, follows_mean) = match square {
        Ok(cut) => (cut.strips, None, cut.course == LineCourse::Mean),
        Err(place) => {
            let bearing_deg = bearing_across_longest_side(outline).unwrap_or(0.0);
            let fan = strips_about_place(outline, place, REACH_M, bearing_deg, size)?;
            (fan.strips, Some(fan.centre), false)
        }
    };
    let mut reaching = Reaching {
        name: goal_name(goal),
        off_m: gap_m(outline, goal),
        out_of_reach: Vec::new(),
        partly: Vec::new(),
    };
    // What lies off the ground is reached by the strips that come as near as the ground does.
    let near_m = if reaching.off_m > REACH_M {
        reaching.off_m + REACH_M
    } else {
        REACH_M
    };
    for (index, strip) in strips.iter().enumerate() {
        let parts = strip.outline.parts.iter();
        let reached = parts
            .filter(|part| {
                let part = Outline {
                    parts: vec![(*part).clone()],
                };
                gap_m(&part, goal) <= near_m
            })
            .count();
        if reached == 0 {
            reaching.out_of_reach.push(index);
        } else if reached < strip.pieces {
            reaching.partly.push(index);
        }
    }
    Ok(StripCut {
        strips,
        bearing_deg: None,
        meets_at,
        follows_mean,
        reaching: Some(reaching),
    })
}

/// "the trough", or the kind and the name where it has one of its own.
fn goal_name(goal: &Ground) -> String {
    let kind = goal.kind.name();
    let name = goal.name.trim();
    if name.is_empty() || name.eq_ignore_ascii_case(kind) {
        format!("the {kind}")
    } else {
        name.to_owned()
    }
}

enum Goal {
    Place(Point),
    Line(Vec<Point>),
}

fn goal_of(outline: &Outline, goal: &Ground) -> Goal {
    match &goal.shape {
        Shape::Place(place) => Goal::Place(*place),
        // Stock come to a gate at its middle, however it was drawn.
        Shape::Line(line) if goal.kind == Kind::Gate => Goal::Place(middle_of(line)),
        Shape::Line(line) => Goal::Line(line.clone()),
        Shape::Area(area) => {
            let middle = label_place(area).map(|label| label.place);
            let middle = middle.or_else(|| area.centroid()).unwrap_or_default();
            let is_within = outline
                .parts
                .iter()
                .any(|part| Outline::simple(part.outer.corners.clone()).contains(middle));
            if is_within || goal.kind == Kind::Gate {
                Goal::Place(middle)
            } else {
                Goal::Line(round_from_far_side(outline, area))
            }
        }
    }
}

fn middle_of(line: &[Point]) -> Point {
    let half_m = crate::geometry::line::length_m(line) / 2.0;
    let station = crate::geometry::line::station_at(line, half_m);
    let first = line.first().copied();
    station.map_or_else(|| first.unwrap_or_default(), |station| station.place)
}

/// The outline of a pond or of a track drawn as an area, as a line that begins where it is farthest from the ground,
/// so that the side along the ground is one stretch of it.
fn round_from_far_side(outline: &Outline, area: &Outline) -> Vec<Point> {
    let Some(part) = area.parts.first() else {
        return Vec::new();
    };
    let corners = &part.outer.corners;
    let far = corners
        .iter()
        .enumerate()
        .max_by(|one, two| {
            outline
                .distance_m(*one.1)
                .total_cmp(&outline.distance_m(*two.1))
        })
        .map_or(0, |(index, _)| index);
    let round = corners.iter().cycle().skip(far).take(corners.len() + 1);
    round.copied().collect()
}

/// The place on a line that is nearest to the ground.
fn nearest_of_line(outline: &Outline, line: &[Point]) -> Point {
    let sides = line.iter().zip(line.iter().skip(1));
    let across = outline
        .rings()
        .flat_map(|ring| ring.corners.iter())
        .flat_map(|corner| {
            let sides = sides.clone();
            sides.map(|(from, to)| corner.nearest_on_side(*from, *to))
        });
    let places = line.iter().copied().chain(across);
    places
        .min_by(|one, two| {
            outline
                .distance_m(*one)
                .total_cmp(&outline.distance_m(*two))
        })
        .unwrap_or_default()
}

/// From ground to the edge of a thing, metres.
fn gap_m(outline: &Outline, goal: &Ground) -> f64 {
    match &goal.shape {
        Shape::Place(place) => outline.distance_m(*place),
        Shape::Line(line) => (gap_to_line_m(outline, line) - goal.drawn_width_m() / 2.0).max(0.0),
        Shape::Area(area) => gap_to_outline_m(outline, area),
    }
}

/// With a capital to begin a sentence.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

impl StripCut {
    /// What is worth telling of the cut, in sentences, with the strips' names.
    pub fn told(&self, name: impl Fn(usize) -> String) -> Vec<String> {
        let mut told = Vec::new();
        let named = |strips: &[usize]| -> String {
            let names: Vec<String> = strips.iter().map(|index| name(*index)).collect();
            match names.split_last() {
                Some((last, [])) => last.clone(),
                Some((last, first)) => format!("{} and {last}", first.join(", ")),
                None => String::new(),
            }
        };
        if let Some(reaching) = &self.reaching {
            let goal = &reaching.name;
            if reaching.off_m > REACH_M {
                told.push(format!(
                    "{} lies {:.0} m off this ground: strips come as near to it as the ground does.",
                    capital(goal),
                    reaching.off_m
                ));
            }
            if !reaching.out_of_reach.is_empty() {
                let verb = if reaching.out_of_reach.len() == 1 {
                    "does"
                } else {
                    "do"
                };
                told.push(format!(
                    "{} {verb} not reach {goal}.",
                    named(&reaching.out_of_reach)
                ));
            }
            if !reaching.partly.is_empty() {
                told.push(format!(
                    "A piece of {} does not reach {goal}.",
                    named(&reaching.partly)
                ));
            }
            if self.follows_mean {
                told.push(format!(
                    "{} bends too much here for cuts square to it: they run square to its course as a whole.",
                    capital(goal)
                ));
            }
        }
        let broken: Vec<usize> = self
            .strips
            .iter()
            .enumerate()
            .filter(|(_, strip)| strip.pieces > 1)
            .map(|(index, _)| index)
            .collect();
        if !broken.is_empty() {
            let verb = if broken.len() == 1 { "falls" } else { "fall" };
            told.push(format!(
                "{} {verb} in two pieces or more: try another direction.",
                named(&broken)
            ));
        }
        told
    }
}
