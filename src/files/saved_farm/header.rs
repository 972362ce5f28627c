//! The first words of a saved farm, `(foldcourse: 1,`, read before anything else.
//!
//! Knows nothing of what follows, so that a layout of the future is told from a broken file.

/// What the beginning of a text says.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Header {
    /// A farm in the layout of this number.
    Layout(u64),
    /// Something else.
    Other {
        /// What it seems to be.
        looks_like: &'static str,
        /// What to do about it.
        remedy: &'static str,
    },
}

/// Reads the number of the layout.
pub(super) fn read_header(text: &str) -> Header {
    layout_number(text).map_or_else(|| guess(text), Header::Layout)
}

fn layout_number(text: &str) -> Option<u64> {
    let inside = after_blanks(text)?.strip_prefix('(')?;
    let after_name = after_blanks(inside)?.strip_prefix("foldcourse")?;
    let number = after_blanks(after_blanks(after_name)?.strip_prefix(':')?)?;
    let digits: String = number.chars().take_while(char::is_ascii_digit).collect();
    let after = number.chars().nth(digits.len());
    let ends = after.is_none_or(|letter| {
        letter == ',' || letter == ')' || letter == '/' || letter.is_whitespace()
    });
    if digits.is_empty() || !ends {
        return None;
    }
    // More digits than a number can hold are surely a layout to come.
    Some(digits.parse().unwrap_or(u64::MAX))
}

/// `text` after blanks and remarks; `None` where a remark has no end.
fn after_blanks(text: &str) -> Option<&str> {
    let mut rest = text.trim_start();
    loop {
        if let Some(remark) = rest.strip_prefix("//") {
            rest = remark.split_once('\n')?.1.trim_start();
        } else if let Some(remark) = rest.strip_prefix("/*") {
            rest = remark.split_once("*/")?.1.trim_start();
        } else {
            return Some(rest);
        }
    }
}

fn guess(text: &str) -> Header {
    let other = |looks_like, remedy| Header::Other { looks_like, remedy };
    let start = text.trim_start();
    if start.is_empty() {
        return other(
            "the file is empty",
            "open the earlier copy beside it (its name ends in .previous.ron), or a backup",
        );
    }
    match start.chars().next() {
        Some('{' | '[') => other(
            "this is not a saved farm: it looks like JSON",
            "if it is GeoJSON, import it",
        ),
        Some('<') => other(
            "this is not a saved farm: it looks like XML, as KML and GPX are",
            "import it instead of opening it",
        ),
        _ => other(
            "this is not a saved farm: it does not begin with (foldcourse: and the number of its layout",
            "choose a file that Foldcourse saved (.ron)",
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_layout_number_is_found_behind_blanks_and_remarks() {
        for text in [
            "(foldcourse:7)",
            "// a farm\r\n /* of\nmine */ ( // x\n foldcourse : 7 , what (comes [next",
        ] {
            assert_eq!(read_header(text), Header::Layout(7), "{text}");
        }
        assert_eq!(
            read_header("(foldcourse: 99999999999999999999999,"),
            Header::Layout(u64::MAX)
        );
    }

    #[test]
    fn what_is_no_farm_is_guessed_at() {
        for text in [
            "",
            " \n",
            "{}",
            "<kml>",
            "(name: 3",
            "(foldcourse: one",
            "(foldcourse: 1.5",
            "/*",
        ] {
            assert!(matches!(read_header(text), Header::Other { .. }), "{text}");
        }
    }
}
