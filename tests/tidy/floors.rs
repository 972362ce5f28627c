//! Which floor may look at which, and what each floor may know of the world.
//!
//! The table here is the house; `src/lib.rs` shows the same one to people.

use super::source::{Fault, Source, Word, closing};

/// Every module of the crate with its floor; those on one floor do not see each other.
const FLOORS: [(&str, u8); 9] = [
    ("quantity", 0),
    ("geometry", 1),
    ("farm", 2),
    ("planning", 3),
    ("site", 3),
    ("files", 4),
    ("sheets", 5),
    ("app", 6),
    ("cli", 6),
];

fn floor_of(module: &str) -> Option<u8> {
    FLOORS
        .iter()
        .find(|(name, _)| *name == module)
        .map(|(_, floor)| *floor)
}

/// The module under `src` that a file belongs to; `None` for `lib.rs`, `main.rs` and tests.
fn module_of(source: &Source) -> Option<&str> {
    let inside = source.path.strip_prefix("src/")?;
    let first = inside.split('/').next()?;
    let module = first.strip_suffix(".rs").unwrap_or(first);
    (!matches!(module, "lib" | "main")).then_some(module)
}

fn is_below_files(source: &Source) -> bool {
    module_of(source)
        .and_then(floor_of)
        .is_some_and(|floor| floor <= 3)
}

/// Paths to a floor above, or to the other half of one's own floor.
pub(crate) fn looks_up(source: &Source) -> Vec<Fault> {
    let Some(own) = module_of(source) else {
        return Vec::new();
    };
    let Some(own_floor) = floor_of(own) else {
        return vec![source.fault(1, format!("the module {own} has no floor in the table"))];
    };
    seen_modules(source)
        .into_iter()
        .filter(|word| word.text != own)
        .filter(|word| floor_of(&word.text).is_some_and(|floor| floor >= own_floor))
        .map(|word| source.fault(word.line, format!("{own} looks up at {}", word.text)))
        .collect()
}

/// Every module named straight after `crate::`, `foldcourse::` or enough `super::` to leave the top module.
fn seen_modules(source: &Source) -> Vec<Word> {
    let words = &source.words;
    let file_depth = depth_of(&source.path);
    let mut inline_ends: Vec<usize> = Vec::new();
    let mut seen = Vec::new();
    for (place, word) in words.iter().enumerate() {
        inline_ends.retain(|end| *end > place);
        let follows = |at: usize, text: &str| words.get(at).is_some_and(|next| next.text == text);
        match word.text.as_str() {
            "mod" if follows(place + 2, "{") => inline_ends.push(closing(words, place + 2)),
            "crate" | "foldcourse" if follows(place + 1, "::") => {
                seen.extend(names_at(words, place + 2));
            }
            "super" if place == 0 || words[place - 1].text != "::" => {
                let mut at = place;
                let mut climbed = 0;
                while follows(at, "super") && follows(at + 1, "::") {
                    climbed += 1;
                    at += 2;
                }
                if climbed >= file_depth + inline_ends.len() {
                    seen.extend(names_at(words, at));
                }
            }
            _ => {}
        }
    }
    seen
}

/// Modules between the crate and what is written in this file: 1 for `src/farm.rs`, 2 for `src/farm/edit.rs`.
fn depth_of(path: &str) -> usize {
    path.matches('/').count()
}

/// The name at `place`, or the first name of each branch of the braces there.
fn names_at(words: &[Word], place: usize) -> Vec<Word> {
    let Some(first) = words.get(place) else {
        return Vec::new();
    };
    if first.text != "{" {
        return vec![first.clone()];
    }
    let end = closing(words, place);
    let mut names = Vec::new();
    let mut depth = 0_i32;
    let mut expects_name = true;
    for word in words.iter().take(end).skip(place + 1) {
        match word.text.as_str() {
            "{" => depth += 1,
            "}" => depth -= 1,
            "," if depth == 0 => expects_name = true,
            _ if depth == 0 && expects_name => {
                names.push(word.clone());
                expects_name = false;
            }
            _ => {}
        }
    }
    names
}

/// The window's toolkit named outside the window.
pub(crate) fn toolkit_outside_window(source: &Source) -> Vec<Fault> {
    let is_window = source.is_under("src/app") || source.path == "src/main.rs";
    if is_window || !source.path.starts_with("src/") {
        return Vec::new();
    }
    named(
        source,
        &[
            "egui",
            "eframe",
            "rfd",
            "epaint",
            "emath",
            "egui_extras",
            "egui_plot",
        ],
    )
}

/// The words of saved files named outside the floor that writes them.
pub(crate) fn serde_outside_files(source: &Source) -> Vec<Fault> {
    let is_allowed = source.is_under("src/files") || source.is_under("src/cli");
    if is_allowed || !source.path.starts_with("src/") {
        return Vec::new();
    }
    named(
        source,
        &["serde", "serde_json", "ron", "Serialize", "Deserialize"],
    )
}

/// Clock, disk, environment, unordered maps and thread timing on floors 0 to 3.
pub(crate) fn impure_below_files(source: &Source) -> Vec<Fault> {
    if !is_below_files(source) {
        return Vec::new();
    }
    let mut faults = named(
        source,
        &[
            "SystemTime",
            "Instant",
            "HashMap",
            "HashSet",
            "Zoned",
            "Timestamp",
        ],
    );
    let words = source.words_outside_tests();
    for (place, word) in words.iter().enumerate() {
        let after_std =
            place >= 2 && words[place - 2].text == "std" && words[place - 1].text == "::";
        let names = if after_std {
            names_at(&words, place)
        } else {
            Vec::new()
        };
        for name in names {
            if matches!(name.text.as_str(), "fs" | "env" | "net" | "process") {
                let line = name.line;
                faults
                    .push(source.fault(line, format!("std::{} below the files floor", name.text)));
            }
        }
        let is_clock_call = word.text == "now" && place >= 1 && words[place - 1].text == "::";
        if is_clock_call {
            faults.push(source.fault(word.line, "the clock is read below the files floor"));
        }
    }
    faults
}

/// Single precision anywhere but in painting.
pub(crate) fn f32_outside_window(source: &Source) -> Vec<Fault> {
    if source.is_under("src/app") || !source.path.starts_with("src/") {
        return Vec::new();
    }
    source
        .words
        .iter()
        .filter(|word| {
            word.text == "f32" || word.text.ends_with("f32") && starts_with_digit(&word.text)
        })
        .map(|word| source.fault(word.line, "f32 outside the window"))
        .collect()
}

fn starts_with_digit(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_digit())
}

/// A fault for each of these names in the code outside tests.
fn named(source: &Source, banned: &[&str]) -> Vec<Fault> {
    source
        .words_outside_tests()
        .iter()
        .filter(|word| banned.contains(&word.text.as_str()))
        .map(|word| source.fault(word.line, format!("{} is not for this floor", word.text)))
        .collect()
}

#[test]
fn a_look_up_is_found_in_every_spelling() {
    for text in [
        "use crate::farm::Farm;",
        "use crate::{quantity::Day, farm::Farm};",
        "fn a(b: crate::planning::Plan) {}",
        "use super::super::farm::Farm;",
        "mod tests { use super::super::super::farm::Farm; }",
        "use foldcourse::files;",
    ] {
        let faults = looks_up(&Source::new("src/geometry/point.rs", text));
        assert_eq!(faults.len(), 1, "{text}");
    }
    for text in [
        "use crate::quantity::Day;",
        "use crate::geometry::farm;",
        "use super::Ring;",
        "mod tests { use super::super::farm; }",
        "// crate::farm",
    ] {
        let faults = looks_up(&Source::new("src/geometry/point.rs", text));
        assert!(faults.is_empty(), "{text}");
    }
}

#[test]
fn the_two_faces_and_the_two_advisers_do_not_see_each_other() {
    for (path, text) in [
        ("src/app/map.rs", "use crate::cli::run;"),
        ("src/cli.rs", "use crate::app::run;"),
        ("src/site/sun.rs", "use crate::planning::solve;"),
        ("src/attic.rs", ""),
    ] {
        assert_eq!(looks_up(&Source::new(path, text)).len(), 1, "{path}");
    }
    assert!(looks_up(&Source::new("src/main.rs", "use foldcourse::app;")).is_empty());
}

#[test]
fn toolkit_serde_and_f32_are_found_outside_their_place() {
    let text = "use egui::Ui; #[derive(serde::Serialize)] struct A(f32); const B: f64 = 1f32;";
    let low = Source::new("src/farm/place.rs", text);
    assert_eq!(toolkit_outside_window(&low).len(), 1);
    assert_eq!(serde_outside_files(&low).len(), 2);
    assert_eq!(f32_outside_window(&low).len(), 2);
    let window = Source::new("src/app/map.rs", text);
    assert!(toolkit_outside_window(&window).is_empty());
    assert!(f32_outside_window(&window).is_empty());
    assert!(serde_outside_files(&Source::new("src/files/read.rs", text)).is_empty());
}

#[test]
fn clocks_disks_and_unordered_maps_are_found_on_the_lower_floors() {
    for text in [
        "use std::collections::HashMap;",
        "use std::{fmt, fs};",
        "std::env::var(a);",
        "let a = Instant::now;",
        "let a = jiff::Zoned::default;",
        "let a = Clock::now();",
    ] {
        let low = impure_below_files(&Source::new("src/planning/solve.rs", text));
        assert!(!low.is_empty(), "{text}");
        let files = impure_below_files(&Source::new("src/files/read.rs", text));
        assert!(files.is_empty(), "{text}");
    }
    let pure = "use std::collections::BTreeMap; use std::fmt; fn fs() {}";
    assert!(impure_below_files(&Source::new("src/farm/place.rs", pure)).is_empty());
}
