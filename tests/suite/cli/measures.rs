//! `measure` and `check`.

use serde_json::Value;

use super::{examples, fennywick, fields, in_folder, number, program, text, told};

#[test]
fn every_thing_of_every_example_is_measured() {
    for example in examples() {
        let rows = fields(&["measure", "--json", &example]);
        let rows = rows.as_array().unwrap();
        assert!(!rows.is_empty(), "{example}");
        for row in rows {
            check_row(row, rows);
        }
        let table = told(&["measure", &example]);
        for row in rows {
            assert!(
                table.contains(text(row, "name")),
                "{row} is not in the table"
            );
        }
    }
}

/// Fields that every row must have, in units that agree with each other.
fn check_row(row: &Value, rows: &[Value]) {
    assert!(number(row, "id") >= 1.0, "{row}");
    assert!(!text(row, "kind").is_empty(), "{row}");
    assert!(
        number(row, "corners") >= 1.0 && number(row, "parts") >= 0.0,
        "{row}"
    );
    let has = |name: &str| row.get(name).is_some();
    assert!(
        !(has("area_m2") && has("length_m")),
        "an area and a line: {row}"
    );
    if has("area_m2") {
        let area_m2 = number(row, "area_m2");
        assert!(area_m2 > 0.0 && number(row, "holes") >= 0.0, "{row}");
        assert!(
            (number(row, "area_ha") * 10_000.0 - area_m2).abs() < 1e-6 * area_m2,
            "{row}"
        );
        // One international acre is 4046.8564224 square metres (Weights and Measures Act 1985, schedule 1, part II).
        let by_acres = number(row, "area_acre") * 4_046.856_422_4;
        assert!((by_acres - area_m2).abs() < 1e-6 * area_m2, "{row}");
        // No shape of this perimeter holds more than the circle.
        let circle_m2 = number(row, "outer_perimeter_m").powi(2) / (4.0 * std::f64::consts::PI);
        assert!(circle_m2 >= area_m2, "{row}");
        assert!(
            number(row, "perimeter_m") >= number(row, "outer_perimeter_m") - 1e-9,
            "{row}"
        );
    }
    if text(row, "kind") == "strip" {
        let ley = text(row, "within");
        assert!(rows.iter().any(|other| text(other, "name") == ley), "{row}");
    }
    if has("head_per_ha") {
        let day_of_rows = text(row, "stocked_on");
        assert_eq!(day_of_rows.len(), 10, "{row}");
        assert!(!text(row, "livestock_unit_set").is_empty(), "{row}");
        assert!(
            number(row, "livestock_units_per_ha") < number(row, "head_per_ha"),
            "{row}"
        );
        assert!(
            number(row, "liveweight_kg_per_ha") > number(row, "head_per_ha"),
            "{row}"
        );
    }
}

#[test]
fn strips_of_a_ley_sum_to_the_ley() {
    let rows = fields(&["measure", "--json", &fennywick()]);
    let rows = rows.as_array().unwrap();
    let mut leys = 0;
    for ley in rows.iter().filter(|row| text(row, "kind") == "ley") {
        let strips_m2: f64 = rows
            .iter()
            .filter(|row| row["within"] == ley["name"])
            .map(|strip| number(strip, "area_m2"))
            .sum();
        if strips_m2 > 0.0 {
            leys += 1;
            let ley_m2 = number(ley, "area_m2");
            assert!(
                (strips_m2 / ley_m2 - 1.0).abs() < 1e-3,
                "{strips_m2} in {ley_m2}"
            );
        }
    }
    assert!(leys >= 3);
}

#[test]
fn a_stocked_strip_tells_head_units_and_weight_by_the_hectare() {
    let example = fennywick();
    let day = "2027-05-18";
    let plan = fields(&["season", &example, "--from", day, "--days", "1", "--json"]);
    let mob = &plan[0]["mobs"][0];
    let rows = fields(&["measure", "--json", "--day", day, &example]);
    let strip = rows
        .as_array()
        .unwrap()
        .iter()
        .find(|row| row["name"] == mob["strip"])
        .unwrap();
    let by_hand = number(mob, "head") / number(strip, "area_ha");
    assert!((number(strip, "head_per_ha") / by_hand - 1.0).abs() < 1e-9);
    // Ewes with lambs count 0.12 (Countryside Stewardship Higher Tier manual, Defra and Rural Payments Agency, 2023,
    // Annex 8C).
    assert!((number(strip, "livestock_units_per_ha") / (0.12 * by_hand) - 1.0).abs() < 1e-9);
    assert_eq!(text(strip, "stocked_on"), day);
    assert_eq!(strip["mob"], mob["mob"]);
    assert!(number(strip, "sheep_days_per_ha") > 0.0);
    assert!(
        rows.as_array()
            .unwrap()
            .iter()
            .any(|row| row.get("m2_per_hen").is_some()),
        "no line tells the ground for each hen"
    );
}

#[test]
fn a_sound_farm_has_nothing_to_mend() {
    assert_eq!(told(&["check", &fennywick()]), "Nothing to mend.\n");
    assert_eq!(
        fields(&["check", "--json", &fennywick()]),
        Value::Array(Vec::new())
    );
}

#[test]
fn a_farm_whose_figures_cannot_be_trusted_ends_with_1() {
    let folder = tempfile::tempdir().unwrap();
    let path = in_folder(&folder, "farm.ron");
    let text = std::fs::read_to_string(fennywick()).unwrap();
    std::fs::write(&path, with_first_outline_crossed(&text)).unwrap();
    let done = program().args(["check", &path]).assert().code(1).stderr("");
    let said = String::from_utf8(done.get_output().stdout.clone()).unwrap();
    assert!(said.contains("Long Piece"), "{said}");

    let done = program()
        .args(["check", "--json", &path])
        .assert()
        .code(1)
        .stderr("");
    let rows: Value = serde_json::from_slice(&done.get_output().stdout).unwrap();
    let error = rows
        .as_array()
        .unwrap()
        .iter()
        .find(|row| row["severity"] == "error")
        .unwrap();
    assert_eq!(error["about"], "Long Piece");
    for name in ["code", "what", "remedy"] {
        assert!(!super::text(error, name).is_empty(), "{name} in {error}");
    }
    assert!(number(error, "east_m").abs() < 300.0 && number(error, "north_m").abs() < 300.0);
}

/// The saved text with the first two corners of the first outline (the Long Piece) changed for each other, so that it
/// crosses itself.
fn with_first_outline_crossed(text: &str) -> String {
    let begins = text.find("outer: [").unwrap() + "outer: [".len();
    let (head, rest) = text.split_at(begins);
    let mut lines: Vec<&str> = rest.lines().collect();
    lines.swap(1, 2);
    format!("{head}{}", lines.join("\n"))
}
