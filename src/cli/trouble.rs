//! Why a subcommand did not do its work: one line with file, place, cause and remedy.

use std::fmt;

/// One line of trouble.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trouble(pub String);

impl Trouble {
    /// Writes it to standard error. Line breaks inside become spaces: it is one line whatever happens.
    pub fn print(&self) {
        let line: String = self.0.split_whitespace().collect::<Vec<_>>().join(" ");
        // Nothing is left to be done where standard error is closed.
        drop(std::io::Write::write_fmt(
            &mut std::io::stderr(),
            format_args!("foldcourse: {line}\n"),
        ));
    }
}

impl<E: fmt::Display> From<E> for Trouble {
    fn from(error: E) -> Self {
        Self(error.to_string())
    }
}
