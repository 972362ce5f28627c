//! The list of trees as a table for any spreadsheet: one row for each tree, figures plain, places in metres and degrees.
//!
//! Comma-separated values after RFC 4180, section 2: rows end in CR LF, fields with a comma, quote or line break are
//! quoted. A name that a spreadsheet would take for a formula is led by an apostrophe.

use crate::farm::{Farm, all_trees};

/// The names of the columns, the unit in the name.
const COLUMNS: [&str; 9] = [
    "line", "number", "variety", "along_m", "crown_m", "east_m", "north_m", "lon_deg", "lat_deg",
];

/// Every tree of the farm, line by line, as comma-separated values with a row of names.
pub fn tree_table(farm: &Farm) -> String {
    let mut text = COLUMNS.join(",") + "\r\n";
    for (id, trees) in all_trees(farm) {
        let Some(ground) = farm.ground.get(&id) else {
            continue;
        };
        let crown_m = ground.trees.as_ref().map_or(0.0, |row| row.crown_m);
        for tree in trees {
            let fields = [
                safe_field(&ground.name),
                tree.number.to_string(),
                safe_field(&tree.variety),
                format!("{:.2}", tree.along_m),
                format!("{crown_m:.2}"),
                format!("{:.3}", tree.place.east_m),
                format!("{:.3}", tree.place.north_m),
                format!("{:.8}", tree.lonlat.lon_deg),
                format!("{:.8}", tree.lonlat.lat_deg),
            ];
            text.push_str(&fields.join(","));
            text.push_str("\r\n");
        }
    }
    text
}

/// Words as one field that stays words.
fn safe_field(words: &str) -> String {
    let is_formula = words
        .trim_start()
        .starts_with(['=', '+', '-', '@', '|', '%'])
        || words.starts_with(['\t', '\r', '\n']);
    let words = if is_formula {
        format!("'{words}")
    } else {
        words.to_owned()
    };
    if words.contains(['"', ',', '\n', '\r']) {
        format!("\"{}\"", words.replace('"', "\"\""))
    } else {
        words
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_stay_words_in_a_spreadsheet() {
        assert_eq!(safe_field("Bramley"), "Bramley");
        assert_eq!(safe_field("a\"b"), "\"a\"\"b\"");
        assert_eq!(safe_field("=1+1"), "'=1+1");
        assert_eq!(safe_field(" @x"), "' @x");
        assert_eq!(safe_field("-x, y"), "\"'-x, y\"");
    }
}
