//! `course`: the table of plots by years for people and for scripts.

use foldcourse::farm::{Course, CourseStep, Courses, Farm, Ground, Kind, Turn, use_from_words};
use foldcourse::files::farm_text;
use tempfile::TempDir;

use super::{fields, in_folder, number, text, told};
use crate::farm::sample::{empty_farm, put, rectangle};

/// Four plots of a tenth of a hectare in a course of four, all begun in 2027.
pub(super) fn four_plots() -> Farm {
    let mut farm = empty_farm();
    let starts = ["North", "East", "South", "West"]
        .iter()
        .zip(0_u8..)
        .map(|(name, place)| {
            let shape = rectangle(f64::from(place) * 50.0, 0.0, 40.0, 25.0);
            (put(&mut farm, Ground::new(*name, Kind::Plot, shape)), place)
        })
        .collect();
    let step = |crops: &[&str]| CourseStep {
        uses: crops
            .iter()
            .map(|crop| use_from_words(&Courses::default(), crop))
            .collect(),
    };
    farm.course.courses.push(Course {
        name: "Field course".to_owned(),
        steps: vec![
            step(&["leeks"]),
            step(&["squash", "cover: rye"]),
            step(&["ley"]),
            step(&["ley"]),
        ],
        first_year: 2027,
        turn: Turn::NextStep,
        is_one_each: true,
        starts,
    });
    farm
}

/// Writes a farm into a folder and gives its path.
pub(super) fn saved(folder: &TempDir, farm: &Farm) -> String {
    let path = in_folder(folder, "farm.ron");
    std::fs::write(&path, farm_text(farm)).unwrap();
    path
}

#[test]
fn the_course_is_told_as_a_table_and_as_fields() {
    let folder = TempDir::new().unwrap();
    let mut farm = four_plots();
    let north = *farm.ground.keys().next().unwrap();
    farm.course.by_hand.insert(
        (north, 2028, 0),
        use_from_words(&Courses::default(), "onions"),
    );
    let path = saved(&folder, &farm);
    let table = told(&["course", &path]);
    assert!(
        table.contains("onions *"),
        "a cell by hand has its mark:\n{table}"
    );
    assert!(table.contains("cover: rye") && table.contains("ley, year 2"));
    assert!(table.contains("1 in 1"), "leeks, then onions:\n{table}");
    let all = fields(&["course", "--json", &path]);
    let cells = all["cells"].as_array().unwrap();
    let cell = cells
        .iter()
        .find(|cell| text(cell, "ground") == "North" && number(cell, "year") == 2028.0)
        .unwrap();
    assert_eq!(
        (text(cell, "use"), text(cell, "family")),
        ("onions", "onion")
    );
    assert_eq!(cell["by_hand"], true);
    let first = &all["years"][0];
    assert!(
        (number(first, "cropped_m2") - 2_000.0).abs() < 2.0,
        "{first}"
    );
    assert!((number(first, "ley_m2") - 2_000.0).abs() < 2.0, "{first}");
    assert_eq!(text(&all["findings"][0], "code"), "family_back_soon");
}

#[test]
fn a_farm_without_a_course_says_what_is_drawn_and_nothing_amiss() {
    let table = told(&["course", &super::fennywick()]);
    assert!(table.contains("Long Piece"), "{table}");
}

#[test]
fn clean_ground_is_told_by_the_rule_that_is_named() {
    let folder = TempDir::new().unwrap();
    let path = saved(&folder, &four_plots());
    let told_by =
        |rule: &str| fields(&["clean", "--json", "--year", "2027", "--rule", rule, &path]);
    let leeks = |all: &serde_json::Value| -> serde_json::Value {
        let crops = all["crops"].as_array().unwrap();
        let found = crops
            .iter()
            .find(|crop| text(crop, "name") == "leeks" && number(crop, "year") == 2027.0);
        found.unwrap().clone()
    };
    let us = leeks(&told_by("us_organic"));
    assert_eq!(text(&us, "first_harvest"), "2027-09-15");
    assert_eq!(text(&us, "last_by_harvest"), "2027-05-18");
    assert_eq!(text(&us, "last_by_clearing"), "2027-05-13");
    assert_eq!(text(&us, "last_animals"), "2027-05-13");
    let uk = leeks(&told_by("uk_ready_to_eat"));
    assert_eq!(text(&uk, "last_animals"), "2026-09-15");
    let form = told(&["clean", "--year", "2027", &path]);
    for rule in [
        "us_organic",
        "uk_stock_in_field",
        "uk_ready_to_eat",
        "us_produce_safety",
        "own",
    ] {
        assert!(form.contains(rule), "no rule is hidden:\n{form}");
    }
    assert!(form.contains("certifier"), "{form}");
    super::refused(&["clean", "--rule", "moon", &path], &["moon", "us_organic"]);
}

#[test]
fn planting_is_told_as_a_form_and_as_rows() {
    let folder = TempDir::new().unwrap();
    let path = saved(&folder, &four_plots());
    let form = told(&["planting", "--year", "2027", &path]);
    assert!(form.contains("leeks") && form.contains("squash"), "{form}");
    assert!(form.contains("week"), "{form}");
    let rows = told(&["planting", "--year", "2027", "--csv", &path]);
    let lines: Vec<&str> = rows.split("\r\n").collect();
    assert!(lines[0].starts_with("ground,crop,family"), "{rows}");
    assert_eq!(
        lines.len(),
        4,
        "a head, two crops, and the last line's end: {rows}"
    );
    let columns = lines[0].split(',').count();
    assert_eq!(lines[1].split(',').count(), columns);
    // 1000 m² at 0.40 by 0.15 m: 16 666 leeks, a tenth to spare.
    assert!(
        lines[1].contains(",16666,18333,") || lines[1].contains(",16667,18334,"),
        "{rows}"
    );
    let weeks = told(&["planting", "--year", "2027", "--csv", "--totals", &path]);
    let lines: Vec<&str> = weeks.split("\r\n").collect();
    assert!(lines[0].starts_with("week_of,week,crop,plants"), "{weeks}");
    assert_eq!(lines.len(), 4, "a head, a row for each crop: {weeks}");
    assert!(
        weeks.contains("leeks") && weeks.contains("squash"),
        "{weeks}"
    );
    assert_eq!(
        told(&["planting", "--year", "1999", "--csv", &path])
            .lines()
            .count(),
        3
    );
    super::refused(&["planting", "--year", "3000", &path], &["3000", "2199"]);
}

#[test]
fn loads_of_the_example_name_their_texts_and_limits() {
    let form = told(&["loads", &super::fennywick()]);
    assert!(
        form.contains("the whole holding") && form.contains("91/676"),
        "{form}"
    );
    assert!(form.contains("Local law decides"), "{form}");
    let rows = fields(&["loads", "--json", "--set", "england", &super::fennywick()]);
    let whole = rows
        .as_array()
        .unwrap()
        .iter()
        .find(|row| text(row, "ground") == "the whole holding")
        .unwrap();
    assert!(
        number(whole, "kg_n_per_ha") > 0.0 && number(whole, "area_ha") > 1.0,
        "{whole}"
    );
    super::refused(
        &["loads", "--set", "mars", &super::fennywick()],
        &["mars", "eu_organic"],
    );
}
