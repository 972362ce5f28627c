//! The varieties of a tree line as they are typed and read: a list in planting order.
//!
//! Names are parted by commas or lines; `3 x Bramley` is three of a name one after another.

/// Names in one list at most, and letters in one name.
const MOST_NAMES: usize = 1000;
const LONGEST_NAME: usize = 80;

/// The names in a typed list.
///
/// # Errors
/// A sentence where there are too many, or one is too long.
pub(super) fn varieties_of(typed: &str) -> Result<Vec<String>, String> {
    let mut names = Vec::new();
    let parts = typed.split([',', ';', '\n']).map(str::trim);
    for part in parts.filter(|part| !part.is_empty()) {
        let (count, name) = counted(part);
        if name.chars().count() > LONGEST_NAME {
            return Err(format!(
                "A variety has at most {LONGEST_NAME} letters: part names with commas."
            ));
        }
        if names.len() + count > MOST_NAMES {
            return Err(format!(
                "At most {MOST_NAMES} in the list: it begins again where it ends."
            ));
        }
        names.extend(std::iter::repeat_n(name.to_owned(), count));
    }
    Ok(names)
}

/// The list as it is read: runs of one name counted.
pub(super) fn varieties_text(names: &[String]) -> String {
    let runs: Vec<String> = names
        .chunk_by(|one, next| one == next)
        .filter_map(|run| {
            let name = run.first()?;
            Some(match run.len() {
                1 => name.clone(),
                count => format!("{count} x {name}"),
            })
        })
        .collect();
    runs.join(", ")
}

/// A count before `x` or `×`, and the name behind it.
fn counted(part: &str) -> (usize, &str) {
    let split = part.split_once(['x', '×', 'X']);
    let parted = split.and_then(|(count, name)| {
        let count: usize = count.trim().parse().ok()?;
        let name = name.trim();
        (count > 0 && !name.is_empty()).then_some((count, name))
    });
    parted.unwrap_or((1, part))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_read_by_commas_lines_and_counts() {
        let typed = "Egremont, 2 x Bramley\n Discovery;2×Bramley,, Max";
        let names = varieties_of(typed).unwrap_or_default();
        let wanted = [
            "Egremont",
            "Bramley",
            "Bramley",
            "Discovery",
            "Bramley",
            "Bramley",
            "Max",
        ];
        assert_eq!(names, wanted);
        let text = varieties_text(&names);
        assert_eq!(text, "Egremont, 2 x Bramley, Discovery, 2 x Bramley, Max");
        assert_eq!(varieties_of(&text), Ok(names));
        assert_eq!(varieties_of(" \n"), Ok(Vec::new()));
    }

    #[test]
    fn a_list_without_end_is_refused() {
        assert!(varieties_of("1001 x Bramley").is_err());
        assert!(varieties_of(&"a".repeat(81)).is_err());
        assert_eq!(varieties_of("20 Ounce").map(|names| names.len()), Ok(1));
    }
}
