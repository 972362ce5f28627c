//! A day as it is written in a file: `"2027-05-14"`.

use std::fmt::{self, Display};

use serde::de::{Deserialize, Deserializer, Error, Visitor};
use serde::ser::{Serialize, Serializer};

use crate::quantity::Day;

/// A day, written year-month-day in quotes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct SavedDay(pub(super) Day);

impl Display for SavedDay {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(formatter)
    }
}

impl Serialize for SavedDay {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&self.0)
    }
}

impl<'de> Deserialize<'de> for SavedDay {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_str(DayVisitor)
    }
}

struct DayVisitor;

impl Visitor<'_> for DayVisitor {
    type Value = SavedDay;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("a day in quotes such as \"2027-05-14\"")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<SavedDay, E> {
        Day::parse_iso(text).map(SavedDay).map_err(E::custom)
    }
}
