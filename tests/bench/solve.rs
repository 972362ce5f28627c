//! How well and how fast the planner solves: the public problems, then rows of growing size.

use std::ops::ControlFlow;
use std::time::Instant;

use foldcourse::files::planning_json::{plan_text, read_problem};
use foldcourse::planning::{Season, SolveOptions, solve};

fn main() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/suite/planning");
    let best: serde_json::Value =
        serde_json::from_str(&std::fs::read_to_string(format!("{folder}/best.json")).unwrap())
            .unwrap();
    let mut options = SolveOptions::default();
    if let Ok(e) = std::env::var("EFFORT") {
        options.effort = e.parse().unwrap();
    }
    if let Ok(e) = std::env::var("SEED") {
        options.seed = e.parse().unwrap();
    }
    let (mut sum, mut count) = (0.0, 0.0);
    for (name, row) in best.as_object().unwrap() {
        let text = std::fs::read_to_string(format!("{folder}/problems/{name}.json")).unwrap();
        let problem = read_problem(&text, name).unwrap();
        let season = Season::compile(&problem).unwrap();
        let start = Instant::now();
        let mut first = None;
        let plan = solve(&season, &options, &mut |p| {
            first.get_or_insert((start.elapsed().as_secs_f64(), p.score));
            ControlFlow::Continue(())
        })
        .unwrap();
        let took = start.elapsed().as_secs_f64();
        let best = row["best_score"].as_f64().unwrap();
        let ratio = (plan.figures.score + 1.0) / (best + 1.0);
        sum += ratio.ln();
        count += 1.0;
        println!(
            "{name:24} {:10.2} {best:10.2} {ratio:7.4} {took:6.3} s  first {first:?}",
            plan.figures.score
        );
        if let Ok(dir) = std::env::var("OUT") {
            std::fs::write(format!("{dir}/{name}.json"), plan_text(&season, &plan)).unwrap();
        }
    }
    println!("geometric mean {:.4}", f64::exp(sum / count));
}
