//! The eight public problems: every plan legal, and none far from the best score known.

use std::path::PathBuf;
use std::process::Command;

use foldcourse::files::planning_json::plan_text;
use foldcourse::planning::{FULL_EFFORT, Season};
use serde_json::Value;

use super::solving::{check_plan, season_of, solved};

fn read(path: &str) -> Value {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/suite/planning");
    serde_json::from_str(&std::fs::read_to_string(folder.join(path)).unwrap()).unwrap()
}

/// The best lower bound known of a public problem.
pub fn known_bound(name: &str) -> f64 {
    read("best.json")[name]["lower_bound"].as_f64().unwrap()
}

/// Name, problem and best known score of each public problem.
pub fn public_problems() -> Vec<(String, Value, f64)> {
    let best = read("best.json");
    best.as_object()
        .unwrap()
        .iter()
        .map(|(name, row)| {
            let problem = read(&format!("problems/{name}.json"));
            (name.clone(), problem, row["best_score"].as_f64().unwrap())
        })
        .collect()
}

#[test]
fn plans_of_the_public_problems_are_legal_and_near_the_best_known() {
    let mut logs = Vec::new();
    for (name, raw, best) in public_problems() {
        let season: Season = season_of(&raw);
        let plan = solved(&season, FULL_EFFORT / 4, 1).unwrap();
        check_plan(&raw, &season, &plan, &name);
        let ratio = (plan.figures.score + 1.0) / (best + 1.0);
        assert!(ratio < 1.12, "{name}: {ratio}");
        logs.push(ratio.ln());
    }
    let mean = f64::exp(logs.iter().sum::<f64>() / logs.len() as f64);
    assert!(mean < 1.02, "geometric mean {mean}");
}

#[test]
fn a_fiftieth_of_the_effort_comes_near_the_best_known_for_one_mob() {
    for (name, raw, best) in public_problems() {
        let season: Season = season_of(&raw);
        if season.mobs.len() > 1 {
            continue;
        }
        let plan = solved(&season, FULL_EFFORT / 50, 1).unwrap();
        check_plan(&raw, &season, &plan, &name);
        let ratio = (plan.figures.score + 1.0) / (best + 1.0);
        assert!(ratio < 1.04, "{name}: {ratio}");
    }
}

#[test]
fn the_outside_checker_agrees_where_it_is_at_hand() {
    let Some(shared) = std::env::var_os("FOLDCOURSE_SHARED") else {
        eprintln!("skipped: FOLDCOURSE_SHARED is not set, so the outside checker is not at hand");
        return;
    };
    let checker = PathBuf::from(shared).join("planning/check_plan.py");
    if Command::new("python3").arg("--version").output().is_err() {
        eprintln!("skipped: python3 is not at hand");
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    for (name, raw, _) in public_problems() {
        let season = season_of(&raw);
        let plan = solved(&season, FULL_EFFORT / 200, 1).unwrap();
        let (problem_path, plan_path) = (folder.path().join("problem"), folder.path().join("plan"));
        std::fs::write(&problem_path, raw.to_string()).unwrap();
        std::fs::write(&plan_path, plan_text(&season, &plan)).unwrap();
        let said = Command::new("python3")
            .args([&checker, &problem_path, &plan_path])
            .output()
            .unwrap();
        let text = String::from_utf8_lossy(&said.stdout);
        assert!(said.status.success(), "{name}: {text}");
    }
}
