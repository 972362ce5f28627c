//! Bad words and bad files: one line that says what is wrong, exit 2, and nothing harmed.

use super::{fennywick, in_folder, in_repository, program, refused};

#[test]
fn words_that_mean_nothing_are_refused_in_one_line() {
    let farm = fennywick();
    for (words, parts) in [
        (vec!["measure"], ["FILE", "--help"]),
        (vec!["measure", &farm, "more"], ["more", "--help"]),
        (vec!["--loud"], ["--loud", "--help"]),
        (
            vec!["season", &farm, "--from", "2027-13-01"],
            ["2027-13-01", "--from"],
        ),
        (vec!["season", &farm, "--from", "soon"], ["soon", "--from"]),
        (vec!["season", &farm, "--days", "0"], ["--days", "3660"]),
        (vec!["season", &farm, "--days", "-3"], ["-3", "--help"]),
        (
            vec!["season", &farm, "--short", "--json"],
            ["--short", "--json"],
        ),
        (vec!["import", &farm], ["--output", "--help"]),
        (vec!["cut", &farm, "--ground", "W1"], ["--strips", "--help"]),
        (
            vec!["cut", &farm, "--ground", "W1", "--strips", "0"],
            ["--strips", "10000"],
        ),
        (vec!["--today", "yesterday"], ["yesterday", "--today"]),
    ] {
        refused(&words, &parts);
    }
}

#[test]
fn every_reading_word_names_a_file_that_is_not_there() {
    let folder = tempfile::tempdir().unwrap();
    let (gone, out) = (
        in_folder(&folder, "gone.ron"),
        in_folder(&folder, "out.ron"),
    );
    for words in [
        vec![gone.as_str()],
        vec!["measure", &gone],
        vec!["check", &gone],
        vec!["season", &gone],
        vec!["problem", &gone],
        vec!["solve", &gone],
        vec!["import", &gone, "-o", &out],
        vec!["export", &gone, "-o", &out],
        vec!["cut", &gone, "--ground", "a", "--strips", "2"],
    ] {
        refused(&words, &[&gone, "no such file"]);
    }
    assert!(!std::path::Path::new(&out).exists());
}

#[test]
fn files_that_are_no_farm_are_refused_by_name_with_cause() {
    let folder = tempfile::tempdir().unwrap();
    let whole = std::fs::read_to_string(fennywick()).unwrap();
    let cut_off: String = whole.chars().take(whole.len() / 2).collect();
    for (name, text, cause) in [
        ("empty.ron", "", "empty"),
        ("prose.ron", "Two fields and a pond.", "not a saved farm"),
        ("cut-off.ron", cut_off.as_str(), "line"),
        (
            "outlines.ron",
            "{\"type\":\"FeatureCollection\",\"features\":[]}",
            "import",
        ),
        (
            "later.ron",
            &whole.replace("foldcourse: 1,", "foldcourse: 999,"),
            "newer",
        ),
        (
            "no-number.ron",
            &whole.replace("growth_factor: 1.0", "growth_factor: NaN"),
            "growth",
        ),
    ] {
        let path = in_folder(&folder, name);
        std::fs::write(&path, text).unwrap();
        refused(&["measure", &path], &[name, cause]);
        refused(&["season", &path], &[name, cause]);
        refused(&[&path], &[name, cause]);
    }
    let path = folder.path().to_string_lossy();
    refused(&["measure", &path], &["folder"]);
    let bytes = in_folder(&folder, "picture.ron");
    std::fs::write(&bytes, [0x89, 0x50, 0x4e, 0x47, 0xff, 0xfe, 0x00]).unwrap();
    refused(&["measure", &bytes], &["picture.ron"]);
}

#[test]
fn problems_that_are_none_are_refused() {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in [
        ("empty.json", ""),
        ("broken.json", "{\"strips\": ["),
        ("list.json", "[]"),
        ("nothing.json", "{}"),
    ] {
        let path = in_folder(&folder, name);
        std::fs::write(&path, text).unwrap();
        refused(&["solve", &path], &[name]);
    }
}

#[test]
fn outlines_that_are_none_are_refused_and_nothing_is_written() {
    let folder = tempfile::tempdir().unwrap();
    let out = in_folder(&folder, "out.ron");
    for (name, text) in [
        ("empty.geojson", ""),
        (
            "half.geojson",
            "{\"type\":\"FeatureCollection\",\"features\":[{",
        ),
        (
            "far-off.geojson",
            "{\"type\":\"Feature\",\"properties\":{},\"geometry\":{\"type\":\"Polygon\",\"coordinates\":[[[3500000,5400000],\
             [3500100,5400000],[3500100,5400100],[3500000,5400000]]]}}",
        ),
    ] {
        let path = in_folder(&folder, name);
        std::fs::write(&path, text).unwrap();
        refused(&["import", &path, "-o", &out], &[name]);
        assert!(!std::path::Path::new(&out).exists(), "{name}");
    }
}

#[test]
fn days_and_ground_that_are_not_there_are_refused() {
    let folder = tempfile::tempdir().unwrap();
    let (farm, out) = (fennywick(), in_folder(&folder, "out.ron"));
    refused(
        &["season", &farm, "--from", "2028-01-01"],
        &["2028-01-01", "2027-10-31", "--days"],
    );
    refused(
        &["problem", &farm, "--from", "2028-01-01"],
        &["2028-01-01", "--days"],
    );
    refused(
        &["season", &farm, "--days", "3660", "--from", "2040-01-01"],
        &["at most 3660"],
    );
    refused(
        &[
            "cut", &farm, "--ground", "Nowhere", "--strips", "3", "-o", &out,
        ],
        &["Nowhere", "fennywick-holding.ron", "measure"],
    );
    refused(
        &[
            "cut", &farm, "--ground", "Pear row", "--strips", "3", "-o", &out,
        ],
        &["Pear row", "no area"],
    );
    refused(
        &["export", &farm, "-o", &in_folder(&folder, "out.txt")],
        &["out.txt", ".geojson"],
    );
    refused(
        &[
            "export",
            &farm,
            "-o",
            &in_folder(&folder, "no/folder.geojson"),
        ],
        &["folder"],
    );
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0);
}

#[test]
fn help_and_version_end_well() {
    for words in [&["--help"][..], &["--version"], &["season", "--help"]] {
        let done = program().args(words).assert().success().stderr("");
        assert!(!done.get_output().stdout.is_empty(), "{words:?}");
    }
    let done = program().arg("--version").assert().success();
    let said = String::from_utf8_lossy(&done.get_output().stdout).into_owned();
    assert_eq!(said, format!("foldcourse {}\n", env!("CARGO_PKG_VERSION")));
}

#[test]
fn a_reader_that_goes_away_is_no_trouble() {
    let farm = in_repository("example-layouts/fennywick-holding.ron");
    let binary = assert_cmd::cargo::cargo_bin("foldcourse");
    let mut child = std::process::Command::new(binary)
        .args(["season", &farm])
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let done = child.wait_with_output().unwrap();
    assert!(done.status.success(), "{done:?}");
    assert!(done.stderr.is_empty(), "{done:?}");
}
