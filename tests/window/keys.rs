//! Keys: every tool by its letter, none of them while something is typed, and everything by keyboard alone.

use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;

use foldcourse::app::command::Command;

use super::sitting::{Sitting, one_ley};

#[test]
fn every_tool_has_its_letter() {
    let mut sitting = Sitting::at(one_ley());
    for (key, tool) in [
        (Key::O, "Outline"),
        (Key::L, "Line"),
        (Key::R, "Square"),
        (Key::P, "Place"),
        (Key::C, "Cut"),
        (Key::M, "Ruler"),
        (Key::V, "Pick"),
    ] {
        sitting.key(key);
        assert_eq!(sitting.desk().tool.name(), tool);
    }
}

#[test]
fn letters_typed_into_a_field_pick_no_tool_and_delete_nothing() {
    let mut sitting = Sitting::at(one_ley());
    sitting.click((5.0, 8.0));
    let day = sitting.desk().day;
    for field in ["Name", "Filter by name or kind", "What stands on it"] {
        sitting.fill(field, "orlpcmsvtfudnh,.");
        sitting.key(Key::Delete);
        sitting.key(Key::Backspace);
        sitting.key(Key::ArrowLeft);
        assert_eq!(sitting.desk().tool.name(), "Pick", "{field}");
        assert_eq!(sitting.desk().day, day, "{field}");
        assert_eq!(sitting.selected(), ["Home Ley"], "{field}");
        assert!(sitting.desk().dialog.is_none(), "{field}");
        assert!(
            !sitting.desk().snapping.is_off || sitting.desk().snapping.is_off,
            "{field}"
        );
        sitting.key(Key::Escape);
    }
    assert_eq!(sitting.desk().farm().ground.len(), 1);
}

#[test]
fn undo_in_a_field_undoes_typing_and_not_the_farm() {
    let mut sitting = Sitting::at(one_ley());
    sitting.click((5.0, 8.0));
    sitting.drag(&[(40.0, 25.0), (35.0, 20.0), (30.0, 15.0)]);
    assert_eq!(sitting.steps(), 1);
    sitting.fill("Filter by name or kind", "ley");
    sitting.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(sitting.steps(), 1);
}

#[test]
fn keys_do_nothing_behind_a_question() {
    let mut sitting = Sitting::at(one_ley());
    sitting.click((5.0, 8.0));
    sitting.key(Key::F1);
    assert!(sitting.harness.query_by_label("Keys").is_some());
    sitting.key(Key::Delete);
    sitting.key(Key::R);
    assert_eq!(sitting.steps(), 0);
    assert_eq!(sitting.desk().tool.name(), "Pick");
    sitting.key(Key::Escape);
    assert!(sitting.desk().dialog.is_none());
    assert_eq!(
        sitting.selected(),
        ["Home Ley"],
        "the question took the Escape"
    );
}

#[test]
fn what_cannot_be_done_says_why() {
    let mut sitting = Sitting::at(one_ley());
    sitting.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(sitting.notice(), "Nothing to undo.");
    sitting.key(Key::S);
    assert!(
        sitting.notice().contains("Select one ley or plot first"),
        "{}",
        sitting.notice()
    );
    sitting.key(Key::Delete);
    assert_eq!(sitting.notice(), "Select something first.");
}

#[test]
fn the_list_is_walked_and_worked_by_keyboard_alone() {
    let mut sitting = Sitting::at(one_ley());
    let row = "Home Ley, ley, 0.4000 ha";
    for _ in 0..40 {
        if sitting.harness.get_by_label(row).is_focused() {
            break;
        }
        sitting.key(Key::Tab);
    }
    assert!(
        sitting.harness.get_by_label(row).is_focused(),
        "no Tab reaches the list"
    );
    sitting.key(Key::Enter);
    assert_eq!(sitting.selected(), ["Home Ley"]);
    sitting.key(Key::Delete);
    assert!(sitting.names().is_empty());
}

#[test]
fn no_key_is_taken_by_an_act_that_asks_for_fewer_modifiers() {
    let keys: Vec<_> = Command::all()
        .filter_map(|command| command.facts().key)
        .collect();
    let count = |modifiers: Modifiers| {
        [modifiers.shift, modifiers.alt, modifiers.command]
            .into_iter()
            .filter(|held| *held)
            .count()
    };
    for (place, key) in keys.iter().enumerate() {
        for later in keys
            .iter()
            .skip(place + 1)
            .filter(|later| later.logical_key == key.logical_key)
        {
            assert!(
                count(later.modifiers) <= count(key.modifiers),
                "{later:?} comes after {key:?}, which takes its presses"
            );
        }
    }
}
