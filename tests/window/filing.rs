//! Saving, opening, importing and closing: typed paths, failures in words, and questions before work is left behind.

use std::path::Path;

use egui::{Key, Modifiers, ViewportCommand, ViewportEvent, ViewportId};
use egui_kittest::kittest::Queryable;
use foldcourse::farm::Kind;
use foldcourse::files::{open_farm, save_farm};

use super::sitting::{Sitting, empty_farm, farm_of, one_ley};

const PATH: &str = "Path of the file";

/// A farm with one plot more than was saved.
fn with_unsaved_work() -> Sitting {
    let mut sitting = Sitting::at(one_ley());
    sitting.key(Key::R);
    for place in [(-40.0, 40.0), (-10.0, 40.0), (-10.0, 60.0)] {
        sitting.click(place);
    }
    assert!(sitting.desk().history.is_unsaved());
    sitting
}

#[test]
fn a_farm_is_saved_under_a_typed_path_and_opened_from_it() {
    let folder = tempfile::tempdir().unwrap();
    let typed = folder.path().join("new").to_string_lossy().into_owned();
    let mut sitting = with_unsaved_work();
    sitting.key_with(Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    sitting.fill(PATH, &typed);
    sitting.press("Save");
    assert!(!sitting.desk().history.is_unsaved());
    let saved = open_farm(Path::new(&format!("{typed}.ron"))).unwrap();
    assert_eq!(&saved, sitting.desk().farm());

    let mut other = Sitting::at(empty_farm());
    other.key_with(Modifiers::COMMAND, Key::O);
    other.fill(PATH, &format!("{typed}.ron"));
    other.key(Key::Enter);
    assert_eq!(other.desk().farm(), &saved);
    assert!(other.desk().dialog.is_none());
    assert_eq!(other.steps(), 0, "opening is no step");
}

#[test]
fn saving_again_asks_nothing_and_keeps_the_version_before() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("farm.ron");
    save_farm(&one_ley(), &path).unwrap();
    let mut sitting = Sitting::at(empty_farm());
    sitting.key_with(Modifiers::COMMAND, Key::O);
    sitting.fill(PATH, &path.to_string_lossy());
    sitting.key(Key::Enter);
    sitting.click((5.0, 8.0));
    sitting.key(Key::Delete);
    sitting.key_with(Modifiers::COMMAND, Key::S);
    assert!(sitting.desk().dialog.is_none());
    assert!(open_farm(&path).unwrap().ground.is_empty());
    let kept = open_farm(&folder.path().join("farm.previous.ron")).unwrap();
    assert_eq!(kept.ground.len(), 1);
}

#[test]
fn a_file_that_does_not_open_is_told_with_cause_and_remedy_and_the_farm_stays() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("broken.ron");
    std::fs::write(&path, "( foldcourse: 1, name: ").unwrap();
    let mut sitting = Sitting::at(one_ley());
    let before = sitting.desk().farm().clone();
    for (typed, cause) in [
        (path.to_string_lossy().into_owned(), "broken.ron"),
        ("/no/such.ron".to_owned(), "no such file"),
    ] {
        sitting.key_with(Modifiers::COMMAND, Key::O);
        sitting.fill(PATH, &typed);
        sitting.press("Open");
        assert!(
            sitting.harness.query_by_label_contains(cause).is_some(),
            "{cause}"
        );
        assert!(
            sitting.desk().dialog.is_some(),
            "the question stays, to be mended"
        );
        assert_eq!(sitting.desk().farm(), &before);
        sitting.press("Cancel");
    }
}

#[test]
fn a_save_that_fails_says_so_and_the_work_stays_unsaved() {
    let mut sitting = with_unsaved_work();
    sitting.key_with(Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    sitting.fill(PATH, "/no/such/folder/farm.ron");
    sitting.press("Save");
    assert!(
        sitting
            .harness
            .query_by_label_contains("no such folder")
            .is_some()
    );
    assert!(sitting.desk().history.is_unsaved());
}

#[test]
fn outlines_are_brought_in_beside_what_is_there_in_one_step_and_handed_out() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder
        .path()
        .join("out.geojson")
        .to_string_lossy()
        .into_owned();
    let mut sitting = Sitting::at(farm_of(&[(
        "Far Plot",
        Kind::Plot,
        (-40.0, -25.0),
        (80.0, 50.0),
    )]));
    sitting.key_with(Modifiers::COMMAND, Key::E);
    sitting.fill(PATH, &path);
    sitting.press("Export");
    assert!(Path::new(&path).exists());
    sitting.key_with(Modifiers::COMMAND, Key::I);
    sitting.fill(PATH, &path);
    sitting.press("Import");
    assert_eq!(sitting.names().len(), 2);
    assert_eq!(sitting.steps(), 1);
    sitting.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(sitting.names(), ["Far Plot"]);
}

/// What the window asks of the desktop after a press on its closing sign.
fn asked_after_closing(sitting: &mut Sitting) -> Vec<ViewportCommand> {
    let viewport = sitting
        .harness
        .input_mut()
        .viewports
        .entry(ViewportId::ROOT);
    viewport.or_default().events.push(ViewportEvent::Close);
    sitting.harness.step();
    let asked = commands(sitting);
    sitting.settle();
    asked
}

fn commands(sitting: &Sitting) -> Vec<ViewportCommand> {
    let viewport = sitting
        .harness
        .output()
        .viewport_output
        .get(&ViewportId::ROOT);
    viewport
        .map(|viewport| viewport.commands.clone())
        .unwrap_or_default()
}

#[test]
fn closing_with_all_saved_asks_nothing() {
    let mut sitting = Sitting::at(one_ley());
    let asked = asked_after_closing(&mut sitting);
    assert!(!asked.contains(&ViewportCommand::CancelClose), "{asked:?}");
    assert!(sitting.desk().may_close && sitting.desk().dialog.is_none());
}

#[test]
fn closing_with_unsaved_work_asks_and_cancel_goes_on() {
    let mut sitting = with_unsaved_work();
    let asked = asked_after_closing(&mut sitting);
    assert!(asked.contains(&ViewportCommand::CancelClose), "{asked:?}");
    assert!(
        sitting
            .harness
            .query_by_label("The farm is not saved")
            .is_some()
    );
    sitting.press("Cancel");
    assert!(sitting.desk().dialog.is_none() && !sitting.desk().may_close);
    assert!(sitting.desk().history.is_unsaved());
}

#[test]
fn leaving_the_changes_closes_without_saving() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("farm.ron");
    save_farm(&one_ley(), &path).unwrap();
    let mut sitting = with_unsaved_work();
    sitting.desk_mut().path = Some(path.clone());
    asked_after_closing(&mut sitting);
    sitting.press("Leave the changes");
    assert!(sitting.desk().may_close);
    assert_eq!(open_farm(&path).unwrap(), one_ley());
}

#[test]
fn save_first_saves_and_closes() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("farm.ron");
    save_farm(&one_ley(), &path).unwrap();
    let mut sitting = with_unsaved_work();
    sitting.desk_mut().path = Some(path.clone());
    sitting.key_with(Modifiers::COMMAND, Key::Q);
    sitting.press("Save first");
    assert!(sitting.desk().may_close);
    assert_eq!(&open_farm(&path).unwrap(), sitting.desk().farm());
}

#[test]
fn save_first_without_a_path_asks_for_one_and_then_closes() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("farm.ron");
    let mut sitting = with_unsaved_work();
    sitting.key_with(Modifiers::COMMAND, Key::Q);
    sitting.press("Save first");
    sitting.fill(PATH, &path.to_string_lossy());
    sitting.press("Save");
    assert_eq!(&open_farm(&path).unwrap(), sitting.desk().farm());
    assert!(
        sitting.desk().may_close,
        "saved, but what was held up does not go on"
    );
}

#[test]
fn opening_another_farm_asks_before_unsaved_work_is_left() {
    let mut sitting = with_unsaved_work();
    sitting.key_with(Modifiers::COMMAND, Key::O);
    assert!(
        sitting
            .harness
            .query_by_label("The farm is not saved")
            .is_some()
    );
    sitting.press("Leave the changes");
    assert!(sitting.harness.query_by_label("Open a farm").is_some());
}

#[test]
fn a_new_farm_begins_empty_where_it_lies() {
    let mut sitting = Sitting::at(one_ley());
    sitting.key_with(Modifiers::COMMAND, Key::N);
    sitting.fill("Name", "Little Holding");
    sitting.fill("Where it lies: degrees north, degrees east", "53.42, -5.02");
    sitting.press("Begin");
    assert!(sitting.desk().dialog.is_none());
    assert!(sitting.names().is_empty());
    assert_eq!(sitting.desk().farm().name, "Little Holding");
    sitting.press("Draw an outline");
    assert_eq!(sitting.desk().tool.name(), "Outline");
}
