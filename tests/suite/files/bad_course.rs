//! A course with something wrong in it is refused with its field; one that is right opens as it is written.

use foldcourse::files::{farm_from_text, farm_text};

use super::sample::full_farm;

/// The full sample with a course of two steps on ground 1, as a person would write it.
const COURSE: &str = r#"  course: (
    first_year: 2027,
    years: 6,
    courses: [
      (
        name: "Field course",
        first_year: 2027,
        turn: next_step,
        steps: [[crop("leeks", onion), cover("rye")], [ley]],
        starts: {1: 0},
      ),
    ],
    by_hand: {1: {2028: {0: fallow, 1: crop("garlic", onion)}}},
    own_intervals: [(onion, 5)],
    soil_ph: {1: 6.4},
    own_crops: {"leeks": (row_m: 0.5, planted: "06-01")},
  ),
)"#;

fn with_course(course: &str) -> String {
    let text = farm_text(&full_farm());
    let body = text.trim_end().strip_suffix(')').unwrap();
    format!("{body}{course}\n")
}

#[test]
fn a_course_written_by_hand_is_read_and_saved_the_same_again() {
    let farm = farm_from_text(&with_course(COURSE), "by hand").unwrap();
    assert_eq!(farm.course.courses[0].steps[0].uses.len(), 2);
    assert_eq!(farm.course.by_hand.len(), 2);
    assert_eq!(farm_from_text(&farm_text(&farm), "again").unwrap(), farm);
}

#[test]
fn a_farm_without_a_course_is_saved_without_a_word_of_it() {
    assert!(!farm_text(&full_farm()).contains("course: ("));
}

#[test]
fn what_no_course_can_be_is_refused_with_its_field() {
    for (from, to, words) in [
        ("starts: {1: 0}", "starts: {1: 2}", ["step 2", "0 to 1"]),
        ("starts: {1: 0}", "starts: {999: 0}", ["999", "starts"]),
        (
            "steps: [[crop(\"leeks\", onion), cover(\"rye\")], [ley]]",
            "steps: []",
            ["0 steps", "1 to 40"],
        ),
        (
            "[ley]",
            "[ley, ley, ley, ley, ley]",
            ["5 crops", "4 or fewer"],
        ),
        ("years: 6", "years: 0", ["out of bounds", "1 to 40"]),
        (
            "  first_year: 2027,\n    years",
            "  first_year: 1066,\n    years",
            ["1066", "1900 to 2199"],
        ),
        ("2028: {0:", "9999: {0:", ["9999", "1900 to 2199"]),
        (
            "1: crop(\"garlic\"",
            "7: crop(\"garlic\"",
            ["no crop 7", "0 for the main crop"],
        ),
        ("soil_ph: {1: 6.4}", "soil_ph: {1: 19.0}", ["19", "soil_ph"]),
        ("row_m: 0.5", "row_m: 0.0", ["out of bounds", "row_m"]),
        ("\"06-01\"", "\"06-31\"", ["06-31", "planted"]),
        (
            "turn: next_step",
            "turn: sideways",
            ["sideways", "next_step"],
        ),
    ] {
        assert!(COURSE.contains(from), "{from}");
        let text = with_course(&COURSE.replacen(from, to, 1));
        let line = farm_from_text(&text, "farm.ron").unwrap_err().to_string();
        for word in words {
            assert!(line.contains(word), "\"{word}\" is missing in: {line}");
        }
    }
}

#[test]
fn ground_in_two_courses_is_refused() {
    let course = COURSE.split("      (\n").nth(1).unwrap();
    let course = course.split("      ),\n").next().unwrap();
    let twice = COURSE.replacen(
        "    courses: [\n",
        &format!("    courses: [\n      (\n{course}      ),\n"),
        1,
    );
    let line = farm_from_text(&with_course(&twice), "farm.ron")
        .unwrap_err()
        .to_string();
    assert!(line.contains("another course"), "{line}");
}
