//! A saved farm with something wrong in it is refused in one line that says file, place, cause and remedy.

use foldcourse::files::{FileError, farm_from_text, farm_text, open_farm, save_farm};
use foldcourse::geometry::Point;

use super::sample::full_farm;

/// The full sample with one text put for another.
fn changed(from: &str, to: &str) -> String {
    let text = farm_text(&full_farm());
    assert!(text.contains(from), "{from} stands in the sample");
    text.replacen(from, to, 1)
}

#[track_caller]
fn refused(text: &str) -> FileError {
    let error = farm_from_text(text, "farm.ron").unwrap_err();
    let line = error.to_string();
    assert!(!line.contains('\n'), "one line: {line}");
    assert!(
        !error.cause.is_empty() && !error.remedy.is_empty(),
        "{line}"
    );
    assert!(line.starts_with("farm.ron"), "{line}");
    error
}

/// Refused with all of `words` in the line.
#[track_caller]
fn check_words(text: &str, words: &[&str]) -> String {
    let line = refused(text).to_string();
    for word in words {
        assert!(line.contains(word), "\"{word}\" is missing in: {line}");
    }
    line
}

/// Refused with all of `words`, and with the number of a line on which `to` now stands.
#[track_caller]
fn check(from: &str, to: &str, words: &[&str]) {
    let text = changed(from, to);
    let line = check_words(&text, words);
    let first = text[..text.find(to).unwrap()].matches('\n').count() + 1;
    let last = first + to.matches('\n').count();
    let told = line
        .split("line ")
        .nth(1)
        .and_then(|rest| rest.split(',').next());
    let told: usize = told.unwrap().parse().unwrap();
    assert!(
        (first..=last).contains(&told),
        "line {first} was meant: {line}"
    );
}

#[test]
fn a_field_that_is_not_known_is_named_with_those_that_are() {
    check(
        "crop: \"herb ley, year 2\"",
        "corp: \"herb\"",
        &["ground 1", "no field \"corp\"", "crop", "mend its spelling"],
    );
    check(
        "lat_deg: 52.25",
        "lat_deg: 52.25, up: 3",
        &["origin", "no field \"up\"", "lon_deg, lat_deg"],
    );
}

#[test]
fn a_value_of_the_wrong_sort_is_told_with_what_was_expected() {
    check("head: 36", "head: 36.5", &["mob 5", "column"]);
    check("head: 36", "head: -1", &["mob 5", "head"]);
    check(
        "liveweight_kg: 72.5",
        "liveweight_kg: \"heavy\"",
        &[
            "mob 5, liveweight_kg",
            "a number such as 12.345 was expected",
        ],
    );
    check(
        "name: \"Pear row\"",
        "name: 7",
        &["ground 3, name", "a text in double quotes"],
    );
    check("(12.4, 90.0)", "(12.4, 90.0, 7.0)", &["ground 1"]);
}

#[test]
fn kinds_and_classes_that_are_not_known_are_told_with_those_that_are() {
    check(
        "kind: trough",
        "kind: moat",
        &[
            "ground 4",
            "\"moat\" is not known",
            "keep_out",
            "write one of",
        ],
    );
    check(
        "class: ewes_with_lambs",
        "class: goats",
        &["mob 5", "\"goats\" is not known", "rams"],
    );
    check(
        "shape: place(",
        "shape: disc(",
        &["ground 4", "\"disc\"", "area, line, place"],
    );
}

#[test]
fn a_missing_field_is_named() {
    let error = refused(&changed("lat_deg: 52.25,", ""));
    assert!(error.cause.contains("\"lat_deg\" is missing"), "{error}");
    assert!(
        error.place.contains("origin") || error.place.contains("line 6"),
        "{error}"
    );
}

#[test]
fn a_field_written_twice_is_refused() {
    check(
        "head: 36",
        "head: 36, head: 37",
        &["mob 5", "\"head\" is written twice"],
    );
}

#[test]
fn numbers_written_twice_are_refused() {
    let line = check_words(
        &changed("    2: (", "    1: ("),
        &["ground 1", "1 stands here twice"],
    );
    assert!(line.contains("line 69, column 5"), "{line}");
    check(
        "mobs: {\n    5: (",
        "mobs: {\n    4: (",
        &["mob 4", "the number 4 is ground already"],
    );
}

#[test]
fn figures_that_are_no_numbers_are_refused() {
    check(
        "(12.345, 0.1)",
        "(NaN, 0.1)",
        &[
            "ground 1, shape",
            "item 2",
            "not a pair of numbers",
            "metres east and north",
        ],
    );
    check(
        "(12.345, 0.1)",
        "(0.0, inf)",
        &["ground 1, shape", "item 2"],
    );
    check(
        "liveweight_kg: 72.5",
        "liveweight_kg: -inf",
        &["mob 5, liveweight_kg", "not a number"],
    );
    check("lon_deg: -2.1234567", "lon_deg: NaN", &["origin, lon_deg"]);
    check(
        "growth_by_month: (4.0, 6.0",
        "growth_by_month: (4.0, NaN",
        &["sward, growth_by_month, item 2"],
    );
}

#[test]
fn places_far_from_any_farm_are_refused() {
    check(
        "(12.345, 0.1)",
        "(2000001.0, 0.1)",
        &["ground 1, shape", "more than 2,000 km"],
    );
    check("(12.345, 0.1)", "(12.345, -1e300)", &["more than 2,000 km"]);
    check(
        "yard: (-20.0",
        "yard: (-2e7",
        &["mob 5, yard", "more than 2,000 km"],
    );
}

#[test]
fn an_origin_off_the_earth_is_refused() {
    check(
        "lat_deg: 52.25",
        "lat_deg: 90.5",
        &["origin, lat_deg", "90.5", "from -90 to 90"],
    );
    check(
        "lon_deg: -2.1234567",
        "lon_deg: 181.0",
        &["origin, lon_deg", "from -180 to 180"],
    );
}

#[test]
fn days_out_of_order_or_out_of_the_calendar_are_refused() {
    check(
        "(\"2027-04-11\", \"2027-06-01\")",
        "(\"2027-06-02\", \"2027-06-01\")",
        &[
            "mob 5, visits, item 1",
            "out of order",
            "first day before the last",
        ],
    );
    check(
        "(\"2027-05-20\", \"2027-07-05\"",
        "(\"2027-07-06\", \"2027-07-05\"",
        &["ground 1, grazing, closed", "out of order"],
    );
    check(
        "last_day: \"2027-10-31\"",
        "last_day: \"2027-03-31\"",
        &["hen house 6, last_day", "out of order"],
    );
    check(
        "first_day: \"2027-04-01\"",
        "first_day: \"2027-02-30\"",
        &["season, first_day", "not in the calendar"],
    );
    check(
        "first_day: \"2027-04-01\"",
        "first_day: \"1 April\"",
        &["write it as year-month-day"],
    );
    check_words(
        &changed("\"2027-04-12\": lived", "\"2027-04-11\": lived"),
        &[
            "settled days of mob 5, 2027-04-11",
            "2027-04-11 stands here twice",
        ],
    );
}

#[test]
fn seasons_of_no_day_or_of_centuries_are_refused() {
    check("days: 183", "days: 0", &["season, days", "1 to 3660 days"]);
    check(
        "days: 183",
        "days: 100000",
        &["season, days", "1 to 3660 days"],
    );
}

#[test]
fn numbers_of_nothing_are_refused() {
    check(
        "within: 1",
        "within: 99",
        &["ground 2, within", "nothing with the number 99"],
    );
    check(
        "within: 1",
        "within: 5",
        &["ground 2, within", "number 5 is a mob, not ground"],
    );
    check(
        "lines: [\n        3",
        "lines: [\n        99",
        &["hen house 6, lines, item 1", "number 99"],
    );
    check(
        "lived(2)",
        "lived(77)",
        &["settled days of mob 5, 2027-04-11", "number 77"],
    );
    check_words(
        &changed("next_id: 9", "next_id: 4"),
        &[
            "ground 4",
            "not from 1 to 3, below next_id",
            "raise next_id",
        ],
    );
}

#[test]
fn shapes_that_are_none_are_refused() {
    check("(6.0, -1.5)", "(6.0)", &["ground 4"]);
    check_words(
        &changed("        (-4.0, 90.25),\n", ""),
        &[
            "ground 3, shape",
            "a line of 1 corner is none",
            "write 2 corners at least",
        ],
    );
    check_words(
        &changed("(3.0, 3.0),", ""),
        &["ground 1, shape, holes, item 1: a ring of 2 corners is none"],
    );
    let empty = "shape: place(6.0, -1.5)";
    check(empty, "shape: area([])", &["ground 4, shape", "no outline"]);
}

#[test]
fn a_kind_in_a_form_it_cannot_have_is_refused() {
    check(
        "kind: tree_line",
        "kind: trough",
        &[
            "ground 3, kind",
            "a trough cannot lie as a line",
            "a trough lies as an area or a single place",
        ],
    );
}

#[test]
fn figures_that_would_be_drawn_for_ever_are_refused() {
    check(
        "spacing_m: 8.0",
        "spacing_m: 0.0",
        &["ground 3, trees, spacing_m", "out of bounds", "from 0.01"],
    );
    check(
        "days_per_place: 1",
        "days_per_place: 0",
        &["hen house 6, days_per_place", "write 1 or more"],
    );
    check("length_m: 4.0", "length_m: 0.0", &["hen house 6, length_m"]);
}

#[test]
fn a_newer_layout_is_refused_before_anything_else_is_read() {
    let error = refused("(foldcourse: 2, what: is <this> [of the (future");
    assert!(
        error
            .cause
            .contains("newer Foldcourse (layout 2; this one reads up to 1)"),
        "{error}"
    );
    assert!(
        error.remedy.contains("nothing of it was read or changed"),
        "{error}"
    );
}

#[test]
fn other_files_are_told_apart() {
    let cases = [
        ("", "the file is empty"),
        (" \r\n\t", "the file is empty"),
        (
            "{\"type\": \"FeatureCollection\", \"features\": []}",
            "looks like JSON",
        ),
        ("<?xml version=\"1.0\"?><kml/>", "looks like XML"),
        ("Dear Sir", "not a saved farm"),
        ("(name: \"x\")", "not a saved farm"),
    ];
    for (text, words) in cases {
        let error = refused(text);
        assert!(error.cause.contains(words), "{error}");
    }
}

#[test]
fn a_file_that_was_cut_off_says_so_wherever_it_was_cut() {
    let text = farm_text(&full_farm());
    let body = text.find("(\n").unwrap();
    for end in (body + 20..text.len() - 3).filter(|end| text.is_char_boundary(*end)) {
        refused(&text[..end]);
    }
    let error = refused(&text[..text.len() / 2]);
    assert!(
        error.cause.contains("cut off") || error.cause.contains("expected"),
        "{error}"
    );
    assert!(error.place.starts_with("line "), "{error}");
}

#[test]
fn brackets_without_end_are_refused_quickly() {
    for open in ["(", "[", "{", "Some(", "/*", "(a:(", "\"", "r#"] {
        refused(&format!("(foldcourse: 1, {}", open.repeat(200_000)));
        refused(&changed(
            "note: \"perry\"",
            &format!("note: {}", open.repeat(200_000)),
        ));
    }
}

#[test]
fn a_farm_that_could_not_be_opened_again_is_not_saved_over_a_good_one() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("farm.ron");
    save_farm(&full_farm(), &path).unwrap();
    let before = std::fs::read(&path).unwrap();
    let mut spoiled = full_farm();
    let pears = spoiled
        .ground
        .get_mut(&foldcourse::farm::GroundId(3))
        .unwrap();
    *pears.shape.corner_mut(1).unwrap() = Point::new(f64::NAN, 0.0);
    let line = save_farm(&spoiled, &path).unwrap_err().to_string();
    assert!(line.contains("ground 3, shape, item 2"), "{line}");
    assert!(line.contains("take back the last change"), "{line}");
    assert_eq!(std::fs::read(&path).unwrap(), before);
    assert_eq!(
        std::fs::read_dir(folder.path()).unwrap().count(),
        1,
        "nothing else was left behind"
    );
    assert_eq!(open_farm(&path).unwrap(), full_farm());
}
