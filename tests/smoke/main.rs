//! The real window on a display without a screen: opened, drawn in, saved and closed by mouse and keys.
//!
//! Needs `Xvfb`, `xdotool` and `import`, and fails with their name where one is missing. Run it with
//! `cargo test --test smoke`. When something is off, the screen is kept under `target/tmp`. Pixels and metres.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test may stop the run, and says why"
)]

mod session;

use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

use serde_json::Value;
use session::Session;

/// Where the three clicks of the rectangle fall on the screen: free paper right of the example farm, once the map
/// was drawn wider.
const CLICKS: [(i32, i32); 3] = [(920, 180), (1070, 180), (1070, 280)];
/// Sides of the rectangle on the screen, pixels.
const SIDES: (f64, f64) = (150.0, 100.0);
/// How much wider: two presses of half as much again.
const WIDER: f64 = 2.25;
/// The example farm from its westernmost to its easternmost corner, metres.
const FARM_WIDTH_M: f64 = 415.0;

#[test]
fn plots_drawn_by_mouse_and_by_figures_are_in_the_saved_file() {
    let folder = tempfile::tempdir().unwrap();
    let (farm, before_text) = example_in(folder.path());
    let before = measured(&farm);
    let mut session = Session::open("draw", &farm, &[]);
    session.key("minus");
    session.key("minus");
    // Snapping off: the clicks themselves are what is tried.
    session.key("n");
    session.key("r");
    for place in CLICKS {
        session.click(place);
    }
    session.click((920, 420));
    for (pointer, figure) in [((1070, 420), ["8", "0"]), ((1070, 520), ["5", "0"])] {
        session.point_at(pointer);
        for digit in figure {
            session.key(digit);
        }
        session.key("Return");
    }
    session.wait_for_title(
        "Fennywick Holding* ",
        "the drawn plots are marked as not saved",
    );
    session.key("ctrl+s");
    session.wait_for_title("Fennywick Holding ", "the farm is saved");
    session.key("ctrl+q");
    session.wait_for_end();

    let kept = std::fs::read_to_string(farm.with_extension("previous.ron"));
    session.check(
        kept.is_ok_and(|kept| kept == before_text),
        "the version before the save is not kept beside it",
    );
    let after = measured(&farm);
    session.check(
        after.len() == before.len() + 2,
        &format!("{} things before, {} after", before.len(), after.len()),
    );
    let (old, new) = after.split_at(before.len());
    session.check(old == before, "something else on the farm has changed");
    check_clicked_size(&session, &new[0]);
    let typed_m2 = new[1]["area_m2"].as_f64().unwrap_or(0.0);
    session.check(
        new[1]["kind"] == "plot" && (typed_m2 / (80.0 * 50.0) - 1.0).abs() < 1e-4,
        &format!("80 m by 50 m were typed, and {typed_m2} m² came of it"),
    );
}

/// The plot must be the rectangle that was clicked: both sides by one scale, and that scale one at which the farm fits
/// the screen.
fn check_clicked_size(session: &Session, plot: &Value) {
    let figure = |name: &str| plot[name].as_f64().unwrap_or(f64::NAN);
    session.check(plot["kind"] == "plot", "what was drawn is no plot");
    session.check(plot["corners"] == 4, "what was drawn has not four corners");
    let by_area = (figure("area_m2") / (SIDES.0 * SIDES.1)).sqrt();
    let by_length = figure("perimeter_m") / (2.0 * (SIDES.0 + SIDES.1));
    session.check(
        (by_area / by_length - 1.0).abs() < 0.005,
        &format!(
            "{by_area} m a pixel by area, {by_length} by length: not the rectangle that was clicked"
        ),
    );
    // Before it was drawn wider, the farm took between a third of the screen's width and all of it.
    let at_first = by_area / WIDER;
    session.check(
        (FARM_WIDTH_M / 1440.0..FARM_WIDTH_M / 480.0).contains(&at_first),
        &format!("{by_area} m a pixel is not the scale at which the farm fits the window"),
    );
}

#[test]
fn the_window_opens_where_there_is_no_vulkan() {
    let folder = tempfile::tempdir().unwrap();
    let (farm, before_text) = example_in(folder.path());
    let nothing = "/no/such/driver.json";
    let without_vulkan = [("VK_DRIVER_FILES", nothing), ("VK_ICD_FILENAMES", nothing)];
    let mut session = Session::open("no-vulkan", &farm, &without_vulkan);
    session.key("ctrl+q");
    session.wait_for_end();
    let after = std::fs::read_to_string(&farm).unwrap();
    session.check(
        after == before_text,
        "looking at a farm has changed its file",
    );
}

/// A copy of the shipped example, and its text.
fn example_in(folder: &Path) -> (PathBuf, String) {
    let example =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("example-layouts/fennywick-holding.ron");
    let farm = folder.join("farm.ron");
    let text = std::fs::read_to_string(example).unwrap();
    std::fs::write(&farm, &text).unwrap();
    (farm, text)
}

/// What the program itself says is on a farm.
fn measured(farm: &Path) -> Vec<Value> {
    let output = Command::new(env!("CARGO_BIN_EXE_foldcourse"))
        .args(["measure", "--json"])
        .arg(farm)
        .output()
        .unwrap();
    assert!(
        output.status.success(),
        "the saved farm cannot be measured: {output:?}"
    );
    serde_json::from_slice(&output.stdout).unwrap()
}

/// How long anything on the screen may take.
const PATIENCE: Duration = Duration::from_secs(60);
