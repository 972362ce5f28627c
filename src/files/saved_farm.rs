//! The saved layout: a farm as readable text, with the number of its layout first.
//!
//! Which layouts there are, and which of them reads a text. Each older layout keeps its own file; a newer one than is
//! known here is refused before anything of it is read.

mod header;
mod place;
mod ron_words;
mod v1;

use std::path::Path;

use self::header::Header;
use super::reading::read_text;
use super::safe_write::write_safely;
use super::{FileError, LARGEST_FILE_BYTES};
use crate::farm::Farm;

/// The newest layout, the one that is written.
const NEWEST_LAYOUT: u64 = 1;

/// Opens a saved farm.
///
/// # Errors
/// A file that cannot be read, is no farm, or is from a newer program; a field that is wrong, with its place.
pub fn open_farm(path: &Path) -> Result<Farm, FileError> {
    farm_from_text(&read_text(path)?, &path.display().to_string())
}

/// Reads the text of a saved farm; `name` is what errors call it.
///
/// # Errors
/// As [`open_farm`].
pub fn farm_from_text(text: &str, name: &str) -> Result<Farm, FileError> {
    if u64::try_from(text.len()).is_ok_and(|length| length > LARGEST_FILE_BYTES) {
        return Err(FileError::new(
            name,
            "the text is too large to be a farm",
            "choose another file",
        ));
    }
    match header::read_header(text) {
        Header::Layout(NEWEST_LAYOUT) => v1::read(text, name),
        Header::Layout(0) => Err(FileError::new(
            name,
            "there is no layout 0",
            format!("the first line that counts is (foldcourse: {NEWEST_LAYOUT},"),
        )),
        Header::Layout(newer) => Err(FileError::new(
            name,
            format!(
                "this farm was saved by a newer Foldcourse (layout {newer}; this one reads up to {NEWEST_LAYOUT})"
            ),
            "open it with the newer program; nothing of it was read or changed",
        )),
        Header::Other { looks_like, remedy } => Err(FileError::new(name, looks_like, remedy)),
    }
}

/// The text of a farm: the same farm gives the same text, and the text gives the same farm.
pub fn farm_text(farm: &Farm) -> String {
    v1::write(farm)
}

/// Saves a farm; the version before is kept beside it. The text is read back before the old file is touched.
///
/// # Errors
/// A farm that could not be opened again (a corner that is not a number …), told as such; a disk that does not take
/// the file. What was there before is untouched.
pub fn save_farm(farm: &Farm, path: &Path) -> Result<(), FileError> {
    let text = farm_text(farm);
    let name = path.display().to_string();
    let unfit = |cause: String, place: &str| {
        FileError::new(
            &name,
            format!("this farm could not be opened again ({cause})"),
            "take back the last change and save again; what was there before is untouched",
        )
        .at(place)
    };
    let again = farm_from_text(&text, &name).map_err(|error| unfit(error.cause, &error.place))?;
    if again != *farm {
        return Err(unfit("it would come back changed".to_owned(), ""));
    }
    write_safely(path, text.as_bytes())
}
