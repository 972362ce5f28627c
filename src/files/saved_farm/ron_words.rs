//! What the reader of the text form complains of, put into a grower's words.
//!
//! Knows the reader's faults, not the fields of a farm.

use ron::error::{Error, SpannedError};

use super::place::{path_at, path_words};
use crate::files::FileError;

/// The error for a fault that the reader found in `text`.
pub(super) fn file_error(fault: &SpannedError, text: &str, name: &str) -> FileError {
    let (cause, remedy) = words(&fault.code);
    let (line, column) = (fault.span.start.line, fault.span.start.col);
    let field = path_words(&path_at(text, line, column));
    let comma = if field.is_empty() { "" } else { ", " };
    FileError::new(name, cause, remedy).at(format!("line {line}, column {column}{comma}{field}"))
}

fn words(fault: &Error) -> (String, String) {
    match fault {
        Error::Eof | Error::ExpectedStringEnd | Error::UnclosedBlockComment => (
            "the file ends in the middle, as if it had been cut off".to_owned(),
            "open the earlier copy beside it (its name ends in .previous.ron), or a backup"
                .to_owned(),
        ),
        Error::ExceededRecursionLimit => (
            "brackets stand within brackets deeper than any farm needs".to_owned(),
            "this is not a farm, or it is damaged: open an earlier copy".to_owned(),
        ),
        Error::TrailingCharacters => (
            "there is more text behind the farm's last bracket".to_owned(),
            "take it out, or look for a bracket that closes too early".to_owned(),
        ),
        Error::Message(message) => (
            message.clone(),
            "mend it and open the file again".to_owned(),
        ),
        _ => field_words(fault).unwrap_or_else(|| value_words(fault)),
    }
}

/// Words for a field or a word that does not belong here.
fn field_words(fault: &Error) -> Option<(String, String)> {
    Some(match fault {
        Error::NoSuchStructField {
            expected, found, ..
        } => (
            format!("there is no field \"{found}\" here"),
            format!(
                "mend its spelling or take it out; the fields here are {}",
                list(expected)
            ),
        ),
        Error::MissingStructField { field, .. } => (
            format!("the field \"{field}\" is missing"),
            "write it in, or open an earlier copy".to_owned(),
        ),
        Error::DuplicateStructField { field, .. } => (
            format!("the field \"{field}\" is written twice"),
            "take one of them out".to_owned(),
        ),
        Error::NoSuchEnumVariant {
            expected, found, ..
        } => (
            format!("\"{found}\" is not known here"),
            format!("write one of {}", list(expected)),
        ),
        _ => return None,
    })
}

/// Words for a value that is not of the sort that is wanted.
fn value_words(fault: &Error) -> (String, String) {
    let wanted = |what: &str| (format!("{what} was expected here"), "write one".to_owned());
    match fault {
        Error::ExpectedFloat | Error::FloatUnderscore => wanted("a number such as 12.345"),
        Error::ExpectedInteger
        | Error::InvalidIntegerDigit { .. }
        | Error::UnderscoreAtBeginning => wanted("a whole number"),
        Error::IntegerOutOfBounds => (
            "this whole number is below 0 or too large".to_owned(),
            "write one that fits".to_owned(),
        ),
        Error::ExpectedBoolean => wanted("true or false"),
        Error::ExpectedString | Error::ExpectedChar => wanted("a text in double quotes"),
        Error::ExpectedArray => wanted("a list in square brackets [ ]"),
        Error::ExpectedMap => wanted("a list of numbered entries in curly brackets { }"),
        Error::ExpectedMapColon => wanted("a colon"),
        Error::ExpectedStructLike | Error::ExpectedNamedStructLike(_) => {
            wanted("an opening bracket (")
        }
        Error::ExpectedComma
        | Error::ExpectedArrayEnd
        | Error::ExpectedMapEnd
        | Error::ExpectedStructLikeEnd
        | Error::ExpectedOptionEnd => wanted("a comma or a closing bracket"),
        Error::ExpectedIdentifier => wanted("a name or a word"),
        Error::InvalidValueForType { expected, found } => (
            format!("{expected} was expected here, and {found} stands here"),
            "mend it and open the file again".to_owned(),
        ),
        Error::ExpectedDifferentLength { expected, found } => (
            format!("{expected} was expected here, and there are {found} values"),
            "mend it and open the file again".to_owned(),
        ),
        other => (
            format!("this cannot be read ({other})"),
            "mend it, or open an earlier copy".to_owned(),
        ),
    }
}

fn list(words: &[&str]) -> String {
    words.join(", ")
}
