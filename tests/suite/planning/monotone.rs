//! What must hold of the true optimum of tiny problems: more ground, fewer head and shorter rest never raise it.
//!
//! Growth lost and cover missing at the end are left out of the score, for more ground has more of both.

use serde_json::{Value, json};

use super::exhaustive::true_optimum;
use super::generator::{Kind, problem};
use super::solving::season_of;

fn tiny(seed: u64) -> Value {
    let kind = Kind {
        strips: 2,
        days: 7,
        mobs: 1,
        pressure: 0.6 + 0.2 * (seed % 5) as f64,
        lived_days: 0,
        seed,
    };
    let mut raw = problem(&kind);
    raw["rest_days"] = json!([["2027-03-01", 2 + seed % 3]]);
    // So small that a strip is often grazed down within a stay.
    for strip in raw["strips"].as_array_mut().unwrap() {
        strip["area_ha"] = json!(0.3 * strip["area_ha"].as_f64().unwrap());
    }
    raw["weights"] = json!({"short": 1, "lost": 0, "walk_per_m": 0.01, "move": 0, "bare": 0});
    raw
}

fn optimum(raw: &Value) -> f64 {
    true_optimum(&season_of(raw))
}

/// Changes every problem; the optimum must never rise, and must fall in some, or the change says nothing.
#[track_caller]
fn check_never_raises(what: &str, change: impl Fn(&mut Value)) {
    let mut n_better = 0;
    for seed in 0..40 {
        let raw = tiny(seed);
        let mut changed = raw.clone();
        change(&mut changed);
        let (before, after) = (optimum(&raw), optimum(&changed));
        assert!(
            after <= before + 1e-6 * before.max(1.0),
            "{what} raised the optimum of problem {seed} from {before} to {after}"
        );
        n_better += usize::from(after < before - 1e-6);
    }
    assert!(n_better >= 5, "{what} helped in {n_better} of 40 only");
}

#[test]
fn more_ground_never_raises_the_optimum() {
    check_never_raises("larger strips", |raw| {
        for strip in raw["strips"].as_array_mut().unwrap() {
            strip["area_ha"] = json!(1.25 * strip["area_ha"].as_f64().unwrap());
        }
    });
    check_never_raises("one strip more", |raw| {
        let strips = raw["strips"].as_array_mut().unwrap();
        let mut third = strips[0].clone();
        third["name"] = json!("one more");
        strips.push(third);
        raw["days"] = json!(7);
    });
}

#[test]
fn fewer_head_never_raise_the_optimum() {
    check_never_raises("fewer head", |raw| {
        for step in raw["mobs"][0]["demand"].as_array_mut().unwrap() {
            step[1] = json!(0.8 * step[1].as_f64().unwrap());
        }
    });
}

#[test]
fn shorter_rest_never_raises_the_optimum() {
    check_never_raises("shorter rest", |raw| {
        let days = raw["rest_days"][0][1].as_u64().unwrap();
        raw["rest_days"] = json!([["2027-03-01", days - 2]]);
        for strip in raw["strips"].as_array_mut().unwrap() {
            let strip = strip.as_object_mut().unwrap();
            if let Some(owed) = strip.get_mut("rest_owed_days") {
                *owed = json!((owed.as_f64().unwrap() - 2.0).max(0.0));
            }
        }
    });
}
