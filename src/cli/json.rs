//! Fields for scripts: snake_case, the unit in the name, stable order.

use serde_json::{Map, Value};

/// An object under construction; fields without a value are left out.
#[derive(Debug, Default)]
pub(super) struct Fields(Map<String, Value>);

impl Fields {
    /// Adds a field.
    pub(super) fn put(mut self, name: &str, value: impl Into<Value>) -> Self {
        self.0.insert(name.to_owned(), value.into());
        self
    }

    /// Adds a field where there is a value.
    pub(super) fn put_some(self, name: &str, value: Option<impl Into<Value>>) -> Self {
        match value {
            Some(value) => self.put(name, value),
            None => self,
        }
    }

    /// The object.
    pub(super) fn done(self) -> Value {
        Value::Object(self.0)
    }
}

/// Writes a value for people and scripts alike, ending in a line break.
pub(super) fn print_json(value: &Value) -> Result<(), super::Trouble> {
    let text = serde_json::to_string_pretty(value)?;
    print_text(&text)
}

/// Writes text to standard output, ending in a line break. A reader that went away is no trouble.
pub(super) fn print_text(text: &str) -> Result<(), super::Trouble> {
    use std::io::Write;
    let mut out = std::io::stdout().lock();
    let written = out.write_all(text.as_bytes()).and_then(|()| {
        if text.ends_with('\n') {
            Ok(())
        } else {
            out.write_all(b"\n")
        }
    });
    match written.and_then(|()| out.flush()) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => Err(error.into()),
        _ => Ok(()),
    }
}
