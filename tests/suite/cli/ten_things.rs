//! What a practitioner looks for first on a season's form: ten things, each found in its words and right in its sum.
//!
//! The list is common practice, no source; the figures are those of the small holding on a day on which its flock
//! moves.

use serde_json::Value;

use super::{fennywick, fields, number, text, told};

/// The form of the first day in summer on which the flock moves from one strip to another, its line breaks taken out,
/// and the flock's row of that day as fields.
fn moving_day() -> (String, Value) {
    moving_day_where(&|_| true)
}

/// The same of the first such day whose row is as wanted.
fn moving_day_where(is_wanted: &dyn Fn(&Value) -> bool) -> (String, Value) {
    let (day, mob) = first_move(is_wanted);
    (form_of(&fennywick(), &day), mob)
}

/// The first day from May on with a move from strip to strip whose row is as wanted, and the flock's row of it.
fn first_move(is_wanted: &dyn Fn(&Value) -> bool) -> (String, Value) {
    let days = fields(&["season", &fennywick(), "--from", "2027-05-01", "--json"]);
    let days = days.as_array().unwrap();
    let is_move = |mob: &Value| mob["moves"] == true;
    days.iter()
        .filter_map(|day| Some((text(day, "day").to_owned(), day["mobs"].get(0)?.clone())))
        .find(|(_, mob)| {
            let from_strip = mob["strip"].is_string() && mob["moved_from"] != "the yard";
            is_move(mob) && from_strip && is_wanted(mob)
        })
        .unwrap()
}

fn form_of(path: &str, day: &str) -> String {
    let form = told(&["season", path, "--from", day, "--days", "1"]);
    form.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[track_caller]
fn check_says(form: &str, part: &str) {
    assert!(form.contains(part), "\"{part}\" is not in: {form}");
}

#[test]
fn one_where_they_go_and_how_much_fence_that_takes() {
    let (form, mob) = moving_day();
    check_says(
        &form,
        &format!(
            "MOVE from {} to {} in {}",
            text(&mob, "moved_from"),
            text(&mob, "strip"),
            text(&mob, "ley")
        ),
    );
    let rolls = (number(&mob, "fence_m") / 50.0).ceil();
    assert_eq!(number(&mob, "rolls_of_50_m"), rolls);
    assert!(number(&mob, "fence_m") < number(&mob, "round_m"));
    check_says(
        &form,
        &format!("m to put up, {rolls} rolls of 50 m netting"),
    );
}

#[test]
fn two_whether_the_strip_lasts_its_days() {
    let (form, mob) = moving_day();
    let area_ha = number(&mob, "area_m2") / 10_000.0;
    let above_kg = (number(&mob, "cover_in_kg_per_ha") - number(&mob, "leave_kg_per_ha")) * area_ha;
    assert!((number(&mob, "feed_kg") / above_kg - 1.0).abs() < 1e-9);
    // 40 ewes of 70 kg eat 3 % of their weight in early milk (All grass wintering of sheep, EBLEX/AHDB and SAC, intake
    // table as printed by Farmers Weekly).
    assert!((number(&mob, "demand_kg") - 40.0 * 70.0 * 0.03).abs() < 1e-9);
    // Growth adds to what stands, so the grass lasts at least as long as without it.
    assert!(number(&mob, "lasts_days") >= above_kg / number(&mob, "demand_kg"));
    for part in [
        "40 × 2.10 = 84 kg DM a day",
        "cover in ",
        "target out 1600",
        "lasts ",
    ] {
        check_says(&form, part);
    }
}

#[test]
fn three_how_long_it_has_rested_who_stood_there_and_when_it_is_ready() {
    let season = fields(&["season", &fennywick(), "--json"]);
    let again = season
        .as_array()
        .unwrap()
        .iter()
        .filter_map(|day| day["mobs"].get(0))
        .find(|mob| mob["moves"] == true && mob.get("rested_days").is_some())
        .unwrap();
    assert!(number(again, "rested_days") >= 20.0, "{again}");
    assert_eq!(text(again, "last_by"), "Ewes and lambs (ewes with lambs)");
    let (day, mob) = first_move(&|_| true);
    let form = form_of(&fennywick(), &day);
    assert!(text(&mob, "ready_on") > day.as_str());
    check_says(&form, "ready again ");
}

#[test]
fn four_water_and_how_far() {
    let (form, mob) = moving_day();
    let trough = text(&mob, "water");
    check_says(&form, &format!(" L a day; {trough}, "));
    check_says(&form, "m to the farthest corner");
    assert!(number(&mob, "water_least_l") > 40.0 && number(&mob, "water_most_l") < 40.0 * 20.0);
    assert!((10.0..1000.0).contains(&number(&mob, "water_farthest_m")));
}

#[test]
fn five_gate_way_and_back_fence() {
    let (form, mob) = moving_day_where(&|mob| mob["gate_m"] == 0.0);
    check_says(
        &form,
        &format!("Gate {}, into the strip", text(&mob, "gate")),
    );
    let (form, mob) = moving_day_where(&|mob| number(mob, "gate_m") > 0.0);
    check_says(&form, " m to walk");
    let gate = text(&mob, "gate");
    check_says(&form, &format!("Gate {gate}, "));
    assert!(number(&mob, "gate_m") > 0.0 && number(&mob, "walk_m") > 0.0);
    check_says(&form, " from the strip");
    check_says(
        &form,
        &format!("Back fence {} off behind them", text(&mob, "moved_from")),
    );
}

#[test]
fn six_how_many_of_which_class() {
    let (form, mob) = moving_day();
    assert_eq!(
        (number(&mob, "head"), text(&mob, "class")),
        (40.0, "ewes with lambs")
    );
    check_says(&form, "40 ewes with lambs (planned)");
}

#[test]
fn seven_what_to_look_out_for() {
    let folder = tempfile::tempdir().unwrap();
    let path = super::in_folder(&folder, "farm.ron");
    let (day, mob) = first_move(&|_| true);
    let name = format!("name: \"{}\",", text(&mob, "strip"));
    let farm = std::fs::read_to_string(fennywick()).unwrap();
    let noted = farm.replace(
        &name,
        &format!("{name}\n      note: \"Path along the north side\","),
    );
    assert_ne!(farm, noted);
    std::fs::write(&path, noted).unwrap();
    let form = form_of(&path, &day);
    check_says(&form, "Look out Path along the north side");
    for part in ["horned sheep", "overhead lines", "rest from worms"] {
        check_says(&form, part);
    }
}

#[test]
fn eight_grass_ahead_and_growth_falling_by_half() {
    let (form, mob) = moving_day();
    assert!(number(&mob, "days_ahead") > 0.0);
    check_says(&form, "days of standing grass");
    check_says(
        &form,
        "If growth falls by half · from May 2027 on: still no day short",
    );
}

#[test]
fn eight_half_the_growth_runs_short_where_the_flock_is_too_large() {
    let folder = tempfile::tempdir().unwrap();
    let path = super::in_folder(&folder, "farm.ron");
    let farm = std::fs::read_to_string(fennywick()).unwrap();
    let many = farm.replace("head: 40,", "head: 120,");
    assert_ne!(farm, many);
    std::fs::write(&path, many).unwrap();
    let form = told(&["season", &path, "--from", "2027-05-01", "--days", "120"]);
    let last = form.split("If growth falls by half").nth(1).unwrap();
    check_says(last, "short from ");
    check_says(last, "carry hay");
}

#[test]
fn nine_areas_agree_and_stand_in_hectares_and_acres() {
    let (form, mob) = moving_day();
    let rows = fields(&["measure", "--json", &fennywick()]);
    let strip = rows
        .as_array()
        .unwrap()
        .iter()
        .find(|row| row["name"] == mob["strip"])
        .unwrap();
    assert!((number(strip, "area_m2") - number(&mob, "area_m2")).abs() < 1e-6);
    check_says(
        &form,
        &format!(
            "Area {:.4} ha ({:.3} acre)",
            number(strip, "area_ha"),
            number(strip, "area_acre")
        ),
    );
}

#[test]
fn ten_room_to_write_what_really_happened() {
    let (form, _) = moving_day();
    for blank in [
        "counted in ____",
        "out ____",
        "volts ____",
        "height out ____",
        "lame or ill ____",
        "signed ____",
    ] {
        check_says(&form, blank);
    }
}
