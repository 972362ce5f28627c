//! Why a file could not be read or written, in a grower's words.
//!
//! Knows no format. The whole error is one line, whatever stood in the file.

use thiserror::Error;

/// An operation on a file that failed; nothing was changed.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{file}{}{place}: {cause}; {remedy}", if .place.is_empty() { "" } else { ", " })]
pub struct FileError {
    /// The file as the person named it.
    pub file: String,
    /// Where in the file ("line 12, column 9, ground 3, within"); empty where it is the file as a whole.
    pub place: String,
    /// What is wrong.
    pub cause: String,
    /// What to do about it.
    pub remedy: String,
}

/// The most letters that are quoted from a file.
const MOST_LETTERS: usize = 400;

impl FileError {
    /// An error about a file as a whole.
    pub fn new(file: impl AsRef<str>, cause: impl AsRef<str>, remedy: impl AsRef<str>) -> Self {
        Self {
            file: one_line(file.as_ref()),
            place: String::new(),
            cause: one_line(cause.as_ref()),
            remedy: one_line(remedy.as_ref()),
        }
    }

    /// The same error with the place in the file.
    #[must_use]
    pub fn at(mut self, place: impl AsRef<str>) -> Self {
        self.place = one_line(place.as_ref());
        self
    }
}

/// `text` without line ends and other control characters, cut where it is very long.
fn one_line(text: &str) -> String {
    let mut line: String = text
        .chars()
        .take(MOST_LETTERS)
        .map(|letter| if letter.is_control() { ' ' } else { letter })
        .collect();
    if text.chars().nth(MOST_LETTERS).is_some() {
        line.push('…');
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_error_is_one_line_whatever_it_quotes() {
        let long = "very ".repeat(500);
        let error = FileError::new(
            "a\nb.ron",
            format!("\"x\u{1b}[2J\r\n\" is {long}"),
            "mend it",
        )
        .at("line 3");
        let text = error.to_string();
        assert!(!text.chars().any(char::is_control), "{text}");
        assert!(text.starts_with("a b.ron, line 3: "), "{text}");
        assert!(text.ends_with("; mend it"), "{text}");
        assert!(text.len() < 1000, "{}", text.len());
    }
}
