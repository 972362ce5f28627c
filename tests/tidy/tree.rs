//! The repository as it lies on disk: its sources and the names at its top.

use std::fs;
use std::path::{Path, PathBuf};

use super::source::{Fault, Source};

const AGREED: [&str; 8] = [
    "Cargo.toml",
    "Cargo.lock",
    "README.md",
    "DEVELOPERS.md",
    "src",
    "assets",
    "tests",
    "example-layouts",
];

fn top() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every Rust file under `src` and `tests`, in order of path.
pub(crate) fn sources() -> Vec<Source> {
    let mut paths = Vec::new();
    gather(&top().join("src"), &mut paths);
    gather(&top().join("tests"), &mut paths);
    paths.sort();
    paths
        .iter()
        .map(|path| {
            let text = fs::read_to_string(path).unwrap();
            let inside = path.strip_prefix(top()).unwrap();
            let parts: Vec<_> = inside.iter().map(|part| part.to_string_lossy()).collect();
            Source::new(&parts.join("/"), &text)
        })
        .collect()
}

fn gather(folder: &Path, paths: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let is_build = path.file_name().is_some_and(|name| name == "target");
        if path.is_dir() && !is_build {
            gather(&path, paths);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            paths.push(path);
        }
    }
}

/// The names at the top of the repository, less the build folder that is kept out of it.
pub(crate) fn top_level_names() -> Vec<String> {
    let ignored = fs::read_to_string(top().join(".gitignore")).unwrap_or_default();
    let is_ignored = |name: &str| {
        ignored
            .lines()
            .any(|line| line.trim().trim_matches('/') == name)
    };
    fs::read_dir(top())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .filter(|name| !is_ignored(name))
        .collect()
}

/// Names at the top that were not agreed on.
pub(crate) fn names_not_agreed(names: &[String]) -> Vec<Fault> {
    names
        .iter()
        .filter(|name| {
            let is_agreed = AGREED.contains(&name.as_str());
            !is_agreed && !name.starts_with('.') && !name.starts_with("LICENSE")
        })
        .map(|name| Fault {
            path: name.clone(),
            line: 1,
            what: "this name is not agreed at the top of the repository".to_owned(),
        })
        .collect()
}

#[test]
fn a_stray_name_at_the_top_is_found() {
    let names = ["src", "scripts", ".gitignore", "LICENSE-MIT", "notes.txt"];
    let names: Vec<String> = names.iter().map(|name| (*name).to_owned()).collect();
    let found: Vec<String> = names_not_agreed(&names)
        .into_iter()
        .map(|fault| fault.path)
        .collect();
    assert_eq!(found, ["scripts", "notes.txt"]);
}
