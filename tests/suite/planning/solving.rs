//! Plans of hundreds of generated problems, judged by the independent checker alone.

use std::ops::ControlFlow;

use foldcourse::files::planning_json::{plan_text, problem_text, read_problem};
use foldcourse::planning::{Plan, Season, SolveError, SolveOptions, solve};
use serde_json::Value;

use super::checker::judge;
use super::generator::{kind_number, problem};

/// Reads and compiles a problem given as a JSON value.
pub fn season_of(raw: &Value) -> Season {
    let problem = read_problem(&raw.to_string(), "generated").unwrap();
    Season::compile(&problem).unwrap()
}

/// Solves with this effort, watching nothing.
pub fn solved(season: &Season, effort: u64, seed: u64) -> Result<Plan, SolveError> {
    let options = SolveOptions {
        seed,
        effort,
        ..SolveOptions::default()
    };
    solve(season, &options, &mut |_| ControlFlow::Continue(()))
}

#[track_caller]
pub fn check_plan(raw: &Value, season: &Season, plan: &Plan, what: &str) {
    let text = plan_text(season, plan);
    let value: Value = serde_json::from_str(&text).unwrap();
    let verdict = judge(raw, &value);
    assert!(
        verdict.broken.is_empty(),
        "{what}: {:?}\n{raw}",
        verdict.broken
    );
    assert_eq!(
        verdict.warnings.len(),
        plan.warnings.len(),
        "{what}: {:?}",
        verdict.warnings
    );
}

#[test]
fn problems_with_logistic_regrowth_are_planned_within_every_rule() {
    let mut n_unlike = 0;
    for number in 0..80 {
        let mut raw = problem(&kind_number(number));
        let capped = solved(&season_of(&raw), 30_000, number).unwrap();
        raw["growth_shape"] = "logistic".into();
        let season = season_of(&raw);
        let plan = solved(&season, 30_000, number).unwrap();
        check_plan(&raw, &season, &plan, &format!("problem {number}"));
        assert!(
            plan.figures.lost_kg == 0.0,
            "nothing is lost on a curve that slows by itself"
        );
        n_unlike += usize::from(plan.cover != capped.cover);
        let written = problem_text(&read_problem(&raw.to_string(), "logistic").unwrap());
        let again: Value = serde_json::from_str(&written).unwrap();
        assert_eq!(again["growth_shape"], "logistic");
    }
    assert!(
        n_unlike > 70,
        "the shape must show in the covers: {n_unlike}"
    );
}

#[test]
fn generated_problems_are_planned_within_every_rule() {
    let mut n_lived_breaches = 0;
    for number in 0..400 {
        let kind = kind_number(number);
        let raw = problem(&kind);
        let season = season_of(&raw);
        let plan = solved(&season, 30_000, number).unwrap();
        check_plan(&raw, &season, &plan, &format!("problem {number} {kind:?}"));
        n_lived_breaches += plan.warnings.len();
    }
    assert!(n_lived_breaches > 100, "the hard cases must be among them");
}

#[test]
fn the_first_plan_is_already_legal() {
    for number in 1000..1200 {
        let raw = problem(&kind_number(number));
        let season = season_of(&raw);
        let plan = solve(&season, &SolveOptions::default(), &mut |_| {
            ControlFlow::Break(())
        })
        .unwrap();
        check_plan(&raw, &season, &plan, &format!("problem {number}"));
    }
}

#[test]
fn same_input_and_seed_give_the_same_plan() {
    for number in 2000..2020 {
        let season = season_of(&problem(&kind_number(number)));
        let once = solved(&season, 50_000, 7).unwrap();
        let again = solved(&season, 50_000, 7).unwrap();
        assert_eq!(plan_text(&season, &once), plan_text(&season, &again));
    }
}

#[test]
fn a_watcher_sees_scores_fall_and_gets_what_it_last_saw() {
    let season = season_of(&problem(&kind_number(12)));
    let mut seen = Vec::new();
    let mut stands = None;
    let options = SolveOptions {
        effort: 200_000,
        ..SolveOptions::default()
    };
    let plan = solve(&season, &options, &mut |progress| {
        seen.push(progress.score);
        stands = Some(progress.stands());
        if seen.len() >= 20 {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    })
    .unwrap();
    assert!(
        seen.is_sorted_by(|before, after| after <= before),
        "{seen:?}"
    );
    assert_eq!(Some(plan.stands), stands);
}

#[test]
fn replanning_from_a_plan_is_never_worse_than_that_plan() {
    for number in 3000..3030 {
        let raw = problem(&kind_number(number));
        let season = season_of(&raw);
        let good = solved(&season, 100_000, 1).unwrap();
        let options = SolveOptions {
            seed: 2,
            effort: 2_000,
            start: Some(good.stands.clone()),
        };
        let again = solve(&season, &options, &mut |_| ControlFlow::Continue(())).unwrap();
        check_plan(&raw, &season, &again, "replanned");
        let slack = 1e-6 * good.figures.score.max(1.0);
        assert!(
            again.figures.score <= good.figures.score + slack,
            "problem {number}"
        );
    }
}

#[test]
fn a_written_problem_reads_back_equal() {
    for number in 0..60 {
        let raw = problem(&kind_number(number));
        let problem = read_problem(&raw.to_string(), "generated").unwrap();
        let again = read_problem(&problem_text(&problem), "written").unwrap();
        assert_eq!(problem, again);
    }
}
