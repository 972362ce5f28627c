//! What comes in from `GeoJSON` goes out again to 7 decimals, and measures what it measured.

use std::fs;
use std::path::PathBuf;

use foldcourse::farm::{Farm, Kind, Shape, measure_ground};
use foldcourse::files::{
    Imported, export_geojson, farm_from_text, farm_text, import_geojson, import_geojson_onto,
};
use serde_json::Value;

use super::sample::{data_text, day, full_farm};

fn import(text: &str) -> Imported {
    import_geojson(text, "folder/fields.geojson", day("2027-04-01")).unwrap()
}

/// One line of places: a ring without its closing corner, a line, or a single place; in units of 1e-7 degrees.
type Places = Vec<(i64, i64)>;

/// Everything drawn in a `GeoJSON` text, in order. Rings run as the standard wants, their first corner first.
fn drawn(text: &str) -> Vec<Places> {
    let mut all = Vec::new();
    collect(&serde_json::from_str(text).unwrap(), &mut all);
    all
}

fn collect(value: &Value, all: &mut Vec<Places>) {
    for key in ["features", "geometries"] {
        value[key]
            .as_array()
            .into_iter()
            .flatten()
            .for_each(|inner| collect(inner, all));
    }
    if value["geometry"].is_object() {
        collect(&value["geometry"], all);
    }
    let coordinates = &value["coordinates"];
    let parts = |value: &Value| value.as_array().cloned().unwrap_or_default();
    match value["type"].as_str() {
        Some("Point") => all.push(places(&Value::from(vec![coordinates.clone()]))),
        Some("MultiPoint") => all.extend(
            parts(coordinates)
                .into_iter()
                .map(|place| places(&Value::from(vec![place]))),
        ),
        Some("LineString") => all.push(places(coordinates)),
        Some("MultiLineString") => all.extend(parts(coordinates).iter().map(places)),
        Some("Polygon") => rings(coordinates, all),
        Some("MultiPolygon") => parts(coordinates).iter().for_each(|part| rings(part, all)),
        _ => {}
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "degrees in ten millionths are far below the limits"
)]
fn places(value: &Value) -> Places {
    let units = |value: &Value| (value.as_f64().unwrap() * 1e7).round() as i64;
    value
        .as_array()
        .unwrap()
        .iter()
        .map(|place| (units(&place[0]), units(&place[1])))
        .collect()
}

fn rings(value: &Value, all: &mut Vec<Places>) {
    for (place, ring) in value.as_array().unwrap().iter().enumerate() {
        let mut ring = places(ring);
        assert_eq!(ring.first(), ring.last(), "rings are closed");
        ring.pop();
        if is_anticlockwise(&ring) != (place == 0) {
            ring[1..].reverse();
        }
        all.push(ring);
    }
}

fn is_anticlockwise(ring: &Places) -> bool {
    let next = ring.iter().cycle().skip(1);
    let twice: i128 = ring
        .iter()
        .zip(next)
        .map(|(a, b)| i128::from(a.0) * i128::from(b.1) - i128::from(b.0) * i128::from(a.1))
        .sum();
    twice > 0
}

#[track_caller]
fn check_round_trip(text: &str, name: &str) {
    let imported = import(text);
    let exported = export_geojson(&imported.farm);
    assert_eq!(drawn(&exported), drawn(text), "{name}");
    check_winding(&exported);
    let again = import(&exported);
    assert_eq!(
        export_geojson(&again.farm),
        exported,
        "{name}: a second time changes nothing"
    );
    assert_eq!(
        farm_from_text(&farm_text(&imported.farm), name).unwrap(),
        imported.farm,
        "{name}: saved and opened"
    );
}

/// RFC 7946 section 3.1.6: exterior rings anticlockwise, holes clockwise.
fn check_winding(exported: &str) {
    let value: Value = serde_json::from_str(exported).unwrap();
    for feature in value["features"].as_array().unwrap() {
        let coordinates = &feature["geometry"]["coordinates"];
        let parts = match feature["geometry"]["type"].as_str() {
            Some("Polygon") => vec![coordinates.clone()],
            Some("MultiPolygon") => coordinates.as_array().unwrap().clone(),
            _ => Vec::new(),
        };
        for part in parts {
            for (place, ring) in part.as_array().unwrap().iter().enumerate() {
                assert_eq!(is_anticlockwise(&places(ring)), place == 0, "{ring}");
            }
        }
    }
}

#[test]
fn every_canonical_file_comes_back_to_seven_decimals() {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/data/geojson-canonical");
    let mut count = 0;
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|ending| ending == "geojson") {
            check_round_trip(
                &fs::read_to_string(&path).unwrap(),
                &path.display().to_string(),
            );
            count += 1;
        }
    }
    assert_eq!(count, 17);
}

#[test]
fn a_hundred_real_fields_come_back_and_measure_what_they_measured() {
    let text = data_text("geometry/at-fields-2025.geojson");
    check_round_trip(&text, "at-fields");
    let farm = import(&text).farm;
    assert_eq!(farm.name, "at-fields-2025");
    let reference: Value =
        serde_json::from_str(&data_text("geometry/at-fields-2025-measures.json")).unwrap();
    let features = reference["features"].as_array().unwrap();
    assert_eq!((farm.ground.len(), features.len()), (100, 100));
    let (mut holes, mut corners, mut worst) = (0, 0, 0.0_f64);
    for (ground, known) in farm.ground.values().zip(features) {
        let measures = measure_ground(&farm, ground);
        let off = |ours: Option<f64>, key: &str| {
            let known = known[key].as_f64().unwrap();
            let off = (ours.unwrap() - known).abs();
            assert!(off < 1e-3, "{}: {off}", ground.name);
            off / known
        };
        worst = worst.max(off(measures.area_m2, "geodesic_area_m2"));
        worst = worst.max(off(measures.perimeter_m, "geodesic_perimeter_all_rings_m"));
        holes += measures.holes;
        corners += measures.corners;
    }
    // The reference is rounded to 1e-6 m², which for the smallest plot is 2e-8 of it.
    assert!(worst < 1e-6, "{worst:e}");
    assert_eq!(holes, 6);
    assert_eq!(corners, 1934);
}

#[test]
fn what_the_file_says_of_itself_is_kept() {
    let text = data_text("geometry/at-fields-2025.geojson");
    let imported = import(&text);
    let first = imported.farm.ground.values().next().unwrap();
    assert_eq!((first.name.as_str(), first.kind), ("plot 1", Kind::Plot));
    assert!(
        first
            .note
            .contains("SNAR_BEZEICHNUNG: MÄHWIESE/-WEIDE DREI UND MEHR NUTZUNGEN"),
        "{}",
        first.note
    );
    assert_eq!(imported.notes.len(), 1, "{:?}", imported.notes);
    assert!(
        imported.notes[0].starts_with("100 things have no kind in the file"),
        "{:?}",
        imported.notes
    );
}

#[test]
fn names_kinds_and_ids_are_found_and_what_is_odd_is_told() {
    let imported = import(
        r#"{"type":"FeatureCollection","features":[
        {"type":"Feature","id":7,"properties":{"NAME":" Pear row ","kind":"Tree line"},"geometry":{"type":"LineString","coordinates":[[1,52],[1.001,52,30]]}},
        {"type":"Feature","id":"west","properties":null,"geometry":{"type":"Point","coordinates":[1,52]}},
        {"type":"Feature","id":8,"properties":{"kind":"moat","Title":"Ring"},"geometry":{"type":"Polygon","coordinates":[[[1,52],[1.001,52],[1.001,52.001],[1,52]]]}},
        {"type":"Feature","properties":{"kind":"trough","name":"Long"},"geometry":{"type":"MultiLineString","coordinates":[[[1,52],[1.001,52]],[[1,52.1],[1.1,52]],[[1,52]]]}},
        {"type":"Feature","properties":{"name":"nowhere"},"geometry":null},
        {"type":"Feature","properties":{"name":"Bits"},"geometry":{"type":"GeometryCollection","geometries":[{"type":"Point","coordinates":[1,52]},{"type":"Polygon","coordinates":[[[1,52],[1,52]]]}]}}
        ]}"#,
    );
    let said: Vec<(&str, Kind)> = imported
        .farm
        .ground
        .values()
        .map(|ground| (ground.name.as_str(), ground.kind))
        .collect();
    assert_eq!(
        said,
        [
            ("Pear row", Kind::TreeLine),
            ("west", Kind::Trough),
            ("Ring", Kind::Plot),
            ("Long 1", Kind::Fence),
            ("Long 2", Kind::Fence),
            ("Bits 1", Kind::Trough)
        ]
    );
    assert_eq!(imported.farm.name, "fields");
    let notes = imported.notes.join("\n");
    for words in [
        "1 entry has no shape",
        "2 shapes have too few corners",
        "1 corner carries a height",
        "2 things have no kind",
        "3 things have a kind that is not known here or does not lie so (moat, trough)",
    ] {
        assert!(notes.contains(words), "\"{words}\" is missing in:\n{notes}");
    }
}

#[test]
fn an_exported_farm_comes_in_again_with_its_fields() {
    let farm = full_farm();
    let exported = export_geojson(&farm);
    let again = import_geojson_onto(&exported, "own", farm.frame).unwrap();
    let grounds: Vec<_> = again.pieces.iter().map(|piece| &piece.ground).collect();
    for (before, after) in farm.ground.values().zip(&grounds) {
        assert_eq!(
            (&before.name, before.kind, &before.note),
            (&after.name, after.kind, &after.note)
        );
        assert_eq!(
            (&before.crop, before.width_m, before.height_m),
            (&after.crop, after.width_m, after.height_m)
        );
        assert_eq!(before.trees, after.trees);
        check_close(&before.shape, &after.shape);
    }
    assert_eq!(
        again.pieces[1].strip_of,
        Some(0),
        "the strip is joined to its ley"
    );
    assert!(again.notes.is_empty(), "{:?}", again.notes);
}

/// Within 2 cm, the worth of 7 decimals.
fn check_close(before: &Shape, after: &Shape) {
    let (before, after) = (before.corners(), after.corners());
    assert_eq!(before.len(), after.len());
    for corner in before {
        assert!(
            after.iter().any(|other| other.distance_m(corner) < 0.02),
            "{corner:?}"
        );
    }
}

#[test]
fn a_farm_on_the_date_line_stays_whole() {
    let text = r#"{"type":"Polygon","coordinates":[[[179.999,-17],[-179.999,-17],[-179.999,-16.999],[179.999,-16.999],[179.999,-17]]]}"#;
    let farm: Farm = import(text).farm;
    let area_m2 = measure_ground(&farm, &farm.ground.values().next().unwrap().clone())
        .area_m2
        .unwrap();
    assert!((20_000.0..25_000.0).contains(&area_m2), "{area_m2}");
}
