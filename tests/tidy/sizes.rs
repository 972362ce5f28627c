//! How long a file and a function may be, how a file begins and what it may be called.

use super::source::{Fault, Source, closing};

const MOST_LINES: usize = 500;
const MOST_LINES_IN_TESTS: usize = 700;
const MOST_CODE_LINES_OF_A_FUNCTION: usize = 80;
const VAGUE_NAMES: [&str; 8] = [
    "util", "utils", "helper", "helpers", "common", "misc", "shared", "mod",
];

/// A file that does not open with `//!`.
pub(crate) fn header_missing(source: &Source) -> Vec<Fault> {
    if source.text.starts_with("//! ") {
        Vec::new()
    } else {
        vec![source.fault(1, "the file does not open with //! and what it holds")]
    }
}

/// A file longer than is read with ease.
pub(crate) fn file_too_long(source: &Source) -> Vec<Fault> {
    let most = if source.path.starts_with("tests/") {
        MOST_LINES_IN_TESTS
    } else {
        MOST_LINES
    };
    let lines = source.text.lines().count();
    if lines > most {
        vec![source.fault(most, format!("{lines} lines; {most} is the most"))]
    } else {
        Vec::new()
    }
}

/// Functions with more lines of code between their braces than are kept in the head.
pub(crate) fn function_too_long(source: &Source) -> Vec<Fault> {
    let code_lines: Vec<&str> = source.code.lines().collect();
    let words = &source.words;
    let mut faults = Vec::new();
    for (place, word) in words.iter().enumerate() {
        let Some(name) = words.get(place + 1) else {
            continue;
        };
        if word.text != "fn"
            || !name
                .text
                .starts_with(|c: char| c.is_alphabetic() || c == '_')
        {
            continue;
        }
        let Some(open) = body_of(source, place + 2) else {
            continue;
        };
        let first = words[open].line;
        let last = words
            .get(closing(words, open))
            .map_or(first, |close| close.line);
        let count = code_lines
            .iter()
            .take(last.saturating_sub(1))
            .skip(first)
            .filter(|line| !line.trim().is_empty())
            .count();
        if count > MOST_CODE_LINES_OF_A_FUNCTION {
            let what = format!(
                "{} has {count} code lines; {MOST_CODE_LINES_OF_A_FUNCTION} is the most",
                name.text
            );
            faults.push(source.fault(word.line, what));
        }
    }
    faults
}

/// The place of the brace that opens a function's body; `None` where it has none.
fn body_of(source: &Source, from: usize) -> Option<usize> {
    let mut place = from;
    while let Some(word) = source.words.get(place) {
        match word.text.as_str() {
            "{" => return Some(place),
            ";" => return None,
            "(" | "[" => place = closing(&source.words, place) + 1,
            _ => place += 1,
        }
    }
    None
}

/// Names that would fit any file, and so say nothing.
pub(crate) fn file_name_vague(source: &Source) -> Vec<Fault> {
    source
        .path
        .split('/')
        .map(|part| part.strip_suffix(".rs").unwrap_or(part))
        .filter(|part| VAGUE_NAMES.contains(part))
        .map(|part| source.fault(1, format!("\"{part}\" does not say what it holds")))
        .collect()
}

#[test]
fn a_missing_header_is_found() {
    assert_eq!(
        header_missing(&Source::new("src/a.rs", "fn a() {}")).len(),
        1
    );
    assert!(header_missing(&Source::new("src/a.rs", "//! Holds a.")).is_empty());
}

#[test]
fn a_long_file_is_found_and_tests_have_more_room() {
    let text = "//! a\n".repeat(501);
    assert_eq!(file_too_long(&Source::new("src/a.rs", &text)).len(), 1);
    assert!(file_too_long(&Source::new("tests/a.rs", &text)).is_empty());
    let text = "//! a\n".repeat(701);
    assert_eq!(file_too_long(&Source::new("tests/a.rs", &text)).len(), 1);
}

#[test]
fn a_long_function_is_found_and_comments_do_not_count() {
    let long = format!(
        "fn a(b: [u8; 2])\nwhere\n    C: D,\n{{\n{}}}\n",
        "    b();\n".repeat(81)
    );
    assert_eq!(function_too_long(&Source::new("src/a.rs", &long)).len(), 1);
    let commented = format!(
        "fn a() {{\n{}{}}}\n",
        "    // why\n\n".repeat(30),
        "    b();\n".repeat(80)
    );
    assert!(function_too_long(&Source::new("src/a.rs", &commented)).is_empty());
    let declared = "trait A { fn b(); }\ntype C = fn(u8);";
    assert!(function_too_long(&Source::new("src/a.rs", declared)).is_empty());
}

#[test]
fn vague_names_are_found() {
    assert_eq!(
        file_name_vague(&Source::new("src/farm/utils.rs", "")).len(),
        1
    );
    assert_eq!(
        file_name_vague(&Source::new("src/common/a.rs", "")).len(),
        1
    );
    assert!(file_name_vague(&Source::new("src/farm/commons.rs", "")).is_empty());
}
