//! Started without a subcommand where no window can be opened: the farm in words.

use super::{fennywick, program};

#[test]
fn without_a_display_measures_and_seven_days_are_printed() {
    let done = program()
        .args(["--today", "2027-05-14", &fennywick()])
        .assert()
        .success()
        .stderr("");
    let said = String::from_utf8(done.get_output().stdout.clone()).unwrap();
    let reason = if cfg!(feature = "window") {
        "No display here"
    } else {
        "Built without the window"
    };
    assert!(said.starts_with(reason), "{said}");
    for part in [
        "Fennywick Holding",
        "Long Piece",
        "All areas together",
        "The next seven days",
    ] {
        assert!(said.contains(part), "\"{part}\" is not in {said}");
    }
    for day in 14..=20 {
        assert!(
            said.contains(&format!("{day} May 2027\n")),
            "{day} May is missing"
        );
    }
    assert!(!said.contains("\n\nFriday 21 May 2027"), "an eighth day");
}

#[test]
fn outside_the_season_its_first_days_are_printed_and_said_to_be() {
    let done = program()
        .args(["--today", "2031-01-15", &fennywick()])
        .assert()
        .success();
    let said = String::from_utf8(done.get_output().stdout.clone()).unwrap();
    assert!(said.contains("lies outside the season"), "{said}");
    assert!(said.contains("Monday 12 April 2027"), "{said}");
}

#[test]
fn without_a_file_the_shipped_example_is_told() {
    let done = program().args(["--today", "2027-05-14"]).assert().success();
    let said = String::from_utf8(done.get_output().stdout.clone()).unwrap();
    assert!(said.contains("Fennywick Holding"), "{said}");
}
