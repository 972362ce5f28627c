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
