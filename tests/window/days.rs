//! The one date of the window, the season ribbon, settled days, and units.

use egui::Key;
use egui_kittest::kittest::Queryable;

use super::sitting::{Sitting, day, one_ley};

#[test]
fn arrows_keys_and_a_typed_day_move_the_date() {
    let mut sitting = Sitting::at(one_ley());
    assert_eq!(sitting.desk().day, day("2027-05-14"));
    sitting.press("›");
    sitting.press("›");
    sitting.press("‹");
    assert_eq!(sitting.desk().day, day("2027-05-15"));
    sitting.key(Key::Period);
    assert_eq!(sitting.desk().day, day("2027-05-16"));
    sitting.key(Key::Comma);
    sitting.key(Key::Comma);
    sitting.key(Key::Comma);
    assert_eq!(sitting.desk().day, day("2027-05-13"));
    sitting.fill("Date in view, Thursday 13 May 2027", "3 june");
    sitting.key(Key::Enter);
    assert_eq!(sitting.desk().day, day("2027-06-03"));
    sitting.press("today is 14 May");
    assert_eq!(sitting.desk().day, day("2027-05-14"));
    assert_eq!(sitting.steps(), 0, "looking at another day is no step");
}

#[test]
fn a_day_that_is_none_is_refused_in_words() {
    let mut sitting = Sitting::at(one_ley());
    sitting.fill("Date in view, Friday 14 May 2027", "31 june");
    sitting.key(Key::Enter);
    assert_eq!(sitting.desk().day, day("2027-05-14"));
    assert!(sitting.notice().contains("31 june"), "{}", sitting.notice());
}

#[test]
fn a_click_on_the_ribbon_goes_to_that_day_and_chooses_that_strip() {
    let mut sitting = Sitting::at_example();
    let season = sitting.desk().farm().season;
    let row = sitting
        .harness
        .get_by_label_contains("Season of W1:")
        .rect();
    // The days lie between the names and the row's right end.
    let place = egui::pos2(row.right() - 120.0, row.center().y);
    sitting.harness.hover_at(place);
    sitting.harness.drag_at(place);
    sitting.harness.drop_at(place);
    sitting.settle();
    let gone_to = sitting.desk().day;
    let share = gone_to.days_since(season.first_day) * 100 / i64::from(season.days);
    assert!(
        (80..95).contains(&share),
        "{gone_to} is {share} % through the season"
    );
    assert_eq!(sitting.selected(), ["W1"]);
}

#[test]
fn fixing_a_day_replans_and_is_one_step_that_can_be_freed() {
    let mut sitting = Sitting::at_example();
    let on = day("2027-06-20");
    let plan = sitting.desk().plan.clone().unwrap();
    let is_grazed = |name: &&&str| !plan.mobs_on(sitting.ground(name).0, on).is_empty();
    let strip = sitting
        .ground(sitting.names().iter().find(is_grazed).unwrap())
        .0;
    sitting.desk_mut().go_to(on);
    sitting.desk_mut().select_only(strip);
    sitting.settle();
    sitting.press("Fix this day here");
    assert_eq!(sitting.steps(), 1);
    sitting.wait_for_plan();
    let plan = sitting.desk().plan.clone().unwrap();
    assert_eq!(plan.mobs_on(strip, on).len(), 1, "the fixed day is kept");
    sitting.press("Free this day");
    assert_eq!(sitting.steps(), 2);
    assert!(
        sitting
            .desk()
            .farm()
            .fixed
            .keys()
            .all(|(_, fixed)| *fixed != on)
    );
}

#[test]
fn logged_days_stay_as_lived() {
    let mut sitting = Sitting::at_example();
    sitting.press("Log as done");
    sitting.wait_for_plan();
    assert_eq!(sitting.steps(), 1);
    let lived = sitting
        .desk()
        .farm()
        .fixed
        .values()
        .filter(|fixed| fixed.lived)
        .count();
    assert!(lived > 20, "{lived}");
    assert!(
        sitting.harness.query_by_label("Log as done").is_none(),
        "there is nothing left to log"
    );
}

#[test]
fn units_change_every_figure_and_no_ground() {
    let mut sitting = Sitting::at(one_ley());
    let before = sitting.desk().farm().clone();
    assert!(
        sitting
            .harness
            .query_by_label("Home Ley, ley, 0.4000 ha")
            .is_some()
    );
    sitting.press("acre");
    // 4000 m² are 0.988 acre of 4046.856 m².
    assert!(
        sitting
            .harness
            .query_by_label("Home Ley, ley, 0.988 acre")
            .is_some()
    );
    sitting.press("ha");
    assert!(
        sitting
            .harness
            .query_by_label("Home Ley, ley, 0.4000 ha")
            .is_some()
    );
    assert_eq!(sitting.desk().farm(), &before);
    assert_eq!(sitting.steps(), 0);
}
