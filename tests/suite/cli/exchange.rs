//! `import`, `export` and `cut`: a farm made of surveyed parcels, worked on, and handed out again.

use foldcourse::farm::{Mob, StockClass, Visit};
use foldcourse::files::{open_farm, save_farm};
use foldcourse::quantity::Day;
use serde_json::Value;

use super::{examples, fennywick, fields, in_folder, in_repository, number, refused, text, told};

/// 100 field parcels, Agrarmarkt Austria, 2025, CC-BY-4.0 (origin in `tests/data/geometry/ORIGIN.md`).
const PARCELS: &str = "tests/data/geometry/at-fields-2025.geojson";

#[test]
fn surveyed_parcels_become_a_farm_that_is_cut_stocked_and_planned() {
    let folder = tempfile::tempdir().unwrap();
    let farm = in_folder(&folder, "farm.ron");
    let said = told(&[
        "import",
        &in_repository(PARCELS),
        "-o",
        &farm,
        "--today",
        "2027-05-14",
    ]);
    assert!(
        said.starts_with(&format!("100 things written to {farm}\n")),
        "{said}"
    );

    let whole = fields(&["measure", "--json", &farm]);
    for (name, strips) in [("plot 1", 8), ("plot 3", 9), ("plot 5", 10)] {
        let before = row_of(&whole, name);
        let said = told(&[
            "cut",
            &farm,
            "--ground",
            name,
            "--strips",
            &strips.to_string(),
        ]);
        assert!(said.contains(&strips.to_string()), "{said}");
        let cut = fields(&["measure", "--json", &farm]);
        let pieces: Vec<&Value> = cut
            .as_array()
            .unwrap()
            .iter()
            .filter(|row| row["within"] == name)
            .collect();
        assert_eq!(pieces.len(), strips, "{name}");
        let ley = row_of(&cut, name);
        assert_eq!(ley["kind"], "ley");
        // The cuts put corners into its sides: a straight side of the plane and the shortest way on the earth between
        // its ends part by a hair.
        let area_m2 = number(before, "area_m2");
        assert!(
            (number(ley, "area_m2") / area_m2 - 1.0).abs() < 1e-9,
            "{name}"
        );
        let each_m2 = number(before, "area_m2") / f64::from(u32::try_from(strips).unwrap());
        for piece in pieces {
            assert_eq!(piece["kind"], "strip");
            // Equal on the plane, so nearly equal on the ellipsoid.
            assert!(
                (number(piece, "area_m2") / each_m2 - 1.0).abs() < 1e-4,
                "{piece}"
            );
        }
    }

    add_mob(&farm);
    let days = fields(&["season", &farm, "--json"]);
    let days = days.as_array().unwrap();
    assert_eq!(days.len(), 183);
    let stood: Vec<&str> = days
        .iter()
        .filter_map(|day| day["mobs"].get(0))
        .map(|mob| text(mob, "strip"))
        .collect();
    assert_eq!(stood.len(), 109, "one row for each day of the visit");
    let cut = fields(&["measure", "--json", &farm]);
    let is_strip = |name: &str| row_of(&cut, name)["kind"] == "strip";
    let on_strips = stood.iter().filter(|name| !name.is_empty());
    assert!(on_strips.clone().all(|name| is_strip(name)), "{stood:?}");
    assert!(on_strips.count() > 100, "{stood:?}");
    let stocked = fields(&["measure", "--json", "--day", "2027-06-14", &farm]);
    let stocked = stocked.as_array().unwrap();
    assert_eq!(
        stocked
            .iter()
            .filter(|row| row.get("head_per_ha").is_some())
            .count(),
        1
    );
}

/// 40 ewes from 15 May to 31 August, put in as a grower's own programme might, through the library.
fn add_mob(path: &str) {
    let day = |text: &str| Day::parse_iso(text).unwrap();
    let mut farm = open_farm(path.as_ref()).unwrap();
    let mob = Mob {
        name: "Ewes".to_owned(),
        class: StockClass::EwesWithLambs,
        head: 40,
        liveweight_kg: 70.0,
        eats_kg_per_head: None,
        gain_g_per_day: 0.0,
        lambed_on: None,
        changes: Vec::new(),
        visits: vec![Visit {
            from: day("2027-05-15"),
            to: day("2027-08-31"),
        }],
        yard: None,
        follows: None,
    };
    let id = farm.next_id;
    farm.mobs.insert(foldcourse::farm::MobId(id), mob);
    farm.next_id += 1;
    save_farm(&farm, path.as_ref()).unwrap();
}

fn row_of<'a>(rows: &'a Value, name: &str) -> &'a Value {
    let rows = rows.as_array().unwrap();
    rows.iter().find(|row| row["name"] == name).unwrap()
}

#[test]
fn what_came_in_goes_out_to_the_seventh_decimal() {
    let folder = tempfile::tempdir().unwrap();
    let (farm, out) = (
        in_folder(&folder, "farm.ron"),
        in_folder(&folder, "out.geojson"),
    );
    told(&["import", &in_repository(PARCELS), "-o", &farm]);
    told(&["export", &farm, "-o", &out]);
    let came_in = rings(&in_repository(PARCELS));
    let went_out = rings(&out);
    assert_eq!(came_in.len(), went_out.len());
    for (inside, outside) in came_in.iter().zip(&went_out) {
        assert_eq!(as_drawn(inside), as_drawn(outside));
    }
}

#[test]
fn what_is_handed_out_comes_in_as_it_was() {
    let folder = tempfile::tempdir().unwrap();
    for example in examples() {
        let (first, farm, second) = (
            in_folder(&folder, "first.geojson"),
            in_folder(&folder, "farm.ron"),
            in_folder(&folder, "second.geojson"),
        );
        told(&["export", &example, "-o", &first]);
        told(&["import", &first, "-o", &farm]);
        told(&["export", &farm, "-o", &second]);
        let (before, after) = (read(&first), read(&second));
        for (before, after) in entries(&before).iter().zip(entries(&after)) {
            assert_eq!(before["geometry"], after["geometry"]);
            for name in ["name", "kind", "within", "crop"] {
                assert_eq!(
                    before["properties"][name], after["properties"][name],
                    "{name}"
                );
            }
        }
        assert_eq!(entries(&before).len(), entries(&after).len());
    }
}

#[test]
fn a_cut_leaves_the_farm_it_read_alone_where_another_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let out = in_folder(&folder, "cut.ron");
    let before = std::fs::read(fennywick()).unwrap();
    told(&[
        "cut",
        &fennywick(),
        "--ground",
        "Gate Plot",
        "--strips",
        "7",
        "--bearing",
        "-7.5",
        "-o",
        &out,
    ]);
    assert_eq!(std::fs::read(fennywick()).unwrap(), before);
    let rows = fields(&["measure", "--json", &out]);
    let strips = rows
        .as_array()
        .unwrap()
        .iter()
        .filter(|row| row["within"] == "Gate Plot");
    assert_eq!(strips.count(), 7);
}

#[test]
fn a_file_without_outlines_makes_an_empty_farm_and_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let (source, farm) = (
        in_folder(&folder, "nothing.geojson"),
        in_folder(&folder, "farm.ron"),
    );
    let nothing = "{\"type\":\"FeatureCollection\",\"features\":[]}";
    std::fs::write(&source, nothing).unwrap();
    let said = told(&["import", &source, "-o", &farm]);
    assert!(
        said.starts_with("0 things written") && said.contains("nothing came in"),
        "{said}"
    );
    assert_eq!(
        fields(&["measure", "--json", &farm]),
        Value::Array(Vec::new())
    );
}

fn read(path: &str) -> Value {
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

fn entries(file: &Value) -> &Vec<Value> {
    file["features"].as_array().unwrap()
}

/// A ring as whole numbers of 10⁻⁷ degrees, first corner not repeated.
type DegreeRing = Vec<(i64, i64)>;

/// Every ring of every polygon of a file, in order.
fn rings(path: &str) -> Vec<DegreeRing> {
    let file = read(path);
    let mut rings = Vec::new();
    for entry in entries(&file) {
        for ring in entry["geometry"]["coordinates"].as_array().unwrap() {
            let mut corners: DegreeRing = ring
                .as_array()
                .unwrap()
                .iter()
                .map(|corner| (part(&corner[0]), part(&corner[1])))
                .collect();
            corners.pop();
            rings.push(corners);
        }
    }
    rings
}

fn part(degrees: &Value) -> i64 {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "180 degrees are 1.8e9 such parts"
    )]
    let parts = (degrees.as_f64().unwrap() * 1e7).round() as i64;
    parts
}

/// The ring from its least corner on, in whichever direction comes first: where it begins and how it turns is the
/// format's business.
fn as_drawn(ring: &DegreeRing) -> DegreeRing {
    let least = (0..ring.len()).min_by_key(|place| ring[*place]).unwrap();
    let onward: DegreeRing = (0..ring.len())
        .map(|step| ring[(least + step) % ring.len()])
        .collect();
    let mut back = onward.clone();
    back[1..].reverse();
    onward.min(back)
}

/// A loop on foot (origin in `tests/data/tracks/ORIGIN.md`), with its area measured with GeographicLib.
#[test]
fn a_recorded_walk_becomes_a_farm_by_its_ending() {
    let folder = tempfile::tempdir().unwrap();
    let farm = in_folder(&folder, "farm.ron");
    let walk = in_repository("tests/data/tracks/mountain-loop-gpx10.gpx");
    let said = told(&["import", &walk, "-o", &farm]);
    assert!(said.contains("1 line became a track"), "{said}");
    let whole = fields(&["measure", "--json", &farm]);
    assert!((number(&whole[0], "length_m") - 2700.918).abs() < 0.01);
    let said = told(&["import", &walk, "--outline", "-o", &farm]);
    assert!(said.contains("1 walk round became a plot"), "{said}");
    let whole = fields(&["measure", "--json", &farm]);
    assert!((number(&whole[0], "area_m2") - 12418.051).abs() < 0.05);
    let said = told(&["import", &walk, "--outline", "--thin", "3", "-o", &farm]);
    assert!(said.contains("184 points were thinned to"), "{said}");
}

#[test]
fn strips_for_days_are_cut_and_the_sum_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let out = in_folder(&folder, "cut.ron");
    let ley = ["cut", &fennywick(), "--ground", "Lark Ley", "-o", &out];
    let said = told(
        &[
            &ley[..],
            &["--days", "2", "--mob", "Ewes and lambs", "--cover", "1900"],
            &["--residual", "1500", "--day", "2027-05-09"],
        ]
        .concat(),
    );
    for part in [
        "40 ewes with lambs eat 84 kg DM a day",
        "1900 − 1500 = 400 kg DM/ha may be eaten: 0.2100 ha a day.",
        "0.4200 ha (2 days) the first",
        "wanted in May: 21. That asks for 12 strips.",
        "The 5 strips that are there now, L1 to L5, are replaced.",
    ] {
        assert!(said.contains(part), "\"{part}\" is not in: {said}");
    }
}

#[test]
fn strips_that_reach_a_trough_are_cut_and_named_by_a_stem() {
    let folder = tempfile::tempdir().unwrap();
    let out = in_folder(&folder, "cut.ron");
    let ley = ["cut", &fennywick(), "--ground", "Lark Ley", "-o", &out];
    let said = told(
        &[
            &ley[..],
            &["--strips", "8", "--reach", "Lark trough", "--stem", "Lark "],
        ]
        .concat(),
    );
    assert!(said.contains("Lark 1 to Lark 8"), "{said}");
    assert!(!said.contains("not reach"), "{said}");
    refused(
        &[&ley[..], &["--strips", "8", "--stem", "W"]].concat(),
        &["W1 is the name of other ground already"],
    );
    refused(
        &[&ley[..], &["--width", "wide"]].concat(),
        &["--width", "12.5"],
    );
    refused(
        &[&ley[..], &["--strips", "3", "--side", "99"]].concat(),
        &["no such side"],
    );
    refused(
        &[&ley[..], &["--days", "2", "--mob", "Goats"]].concat(),
        &["Ewes and lambs"],
    );
}
