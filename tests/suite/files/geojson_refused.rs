//! What is no `GeoJSON` in longitude and latitude is refused with the reason and the way out; nothing is guessed.

use std::fs;
use std::path::Path;

use foldcourse::files::{FileError, import_geojson};

use super::sample::{data_text, day};

#[track_caller]
fn refused(text: &str, words: &[&str]) -> FileError {
    let error = import_geojson(text, "fields.geojson", day("2027-04-01")).unwrap_err();
    let line = error.to_string();
    assert!(
        !line.contains('\n') && line.starts_with("fields.geojson"),
        "{line}"
    );
    for word in words {
        assert!(line.contains(word), "\"{word}\" is missing in: {line}");
    }
    error
}

#[test]
fn metres_of_a_national_grid_are_refused_with_the_name_of_the_grid() {
    refused(
        &data_text("files/projected-grid.geojson"),
        &[
            "crs",
            "not longitude and latitude",
            "urn:ogc:def:crs:EPSG::25833",
            "written again as GeoJSON in WGS 84 (EPSG:4326)",
        ],
    );
}

#[test]
fn the_real_file_in_metres_is_refused() {
    let Some(shared) = std::env::var_os("FOLDCOURSE_SHARED") else {
        eprintln!("skipped: FOLDCOURSE_SHARED is not set");
        return;
    };
    let path = Path::new(&shared).join("data/parcels/pt-crops-projected.geojson");
    let text = fs::read_to_string(&path).unwrap();
    refused(&text, &["urn:ogc:def:crs:EPSG::3763", "WGS 84"]);
    // Were the crs member lost on the way, the figures still give it away.
    let bare = text.replace("\"crs\"", "\"was\"");
    refused(
        &bare,
        &[
            "entry 1, corner 1",
            "-37150.2001, 88012.2733",
            "the metres of some grid",
        ],
    );
}

#[test]
fn figures_off_the_earth_are_refused_with_their_place() {
    let place =
        |lon: &str, lat: &str| format!("{{\"type\":\"Point\",\"coordinates\":[{lon},{lat}]}}");
    refused(
        &place("52.1", "181"),
        &["entry 1, corner 1", "52.1, 181", "the wrong way round"],
    );
    refused(&place("-180.5", "3"), &["-180.5"]);
    refused(&place("1e999", "3"), &["fields.geojson"]);
    assert!(import_geojson(&place("-180", "90"), "pole", day("2027-04-01")).is_ok());
}

#[test]
fn what_is_broken_or_something_else_is_told() {
    refused("", &["the file is empty"]);
    refused(
        "{\"type\":\"FeatureCollection\",\"features\":[{\"ty",
        &["line 1", "cut off"],
    );
    refused(
        "{\n\"type\": oops}",
        &["line 2, column", "breaks the rules of JSON"],
    );
    refused("{\"type\":\"Topology\"}", &["not sound GeoJSON"]);
    refused("[1, 2]", &["not sound GeoJSON"]);
    refused(
        "{\"type\":\"Polygon\",\"coordinates\":[[1,2],[3,4]]}",
        &["not sound GeoJSON"],
    );
    refused("(foldcourse: 1)", &["breaks the rules of JSON"]);
}

#[test]
fn deep_collections_are_refused_quickly() {
    let open = "{\"type\":\"GeometryCollection\",\"geometries\":[".repeat(20_000);
    refused(&open, &["fields.geojson"]);
    refused(
        &format!(
            "{{\"type\":\"Polygon\",\"coordinates\":{}",
            "[".repeat(100_000)
        ),
        &["fields.geojson"],
    );
}

#[test]
fn ground_strewn_over_half_the_earth_is_refused() {
    refused(
        "{\"type\":\"MultiPoint\",\"coordinates\":[[-60,0],[60,0]]}",
        &["entry 1", "more than 2,000 km", "one farm at a time"],
    );
}
