//! Words that do not stand in the sources: what stops the program, what freezes the window, what was left undone.

use super::source::{Fault, Source, closing, is_at};

/// `unwrap`, `expect`, `panic!`, `todo!`, `unimplemented!` and `dbg!` outside tests.
pub(crate) fn stops_the_program(source: &Source) -> Vec<Fault> {
    if !source.path.starts_with("src/") {
        return Vec::new();
    }
    let words = source.words_outside_tests();
    let mut faults = Vec::new();
    for (place, word) in words.iter().enumerate().skip(1) {
        let is_called = is_at(&words, place + 1, &["("]);
        let is_method = matches!(words[place - 1].text.as_str(), "." | "::");
        let is_macro = is_at(&words, place + 1, &["!"]);
        let is_banned = match word.text.as_str() {
            "unwrap" | "expect" => is_method && is_called,
            "todo" | "dbg" | "panic" | "unimplemented" => is_macro,
            _ => false,
        };
        if is_banned {
            faults.push(source.fault(word.line, format!("{} outside tests", word.text)));
        }
    }
    faults
}

/// Things left to do without a reason in brackets behind the word.
pub(crate) fn bare_todo(source: &Source) -> Vec<Fault> {
    let marks = [
        concat!("TO", "DO"),
        concat!("FIX", "ME"),
        concat!("X", "XX"),
    ];
    source
        .comments
        .iter()
        .filter(|(_, text)| {
            marks.iter().any(|mark| {
                text.match_indices(mark).any(|(at, _)| {
                    let after = &text[at + mark.len()..];
                    !after.starts_with('(') || after.starts_with("()")
                })
            })
        })
        .map(|(line, _)| source.fault(*line, "left to do without a reason in brackets"))
        .collect()
}

/// The window's context used inside a closure that holds its lock, which freezes the window.
pub(crate) fn context_inside_input(source: &Source) -> Vec<Fault> {
    let words = &source.words;
    let mut faults = Vec::new();
    for (place, word) in words.iter().enumerate() {
        let takes_lock = matches!(word.text.as_str(), "input" | "input_mut");
        if !takes_lock || !is_at(words, place + 1, &["(", "|"]) {
            continue;
        }
        let end = closing(words, place + 1);
        for inner in place + 2..end {
            let is_context = matches!(words[inner].text.as_str(), "ctx" | "ui");
            if is_context && is_at(words, inner + 1, &["."]) {
                let what = format!("{} is used inside an input closure", words[inner].text);
                faults.push(source.fault(words[inner].line, what));
            }
        }
    }
    faults
}

#[test]
fn what_stops_the_program_is_found_and_tests_may() {
    let text = "fn a() { b.unwrap(); c.expect(d); todo!(); dbg!(e); Option::unwrap(f); panic!(); }";
    assert_eq!(stops_the_program(&Source::new("src/a.rs", text)).len(), 6);
    let fine = "#[expect(lint, reason = \"why\")] fn a() { b.unwrap_or(c); self.expected(d); }\n#[cfg(test)] mod t { fn a() { b.unwrap(); } }";
    assert!(stops_the_program(&Source::new("src/a.rs", fine)).is_empty());
    assert!(stops_the_program(&Source::new("tests/a.rs", text)).is_empty());
}

#[test]
fn a_bare_todo_is_found_and_a_reasoned_one_is_not() {
    let word = concat!("TO", "DO");
    let bare = format!("// {word}: later\nfn a() {{}}\n/* {word} */");
    assert_eq!(bare_todo(&Source::new("src/a.rs", &bare)).len(), 2);
    let reasoned = format!("// {word}(the grid shift is not published yet): later");
    assert!(bare_todo(&Source::new("src/a.rs", &reasoned)).is_empty());
}

#[test]
fn a_context_inside_an_input_closure_is_found() {
    let bad = "fn a() { ctx.input(|i| { ui.label(b); ctx.screen_rect() }); }";
    assert_eq!(
        context_inside_input(&Source::new("src/app/a.rs", bad)).len(),
        2
    );
    let good = "fn a() { let b = ctx.input(|i| i.pointer); ui.label(b); }";
    assert!(context_inside_input(&Source::new("src/app/a.rs", good)).is_empty());
}
