//! Recorded walks: real files in full, and everything a receiver or a bad cable may do to one.

use std::fmt::Write as _;
use std::path::Path;

use foldcourse::farm::{Kind, Shape};
use foldcourse::files::{GpxWish, Recorded, import_gpx, import_gpx_onto, read_gpx, read_text};
use foldcourse::geometry::{GroundFrame, LonLat, Outline, geodesic};

use super::sample::day;

fn data(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/data/tracks")
        .join(name);
    read_text(&path).unwrap()
}

fn shared(name: &str) -> Option<Recorded> {
    let Some(folder) = std::env::var_os("FOLDCOURSE_SHARED") else {
        eprintln!("skipped: FOLDCOURSE_SHARED is not set");
        return None;
    };
    let path = Path::new(&folder).join("data/tracks").join(name);
    Some(read_gpx(&read_text(&path).unwrap(), name).unwrap())
}

/// Points of each line, and the length of all, metres on the ellipsoid.
fn counted(recorded: &Recorded) -> (Vec<usize>, f64) {
    let frame = recorded.frame("test").unwrap();
    let lengths = recorded
        .lines
        .iter()
        .map(|line| geodesic::length_m(frame, &line.points(frame, "test").unwrap()));
    let counts = recorded.lines.iter().map(|line| line.places.len());
    (counts.collect(), lengths.sum())
}

#[track_caller]
fn about(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} for {wanted}");
}

#[test]
fn a_handhelds_three_pieces_come_in_as_three_lines() {
    let recorded = read_gpx(&data("three-segments-gaps.gpx"), "walk.gpx").unwrap();
    let (counts, length_m) = counted(&recorded);
    assert_eq!(counts, [3, 10, 3]);
    about(length_m, 61.791, 1e-3);
    let names: Vec<&str> = recorded
        .lines
        .iter()
        .map(|line| line.name.as_str())
        .collect();
    assert!(
        names
            .iter()
            .zip(1..)
            .all(|(name, n)| name.ends_with(&format!(" {n}"))),
        "{names:?}"
    );
}

#[test]
fn a_loop_whose_times_are_broken_comes_in_with_its_published_length_and_area() {
    let text = data("mountain-loop-gpx10.gpx");
    let recorded = read_gpx(&text, "loop.gpx").unwrap();
    let (counts, length_m) = counted(&recorded);
    assert_eq!(counts, [184]);
    about(length_m, 2700.918, 1e-3);
    let wish = GpxWish {
        as_outline: true,
        thin_m: 0.0,
    };
    let farm = import_gpx(&text, "loop.gpx", day("2027-04-01"), wish)
        .unwrap()
        .farm;
    let ground = farm.ground.values().next().unwrap();
    assert_eq!(ground.kind, Kind::Plot);
    about(
        geodesic::area_m2(farm.frame, ground.outline().unwrap()),
        12418.051,
        0.01,
    );
}

#[test]
fn a_byte_order_mark_and_a_lone_marked_place_are_taken() {
    let imported = import_gpx(
        &data("bom-no-encoding.gpx"),
        "mark.gpx",
        day("2027-04-01"),
        GpxWish::default(),
    )
    .unwrap();
    let ground = imported.farm.ground.values().next().unwrap();
    assert_eq!(ground.name, "bom noencoding ő");
    assert!(matches!(ground.shape, Shape::Place(_)));
    about(imported.farm.frame.origin().lat_deg, 0.1, 1e-9);
    assert_eq!(imported.notes, ["1 marked place became a trough."]);
}

#[test]
fn real_files_of_the_older_version_keep_every_piece() {
    let Some(hills) = shared("blue-hills-gpx10.gpx") else {
        return;
    };
    let (counts, length_m) = counted(&hills);
    // The piece of a single point is no line; one that stands still twice is shorter by its repeats.
    assert_eq!(counts.len(), 13);
    assert_eq!(hills.marked.len(), 46);
    about(length_m, 51_929.394, 2e-3);
    assert!(
        hills
            .notes
            .iter()
            .any(|note| note.contains("fewer than two points"))
    );
    let shore = shared("lake-shore-gpx10.gpx").unwrap();
    let (counts, length_m) = counted(&shore);
    assert_eq!(counts.len(), 7, "{counts:?}");
    assert_eq!(shore.marked.len(), 7);
    about(length_m, 4576.907, 1e-3);
    let run = shared("run-loop-heart-rate.gpx").unwrap();
    let (counts, length_m) = counted(&run);
    assert_eq!(counts, [1118 - 22]);
    about(length_m, 3568.0, 1e-3);
    let frame = run.frame("run").unwrap();
    let outline = Outline::simple(run.lines[0].points(frame, "run").unwrap());
    about(geodesic::area_m2(frame, &outline), 454_248.169, 0.05);
}

fn file(inner: &str) -> String {
    format!("<gpx version=\"1.1\" creator=\"x\">\n{inner}\n</gpx>")
}

fn point(lat: f64, lon: f64) -> String {
    format!("<trkpt lat=\"{lat}\" lon=\"{lon}\"/>")
}

#[test]
fn what_is_not_asked_for_is_passed_over() {
    let text = file(
        "<metadata><name>The &amp; farm</name><bounds minlat='a'/></metadata><trk><color>red</color>
         <extensions><name>not this</name><trkpt lat='9' lon='9'/></extensions>
         <trkseg><trkpt lat=' 52.1 ' lon='-1.2'><time>never</time><sat/><name>no</name></trkpt>
         <trkpt lat='52.2' lon='-1.2'/></trkseg><name>Hedge <![CDATA[& ditch]]></name></trk>
         <rte><rtept lat='52' lon='-1'/><rtept lat='52' lon='-1.1'/></rte>
         <wpt lat='52' lon='-1'><sym/></wpt>",
    );
    let recorded = read_gpx(&text, "w.gpx").unwrap();
    assert_eq!(recorded.name.as_deref(), Some("The & farm"));
    let names: Vec<_> = recorded
        .lines
        .iter()
        .map(|line| line.name.as_str())
        .collect();
    assert_eq!(names, ["Hedge & ditch", "Route 1"]);
    assert_eq!(recorded.lines[0].places[0], LonLat::new(-1.2, 52.1));
    assert_eq!(recorded.marked[0].name, "");
}

#[track_caller]
fn refused(text: &str, words: &[&str]) {
    let line = read_gpx(text, "walk.gpx").unwrap_err().to_string();
    assert!(
        line.starts_with("walk.gpx") && !line.contains('\n'),
        "{line}"
    );
    for word in words {
        assert!(line.contains(word), "\"{word}\" is missing in: {line}");
    }
}

#[test]
fn what_is_no_walk_is_refused_with_line_cause_and_remedy() {
    refused("  \n", &["empty", "right one"]);
    refused("hello", &["not a recorded walk"]);
    refused("{\"type\": \"Feature\"}", &["not a recorded walk"]);
    refused("<kml><Document/></kml>", &["begins with <kml>"]);
    let off = file("<trk><trkseg>\n<trkpt lat=\"91\" lon=\"0\"/></trkseg></trk>");
    refused(&off, &["line 3", "lat 91, lon 0", "nowhere"]);
    refused(
        &file("<wpt lat=\"52\"/>"),
        &["line 2", "no figures for lat and lon"],
    );
    refused(&file("<wpt lat=\"52\" lon=\"nan\"/>"), &["no figures"]);
    refused(&file("<wpt lat=\"52,5\" lon=\"1\"/>"), &["no figures"]);
    refused("<gpx><trk></gpx>", &["rules of XML"]);
    let deep = file(&"<a>".repeat(5000));
    refused(&deep, &["64 deep"]);
}

#[test]
fn a_file_cut_off_anywhere_is_refused_or_complete_and_never_worse() {
    let text = data("three-segments-gaps.gpx");
    let whole = text.trim_end().len();
    for end in (0..whole).filter(|end| text.is_char_boundary(*end)) {
        let error = read_gpx(&text[..end], "walk.gpx").unwrap_err();
        assert!(!error.cause.is_empty() && !error.remedy.is_empty());
    }
    refused(&text[..whole / 2], &["cut off"]);
    refused(&text[..whole / 2 + 3], &["walk.gpx, line"]);
}

#[test]
fn entities_are_not_unfolded() {
    let mut text = String::from("<!DOCTYPE gpx [<!ENTITY a \"ha\">");
    for (from, to) in ["a", "b", "c", "d"].iter().zip(["b", "c", "d", "e"]) {
        let _ = write!(
            text,
            "<!ENTITY {to} \"{}\">",
            format!("&{from};").repeat(50)
        );
    }
    text.push_str("]>");
    text.push_str(&file("<wpt lat='1' lon='1'><name>x&e;y</name></wpt>"));
    assert_eq!(read_gpx(&text, "w.gpx").unwrap().marked[0].name, "xy");
}

#[test]
fn a_walk_on_another_continent_is_refused_onto_this_farm() {
    let frame = GroundFrame::new(LonLat::new(-1.0, 52.0)).unwrap();
    let text = file(&format!(
        "<trk><name>Far</name><trkseg>{}{}</trkseg></trk>",
        point(-30.0, 20.0),
        point(-30.0, 20.1)
    ));
    let error = import_gpx_onto(&text, "w.gpx", frame, GpxWish::default()).unwrap_err();
    assert!(
        error
            .to_string()
            .contains("Far: this lies more than 2,000 km"),
        "{error}"
    );
}

#[test]
fn thinning_on_the_way_in_says_from_how_many_to_how_many() {
    let wish = GpxWish {
        as_outline: true,
        thin_m: 5.0,
    };
    let imported = import_gpx(
        &data("mountain-loop-gpx10.gpx"),
        "loop.gpx",
        day("2027-04-01"),
        wish,
    )
    .unwrap();
    let corners = imported
        .farm
        .ground
        .values()
        .next()
        .unwrap()
        .shape
        .corners()
        .len();
    assert!(corners < 100, "{corners}");
    let note = format!("184 points were thinned to {corners}.");
    assert!(imported.notes.contains(&note), "{:?}", imported.notes);
}
