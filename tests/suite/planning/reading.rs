//! Bad problems are refused with one clear line: source, place, cause, remedy; none crashes or hangs.

use foldcourse::files::planning_json::read_problem;
use serde_json::{Value, json};

use super::public_problems::public_problems;

fn good() -> Value {
    public_problems().remove(4).1
}

/// Changes one value of a good problem and checks that the error names the place and says this.
#[track_caller]
fn check_refused(change: impl Fn(&mut Value), place: &str, cause: &str) {
    let mut raw = good();
    change(&mut raw);
    let error = read_problem(&raw.to_string(), "farm.json").unwrap_err().to_string();
    assert!(error.starts_with(&format!("farm.json: {place}: ")), "{error}");
    assert!(error.contains(cause), "{error}");
    assert!(error.contains("; "), "no remedy: {error}");
    assert!(!error.contains('\n'), "{error}");
}

#[test]
fn a_good_problem_is_read() {
    assert!(read_problem(&good().to_string(), "farm.json").is_ok());
}

#[test]
fn unknown_doubled_and_missing_fields_are_refused() {
    check_refused(|raw| raw["colour"] = json!(1), "colour", "not known");
    check_refused(|raw| raw["strips"][2]["hue"] = json!(1), "strips[2].hue", "not known");
    let remove = |raw: &mut Value, field: &str| {
        raw.as_object_mut().unwrap().remove(field);
    };
    for field in ["model", "first_day", "days", "growth", "rest_days", "strips", "mobs"] {
        check_refused(|raw| remove(raw, field), field, "missing");
    }
    check_refused(
        |raw| {
            raw["mobs"][1].as_object_mut().unwrap().remove("yard");
        },
        "mobs[1].yard",
        "missing",
    );
    let doubled = good().to_string().replacen("\"days\":", "\"days\":3,\"days\":", 1);
    let error = read_problem(&doubled, "farm.json").unwrap_err().to_string();
    assert!(error.starts_with("farm.json: days: this field is given twice"), "{error}");
}

#[test]
fn wrong_kinds_are_refused() {
    check_refused(|raw| raw["days"] = json!("90"), "days", "a text stands here");
    check_refused(|raw| raw["days"] = json!(1.5), "days", "not a whole number");
    check_refused(|raw| raw["days"] = json!(-3), "days", "not a whole number");
    check_refused(|raw| raw["model"] = json!(2), "model", "version");
    check_refused(|raw| raw["strips"] = json!({}), "strips", "an object stands here");
    check_refused(|raw| raw["strips"][0]["at"] = json!([1]), "strips[0].at", "a list stands here");
    check_refused(|raw| raw["strips"][0]["area_ha"] = json!(null), "strips[0].area_ha", "null");
    check_refused(|raw| raw["fixed"][0]["lived"] = json!(1), "fixed[0].lived", "a number");
    check_refused(|raw| raw["first_day"] = json!("1 April"), "first_day", "is not a day");
    check_refused(|raw| raw["growth"][0][0] = json!("2027-02-30"), "growth[0][0]", "calendar");
}

#[test]
fn figures_out_of_range_are_refused() {
    check_refused(|raw| raw["days"] = json!(0), "days", "not above 0");
    check_refused(|raw| raw["days"] = json!(100_000), "days", "100000 days");
    check_refused(|raw| raw["longest_stay_days"] = json!(0), "longest_stay_days", "above 0");
    check_refused(|raw| raw["strips"][2]["area_ha"] = json!(-1.0), "strips[2].area_ha", "above 0");
    check_refused(|raw| raw["strips"][2]["area_ha"] = json!(0), "strips[2].area_ha", "above 0");
    check_refused(|raw| raw["growth"][1][1] = json!(-1), "growth[1][1]", "-1");
    check_refused(|raw| raw["strips"][0]["cover"] = json!(1e300), "strips[0].cover", "between");
    check_refused(|raw| raw["weights"]["bare"] = json!(-0.1), "weights.bare", "-0.1");
    check_refused(|raw| raw["strips"][1]["stood_days"] = json!(0), "strips[1].stood_days", "0");
    check_refused(
        |raw| {
            raw["strips"][2]["stood_days"] = json!(2);
            raw["strips"][2]["rested_days"] = json!(2);
        },
        "strips[2].rested_days",
        "beside stood_days",
    );
}

#[test]
fn dates_and_names_that_do_not_fit_are_refused() {
    check_refused(|raw| raw["growth"][1][0] = json!("2027-03-01"), "growth[1][0]", "come after");
    check_refused(|raw| raw["growth"][0][0] = json!("2027-04-02"), "growth", "needed by");
    check_refused(|raw| raw["mobs"][1]["demand"][0][0] = json!("2027-04-08"), "mobs[1].demand", "needed by");
    check_refused(
        |raw| raw["mobs"][0]["visits"][1][0] = json!("2027-05-30"),
        "mobs[0].visits[1]",
        "overlaps visits[0]",
    );
    check_refused(
        |raw| raw["strips"][8]["closed"][0][1] = json!("2027-01-01"),
        "strips[8].closed[0]",
        "before it begins",
    );
    check_refused(|raw| raw["strips"][1]["name"] = json!("A1"), "strips[1].name", "strips[0].name");
    check_refused(|raw| raw["mobs"][0]["name"] = json!(" "), "mobs[0].name", "empty");
    check_refused(|raw| raw["mobs"][0]["stood"] = json!("Z9"), "mobs[0].stood", "no strip is named \"Z9\"");
    check_refused(|raw| raw["fixed"][3]["mob"] = json!("cows"), "fixed[3].mob", "no mob");
    check_refused(|raw| raw["fixed"][3]["strip"] = json!("Q"), "fixed[3].strip", "no strip");
    check_refused(|raw| raw["first_day"] = json!("2199-12-01"), "days", "past the last day");
}

#[test]
fn what_is_no_json_ends_in_one_line() {
    let deep = "[".repeat(200_000);
    let deep_object = "{\"a\":".repeat(200_000);
    for text in ["", "{", "[1,2", "nonsense", "{\"days\": NaN}", "{\"days\": 1e999}", &deep, &deep_object] {
        let error = read_problem(text, "farm.json").unwrap_err().to_string();
        assert!(error.starts_with("farm.json: line "), "{error}");
        assert!(!error.contains('\n') && error.len() < 200, "{error}");
    }
}

#[test]
fn every_cut_of_a_good_problem_is_refused_without_a_crash() {
    let text = good().to_string();
    for end in (0..text.len() - 1).step_by(37) {
        assert!(read_problem(text.get(..end).unwrap(), "cut").is_err());
    }
}
