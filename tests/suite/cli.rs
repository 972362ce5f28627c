//! The subcommands as a script sees them: what is typed, what comes out, how they end.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::float_cmp,
    reason = "a test may stop the run, and says why; whole numbers compare exactly"
)]

mod built;
mod course;
mod exchange;
mod hens;
mod measures;
mod moves;
mod ten_things;
mod troubles;
mod without_window;

use std::path::{Path, PathBuf};

use assert_cmd::Command;
use serde_json::Value;
use tempfile::TempDir;

/// The program, with no display and no settings of the person who runs the tests.
fn program() -> Command {
    let mut command = Command::cargo_bin("foldcourse").unwrap();
    for name in ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"] {
        command.env_remove(name);
    }
    command
        .env("XDG_CONFIG_HOME", "/no/such/folder")
        .env("HOME", "/no/such/folder");
    command
}

/// Runs the program and gives its standard output; it must end well and say nothing on standard error.
#[track_caller]
fn told(words: &[&str]) -> String {
    let done = program().args(words).assert().success().stderr("");
    String::from_utf8(done.get_output().stdout.clone()).unwrap()
}

/// Runs the program and reads what it tells as fields.
#[track_caller]
fn fields(words: &[&str]) -> Value {
    serde_json::from_str(&told(words)).unwrap()
}

/// The program must end with 2, one line on standard error that holds every part, and nothing on standard output.
#[track_caller]
fn refused(words: &[&str], parts: &[&str]) {
    let done = program().args(words).assert().code(2).stdout("");
    let said = String::from_utf8(done.get_output().stderr.clone()).unwrap();
    assert_eq!(said.lines().count(), 1, "{said}");
    assert!(
        said.starts_with("foldcourse: ") && said.ends_with('\n'),
        "{said}"
    );
    for part in parts {
        assert!(said.contains(part), "\"{part}\" is not in: {said}");
    }
}

/// A path inside the repository.
fn in_repository(path: &str) -> String {
    let full = Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    full.to_string_lossy().into_owned()
}

/// A path inside a folder.
fn in_folder(folder: &TempDir, name: &str) -> String {
    folder.path().join(name).to_string_lossy().into_owned()
}

fn fennywick() -> String {
    in_repository("example-layouts/fennywick-holding.ron")
}

/// Every farm that ships, earlier copies left out.
fn examples() -> Vec<String> {
    let folder = in_repository("example-layouts");
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "ron"))
        .filter(|path| !path.to_string_lossy().ends_with(".previous.ron"))
        .collect();
    paths.sort();
    assert!(!paths.is_empty(), "no example farm was found");
    paths
        .into_iter()
        .map(|path| path.to_string_lossy().into_owned())
        .collect()
}

/// A number under a name.
#[track_caller]
fn number(row: &Value, name: &str) -> f64 {
    row[name]
        .as_f64()
        .unwrap_or_else(|| panic!("no number {name} in {row}"))
}

/// A text under a name; empty where there is none.
fn text<'a>(row: &'a Value, name: &str) -> &'a str {
    row[name].as_str().unwrap_or_default()
}
