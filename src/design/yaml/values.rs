//! The tree of a file as serde reads values from it: one parser a file, so that a value and its place agree.
//!
//! A scalar is always the text that stands in the file; what it means (a number, a length, a choice)
//! is up to the type that is read. So `1.10` stays `1.10` in a title, and a number of any size is told
//! at its own place. `serde_yaml` could not say where a value stands.

use super::tree::{Kind, Node, Style};
use serde::de::value::{MapDeserializer, SeqDeserializer};
use serde::de::{Deserializer, Error, Expected, IntoDeserializer, Unexpected, Visitor};
use std::fmt;

/// What should stand in place of a value.
#[derive(Debug)]
pub(crate) struct Wanted(pub String);

impl fmt::Display for Wanted {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for Wanted {}

impl Error for Wanted {
    fn custom<T: fmt::Display>(wanted: T) -> Wanted {
        Wanted(wanted.to_string())
    }

    fn invalid_type(_: Unexpected<'_>, wanted: &dyn Expected) -> Wanted {
        Wanted(wanted.to_string())
    }
}

impl Node {
    /// Whether nothing is written, or what YAML takes for nothing (YAML 1.2, 10.3.2).
    fn is_nothing(&self) -> bool {
        let Kind::Scalar { text, style, .. } = &self.kind else { return false };
        *style == Style::Plain && matches!(text.as_str(), "" | "~" | "null" | "Null" | "NULL")
    }
}

impl<'de> Deserializer<'de> for &'de Node {
    type Error = Wanted;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wanted> {
        match &self.kind {
            Kind::Scalar { text, .. } => visitor.visit_borrowed_str(text),
            Kind::List(items) => visitor.visit_seq(SeqDeserializer::new(items.iter())),
            Kind::Mapping(entries) => {
                visitor.visit_map(MapDeserializer::new(entries.iter().map(|(key, value)| (key, value))))
            }
        }
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Wanted> {
        if self.is_nothing() { visitor.visit_none() } else { visitor.visit_some(self) }
    }

    /// Only keys: serde would take a list for the values in their order.
    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Wanted> {
        match &self.kind {
            Kind::Mapping(_) => self.deserialize_any(visitor),
            _ => Err(Wanted::invalid_type(Unexpected::Other("no keys"), &visitor)),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Wanted> {
        visitor.visit_newtype_struct(self)
    }

    serde::forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit
        unit_struct seq tuple tuple_struct map enum identifier ignored_any
    }
}

impl<'de> IntoDeserializer<'de, Wanted> for &'de Node {
    type Deserializer = Self;

    fn into_deserializer(self) -> Self {
        self
    }
}
