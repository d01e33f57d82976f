//! Values of a file as far as they can be read: one wrong value does not hide the next.

use serde::de::{DeserializeOwned, Deserializer, MapAccess, Visitor};
use serde::{Deserialize, de::Error as _};
use serde_yaml::Value;
use std::fmt;
use std::marker::PhantomData;

/// One value of a file.
#[derive(Clone, Debug, PartialEq, Default)]
pub(super) enum Field<T> {
    /// The key is not there.
    #[default]
    Missing,
    /// The key is there, but nothing follows it.
    Empty,
    /// Read.
    Given(T),
    /// Something else stands there; with what is wanted.
    Wrong(String),
}

impl<'de, T: DeserializeOwned> Deserialize<'de> for Field<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let value = Value::deserialize(deserializer)?;
        if value.is_null() {
            return Ok(Field::Empty);
        }
        Ok(T::deserialize(value).map_or_else(|e| Field::Wrong(wanted(&e.to_string())), Field::Given))
    }
}

/// What serde says it expected; our own types say nothing but that.
fn wanted(message: &str) -> String {
    message.split_once("expected ").map_or(message, |(_, wanted)| wanted).to_owned()
}

/// A mapping whose keys the maker chooses, in the order of the file.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Entries<T>(pub Vec<(String, Field<T>)>);

impl<T> Default for Entries<T> {
    fn default() -> Self {
        Entries(Vec::new())
    }
}

impl<'de, T: DeserializeOwned> Deserialize<'de> for Entries<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct InOrder<T>(PhantomData<T>);
        impl<'de, T: DeserializeOwned> Visitor<'de> for InOrder<T> {
            type Value = Entries<T>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("names with values, as in `A: ink`")
            }
            fn visit_map<M: MapAccess<'de>>(self, mut map: M) -> Result<Entries<T>, M::Error> {
                let mut entries = Vec::new();
                while let Some((key, value)) = map.next_entry::<Value, Field<T>>()? {
                    entries.push((scalar_text(&key).unwrap_or_default(), value));
                }
                Ok(Entries(entries))
            }
        }
        deserializer.deserialize_map(InOrder(PhantomData))
    }
}

/// The text of a scalar value, as near as it can be had from its type.
fn scalar_text(value: &Value) -> Option<String> {
    match value {
        Value::String(text) => Some(text.clone()),
        Value::Number(number) => Some(number.to_string()),
        Value::Bool(truth) => Some(truth.to_string()),
        _ => None,
    }
}

/// A text; a number or `true` counts as its own text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Text(pub String);

impl<'de> Deserialize<'de> for Text {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        scalar_text(&Value::deserialize(deserializer)?).map(Text).ok_or_else(|| D::Error::custom("a text"))
    }
}

/// One thing or a list of them.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct OneOrMore<T>(pub Vec<Field<T>>);

impl<'de, T: DeserializeOwned> Deserialize<'de> for OneOrMore<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let items = match Value::deserialize(deserializer)? {
            Value::Sequence(items) => items,
            one => vec![one],
        };
        let fields = items.into_iter().map(Field::deserialize).collect::<Result<_, _>>();
        fields.map(OneOrMore).map_err(D::Error::custom)
    }
}

/// The keys that a type takes, in the order it declares them.
pub(super) fn keys_of<T: DeserializeOwned>() -> &'static [&'static str] {
    let mut keys: &'static [&'static str] = &[];
    // The answer is written by `deserialize_struct`; the result is always the error that ends it there.
    let _ = T::deserialize(AskKeys(&mut keys));
    keys
}

/// A deserializer that only listens which fields are asked for.
struct AskKeys<'k>(&'k mut &'static [&'static str]);

impl<'de> Deserializer<'de> for AskKeys<'_> {
    type Error = serde::de::value::Error;

    fn deserialize_any<V: Visitor<'de>>(self, _: V) -> Result<V::Value, Self::Error> {
        Err(Self::Error::custom("not a mapping with known keys"))
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Self::Error> {
        *self.0 = fields;
        self.deserialize_any(visitor)
    }

    serde::forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf option unit
        unit_struct newtype_struct seq tuple tuple_struct map enum identifier ignored_any
    }
}
