//! Names that tell things apart: the planner wants each but once.

use std::collections::{BTreeMap, BTreeSet};

/// A thing to be named.
#[derive(Clone, Copy)]
pub(super) struct Named<'a> {
    /// What the grower calls it; may be empty.
    pub(super) name: &'a str,
    /// Its number on the farm.
    pub(super) number: u32,
    /// What to call it where it has no name.
    pub(super) kind: &'a str,
}

/// Gives each thing a name of its own, in order: its own where no other has it, else with its number behind.
pub(super) fn unique(things: &[Named<'_>]) -> Vec<String> {
    let mut count_of: BTreeMap<&str, usize> = BTreeMap::new();
    for thing in things {
        *count_of.entry(thing.name.trim()).or_default() += 1;
    }
    let stands_alone =
        |name: &str| !name.is_empty() && count_of.get(name).is_some_and(|count| *count == 1);
    let mut taken: BTreeSet<String> = count_of
        .keys()
        .filter(|name| stands_alone(name))
        .map(|name| (*name).to_owned())
        .collect();
    things
        .iter()
        .map(|thing| {
            let name = thing.name.trim();
            if stands_alone(name) {
                return name.to_owned();
            }
            let stem = if name.is_empty() { thing.kind } else { name };
            let mut numbered = format!("{stem} (#{})", thing.number);
            // Somebody may have called another field just that.
            while !taken.insert(numbered.clone()) {
                numbered.push('*');
            }
            numbered
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{Named, unique};

    #[test]
    fn names_are_kept_where_they_tell_apart_and_numbered_where_they_do_not() {
        let things = [
            ("A1", 3, "strip"),
            (" A2 ", 4, "strip"),
            ("A1", 5, "strip"),
            ("", 6, "ley"),
            ("A1 (#5)", 7, "strip"),
        ];
        let things = things.map(|(name, number, kind)| Named { name, number, kind });
        let names = unique(&things);
        assert_eq!(names, ["A1 (#3)", "A2", "A1 (#5)*", "ley (#6)", "A1 (#5)"]);
    }
}
