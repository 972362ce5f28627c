//! Choosing what is worked on: on the map, in the list, by filter and by finder; names and kinds.

use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use foldcourse::farm::Kind;

use super::sitting::{Sitting, farm_of, one_ley};

fn three_pieces() -> Sitting {
    Sitting::at(farm_of(&[
        ("Home Ley", Kind::Ley, (-60.0, -25.0), (40.0, 50.0)),
        ("Long Plot", Kind::Plot, (-10.0, -25.0), (40.0, 50.0)),
        ("Pond", Kind::Water, (40.0, -25.0), (30.0, 30.0)),
    ]))
}

#[test]
fn what_is_chosen_in_the_list_is_chosen_everywhere() {
    let mut sitting = three_pieces();
    sitting.press("Long Plot, plot, 0.2000 ha");
    assert_eq!(sitting.selected(), ["Long Plot"]);
    let map = "Map of Sample on Friday 14 May 2027, plot Long Plot selected";
    assert!(sitting.harness.query_by_label(map).is_some());
    sitting.click((-40.0, 0.0));
    assert_eq!(sitting.selected(), ["Home Ley"]);
}

#[test]
fn a_held_shift_adds_and_empty_paper_chooses_nothing() {
    let mut sitting = three_pieces();
    sitting.click((-40.0, 0.0));
    sitting.click_holding((10.0, 0.0), Modifiers::SHIFT);
    assert_eq!(sitting.selected(), ["Home Ley", "Long Plot"]);
    assert!(sitting.harness.query_by_label("2 things").is_some());
    sitting.click_holding((-40.0, 0.0), Modifiers::SHIFT);
    assert_eq!(sitting.selected(), ["Long Plot"]);
    sitting.click((0.0, 40.0));
    assert!(sitting.selected().is_empty());
    assert_eq!(sitting.steps(), 0, "choosing is no step");
}

#[test]
fn a_piece_gets_another_name_in_one_step() {
    let mut sitting = Sitting::at(one_ley());
    sitting.click((5.0, 8.0));
    sitting.fill("Name", "Dog's Leg, 2nd year (é)");
    assert_eq!(sitting.steps(), 0, "a name half typed is no step");
    sitting.key(Key::Enter);
    assert_eq!(sitting.names(), ["Dog's Leg, 2nd year (é)"]);
    assert_eq!(sitting.steps(), 1);
    sitting.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(sitting.names(), ["Home Ley"]);
}

#[test]
fn escape_leaves_the_name_as_it_was() {
    let mut sitting = Sitting::at(one_ley());
    sitting.click((5.0, 8.0));
    sitting.fill("Name", "Wrong");
    sitting.key(Key::Escape);
    assert_eq!(sitting.names(), ["Home Ley"]);
    assert_eq!(sitting.steps(), 0);
}

#[test]
fn a_piece_becomes_another_kind_that_lies_as_it_does() {
    let mut sitting = Sitting::at(one_ley());
    sitting.click((5.0, 8.0));
    sitting.press("ley");
    assert!(
        sitting.harness.query_by_label("fence").is_none(),
        "an area is no fence"
    );
    sitting.press("tunnel");
    assert_eq!(sitting.ground("Home Ley").1.kind, Kind::Tunnel);
    assert_eq!(sitting.steps(), 1);
}

#[test]
fn the_filter_leaves_what_answers_to_it() {
    let mut sitting = three_pieces();
    sitting.fill("Filter by name or kind", "wat");
    assert!(
        sitting
            .harness
            .query_by_label_contains("Pond, water")
            .is_some()
    );
    assert!(
        sitting
            .harness
            .query_by_label_contains("Long Plot, plot")
            .is_none()
    );
    sitting.fill("Filter by name or kind", "nothing like it");
    sitting.press("Show all");
    assert!(
        sitting
            .harness
            .query_by_label_contains("Long Plot, plot")
            .is_some()
    );
}

#[test]
fn the_finder_picks_tools_ground_and_days() {
    let mut sitting = three_pieces();
    sitting.key_with(Modifiers::COMMAND, Key::K);
    sitting.type_text("ruler");
    sitting.key(Key::Enter);
    assert_eq!(sitting.desk().tool.name(), "Ruler");
    sitting.key_with(Modifiers::COMMAND, Key::K);
    sitting.type_text("7 may");
    sitting.key(Key::Enter);
    assert_eq!(sitting.desk().day, super::sitting::day("2027-05-07"));
    sitting.key_with(Modifiers::COMMAND, Key::K);
    sitting.type_text("pond");
    sitting.key(Key::Enter);
    assert_eq!(sitting.selected(), ["Pond"]);
    sitting.key_with(Modifiers::COMMAND, Key::K);
    sitting.type_text("split");
    sitting.key(Key::Enter);
    assert_eq!(sitting.desk().tool.name(), "Cut");
    assert!(sitting.desk().finder.is_none());
}

#[test]
fn the_finder_goes_away_and_leaves_all_as_it_was() {
    let mut sitting = three_pieces();
    sitting.press("Find or do …   Ctrl+K");
    sitting.type_text("qqqq");
    assert!(
        sitting
            .harness
            .query_by_label_contains("Nothing answers")
            .is_some()
    );
    sitting.key(Key::Enter);
    assert!(sitting.desk().finder.is_some());
    sitting.key(Key::Escape);
    assert!(sitting.desk().finder.is_none());
    assert_eq!(sitting.steps(), 0);
}
