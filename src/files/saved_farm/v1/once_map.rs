//! Entries by key in which no key may stand twice.
//!
//! The usual maps take the last of two alike in silence, which would lose a field of the farm.

use std::collections::BTreeMap;
use std::fmt::{self, Display};
use std::marker::PhantomData;

use serde::de::{Deserialize, Deserializer, Error, MapAccess, Visitor};
use serde::ser::{Serialize, Serializer};

/// Entries in the order of their keys.
#[derive(Debug)]
pub(super) struct OnceMap<K, V>(pub(super) BTreeMap<K, V>);

impl<K, V> OnceMap<K, V> {
    /// Whether there is no entry.
    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl<K, V> Default for OnceMap<K, V> {
    fn default() -> Self {
        Self(BTreeMap::new())
    }
}

impl<K: Ord, V> FromIterator<(K, V)> for OnceMap<K, V> {
    fn from_iter<I: IntoIterator<Item = (K, V)>>(entries: I) -> Self {
        Self(entries.into_iter().collect())
    }
}

impl<K: Serialize, V: Serialize> Serialize for OnceMap<K, V> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(&self.0)
    }
}

impl<'de, K, V> Deserialize<'de> for OnceMap<K, V>
where
    K: Deserialize<'de> + Ord + Display,
    V: Deserialize<'de>,
{
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(OnceVisitor(PhantomData))
    }
}

struct OnceVisitor<K, V>(PhantomData<(K, V)>);

impl<'de, K, V> Visitor<'de> for OnceVisitor<K, V>
where
    K: Deserialize<'de> + Ord + Display,
    V: Deserialize<'de>,
{
    type Value = OnceMap<K, V>;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("a list of entries in curly brackets { }, each with its own key")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut access: A) -> Result<Self::Value, A::Error> {
        let mut entries = BTreeMap::new();
        while let Some(key) = access.next_key::<K>()? {
            if entries.contains_key(&key) {
                return Err(A::Error::custom(format!(
                    "{key} stands here twice: each may stand once only"
                )));
            }
            let value = access.next_value()?;
            entries.insert(key, value);
        }
        Ok(OnceMap(entries))
    }
}
