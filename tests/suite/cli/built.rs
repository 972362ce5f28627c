//! What is built and planted, told by `measure` and `trees`.

use std::fs;

use serde_json::Value;

use super::{fennywick, fields, in_folder, number, program, text, told};

fn row_of(name: &str) -> Value {
    let rows = fields(&["measure", "--json", &fennywick()]);
    let rows = rows.as_array().unwrap();
    rows.iter().find(|row| row["name"] == name).unwrap().clone()
}

#[test]
fn a_tunnel_tells_hoops_cover_and_beds() {
    let row = row_of("T1");
    let tunnel = &row["tunnel"];
    let (length_m, width_m) = (number(tunnel, "length_m"), number(tunnel, "width_m"));
    assert!(
        (length_m * width_m / number(&row, "area_m2") - 1.0).abs() < 1e-3,
        "{row}"
    );
    // A bow 3.2 m high without straight sides, by the formula of a part of a circle.
    let radius_m = (width_m * width_m / 4.0 + 3.2 * 3.2) / 6.4;
    let arc_m = 2.0 * radius_m * (width_m / 2.0).atan2(radius_m - 3.2);
    assert!((number(tunnel, "bow_arc_m") - arc_m).abs() < 1e-9);
    assert!((number(tunnel, "sheet_m") - arc_m - 1.0).abs() < 1e-9);
    assert_eq!(text(tunnel, "ends"), "covered");
    assert!(number(&row["beds"], "area_m2") < number(&row, "area_m2"));
    assert!(number(&row["beds"], "plants") > 100.0);
}

#[test]
fn pond_fence_and_trees_tell_their_figures() {
    let pond = row_of("Marl pond");
    let volume_m3 = number(&pond["basin"], "volume_m3");
    assert!(volume_m3 > 0.0 && volume_m3 < 1.6 * number(&pond, "area_m2"));
    assert!((number(&pond["basin"], "surface_m2") / number(&pond, "area_m2") - 1.0).abs() < 1e-6);
    let fence = row_of("Lower east fence");
    assert!((number(&fence["fence"], "wire_m") / number(&fence, "length_m") - 1.0).abs() < 1e-6);
    assert!(number(&fence["fence"], "posts") >= number(&fence, "length_m") / 4.0);
    let row = row_of("Pear row");
    let totals = row["varieties"].as_object().unwrap().values();
    let trees: u64 = totals.map(|count| count.as_u64().unwrap()).sum();
    assert_eq!(Some(trees), row["trees"].as_u64());
    let words = told(&["measure", &fennywick()]);
    for part in ["hoops of", "of bed", "posts,", "litres"] {
        assert!(words.contains(part), "{part}: {words}");
    }
}

#[test]
fn every_tree_stands_in_the_table_and_in_the_list() {
    let folder = tempfile::tempdir().unwrap();
    let path = in_folder(&folder, "trees.csv");
    let said = told(&["trees", &fennywick(), "-o", &path]);
    let table = fs::read_to_string(&path).unwrap();
    assert_eq!(table, told(&["trees", &fennywick()]));
    let list = fields(&["trees", &fennywick(), "--json"]);
    let list = list.as_array().unwrap();
    assert!(
        said.starts_with(&format!("{} trees written", list.len())),
        "{said}"
    );
    assert_eq!(table.matches("\r\n").count(), list.len() + 1);
    let mut reader = table.split("\r\n").map(|line| line.split(',').count());
    assert!(
        reader
            .by_ref()
            .take(list.len() + 1)
            .all(|fields| fields == 9)
    );
    let first = &list[0];
    assert_eq!(
        (text(first, "line"), number(first, "number")),
        ("Pear row", 1.0)
    );
    assert!((number(first, "lat_deg") - 53.42).abs() < 0.01);
    program()
        .args(["trees", &fennywick(), "--json", "-o", &path])
        .assert()
        .code(2);
}
