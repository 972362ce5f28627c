//! A use as people write and read it: `leeks`, `ley, year 2`, `cover: phacelia`, `fallow`.
//!
//! What is typed is understood against the table of crops and the grower's own.

use super::crop_table::{known_family, trimmed_name};
use super::{Cell, Courses, Family, Use};

/// A cell in words: `leeks (onion family)` is `leeks`; the family stands beside it.
pub fn use_words(cell: &Cell) -> String {
    match &cell.used {
        Use::Unsaid => String::new(),
        Use::Crop { name, .. } => name.clone(),
        Use::Ley { .. } => match cell.ley_year {
            Some(year) => format!("ley, year {year}"),
            None => "ley".to_owned(),
        },
        Use::Fallow => "fallow".to_owned(),
        Use::Cover(name) if name.is_empty() => "cover crop".to_owned(),
        Use::Cover(name) => format!("cover: {name}"),
    }
}

/// The use that a person means. A crop that no table knows may name its family in brackets: `oca (other)`; without
/// one it counts as other. Ends of lines become spaces.
pub fn use_from_words(courses: &Courses, text: &str) -> Use {
    let text = trimmed_name(text);
    let plain = text.to_lowercase();
    if plain.is_empty() || plain == "–" || plain == "-" {
        return Use::Unsaid;
    }
    if plain == "fallow" || plain == "bare" {
        return Use::Fallow;
    }
    if let Some(ley) = ley_from_words(&plain) {
        return ley;
    }
    for word in ["cover crop", "green manure", "cover"] {
        if let Some(rest) = plain.strip_prefix(word)
            && !rest.starts_with(|c: char| c.is_alphanumeric())
        {
            let from = plain.chars().count() - rest.chars().count();
            let name: String = text.chars().skip(from).collect();
            let name = name.trim_matches(|c: char| c.is_whitespace() || c == ':' || c == ',');
            return Use::Cover(name.to_owned());
        }
    }
    crop_from_words(courses, &text)
}

fn crop_from_words(courses: &Courses, text: &str) -> Use {
    if let Some((name, family)) = text
        .strip_suffix(')')
        .and_then(|rest| rest.rsplit_once('('))
        && let Some(family) = Family::from_words(family)
        && !name.trim().is_empty()
    {
        return Use::Crop {
            name: name.trim().to_owned(),
            family,
        };
    }
    Use::Crop {
        family: known_family(courses, text).unwrap_or(Family::Other),
        name: text.to_owned(),
    }
}

/// `ley`, `herb ley`, `ley 2`, `ley, year 2`: the year where it was said.
fn ley_from_words(plain: &str) -> Option<Use> {
    let words: Vec<&str> = plain
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .collect();
    let at = words
        .iter()
        .position(|word| *word == "ley" || *word == "leys")?;
    let year = words
        .iter()
        .skip(at + 1)
        .find_map(|word| word.parse().ok())
        .filter(|year| (1..=99).contains(year));
    Some(Use::Ley { year })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Use {
        use_from_words(&Courses::default(), text)
    }

    #[test]
    fn uses_are_understood_as_growers_write_them() {
        assert_eq!(read("  "), Use::Unsaid);
        assert_eq!(read("Herb ley, year 2"), Use::Ley { year: Some(2) });
        assert_eq!(read("ley"), Use::Ley { year: None });
        assert_eq!(read("cover: Phacelia"), Use::Cover("Phacelia".to_owned()));
        assert_eq!(read("green manure"), Use::Cover(String::new()));
        assert_eq!(read("Fallow"), Use::Fallow);
        let crop = |name: &str, family| Use::Crop {
            name: name.to_owned(),
            family,
        };
        assert_eq!(read("leeks"), crop("leeks", Family::Onion));
        assert_eq!(
            read("Savoy cabbage"),
            crop("Savoy cabbage", Family::Cabbage)
        );
        assert_eq!(read("oca (other)"), crop("oca", Family::Other));
        assert_eq!(read("parsley"), crop("parsley", Family::Carrot));
    }
}
