//! What an entry of a `GeoJSON` text says of itself: name, kind, widths; everything else is kept as the note.
//!
//! Knows nothing of where the shape lies. Metres.

use std::collections::{BTreeMap, BTreeSet};

use geojson::{JsonObject, JsonValue, feature};

use super::pieces::Piece;
use crate::farm::{Form, Ground, Kind, Shape, TreeRow};
use crate::files::imported::LONGEST_NAME;

/// Where a name is looked for, capitals aside, the best first.
const NAME_KEYS: [&str; 5] = ["name", "title", "label", "field_name", "parcel"];

/// What is told elsewhere in the ground, or measured anew.
const OWN_KEYS: [&str; 12] = [
    "kind",
    "within",
    "crop",
    "note",
    "width_m",
    "height_m",
    "tree_spacing_m",
    "first_tree_m",
    "tree_crown_m",
    "area_m2",
    "perimeter_m",
    "length_m",
];

/// The most letters of a note made of other properties.
const LONGEST_NOTE: usize = 600;

/// Reads entries one after another and counts what it had to assume.
#[derive(Debug, Default)]
pub(super) struct Reader {
    /// Pieces that were left out.
    pub(super) too_few_corners: usize,
    /// Pieces of which the file says no kind.
    pub(super) without_kind: usize,
    /// Pieces of which the file says a kind that is not known or does not lie so.
    pub(super) with_unknown_kind: usize,
    /// Those kinds.
    pub(super) unknown_kinds: BTreeSet<String>,
    /// How many things without a name there are of each kind.
    unnamed: BTreeMap<Kind, usize>,
}

impl Reader {
    /// The ground for a piece of this shape, and the name of the ley it is a strip of.
    pub(super) fn ground(&mut self, piece: &Piece<'_>, shape: Shape) -> (Ground, Option<String>) {
        let said = Said(piece.properties);
        let kind = self.kind(said.text("kind"), shape.form());
        let mut ground = Ground::new(self.name(piece, kind), kind, shape);
        ground.crop = said.text("crop").unwrap_or_default();
        ground.width_m = said.metres("width_m");
        ground.height_m = said.metres("height_m");
        ground.trees = said.trees();
        // Pieces of one entry do not each carry its note.
        if piece.part.is_none_or(|part| part == 1) {
            ground.note = said.note();
        }
        let ley = (kind == Kind::Strip).then(|| said.text("within")).flatten();
        (ground, ley)
    }

    fn kind(&mut self, said: Option<String>, form: Form) -> Kind {
        let usual = match form {
            Form::Area => Kind::Plot,
            Form::Line => Kind::Fence,
            Form::Place => Kind::Trough,
        };
        let Some(said) = said else {
            self.without_kind += 1;
            return usual;
        };
        match Kind::from_name(&said) {
            Some(kind) if kind.allows(form) => kind,
            _ => {
                self.with_unknown_kind += 1;
                // A file of a thousand odd kinds needs no thousand words.
                if self.unknown_kinds.len() < 8 {
                    self.unknown_kinds.insert(said);
                }
                usual
            }
        }
    }

    fn name(&mut self, piece: &Piece<'_>, kind: Kind) -> String {
        let said = Said(piece.properties);
        let named = NAME_KEYS.iter().find_map(|key| said.text(key));
        let named = named.or_else(|| id_words(piece.id?));
        let named = named.map(|name| name.chars().take(LONGEST_NAME).collect::<String>());
        match (named, piece.part) {
            (Some(name), Some(part)) => format!("{name} {part}"),
            (Some(name), None) => name,
            (None, _) => {
                let count = self.unnamed.entry(kind).or_default();
                *count += 1;
                format!("{} {count}", kind.name())
            }
        }
    }
}

/// The properties of an entry, found whatever their capitals.
struct Said<'file>(Option<&'file JsonObject>);

impl Said<'_> {
    fn value(&self, key: &str) -> Option<&JsonValue> {
        let said = self.0?;
        said.get(key).or_else(|| {
            let mut alike = said
                .iter()
                .filter(|(known, _)| known.eq_ignore_ascii_case(key));
            alike.next().map(|(_, value)| value)
        })
    }

    fn text(&self, key: &str) -> Option<String> {
        words(self.value(key)?)
    }

    fn metres(&self, key: &str) -> Option<f64> {
        self.value(key)?
            .as_f64()
            .filter(|metres| (0.0..=1_000.0).contains(metres))
    }

    fn trees(&self) -> Option<TreeRow> {
        Some(TreeRow {
            spacing_m: self
                .metres("tree_spacing_m")
                .filter(|spacing_m| *spacing_m >= 0.01)?,
            first_m: self.metres("first_tree_m").unwrap_or(0.0),
            crown_m: self.metres("tree_crown_m").unwrap_or(0.0),
            varieties: Vec::new(),
        })
    }

    /// The note, and behind it every property that has no field of its own.
    fn note(&self) -> String {
        let is_own = |key: &str| {
            let known = OWN_KEYS.iter().chain(NAME_KEYS.iter());
            known.into_iter().any(|own| own.eq_ignore_ascii_case(key))
        };
        let others = self
            .0
            .into_iter()
            .flatten()
            .filter(|(key, _)| !is_own(key))
            .filter_map(|(key, value)| Some(format!("{}: {}", key.trim(), words(value)?)));
        let all: Vec<String> = self.text("note").into_iter().chain(others).collect();
        let note = all.join("; ");
        match note.char_indices().nth(LONGEST_NOTE) {
            Some((end, _)) => format!("{}…", note.get(..end).unwrap_or_default()),
            None => note,
        }
    }
}

fn id_words(id: &feature::Id) -> Option<String> {
    let text = match id {
        feature::Id::String(text) => text.trim().to_owned(),
        feature::Id::Number(number) => number.to_string(),
    };
    (!text.is_empty()).then_some(text)
}

/// A value as words; `None` for nothing, blanks, lists and objects.
fn words(value: &JsonValue) -> Option<String> {
    let text = match value {
        JsonValue::String(text) => text.trim().to_owned(),
        JsonValue::Number(number) => number.to_string(),
        JsonValue::Bool(flag) => flag.to_string(),
        JsonValue::Null | JsonValue::Array(_) | JsonValue::Object(_) => return None,
    };
    (!text.is_empty()).then_some(text)
}
