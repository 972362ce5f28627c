//! Width, height, trees and note of the ground that is selected.

use egui::Key;
use foldcourse::farm::Ground;

use crate::forms_desk::Bench;

fn selected(name: &str) -> Bench {
    let mut bench = Bench::example();
    bench.select(name);
    bench
}

fn ground<'bench>(bench: &'bench Bench, name: &str) -> &'bench Ground {
    &bench.farm().ground[&bench.ground(name)]
}

#[test]
fn a_hedge_has_width_and_height() {
    let mut bench = selected("North hedge");
    bench.makes_one_step("Width, m", "2.5");
    bench.makes_one_step("Height, m", "3");
    assert_eq!(ground(&bench, "North hedge").width_m, Some(2.5));
    bench.makes_one_step("Height, m", "");
    assert_eq!(ground(&bench, "North hedge").height_m, None);
    bench.refuses("Width, m", "-1", "cannot be");
    bench.refuses("Height, m", "tall", "not a length");
}

#[test]
fn a_tunnel_a_wood_and_a_building_have_a_height() {
    for (name, field) in [
        ("T1", "Ridge height, m"),
        ("Alder Wood", "Height, m"),
        ("Packing shed", "Height, m"),
    ] {
        let mut bench = selected(name);
        bench.makes_one_step(field, "2.9");
        assert!(
            name == "T1" || !bench.shows("Width, m"),
            "{name} is no line"
        );
    }
}

#[test]
fn the_trees_of_a_line_are_spaced_counted_and_taken_out() {
    let mut bench = selected("Apple line");
    bench.makes_one_step("Stem to stem, m", "7");
    bench.makes_one_step("First stem at, m", "0");
    bench.makes_one_step("Crown, grown, m", "5 m");
    let id = bench.ground("Apple line");
    let length_m = bench.desk().measures(id).length_m.expect("a line");
    let trees = bench.desk().measures(id).trees.expect("trees");
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a short line"
    )]
    let wanted = (length_m / 7.0).floor() as usize + 1;
    assert_eq!(trees, wanted);
    bench.refuses("Stem to stem, m", "0", "cannot be");
    bench.makes_one_step("Stem to stem, m", "");
    assert_eq!(ground(&bench, "Apple line").trees, None);
    assert!(!bench.shows("Crown, grown"));
}

#[test]
fn a_note_is_kept_once_its_field_is_left() {
    let mut bench = selected("Packing shed");
    bench.type_into("Note", "Key under the pot.");
    bench.key(Key::Tab);
    assert_eq!(ground(&bench, "Packing shed").note, "Key under the pot.");
    assert_eq!(bench.steps(), 1);
}

#[test]
fn lengths_are_asked_for_in_the_units_in_use() {
    let mut bench = selected("North hedge");
    bench.key(Key::U);
    bench.enter("Width, yd", "2");
    assert_eq!(ground(&bench, "North hedge").width_m, Some(2.0 * 0.9144));
}
