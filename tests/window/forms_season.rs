//! The page of the season and the grass.

use egui::Key;
use foldcourse::app::forms::Page;

use crate::forms_desk::{Bench, day};

fn season() -> Bench {
    let mut bench = Bench::example();
    bench.key(Key::G);
    assert_eq!(bench.desk().forms.page, Some(Page::Season));
    bench
}

#[test]
fn each_figure_of_the_season_and_the_sward_is_one_step() {
    let mut bench = season();
    bench.makes_one_step("Days of the season, days", "50");
    bench.makes_one_step("Last day", "10 may");
    bench.makes_one_step("Growth in May, kg DM/ha a day", "61.5");
    bench.makes_one_step("Rest after May, days", "22");
    bench.makes_one_step("Leave (residual), kg DM/ha", "1,500");
    bench.makes_one_step("Enter at, kg DM/ha", "2200");
    bench.makes_one_step("Growth stops at, kg DM/ha", "3500");
    bench.makes_one_step("Longest stay, days", "3");
    bench.makes_one_step("This year grows, % of that", "80");
    bench.makes_one_step("Since when growth differs", "20 june");
    bench.makes_one_step("Least days before lambs come back to a strip, days", "40");
    let farm = bench.farm();
    assert_eq!(farm.season.last_day(), day(2027, 5, 10));
    assert!((farm.sward.growth_by_month[4] - 61.5).abs() < 1e-9);
    assert_eq!(farm.sward.rest_days_by_month[4], 22);
    assert!((farm.sward.leave_kg_per_ha - 1500.0).abs() < 1e-9);
}

#[test]
fn every_month_has_both_its_fields() {
    let bench = season();
    for month in foldcourse::quantity::MONTH_NAMES {
        assert!(bench.shows(&format!("Growth in {month}")), "{month}");
        assert!(bench.shows(&format!("Rest after {month}")), "{month}");
    }
    assert!(bench.shows("Growth through the year, highest in May: 52"));
}

#[test]
fn what_cannot_be_grazed_is_refused_in_words() {
    let mut bench = season();
    bench.refuses("Last day", "1 march 2027", "begins on");
    bench.refuses("Days of the season, days", "0", "cannot be");
    bench.refuses("Growth in May, kg DM/ha a day", "fast", "not a number");
    bench.refuses("Rest after May, days", "2.5", "whole number");
    bench.refuses(
        "Leave (residual), kg DM/ha",
        "2500",
        "enter at what is left",
    );
    bench.refuses(
        "Growth stops at, kg DM/ha",
        "1900",
        "nothing could ever be grazed",
    );
    bench.refuses("Longest stay, days", "0", "cannot be");
}

#[test]
fn another_first_day_keeps_the_last_one_and_another_year_keeps_the_length() {
    let mut bench = season();
    let last = bench.farm().season.last_day();
    bench.enter("First day", "11 april");
    assert_eq!(bench.farm().season.last_day(), last);
    assert_eq!(bench.farm().season.days, 50);
    bench.enter("First day", "11 april 2028");
    assert_eq!(
        bench.farm().season.days,
        50,
        "last year's end lies before it"
    );
    assert_eq!(bench.steps(), 2);
}

#[test]
fn the_source_is_kept_once_its_field_is_left() {
    let mut bench = season();
    bench.type_into("Where these figures come from", "Plate meter, 2026. ");
    assert_eq!(bench.steps(), 0);
    bench.key(Key::Tab);
    assert_eq!(bench.farm().sward.source, "Plate meter, 2026.");
    assert_eq!(bench.steps(), 1);
}

#[test]
fn the_search_number_is_tucked_away() {
    let mut bench = season();
    assert!(!bench.shows("Search begins at"));
    bench.press("Finer points");
    bench.harness.run_steps(20);
    bench.makes_one_step("Search begins at", "7");
    assert_eq!(bench.farm().season.seed, 7);
}
