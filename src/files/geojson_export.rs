//! Ground written as `GeoJSON` (RFC 7946, IETF 2016): longitude and latitude of WGS 84 with 7 decimals (about 1 cm).
//!
//! Outer rings run anticlockwise and holes clockwise (section 3.1.6). One entry a line, in the order of the numbers.

use geojson::{Feature, Geometry, GeometryValue, JsonObject, JsonValue, Position, feature};

use crate::farm::{Farm, Ground, GroundId, Shape, measure_ground};
use crate::geometry::{Point, Polygon, Ring};

/// Decimals of a degree that are written: 10⁻⁷° is 11 mm on the ground.
const DEGREE_PARTS: f64 = 1e7;

/// Everything drawn on a farm, as the text of a `GeoJSON` file.
pub fn export_geojson(farm: &Farm) -> String {
    let entries: Vec<String> = farm
        .ground
        .iter()
        .map(|(id, ground)| feature_of(farm, *id, ground).to_string())
        .collect();
    format!(
        "{{\"type\":\"FeatureCollection\",\"name\":{},\"features\":[\n{}\n]}}\n",
        JsonValue::from(farm.name.as_str()),
        entries.join(",\n")
    )
}

fn feature_of(farm: &Farm, id: GroundId, ground: &Ground) -> Feature {
    let value = match &ground.shape {
        Shape::Place(place) => GeometryValue::Point {
            coordinates: position(farm, *place),
        },
        Shape::Line(corners) => GeometryValue::LineString {
            coordinates: corners
                .iter()
                .map(|corner| position(farm, *corner))
                .collect(),
        },
        Shape::Area(outline) => {
            let mut parts = outline.parts.iter().map(|part| rings_of(farm, part));
            match (parts.next(), parts.len()) {
                (Some(only), 0) => GeometryValue::Polygon { coordinates: only },
                (first, _) => GeometryValue::MultiPolygon {
                    coordinates: first.into_iter().chain(parts).collect(),
                },
            }
        }
    };
    Feature {
        bbox: None,
        geometry: Some(Geometry::new(value)),
        id: Some(feature::Id::Number(id.0.into())),
        properties: Some(properties_of(farm, ground)),
        foreign_members: None,
    }
}

fn rings_of(farm: &Farm, part: &Polygon) -> Vec<Vec<Position>> {
    let outer = closed_ring(farm, &part.outer, true);
    let holes = part.holes.iter().map(|hole| closed_ring(farm, hole, false));
    std::iter::once(outer).chain(holes).collect()
}

/// A ring with its first corner repeated at the end; turned round where it runs the other way.
fn closed_ring(farm: &Farm, ring: &Ring, anticlockwise: bool) -> Vec<Position> {
    let turned = (ring.signed_area_m2() > 0.0) != anticlockwise;
    let mut corners: Vec<Point> = ring.corners.clone();
    if turned {
        // The first corner stays the first.
        if let Some(rest) = corners.get_mut(1..) {
            rest.reverse();
        }
    }
    corners.extend(corners.first().copied());
    corners
        .into_iter()
        .map(|corner| position(farm, corner))
        .collect()
}

fn position(farm: &Farm, point: Point) -> Position {
    let place = farm.frame.lonlat_from_point(point);
    Position::from([
        rounded(place.lon_deg, DEGREE_PARTS),
        rounded(place.lat_deg, DEGREE_PARTS),
    ])
}

fn properties_of(farm: &Farm, ground: &Ground) -> JsonObject {
    let measures = measure_ground(farm, ground);
    let mut properties = JsonObject::new();
    let mut text = |key: &str, value: &str| {
        if !value.is_empty() {
            properties.insert(key.to_owned(), value.into());
        }
    };
    text("name", &ground.name);
    text("kind", ground.kind.name());
    let ley = ground.within.and_then(|ley| farm.ground.get(&ley));
    text("within", ley.map_or("", |ley| ley.name.as_str()));
    text("crop", &ground.crop);
    text("note", &ground.note);
    let mut metres = |key: &str, value: Option<f64>| {
        if let Some(value) = value.filter(|value| value.is_finite()) {
            // Millimetres and square decimetres are finer than any farm is drawn.
            properties.insert(key.to_owned(), rounded(value, 1e3).into());
        }
    };
    metres("area_m2", measures.area_m2);
    metres("perimeter_m", measures.perimeter_m);
    metres("length_m", measures.length_m);
    metres("width_m", ground.width_m);
    metres("height_m", ground.height_m);
    metres(
        "tree_spacing_m",
        ground.trees.as_ref().map(|row| row.spacing_m),
    );
    metres("first_tree_m", ground.trees.as_ref().map(|row| row.first_m));
    metres("tree_crown_m", ground.trees.as_ref().map(|row| row.crown_m));
    properties
}

/// `value` on whole parts; never −0, which reads as a fault.
fn rounded(value: f64, parts: f64) -> f64 {
    (value * parts).round() / parts + 0.0
}
