//! The example farm that ships inside the program.
//!
//! Invented from end to end; opened where no farm is named and none was opened before.

use super::{FileError, farm_from_text};
use crate::farm::Farm;

/// The small holding of `example-layouts`.
///
/// # Errors
/// Never in a sound build: a test opens it.
pub fn example_farm() -> Result<Farm, FileError> {
    farm_from_text(
        include_str!("../../example-layouts/fennywick-holding.ron"),
        "the shipped example",
    )
}
