//! The lower bound never claims more than the true optimum, and comes near it.

use foldcourse::planning::{BoundOptions, Season, lower_bound, plainest_stands};

use super::exhaustive::{tiny, true_optimum};
use super::generator::{Kind, date, kind_number, problem};
use super::public_problems::{known_bound, public_problems};
use super::solving::{season_of, solved};

#[test]
fn the_bound_is_not_above_the_true_optimum_of_tiny_problems() {
    let mut share = 0.0;
    for seed in 0..40 {
        let season = tiny(seed);
        let optimum = true_optimum(&season);
        let bound = lower_bound(&season, optimum, &BoundOptions::default(), &|| true).unwrap();
        assert!(
            bound <= optimum + 1e-9,
            "tiny problem {seed}: {bound} above {optimum}"
        );
        share += bound / optimum.max(1e-9) / 40.0;
    }
    assert!(
        share > 0.65,
        "the bound reaches only {share} of the optimum"
    );
}

/// A tiny problem in which the first days have been lived, whatever they broke, and later ones are fixed.
fn settled(seed: u64) -> Season {
    let kind = Kind {
        strips: 3,
        days: 7,
        mobs: 1,
        pressure: 0.5 + 0.2 * (seed % 5) as f64,
        lived_days: (seed % 4) as i64,
        seed,
    };
    let mut raw = problem(&kind);
    raw["rest_days"] = serde_json::json!([["2027-03-01", 1 + seed % 4]]);
    raw["longest_stay_days"] = serde_json::json!(1 + seed % 3);
    for (index, day) in [4, 6].into_iter().enumerate() {
        let strip = (seed as usize / 4 + index) % 4;
        // A name that there is not is the yard.
        let strip = raw["strips"][strip]["name"].clone();
        let fixed = serde_json::json!({"mob": raw["mobs"][0]["name"], "day": date(day), "strip": strip, "lived": false});
        raw["fixed"].as_array_mut().unwrap().push(fixed);
    }
    season_of(&raw)
}

#[test]
fn the_bound_is_not_above_the_true_optimum_where_days_are_settled_and_comes_near_it() {
    let (mut share, mut count) = (0.0, 0.0);
    for seed in 0..160 {
        let season = settled(seed);
        if plainest_stands(&season).is_err() {
            continue;
        }
        let optimum = true_optimum(&season);
        let bound = lower_bound(&season, optimum, &BoundOptions::default(), &|| true).unwrap();
        assert!(
            bound <= optimum + 1e-9,
            "settled problem {seed}: {bound} above {optimum}"
        );
        share += bound / optimum.max(1e-9);
        count += 1.0;
    }
    assert!(count > 60.0, "{count} problems could be planned");
    share /= count;
    assert!(
        share > 0.65,
        "the bound reaches only {share} of the optimum"
    );
}

#[test]
fn the_bound_comes_near_the_best_bounds_known_of_the_public_problems() {
    for (name, raw, best) in public_problems() {
        let season = season_of(&raw);
        if season.strips.len() * season.n_days > 5000 {
            // The two largest take half a minute here.
            continue;
        }
        let options = BoundOptions {
            stages: vec![(20, 50.0), (10, 12.0)],
            last_step: 3.0,
        };
        let bound = lower_bound(&season, best, &options, &|| true).unwrap();
        let share = bound / known_bound(&name);
        // Where strips are nearly alike, finer steps would tell more.
        assert!(share > 0.87, "{name}: {bound}, {share} of the bound known");
        assert!(bound <= best, "{name}: {bound} above {best}");
    }
}

#[test]
fn the_bound_is_not_above_any_plan_whatever_was_lived() {
    for number in 0..60 {
        let season = season_of(&problem(&kind_number(number)));
        let plan = solved(&season, 300_000, 1).unwrap();
        let options = BoundOptions {
            stages: vec![(20, 50.0)],
            last_step: 10.0,
        };
        let bound = lower_bound(&season, plan.figures.score, &options, &|| true).unwrap();
        assert!(
            bound <= plan.figures.score,
            "problem {number}: {bound} above {}",
            plan.figures.score
        );
        assert!(bound.is_finite());
    }
}

#[test]
fn a_bound_that_is_no_longer_wanted_is_given_up_at_once() {
    let season = season_of(&problem(&kind_number(3)));
    let asked = std::cell::Cell::new(0);
    let goes_on = || {
        asked.set(asked.get() + 1);
        asked.get() < 5
    };
    let bound = lower_bound(&season, 100.0, &BoundOptions::default(), &goes_on);
    assert_eq!(bound, None);
    assert_eq!(asked.get(), 5);
}
