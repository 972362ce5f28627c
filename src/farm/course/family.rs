//! Families of crops, by which pests and diseases carry over from one crop to the next.
//!
//! Knows no years: see `intervals`.

/// A family of crops.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Family {
    /// Cabbage, kale, swede, radish, rocket, mustard.
    Cabbage,
    /// Carrot, parsnip, celery, parsley.
    Carrot,
    /// Onion, leek, garlic.
    Onion,
    /// Lettuce, endive, chicory.
    Daisy,
    /// Beetroot, chard, spinach.
    Beet,
    /// Potato, tomato, pepper, aubergine.
    Nightshade,
    /// Squash, cucumber, courgette, melon.
    Gourd,
    /// Peas, beans, clover, vetch.
    Pea,
    /// Wheat, oats, rye, sweetcorn.
    Grass,
    /// Anything else.
    Other,
}

impl Family {
    /// Every family, in the order in which lists show them.
    pub const ALL: [Self; 10] = [
        Self::Cabbage,
        Self::Carrot,
        Self::Onion,
        Self::Daisy,
        Self::Beet,
        Self::Nightshade,
        Self::Gourd,
        Self::Pea,
        Self::Grass,
        Self::Other,
    ];

    /// The name as people read it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cabbage => "cabbage family",
            Self::Carrot => "carrot family",
            Self::Onion => "onion family",
            Self::Daisy => "daisy family",
            Self::Beet => "beet family",
            Self::Nightshade => "potato family",
            Self::Gourd => "gourd family",
            Self::Pea => "pea family",
            Self::Grass => "grass family",
            Self::Other => "other",
        }
    }

    /// One or two letters that stand beside the tint.
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Cabbage => "Ca",
            Self::Carrot => "Cr",
            Self::Onion => "On",
            Self::Daisy => "Da",
            Self::Beet => "Be",
            Self::Nightshade => "Po",
            Self::Gourd => "Go",
            Self::Pea => "Pe",
            Self::Grass => "Gr",
            Self::Other => "Ot",
        }
    }

    /// The stable word for scripts.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Cabbage => "cabbage",
            Self::Carrot => "carrot",
            Self::Onion => "onion",
            Self::Daisy => "daisy",
            Self::Beet => "beet",
            Self::Nightshade => "nightshade",
            Self::Gourd => "gourd",
            Self::Pea => "pea",
            Self::Grass => "grass",
            Self::Other => "other",
        }
    }

    /// The family that a person means: its name, its first word, or what it goes by in books.
    pub fn from_words(text: &str) -> Option<Self> {
        let text = text.trim().to_lowercase();
        let word = text.strip_suffix("family").unwrap_or(&text).trim();
        let by_name = Self::ALL
            .into_iter()
            .find(|family| family.code() == word || family.name().split(' ').next() == Some(word));
        by_name.or(match word {
            "brassica" | "brassicas" | "brassicaceae" | "crucifer" | "crucifers" => {
                Some(Self::Cabbage)
            }
            "umbellifer" | "umbellifers" | "apiaceae" | "roots" => Some(Self::Carrot),
            "allium" | "alliums" => Some(Self::Onion),
            "lettuce" | "asteraceae" => Some(Self::Daisy),
            "goosefoot" | "spinach" | "chenopods" => Some(Self::Beet),
            "tomato" | "solanum" | "solanums" | "solanaceae" => Some(Self::Nightshade),
            "cucurbit" | "cucurbits" | "squash" | "cucumber" => Some(Self::Gourd),
            "legume" | "legumes" | "bean" | "beans" => Some(Self::Pea),
            "cereal" | "cereals" | "corn" => Some(Self::Grass),
            _ => None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_family_is_found_by_its_name_and_its_code() {
        for family in Family::ALL {
            assert_eq!(Family::from_words(family.name()), Some(family));
            assert_eq!(Family::from_words(family.code()), Some(family));
        }
        assert_eq!(Family::from_words("Brassicas"), Some(Family::Cabbage));
        assert_eq!(Family::from_words("moss"), None);
    }

    #[test]
    fn no_two_families_share_a_sign() {
        let signs: std::collections::BTreeSet<_> = Family::ALL.map(Family::sign).into();
        assert_eq!(signs.len(), Family::ALL.len());
    }
}
