//! Keeps the house in order: floors, sizes, names and banned words, read from the sources themselves.
//!
//! Every rule is a plain function from a source text to faults, and is tried below on a text that breaks it.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test may stop the run, and says why"
)]

#[path = "tidy/floors.rs"]
mod floors;
#[path = "tidy/sizes.rs"]
mod sizes;
#[path = "tidy/source.rs"]
mod source;
#[path = "tidy/tree.rs"]
mod tree;
#[path = "tidy/words.rs"]
mod words;

use source::{Fault, Source};

/// Stops with every fault, one to a line.
#[track_caller]
fn check_none(faults: &[Fault]) {
    let lines: Vec<String> = faults.iter().map(Fault::text).collect();
    assert!(lines.is_empty(), "\n{}\n", lines.join("\n"));
}

fn over_all_sources(rule: impl Fn(&Source) -> Vec<Fault>) -> Vec<Fault> {
    let sources = tree::sources();
    assert!(sources.len() > 10, "the sources were found");
    sources.iter().flat_map(rule).collect()
}

#[test]
fn no_floor_looks_up() {
    check_none(&over_all_sources(floors::looks_up));
}

#[test]
fn the_toolkit_stays_in_the_window() {
    check_none(&over_all_sources(floors::toolkit_outside_window));
}

#[test]
fn saved_field_names_stay_with_the_files() {
    check_none(&over_all_sources(floors::serde_outside_files));
}

#[test]
fn lower_floors_read_no_clock_disk_or_environment() {
    check_none(&over_all_sources(floors::impure_below_files));
}

#[test]
fn single_precision_stays_in_the_window() {
    check_none(&over_all_sources(floors::f32_outside_window));
}

#[test]
fn every_file_says_what_it_holds() {
    check_none(&over_all_sources(sizes::header_missing));
}

#[test]
fn files_and_functions_keep_to_their_size() {
    check_none(&over_all_sources(sizes::file_too_long));
    check_none(&over_all_sources(sizes::function_too_long));
}

#[test]
fn file_names_say_what_is_in_them() {
    check_none(&over_all_sources(sizes::file_name_vague));
}

#[test]
fn sources_do_not_stop_the_program() {
    check_none(&over_all_sources(words::stops_the_program));
}

#[test]
fn every_todo_has_its_reason() {
    check_none(&over_all_sources(words::bare_todo));
}

#[test]
fn input_closures_only_copy_values_out() {
    check_none(&over_all_sources(words::context_inside_input));
}

#[test]
fn the_top_of_the_repository_holds_only_what_is_agreed() {
    check_none(&tree::names_not_agreed(&tree::top_level_names()));
}
