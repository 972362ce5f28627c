//! The lower bound never claims more than the true optimum, and comes near it.

use foldcourse::planning::{BoundOptions, lower_bound};

use super::exhaustive::{tiny, true_optimum};
use super::generator::{kind_number, problem};
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
