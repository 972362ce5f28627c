//! A few small pictures, drawn in software, held to a tolerance.
//!
//! Renewed by `UPDATE_SNAPSHOTS=1 cargo test --test window pictures`; look at each before it is kept.

use egui_kittest::SnapshotOptions;
use foldcourse::app::settings::LightChoice;
use foldcourse::farm::Farm;
use foldcourse::files::example_farm;

use super::sitting::Sitting;

/// Another release of the software renderer may round an edge another way; more than this is a change.
const PIXELS_THAT_MAY_DIFFER: usize = 150;

fn options() -> SnapshotOptions {
    SnapshotOptions::new()
        .threshold(1.2)
        .max_failed_pixels(PIXELS_THAT_MAY_DIFFER)
        .output_path("tests/window/pictures")
}

/// A sitting in a small window, the pointer out of it.
fn small(farm: Farm, scale: f32, light: LightChoice) -> Sitting {
    let mut sitting = Sitting::sized(farm, egui::Vec2::new(900.0, 580.0), scale, light);
    sitting.wait_for_plan();
    sitting
}

#[track_caller]
fn check_picture(mut sitting: Sitting, name: &str) {
    sitting.harness.remove_cursor();
    sitting.settle();
    sitting.harness.snapshot_options(name, &options());
}

#[test]
fn the_example_by_day() {
    check_picture(
        small(example_farm().unwrap(), 1.0, LightChoice::Day),
        "example-day",
    );
}

#[test]
fn the_example_by_night() {
    check_picture(
        small(example_farm().unwrap(), 1.0, LightChoice::Night),
        "example-night",
    );
}
