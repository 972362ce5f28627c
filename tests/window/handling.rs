//! Several things in hand at once: boxes, copies, locks, what is hidden, lengths and notes that stay on the map.

use egui::{Key, Modifiers};
use foldcourse::farm::Kind;

use super::sitting::{Sitting, farm_of};

fn two_plots_and_a_wood() -> Sitting {
    Sitting::at(farm_of(&[
        ("North Plot", Kind::Plot, (-40.0, 10.0), (30.0, 20.0)),
        ("South Plot", Kind::Plot, (-40.0, -30.0), (30.0, 20.0)),
        ("Copse", Kind::Wood, (30.0, -20.0), (25.0, 40.0)),
    ]))
}

#[test]
fn a_box_drawn_with_shift_selects_what_lies_wholly_in_it() {
    let mut sitting = two_plots_and_a_wood();
    sitting.drag_with(
        Modifiers::SHIFT,
        &[(-48.0, 36.0), (-20.0, 0.0), (-5.0, -35.0)],
    );
    assert_eq!(sitting.selected(), ["North Plot", "South Plot"]);
    assert_eq!(sitting.steps(), 0);
    sitting.drag_with(
        Modifiers::SHIFT,
        &[(25.0, -25.0), (40.0, 0.0), (45.0, 30.0)],
    );
    assert_eq!(
        sitting.selected(),
        ["North Plot", "South Plot"],
        "the copse only reaches into the box"
    );
}

#[test]
fn all_that_is_selected_is_copied_nudged_and_deleted_together_each_in_one_step() {
    let mut sitting = two_plots_and_a_wood();
    sitting.key_with(Modifiers::COMMAND, Key::A);
    assert_eq!(sitting.selected().len(), 3);
    sitting.key_with(Modifiers::COMMAND, Key::D);
    assert_eq!(
        sitting.selected(),
        ["North Plot 2", "South Plot 2", "Copse 2"]
    );
    let before = sitting.corners("Copse 2");
    sitting.key_with(Modifiers::COMMAND, Key::ArrowUp);
    sitting.key_with(Modifiers::COMMAND, Key::ArrowLeft);
    for (then, now) in before.iter().zip(sitting.corners("Copse 2")) {
        assert!((now.0 - (then.0 - 1.0)).abs() < 0.05 && (now.1 - (then.1 + 1.0)).abs() < 0.05);
    }
    sitting.key(Key::Delete);
    assert_eq!(sitting.names(), ["North Plot", "South Plot", "Copse"]);
    assert_eq!(sitting.steps(), 4);
}

#[test]
fn what_is_locked_is_neither_moved_nor_deleted_until_it_is_let_go() {
    let mut sitting = two_plots_and_a_wood();
    sitting.click((-25.0, 20.0));
    sitting.key_with(Modifiers::COMMAND, Key::L);
    let before = sitting.desk().farm().clone();
    sitting.drag(&[(-25.0, 20.0), (-20.0, 25.0), (0.0, 40.0)]);
    sitting.key(Key::Delete);
    sitting.key_with(Modifiers::COMMAND, Key::ArrowUp);
    assert_eq!(sitting.desk().farm(), &before);
    assert!(sitting.names().contains(&"North Plot"));
    sitting.key_with(Modifiers::COMMAND, Key::L);
    sitting.key(Key::Delete);
    assert!(!sitting.names().contains(&"North Plot"));
}

#[test]
fn a_kind_that_is_hidden_is_not_picked_and_comes_back() {
    let mut sitting = two_plots_and_a_wood();
    sitting.key_with(Modifiers::SHIFT, Key::H);
    sitting.press("wood (1)");
    sitting.press("Done");
    sitting.click((42.0, 0.0));
    assert!(sitting.selected().is_empty());
    assert!(sitting.desk().farm().ground.len() == 3, "nothing is lost");
    sitting.key_with(Modifiers::SHIFT, Key::H);
    sitting.press("Show all");
    sitting.press("Done");
    sitting.click((42.0, 0.0));
    assert_eq!(sitting.selected(), ["Copse"]);
}

#[test]
fn a_measurement_is_kept_as_a_note_and_undone() {
    let mut sitting = two_plots_and_a_wood();
    sitting.key(Key::M);
    sitting.click((-10.0, 0.0));
    sitting.click((20.0, 0.0));
    sitting.key(Key::K);
    let (_, note) = sitting.ground("Measured 30.0 m");
    assert_eq!(note.kind, Kind::Note);
    assert!(note.shows_lengths);
    sitting.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(sitting.names().len(), 3);
}

#[test]
fn lengths_are_put_on_the_map_and_taken_away() {
    let mut sitting = two_plots_and_a_wood();
    sitting.click((-25.0, 20.0));
    sitting.key_with(Modifiers::SHIFT, Key::L);
    assert!(sitting.ground("North Plot").1.shows_lengths);
    sitting.key_with(Modifiers::SHIFT, Key::L);
    assert!(!sitting.ground("North Plot").1.shows_lengths);
    assert_eq!(sitting.steps(), 2);
}

#[test]
fn a_note_is_put_down_and_named() {
    let mut sitting = two_plots_and_a_wood();
    sitting.key_with(Modifiers::SHIFT, Key::N);
    sitting.click((5.0, 5.0));
    let kinds: Vec<Kind> = sitting
        .desk()
        .farm()
        .ground
        .values()
        .map(|g| g.kind)
        .collect();
    assert_eq!(kinds.last(), Some(&Kind::Note));
    sitting.fill("Name", "wet in winter");
    sitting.key(Key::Enter);
    assert!(sitting.names().contains(&"wet in winter"));
}

#[test]
fn corners_are_put_on_the_grid_that_the_map_shows_where_it_is_asked_for() {
    let mut sitting = Sitting::at(farm_of(&[]));
    sitting.key_with(Modifiers::COMMAND, Key::G);
    assert!(sitting.desk().snapping.is_on_grid);
    assert!(
        !sitting.desk().snapping.is_off,
        "who asks for the grid wants to snap"
    );
    sitting.key(Key::O);
    for place in [(49.0, 51.0), (-1.5, 50.5), (0.5, -1.0)] {
        sitting.click(place);
    }
    sitting.key(Key::Enter);
    assert_eq!(
        sitting.corners("Plot 1"),
        [(50.0, 50.0), (0.0, 50.0), (0.0, 0.0)]
    );
}
