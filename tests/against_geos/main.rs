//! Answers questions of plane geometry, one JSON text a line, for a comparison with another program.
//!
//! A question has `ask` (`union`, `intersection`, `difference`, `buffer`, `split`, `sound`, `label`), outlines `a` and
//! `b` as GeoJSON's multipolygon coordinates, a `distance`, a `line`. Metres. An answer has `outline`, `parts`, `sound`,
//! `place` or `refused`.

use std::io::{BufRead, Write};

use foldcourse::geometry::buffer::{drawn_in, drawn_out};
use foldcourse::geometry::label_place::label_place;
use foldcourse::geometry::overlay::{in_both, joined, without};
use foldcourse::geometry::{Outline, Point, Polygon, Ring, cut, validity};
use serde::Deserialize;
use serde_json::{Value, json};

type Coordinates = Vec<Vec<Vec<[f64; 2]>>>;

#[derive(Deserialize)]
struct Question {
    ask: String,
    a: Coordinates,
    #[serde(default)]
    b: Coordinates,
    #[serde(default)]
    distance: f64,
    #[serde(default)]
    line: Vec<[f64; 2]>,
}

fn main() -> std::io::Result<()> {
    let mut out = std::io::BufWriter::new(std::io::stdout().lock());
    for line in std::io::stdin().lock().lines() {
        let answer = match serde_json::from_str::<Question>(&line?) {
            Ok(question) => answer(&question),
            Err(error) => json!({ "refused": error.to_string() }),
        };
        writeln!(out, "{answer}")?;
    }
    out.flush()
}

fn answer(question: &Question) -> Value {
    let (a, b) = (outline(&question.a), outline(&question.b));
    match question.ask.as_str() {
        "union" => json!({ "outline": coordinates(&joined(&a, &b)) }),
        "intersection" => json!({ "outline": coordinates(&in_both(&a, &b)) }),
        "difference" => json!({ "outline": coordinates(&without(&a, &b)) }),
        "buffer" if question.distance < 0.0 => {
            json!({ "outline": coordinates(&drawn_in(&a, -question.distance)) })
        }
        "buffer" => json!({ "outline": coordinates(&drawn_out(&a, question.distance)) }),
        "split" => match cut::split_by_line(&a, &points(&question.line)) {
            Ok(parts) => json!({ "parts": parts.iter().map(coordinates).collect::<Vec<_>>() }),
            Err(error) => json!({ "refused": error.to_string() }),
        },
        "sound" => json!({ "sound": validity::is_sound(&a) }),
        "label" => match label_place(&a) {
            Some(label) => {
                json!({ "place": [label.place.east_m, label.place.north_m], "room": label.clearance_m })
            }
            None => json!({ "refused": "no ground" }),
        },
        other => json!({ "refused": format!("no such question: {other}") }),
    }
}

fn points(line: &[[f64; 2]]) -> Vec<Point> {
    line.iter()
        .map(|[east, north]| Point::new(*east, *north))
        .collect()
}

fn outline(coordinates: &Coordinates) -> Outline {
    let part = |rings: &Vec<Vec<[f64; 2]>>| {
        let mut rings = rings.iter().map(|ring| Ring::new(points(ring)));
        Polygon {
            outer: rings.next().unwrap_or(Ring {
                corners: Vec::new(),
            }),
            holes: rings.collect(),
        }
    };
    Outline {
        parts: coordinates.iter().map(part).collect(),
    }
}

fn coordinates(outline: &Outline) -> Coordinates {
    let ring = |ring: &Ring| {
        let mut corners: Vec<[f64; 2]> = ring
            .corners
            .iter()
            .map(|at| [at.east_m, at.north_m])
            .collect();
        corners.extend(corners.first().copied());
        corners
    };
    let part = |part: &Polygon| part.rings().map(ring).collect();
    outline.parts.iter().map(part).collect()
}
