//! How well and how fast the planner solves: the public problems, then rows of growing size, then timed samples.
//!
//! `cargo bench --no-default-features --bench solve`. Scores do not depend on the machine; seconds do.

#![expect(
    clippy::print_stdout,
    clippy::unwrap_used,
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_possible_wrap,
    clippy::indexing_slicing,
    reason = "a bench prints, and stops where its own data are wrong"
)]
#![allow(
    missing_docs,
    unreachable_pub,
    dead_code,
    clippy::allow_attributes,
    reason = "the generator is shared with the tests, which use more of it"
)]

use std::ops::ControlFlow;
use std::time::Instant;

use foldcourse::files::planning_json::read_problem;
use foldcourse::planning::{
    BoundOptions, FULL_EFFORT, Plan, Season, SolveOptions, lower_bound, solve,
};
use serde_json::Value;

#[path = "../suite/planning/generator.rs"]
mod generator;

const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/suite/planning");

fn main() {
    print_public_problems();
    print_growing_rows();
    divan::main();
}

fn print_public_problems() {
    let best: Value = serde_json::from_str(&read(&format!("{FOLDER}/best.json"))).unwrap();
    let (mut sum, mut count, mut worst) = (0.0, 0.0, 0.0_f64);
    println!("problem                    score  best known   ratio   seconds  first plan  bound");
    for (name, row) in best.as_object().unwrap() {
        let season = season_of(&read(&format!("{FOLDER}/problems/{name}.json")));
        let run = timed(&season, FULL_EFFORT);
        let best = row["best_score"].as_f64().unwrap();
        let score = run.plan.figures.score;
        let ratio = (score + 1.0) / (best + 1.0);
        sum += ratio.ln();
        count += 1.0;
        worst = worst.max(ratio);
        let quick = BoundOptions {
            stages: vec![(60, 25.0)],
            last_step: 3.0,
        };
        let bound = lower_bound(&season, score, &quick, &|| true).unwrap_or_default();
        println!(
            "{name:22} {score:9.2}   {best:9.2}  {ratio:.4}  {:7.3} s  {:7.2} ms  {bound:.1}",
            run.seconds,
            run.first_seconds * 1e3,
        );
    }
    println!(
        "geometric mean {:.4}, worst {worst:.4}\n",
        f64::exp(sum / count)
    );
}

/// Sizes that a window must keep up with: a small effort against the full one, the middle and the worst of several problems.
fn print_growing_rows() {
    println!("size                      effort   seconds  first plan   of the full effort's score");
    for (name, size, seeds, seconds) in [
        ("12 strips x 120 days x 1", (12, 120, 1), 1..=12, 0.016),
        ("24 strips x 180 days x 2", (24, 180, 2), 1..=12, 0.100),
        ("200 strips x 365 days x 4", (200, 365, 4), 4..=4, 2.0),
    ] {
        let mut rows: Vec<[f64; 4]> = seeds.map(|seed| small_row(size, seed, seconds)).collect();
        let mut middle = |figure: usize| {
            rows.sort_by(|a, b| a[figure].total_cmp(&b[figure]));
            (rows[rows.len() / 2][figure], rows[rows.len() - 1][figure])
        };
        let ratio = middle(3);
        println!(
            "{name:25} {:5.1} %  {:7.3} s  {:7.2} ms   {:.4}, worst {:.4}",
            middle(0).0,
            middle(1).0,
            middle(2).1,
            ratio.0,
            ratio.1,
        );
    }
    println!();
}

/// Per cent of the effort, seconds, milliseconds to the first plan, and the score against that of the full effort.
fn small_row((strips, days, mobs): (i64, i64, i64), seed: u64, seconds: f64) -> [f64; 4] {
    let kind = generator::Kind {
        strips,
        days,
        mobs,
        pressure: 0.9,
        lived_days: 0,
        seed,
    };
    let season = season_of(&generator::problem(&kind).to_string());
    let full = timed(&season, FULL_EFFORT);
    // A small search takes a little longer than its share, since it has more to set up.
    let share = (0.9 * seconds / full.seconds).min(1.2);
    let run = timed(&season, (FULL_EFFORT as f64 * share) as u64);
    [
        100.0 * share,
        run.seconds,
        run.first_seconds * 1e3,
        (run.plan.figures.score + 1.0) / (full.plan.figures.score + 1.0),
    ]
}

struct Run {
    plan: Plan,
    seconds: f64,
    first_seconds: f64,
}

fn timed(season: &Season, effort: u64) -> Run {
    let options = SolveOptions {
        effort,
        ..SolveOptions::default()
    };
    let start = Instant::now();
    let mut first_seconds = None;
    let plan = solve(season, &options, &mut |_| {
        first_seconds.get_or_insert(start.elapsed().as_secs_f64());
        ControlFlow::Continue(())
    });
    Run {
        plan: plan.unwrap(),
        seconds: start.elapsed().as_secs_f64(),
        first_seconds: first_seconds.unwrap_or_default(),
    }
}

fn read(path: &str) -> String {
    std::fs::read_to_string(path).unwrap()
}

fn season_of(text: &str) -> Season {
    Season::compile(&read_problem(text, "bench").unwrap()).unwrap()
}

/// A hundredth of the effort on a middling problem, as while a person drags a bar.
#[divan::bench(sample_count = 10)]
fn replan_while_dragging(bencher: divan::Bencher<'_, '_>) {
    let season = season_of(&read(&format!("{FOLDER}/problems/p3-summer-tight.json")));
    bencher.bench(|| timed(&season, FULL_EFFORT / 100).plan);
}

/// Reading, checking and compiling the largest public problem.
#[divan::bench]
fn read_the_largest_problem(bencher: divan::Bencher<'_, '_>) {
    let text = read(&format!("{FOLDER}/problems/p8-forty-strips.json"));
    bencher.bench(|| season_of(&text));
}
