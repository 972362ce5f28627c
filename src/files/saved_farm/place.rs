//! Where a field stands in the text, and which field stands at a place.
//!
//! Walks brackets, keys and commas alone; knows no field by name and forgives every fault, for it is asked only once
//! something is known to be wrong. Lines and columns count from 1.

/// One step down into the text: a named field or entry, or a place in a list counted from 0.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Step {
    /// A field or the key of an entry, quotes taken off.
    Key(String),
    /// A place in a list or in the brackets behind a word.
    Item(usize),
}

/// Brackets within brackets beyond this are not followed: no farm goes so deep.
const DEEPEST: usize = 64;

/// Line and column of the field at `path`, or of the deepest field on the way to it.
pub(super) fn place_of(text: &str, path: &[Step]) -> (usize, usize) {
    let (mut best_depth, mut best) = (0, 0);
    walk(text, |steps, offset| {
        if steps.len() > best_depth && path.starts_with(steps) {
            (best_depth, best) = (steps.len(), offset);
        }
        best_depth < path.len()
    });
    line_and_column(text, best)
}

/// The field that holds the place at `line` and `column`.
pub(super) fn path_at(text: &str, line: usize, column: usize) -> Vec<Step> {
    let line_start: usize = text
        .split_inclusive('\n')
        .take(line.saturating_sub(1))
        .map(str::len)
        .sum();
    let within: usize = text
        .get(line_start..)
        .unwrap_or_default()
        .chars()
        .take(column.saturating_sub(1))
        .map(char::len_utf8)
        .sum();
    let mut path = Vec::new();
    walk(text, |steps, offset| {
        if offset > line_start + within {
            return false;
        }
        path = steps.to_vec();
        true
    });
    path
}

/// A path in words: "ground 3, shape, corner 2".
pub(super) fn path_words(path: &[Step]) -> String {
    let mut words: Vec<String> = Vec::new();
    let mut steps = path.iter().peekable();
    while let Some(step) = steps.next() {
        match step {
            Step::Key(key) => {
                let numbered = matches!(key.as_str(), "ground" | "mobs" | "hen_houses" | "settled");
                let number = steps.next_if(|next| numbered && matches!(next, Step::Key(_)));
                words.push(match number {
                    Some(Step::Key(number)) => format!("{} {number}", thing(key)),
                    _ => key.clone(),
                });
            }
            // Only the last place in a list says anything to a reader.
            Step::Item(item) if steps.peek().is_none() => words.push(format!("item {}", item + 1)),
            Step::Item(_) => {}
        }
    }
    words.join(", ")
}

fn thing(key: &str) -> &str {
    match key {
        "mobs" => "mob",
        "hen_houses" => "hen house",
        "settled" => "settled days of mob",
        other => other,
    }
}

fn line_and_column(text: &str, offset: usize) -> (usize, usize) {
    let before = text.get(..offset).unwrap_or_default();
    let line = 1 + before.matches('\n').count();
    let column = 1 + before
        .chars()
        .rev()
        .take_while(|letter| *letter != '\n')
        .count();
    (line, column)
}

/// Calls `visit` with the path and offset of every field and item in order, until it says no.
fn walk(text: &str, mut visit: impl FnMut(&[Step], usize) -> bool) {
    let mut path: Vec<Step> = Vec::new();
    // Whether the next token begins a new item of the brackets we are in.
    let mut at_start = false;
    let mut at = skip_blanks(text, 0);
    while let Some(letter) = text.get(at..).and_then(|rest| rest.chars().next()) {
        match letter {
            '(' | '[' | '{' => {
                if path.len() >= DEEPEST || (at_start && !visit(&path, at)) {
                    return;
                }
                path.push(Step::Item(0));
                at_start = true;
                at += 1;
            }
            ')' | ']' | '}' => {
                path.pop();
                at_start = false;
                at += 1;
            }
            ',' => {
                advance_item(&mut path);
                at_start = true;
                at += 1;
            }
            ':' => at += 1,
            _ => {
                let end = token_end(text, at, letter);
                if at_start {
                    let next = skip_blanks(text, end);
                    if text.get(next..).is_some_and(|rest| rest.starts_with(':')) {
                        let key = text.get(at..end).unwrap_or_default().trim_matches('"');
                        name_item(&mut path, key);
                    }
                    if !visit(&path, at) {
                        return;
                    }
                }
                at_start = false;
                at = end;
            }
        }
        at = skip_blanks(text, at);
    }
}

/// After a comma: the next place of a list. Named fields are counted from 0 again; their key follows.
fn advance_item(path: &mut [Step]) {
    if let Some(last) = path.last_mut() {
        *last = match last {
            Step::Item(item) => Step::Item(*item + 1),
            Step::Key(_) => Step::Item(0),
        };
    }
}

fn name_item(path: &mut [Step], key: &str) {
    if let Some(last) = path.last_mut() {
        *last = Step::Key(key.to_owned());
    }
}

/// The offset behind the word, number or quoted text that begins at `at`.
fn token_end(text: &str, at: usize, first: char) -> usize {
    let rest = text.get(at..).unwrap_or_default();
    let length = if first == '"' {
        let mut escaped = false;
        rest.char_indices()
            .skip(1)
            .find(|(_, letter)| {
                let closes = *letter == '"' && !escaped;
                escaped = *letter == '\\' && !escaped;
                closes
            })
            .map_or(rest.len(), |(place, _)| place + 1)
    } else {
        rest.char_indices()
            .skip(1)
            .find(|(_, letter)| letter.is_whitespace() || "()[]{},:\"/".contains(*letter))
            .map_or(rest.len(), |(place, _)| place)
    };
    at + length
}

fn skip_blanks(text: &str, at: usize) -> usize {
    let mut rest = text.get(at..).unwrap_or_default();
    loop {
        rest = rest.trim_start();
        if rest.starts_with("//") {
            rest = rest.split_once('\n').map_or("", |(_, after)| after);
        } else if let Some(remark) = rest.strip_prefix("/*") {
            rest = remark.split_once("*/").map_or("", |(_, after)| after);
        } else {
            return text.len() - rest.len();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "(\n  a: 1, // b: 2\n  ground: {\n    3: (name: \"x, (y\", shape: line([(1.0, 2.0), (3.0, 4.0)])),\n    4: (name: \"z\"),\n  },\n)";

    fn key(name: &str) -> Step {
        Step::Key(name.to_owned())
    }

    #[test]
    fn fields_are_found_by_their_path() {
        let corner = [
            key("ground"),
            key("3"),
            key("shape"),
            Step::Item(0),
            Step::Item(1),
        ];
        assert_eq!(place_of(TEXT, &corner), (4, 49));
        assert_eq!(
            place_of(TEXT, &[key("ground"), key("4"), key("name")]),
            (5, 9)
        );
        // What is not there is told by what holds it.
        assert_eq!(
            place_of(TEXT, &[key("ground"), key("4"), key("width_m")]),
            (5, 5)
        );
    }

    #[test]
    fn a_place_tells_its_path() {
        let path = path_at(TEXT, 4, 55);
        assert_eq!(path_words(&path), "ground 3, shape, item 2");
        assert_eq!(path_words(&path_at(TEXT, 5, 15)), "ground 4, name");
    }

    #[test]
    fn broken_text_ends_the_walk() {
        for text in [
            "((((",
            "a: \"",
            "/* never ends",
            ")))",
            "\u{e4}:\u{e4}",
            &"[".repeat(100_000),
        ] {
            let _ignored = place_of(text, &[key("a")]);
            assert!(path_at(text, 9, 9).len() <= DEEPEST);
        }
    }
}
