//! Fixed days that contradict the rules are refused by name; lived days that do are facts.

use foldcourse::planning::{Rule, SolveError};
use serde_json::{Value, json};

use super::solving::{check_plan, season_of, solved};

/// Two strips, two mobs, twenty days, rest of ten days.
fn base() -> Value {
    json!({
        "model": 1, "first_day": "2027-04-01", "days": 20,
        "growth": [["2027-04-01", 40.0]], "rest_days": [["2027-04-01", 10]],
        "longest_stay_days": 3,
        "strips": [
            {"name": "A", "area_ha": 1.0, "cover": 2500.0, "leave": 1500.0, "enter": 2000.0,
             "ceiling": 3500.0, "growth_factor": 1.0, "at": [0.0, 0.0],
             "closed": [["2027-04-15", "2027-04-16"]]},
            {"name": "B", "area_ha": 1.0, "cover": 1600.0, "leave": 1500.0, "enter": 2400.0,
             "ceiling": 3500.0, "growth_factor": 1.0, "at": [50.0, 0.0]},
        ],
        "mobs": [
            {"name": "ewes", "visits": [["2027-04-01", "2027-04-18"]],
             "demand": [["2027-04-01", 300.0]], "yard": [0.0, 50.0]},
            {"name": "rams", "visits": [["2027-04-01", "2027-04-20"]],
             "demand": [["2027-04-01", 50.0]], "yard": [0.0, 90.0]},
        ],
    })
}

fn fixed(mob: &str, day: u32, strip: &str) -> Value {
    json!({"mob": mob, "day": format!("2027-04-{day:02}"), "strip": strip})
}

#[track_caller]
fn check_refused(fixed: Value, rule: Rule, wanted: &str) {
    let mut raw = base();
    raw["fixed"] = fixed;
    let season = season_of(&raw);
    let SolveError::Contradictions(list) = solved(&season, 1000, 1).unwrap_err();
    let words: Vec<String> = list.iter().map(|breach| breach.wording(&season)).collect();
    assert!(list.iter().any(|breach| breach.cause.rule() == rule), "{words:?}");
    assert!(words.iter().any(|line| line == wanted), "{words:?}");
}

#[test]
fn two_mobs_fixed_on_one_strip_are_refused() {
    check_refused(
        json!([fixed("ewes", 3, "A"), fixed("rams", 3, "A")]),
        Rule::OneMob,
        "R1 2027-04-03 rams on A: 2 mobs on one strip",
    );
}

#[test]
fn a_fixed_day_on_a_closed_strip_is_refused() {
    check_refused(
        json!([fixed("ewes", 15, "A")]),
        Rule::Closed,
        "R2 2027-04-15 ewes on A: the strip is closed",
    );
}

#[test]
fn fixed_days_that_stay_too_long_are_refused() {
    let days = [3, 4, 5, 6].map(|day| fixed("ewes", day, "A"));
    check_refused(
        json!(days),
        Rule::LongestStay,
        "R3 2027-04-06 ewes on A: day 4 of a spell, 3 allowed",
    );
}

#[test]
fn fixed_days_without_the_rest_between_are_refused() {
    check_refused(
        json!([fixed("ewes", 3, "A"), fixed("rams", 10, "A")]),
        Rule::Rest,
        "R4 2027-04-10 rams on A: rested 6 d of 10 d",
    );
}

#[test]
fn a_fixed_day_on_a_strip_too_low_is_refused() {
    check_refused(
        json!([fixed("ewes", 3, "B")]),
        Rule::EnterCover,
        "R5 2027-04-03 ewes on B: cover 1680 kg/ha, 2400 needed to enter",
    );
}

#[test]
fn fixed_days_twice_off_the_visit_or_off_the_season_are_refused() {
    let twice = "R6 2027-04-03 ewes on A: fixed twice";
    check_refused(json!([fixed("ewes", 3, "A"), fixed("ewes", 3, "A")]), Rule::Fixed, twice);
    let absent = "R6 2027-04-19 ewes on A: not a day of a visit in this season";
    check_refused(json!([fixed("ewes", 19, "A")]), Rule::Fixed, absent);
    let outside = "R6 2027-04-25 rams on A: not a day of a visit in this season";
    check_refused(json!([fixed("rams", 25, "A")]), Rule::Fixed, outside);
}

#[test]
fn a_gap_that_standing_on_would_close_is_planned_not_refused() {
    let mut raw = base();
    raw["fixed"] = json!([fixed("ewes", 3, "A"), fixed("ewes", 5, "A")]);
    let season = season_of(&raw);
    let plan = solved(&season, 20_000, 1).unwrap();
    check_plan(&raw, &season, &plan, "bridged");
    assert!((0..2).any(|mob| season.place_name(plan.place(mob, 3)) == "A"));
}

#[test]
fn lived_breaches_are_warnings_and_the_plan_goes_on() {
    let mut raw = base();
    let mut days: Vec<Value> = [1, 2, 3, 4, 5].map(|day| fixed("ewes", day, "B")).into();
    days.push(fixed("rams", 2, "B"));
    for day in &mut days {
        day["lived"] = json!(true);
    }
    raw["fixed"] = json!(days);
    let season = season_of(&raw);
    let plan = solved(&season, 20_000, 1).unwrap();
    check_plan(&raw, &season, &plan, "lived");
    let rules: Vec<Rule> = plan.warnings.iter().map(|breach| breach.cause.rule()).collect();
    for rule in [Rule::OneMob, Rule::LongestStay, Rule::EnterCover] {
        assert!(rules.contains(&rule), "{rules:?}");
    }
    assert!(plan.figures.short_kg < 6.0 * 350.0 + 15.0 * 350.0);
}
