//! `season`, `problem` and `solve`.

use std::path::PathBuf;
use std::process::Command;

use serde_json::Value;

use super::{examples, fennywick, fields, in_folder, number, program, refused, text, told};

#[test]
fn every_example_has_a_season_in_all_three_forms() {
    for example in examples() {
        let days = fields(&["season", &example, "--json"]);
        let days = days.as_array().unwrap();
        let form = told(&["season", &example]);
        let lines = told(&["season", &example, "--short"]);
        let rows: usize = days
            .iter()
            .map(|day| {
                day["mobs"].as_array().unwrap().len() + day["hens"].as_array().unwrap().len()
            })
            .sum();
        assert_eq!(lines.lines().count(), rows, "{example}");
        for day in days {
            for mob in day["mobs"].as_array().unwrap() {
                assert!(form.contains(text(mob, "mob")), "{example}: {mob}");
            }
        }
        assert_eq!(
            form,
            told(&["season", &example]),
            "{example}: the same farm, another plan"
        );
    }
}

#[test]
fn days_follow_one_another_from_the_day_that_was_asked_for() {
    let days = fields(&[
        "season",
        &fennywick(),
        "--from",
        "2027-05-28",
        "--days",
        "6",
        "--json",
    ]);
    let names: Vec<&str> = days
        .as_array()
        .unwrap()
        .iter()
        .map(|day| text(day, "day"))
        .collect();
    let wanted = [
        "2027-05-28",
        "2027-05-29",
        "2027-05-30",
        "2027-05-31",
        "2027-06-01",
        "2027-06-02",
    ];
    assert_eq!(names, wanted);
}

#[test]
fn a_mob_moves_exactly_where_its_strip_changes() {
    let days = fields(&["season", &fennywick(), "--json"]);
    let mut before: Option<(String, String)> = None;
    let mut moves = 0;
    for day in days.as_array().unwrap() {
        let Some(mob) = day["mobs"].get(0) else {
            before = None;
            continue;
        };
        let now = (text(mob, "strip").to_owned(), text(mob, "next").to_owned());
        if let Some((strip, next)) = &before {
            let has_changed = strip != &now.0;
            assert_eq!(mob["moves"], has_changed, "{day}");
            if has_changed {
                moves += 1;
                assert_eq!(&now.0, next, "{day}: not where the day before sent them");
                assert_eq!(text(mob, "moved_from"), strip, "{day}");
                assert_eq!(number(mob, "day_of_stay"), 1.0, "{day}");
            }
        }
        before = Some(now);
    }
    assert!(moves > 20, "{moves} moves in a season");
}

#[test]
fn a_season_may_be_asked_for_beyond_its_end() {
    let days = fields(&[
        "season",
        &fennywick(),
        "--from",
        "2027-11-01",
        "--days",
        "3",
        "--json",
    ]);
    assert_eq!(days.as_array().unwrap().len(), 3);
}

#[test]
fn the_problem_of_a_farm_is_solved_to_a_plan_for_each_of_its_days() {
    let folder = tempfile::tempdir().unwrap();
    let problem = told(&[
        "problem",
        &fennywick(),
        "--from",
        "2027-05-01",
        "--days",
        "30",
    ]);
    let path = in_folder(&folder, "problem.json");
    std::fs::write(&path, &problem).unwrap();
    let asked: Value = serde_json::from_str(&problem).unwrap();
    assert_eq!(asked["first_day"], "2027-05-01");
    let first = program().args(["solve", &path]).assert().success();
    let second = program().args(["solve", &path]).assert().success();
    assert_eq!(first.get_output().stdout, second.get_output().stdout);
    let plan: Value = serde_json::from_slice(&first.get_output().stdout).unwrap();
    let days = plan["days"].as_array().unwrap();
    assert_eq!(days.len(), 30);
    assert_eq!(days[29]["day"], "2027-05-30");
    assert!(days.iter().all(|day| day["stands"].is_object()));
    check_from_outside(&path, &first.get_output().stdout);
}

#[test]
fn every_examples_problem_and_plan_pass_the_outside_checker() {
    if outside_checker().is_none() {
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    for example in examples() {
        let path = in_folder(&folder, "problem.json");
        std::fs::write(&path, told(&["problem", &example])).unwrap();
        let plan = program().args(["solve", &path]).assert().success();
        check_from_outside(&path, &plan.get_output().stdout);
    }
}

#[test]
fn less_effort_gives_a_plan_sooner_and_better_plans_are_told_as_they_are_found() {
    let folder = tempfile::tempdir().unwrap();
    let path = in_folder(&folder, "problem.json");
    std::fs::write(&path, told(&["problem", &fennywick(), "--days", "60"])).unwrap();
    let score = |plan: &[u8]| -> f64 {
        let plan: Value = serde_json::from_slice(plan).unwrap();
        plan["score"].as_f64().unwrap()
    };
    let small = ["solve", &path, "--effort", "1", "--as-found"];
    let small = program().args(small).assert().success();
    let scores: Vec<f64> = String::from_utf8_lossy(&small.get_output().stderr)
        .lines()
        .map(|line| line.rsplit(' ').next().unwrap().parse().unwrap())
        .collect();
    assert!(scores.len() > 1 && scores.windows(2).all(|pair| pair[1] <= pair[0]));
    let last = scores[scores.len() - 1];
    assert!((last - score(&small.get_output().stdout)).abs() < 0.01);
    let full = program().args(["solve", &path]).assert().success();
    assert!(score(&full.get_output().stdout) <= last + 0.01);
    refused(
        &["solve", &path, "--effort", "0"],
        &["0.1 to 1000 per cent"],
    );
    refused(
        &["solve", &path, "--effort", "a lot"],
        &["per cent of a full search"],
    );
    refused(
        &["solve", &path, "--seed", "-3"],
        &["a whole number from 0"],
    );
}

/// The checker that shares nothing with this program; `None`, said aloud, where it is not at hand.
fn outside_checker() -> Option<PathBuf> {
    let Some(folder) = std::env::var_os("FOLDCOURSE_SHARED") else {
        eprintln!("skipped: FOLDCOURSE_SHARED is not set, so the outside checker is not at hand");
        return None;
    };
    if Command::new("python3").arg("--version").output().is_err() {
        eprintln!("skipped: python3 is not at hand, so the outside checker cannot run");
        return None;
    }
    Some(PathBuf::from(folder).join("planning/check_plan.py"))
}

#[track_caller]
fn check_from_outside(problem: &str, plan: &[u8]) {
    let Some(checker) = outside_checker() else {
        return;
    };
    let plan_path = format!("{problem}.plan");
    std::fs::write(&plan_path, plan).unwrap();
    let done = Command::new("python3")
        .arg(checker)
        .args([problem, &plan_path])
        .output()
        .unwrap();
    assert!(
        done.status.success(),
        "{}",
        String::from_utf8_lossy(&done.stdout)
    );
}

#[test]
fn every_question_is_answered_in_words_and_as_fields() {
    let farm = fennywick();
    let questions: [(&[&str], &str, &str); 6] = [
        (&["head", "--to", "2027-06-20"], "head", "no day short"),
        (&["until", "--to", "2027-06-20"], "last_day", "no day short"),
        (&["strip", "--on", "W2"], "area_m2", "a day."),
        (&["what-if", "--rest-days", "30"], "changed", "difference"),
        (&["stop", "2500"], "plan", "Last day of grazing"),
        (&["remedies"], "as_is", "short"),
    ];
    for (question, field, words) in questions {
        let mut typed = vec!["ask", &farm];
        typed.extend(question);
        typed.extend(["--today", "2027-05-14"]);
        assert!(told(&typed).contains(words), "{question:?}");
        typed.push("--json");
        assert!(!fields(&typed)[field].is_null(), "{question:?}");
    }
    super::refused(&["ask", &farm, "what-if"], &["--rest-days"]);
    super::refused(&["ask", &farm, "head", "--on", "Z9"], &["Z9", "W1"]);
}
