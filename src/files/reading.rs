//! Reading a text file within limits: size first, then bytes, then letters.
//!
//! Knows no format. Never hangs on a pipe and never takes in more than it said it would.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::Path;

use super::FileError;

/// The largest file that is read: 64 MB. A farm of 3,000 things takes about 2 MB.
pub const LARGEST_FILE_BYTES: u64 = 64 * 1024 * 1024;

/// The text of a file, without a byte-order mark.
///
/// # Errors
/// A file that is missing, not a file, too large, not readable or not text.
pub fn read_text(path: &Path) -> Result<String, FileError> {
    let name = path.display().to_string();
    let told = |error: io::Error| reading_error(&name, &error);
    // The size is asked before the file is opened: opening a pipe would wait for its other end.
    let known = fs::metadata(path).map_err(told)?;
    if known.is_dir() {
        return Err(FileError::new(
            &name,
            "this is a folder, not a file",
            "choose a file inside it",
        ));
    }
    if !known.is_file() {
        return Err(FileError::new(
            &name,
            "this is not an ordinary file",
            "copy what it holds into a file and choose that",
        ));
    }
    if known.len() > LARGEST_FILE_BYTES {
        return Err(too_large(&name, known.len()));
    }
    let mut bytes = Vec::new();
    // One byte beyond the limit is asked for, so that a file that grew meanwhile is noticed.
    File::open(path)
        .and_then(|file| file.take(LARGEST_FILE_BYTES + 1).read_to_end(&mut bytes))
        .map_err(told)?;
    text_of_bytes(bytes, &name)
}

fn text_of_bytes(bytes: Vec<u8>, name: &str) -> Result<String, FileError> {
    let length = u64::try_from(bytes.len()).unwrap_or(u64::MAX);
    if length > LARGEST_FILE_BYTES {
        return Err(too_large(name, length));
    }
    let mut text = String::from_utf8(bytes).map_err(|error| {
        let valid = error.utf8_error().valid_up_to();
        let before = error.as_bytes().iter().take(valid);
        let line = 1 + before.filter(|byte| **byte == b'\n').count();
        FileError::new(
            name,
            "this is not a text file: bytes stand here that are no letters in UTF-8",
            "choose a text file, or save it again as UTF-8",
        )
        .at(format!("line {line}"))
    })?;
    if text.starts_with('\u{feff}') {
        text.drain(..'\u{feff}'.len_utf8());
    }
    Ok(text)
}

fn too_large(name: &str, length: u64) -> FileError {
    let mega = 1024 * 1024;
    FileError::new(
        name,
        format!(
            "the file is too large to be a farm: {} MB, and {} MB is the most that is read",
            length.div_ceil(mega),
            LARGEST_FILE_BYTES / mega
        ),
        "choose another file, or cut this one into smaller ones",
    )
}

fn reading_error(name: &str, error: &io::Error) -> FileError {
    let (cause, remedy) = match error.kind() {
        io::ErrorKind::NotFound => (
            "there is no such file".to_owned(),
            "look whether it was moved or renamed, or is on a stick that is not plugged in",
        ),
        io::ErrorKind::PermissionDenied => (
            "you are not allowed to read this file".to_owned(),
            "ask its owner to let you read it, or copy it to your own folder",
        ),
        io::ErrorKind::NotADirectory => (
            "a part of this path is a file, not a folder".to_owned(),
            "look at the path again",
        ),
        _ => (
            format!("the file could not be read ({error})"),
            "try again, or copy it to another disk first",
        ),
    };
    FileError::new(name, cause, remedy)
}
