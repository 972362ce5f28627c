//! Exact figures typed while something is drawn: a length, a bearing, an area, offsets, a count of trees.
//!
//! Reads the text and works out the corner that is meant; the corner is then put down as a click would put it.

use crate::geometry::Point;
use crate::quantity::{UnitSystem, parse_area_m2, parse_bearing_deg, parse_length_m};

/// What is typed so far.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Entry {
    /// Length, area, or offsets.
    pub figure: String,
    /// Bearing in degrees; the pointer's way where empty.
    pub bearing: String,
    /// Why the last try failed.
    pub trouble: Option<String>,
    /// Whether the field has yet to take the focus.
    pub is_new: bool,
}

/// Where the drawing stands when a figure is typed.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// Corners put down so far, one at least.
    pub corners: Vec<Point>,
    /// Where the pointer is.
    pub pointer: Point,
    /// Whether the next figure is the width of a rectangle on the first side.
    pub is_width: bool,
    /// Whether it becomes an outline.
    pub is_ring: bool,
    /// Units in use.
    pub units: UnitSystem,
}

/// The corner that is meant.
///
/// # Errors
/// What is not understood, in a sentence.
pub fn corner_meant(entry: &Entry, drawing: &Drawing) -> Result<Point, String> {
    let last = *drawing
        .corners
        .last()
        .ok_or("Click the first corner, then type.")?;
    if let Some(offset) = offsets_m(&entry.figure, drawing.units)? {
        return Ok(last.moved(offset.0, offset.1));
    }
    if drawing.is_width {
        return width_corner(entry, drawing);
    }
    let bearing_deg = if entry.bearing.trim().is_empty() {
        last.bearing_deg(drawing.pointer)
    } else {
        parse_bearing_deg(&entry.bearing).map_err(|error| error.to_string())?
    };
    if drawing.is_ring && drawing.corners.len() >= 2 && is_area(&entry.figure) {
        let area_m2 =
            parse_area_m2(&entry.figure, drawing.units).map_err(|error| error.to_string())?;
        return last_side_for_area(&drawing.corners, bearing_deg, area_m2);
    }
    let length_m =
        parse_length_m(&entry.figure, drawing.units).map_err(|error| error.to_string())?;
    Ok(last.towards(bearing_deg, length_m))
}

/// Whether a figure carries a unit of area.
fn is_area(text: &str) -> bool {
    let text = text.to_lowercase();
    ["ha", "acre", "m2", "m²", "sq"]
        .iter()
        .any(|unit| text.contains(unit))
}

/// `12 east 5 north`, or single letters; `None` where the text names no quarter.
fn offsets_m(text: &str, units: UnitSystem) -> Result<Option<(f64, f64)>, String> {
    let (mut east_m, mut north_m, mut any) = (0.0, 0.0, false);
    let mut figure = String::new();
    for word in text.split_whitespace() {
        let (sign_east, sign_north) = match word.to_lowercase().as_str() {
            "e" | "east" => (1.0, 0.0),
            "w" | "west" => (-1.0, 0.0),
            "n" | "north" => (0.0, 1.0),
            "s" | "south" => (0.0, -1.0),
            other => {
                figure.push_str(other);
                continue;
            }
        };
        let length_m = parse_length_m(&figure, units).map_err(|error| error.to_string())?;
        (east_m, north_m, any) = (
            east_m + sign_east * length_m,
            north_m + sign_north * length_m,
            true,
        );
        figure.clear();
    }
    Ok(any.then_some((east_m, north_m)))
}

/// The far corner of a rectangle whose width, or area, is typed; on the pointer's hand of the first side.
fn width_corner(entry: &Entry, drawing: &Drawing) -> Result<Point, String> {
    let [from, to] = drawing.corners.as_slice() else {
        return Err("Put down the first side.".to_owned());
    };
    let length_m = from.distance_m(*to);
    let width_m = if is_area(&entry.figure) {
        let area_m2 =
            parse_area_m2(&entry.figure, drawing.units).map_err(|error| error.to_string())?;
        area_m2 / length_m
    } else {
        parse_length_m(&entry.figure, drawing.units).map_err(|error| error.to_string())?
    };
    let bearing_deg = from.bearing_deg(*to);
    let (east, north) = (to.east_m - from.east_m, to.north_m - from.north_m);
    let is_left = east * (drawing.pointer.north_m - from.north_m)
        - north * (drawing.pointer.east_m - from.east_m)
        > 0.0;
    Ok(to.towards(
        if is_left {
            bearing_deg - 90.0
        } else {
            bearing_deg + 90.0
        },
        width_m,
    ))
}

/// The end of the stretch that leaves the last corner along a bearing and makes the ring hold an area.
/// The area grows evenly with the stretch, so two lengths tell the one that is meant.
fn last_side_for_area(corners: &[Point], bearing_deg: f64, area_m2: f64) -> Result<Point, String> {
    let last = *corners.last().ok_or("Click the first corner, then type.")?;
    let signed_m2 = |length_m: f64| {
        let mut ring = corners.to_vec();
        ring.push(last.towards(bearing_deg, length_m));
        crate::geometry::Ring { corners: ring }.signed_area_m2()
    };
    let (at_none, at_one) = (signed_m2(0.0), signed_m2(1.0));
    let each_m2 = at_one - at_none;
    let wanted_m2 = area_m2 * if each_m2 < 0.0 { -1.0 } else { 1.0 };
    let length_m = (wanted_m2 - at_none) / each_m2;
    if length_m.is_finite() && length_m > 0.0 && length_m < 1.0e6 {
        Ok(last.towards(bearing_deg, length_m))
    } else {
        Err(
            "No stretch in that direction gives that area: turn the pointer, or type less."
                .to_owned(),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Outline;

    fn drawing(corners: &[(f64, f64)], pointer: (f64, f64), is_width: bool) -> Drawing {
        Drawing {
            corners: corners
                .iter()
                .map(|(east, north)| Point::new(*east, *north))
                .collect(),
            pointer: Point::new(pointer.0, pointer.1),
            is_width,
            is_ring: true,
            units: UnitSystem::Metric,
        }
    }

    fn meant(figure: &str, bearing: &str, drawing: &Drawing) -> Result<Point, String> {
        let entry = Entry {
            figure: figure.to_owned(),
            bearing: bearing.to_owned(),
            ..Entry::default()
        };
        corner_meant(&entry, drawing)
    }

    #[test]
    fn a_length_follows_the_pointer_or_the_bearing_typed() {
        let start = drawing(&[(10.0, 10.0)], (10.0, 50.0), false);
        assert!(meant("25", "", &start).is_ok_and(|p| p.distance_m(Point::new(10.0, 35.0)) < 1e-9));
        assert!(
            meant("25", "90", &start).is_ok_and(|p| p.distance_m(Point::new(35.0, 10.0)) < 1e-9)
        );
        assert!(
            meant("12 east 5 s", "", &start)
                .is_ok_and(|p| p.distance_m(Point::new(22.0, 5.0)) < 1e-9)
        );
        assert!(meant("wide", "", &start).is_err());
    }

    #[test]
    fn an_area_typed_as_width_makes_the_rectangle_hold_it() {
        let side = drawing(&[(0.0, 0.0), (80.0, 0.0)], (40.0, -3.0), true);
        assert!(
            meant("0.4 ha", "", &side).is_ok_and(|p| p.distance_m(Point::new(80.0, -50.0)) < 1e-9)
        );
    }

    #[test]
    fn the_last_side_moves_until_the_area_holds() {
        let start = drawing(&[(0.0, 0.0), (60.0, 0.0), (70.0, 50.0)], (0.0, 60.0), false);
        let corner = meant("0.3 ha", "280", &start);
        let area_m2 = corner.map(|corner| {
            let mut ring = start.corners.clone();
            ring.push(corner);
            Outline::simple(ring).area_m2()
        });
        assert!(area_m2.is_ok_and(|area_m2| (area_m2 - 3000.0).abs() < 1e-6));
    }
}
