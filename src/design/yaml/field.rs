//! Values of a file as far as they can be read: one wrong value does not hide the next.

use serde::Deserialize;
use serde::de::value::MapAccessDeserializer;
use serde::de::{DeserializeOwned, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use std::fmt;
use std::marker::PhantomData;

/// One value of a file.
#[derive(Clone, Debug, PartialEq, Default)]
pub(in crate::design) enum Field<T> {
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
        struct Given<T>(PhantomData<T>);
        impl<'de, T: DeserializeOwned> Visitor<'de> for Given<T> {
            type Value = Field<T>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a value")
            }
            fn visit_none<E: Error>(self) -> Result<Field<T>, E> {
                Ok(Field::Empty)
            }
            fn visit_some<D: Deserializer<'de>>(self, value: D) -> Result<Field<T>, D::Error> {
                Ok(T::deserialize(value).map_or_else(|wanted| Field::Wrong(wanted.to_string()), Field::Given))
            }
        }
        deserializer.deserialize_option(Given(PhantomData))
    }
}

/// A part of a file that is keys with values.
pub(in crate::design) trait Part: DeserializeOwned {
    /// The keys it takes, in the order they are declared.
    const KEYS: &'static [&'static str];
    /// What should stand there, for messages.
    const WANTED: &'static str;
}

/// A mapping whose keys the maker chooses, in the order of the file.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::design) struct Entries<T>(pub Vec<(String, Field<T>)>);

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
                while let Some(entry) = map.next_entry()? {
                    entries.push(entry);
                }
                Ok(Entries(entries))
            }
        }
        deserializer.deserialize_map(InOrder(PhantomData))
    }
}

/// A text as it stands in the file: `1.10` and `yes` count as their own text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::design) struct Text(pub String);

impl<'de> Deserialize<'de> for Text {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        scalar(deserializer, "a text", |text| Some(Text(text.to_owned())))
    }
}

/// Reads a scalar by its text.
pub(in crate::design) fn scalar<'de, D: Deserializer<'de>, T>(
    deserializer: D,
    wanted: &str,
    read: impl FnOnce(&str) -> Option<T>,
) -> Result<T, D::Error> {
    <&str>::deserialize(deserializer).ok().and_then(read).ok_or_else(|| D::Error::custom(wanted))
}

/// One text or a list of them.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::design) struct OneOrMore(pub Vec<Field<Text>>);

impl<'de> Deserialize<'de> for OneOrMore {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either;
        impl<'de> Visitor<'de> for Either {
            type Value = OneOrMore;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a text or a list of texts")
            }
            fn visit_str<E: Error>(self, text: &str) -> Result<OneOrMore, E> {
                Ok(OneOrMore(vec![Field::Given(Text(text.to_owned()))]))
            }
            fn visit_seq<S: SeqAccess<'de>>(self, items: S) -> Result<OneOrMore, S::Error> {
                all(items).map(OneOrMore)
            }
        }
        deserializer.deserialize_any(Either)
    }
}

/// A text for all languages, or one for each.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::design) enum OneOrEach {
    /// `Ink`
    One(Text),
    /// `{en: Ink, de: Tinte}`
    Each(Entries<Text>),
}

/// What should stand where a text may be given for each language.
const ONE_OR_EACH: &str = "a text, or one for each language, as in `{en: Ink, de: Tinte}`";

impl<'de> Deserialize<'de> for OneOrEach {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either;
        impl<'de> Visitor<'de> for Either {
            type Value = OneOrEach;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(ONE_OR_EACH)
            }
            fn visit_str<E: Error>(self, text: &str) -> Result<OneOrEach, E> {
                Ok(OneOrEach::One(Text(text.to_owned())))
            }
            fn visit_map<M: MapAccess<'de>>(self, map: M) -> Result<OneOrEach, M::Error> {
                Entries::deserialize(MapAccessDeserializer::new(map)).map(OneOrEach::Each)
            }
        }
        deserializer.deserialize_any(Either)
    }
}

/// A text for all languages or one for each, or a list of such.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::design) struct EachOrMore(pub Vec<Field<OneOrEach>>);

impl<'de> Deserialize<'de> for EachOrMore {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either;
        impl<'de> Visitor<'de> for Either {
            type Value = EachOrMore;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a text or a list of texts")
            }
            fn visit_str<E: Error>(self, text: &str) -> Result<EachOrMore, E> {
                Ok(EachOrMore(vec![Field::Given(OneOrEach::One(Text(text.to_owned())))]))
            }
            fn visit_map<M: MapAccess<'de>>(self, map: M) -> Result<EachOrMore, M::Error> {
                let each = Entries::deserialize(MapAccessDeserializer::new(map))?;
                Ok(EachOrMore(vec![Field::Given(OneOrEach::Each(each))]))
            }
            fn visit_seq<S: SeqAccess<'de>>(self, items: S) -> Result<EachOrMore, S::Error> {
                all(items).map(EachOrMore)
            }
        }
        deserializer.deserialize_any(Either)
    }
}

/// A part (or a text in its place), or a list of such.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::design) struct PartOrMore<P>(pub Vec<Field<TextOr<P>>>);

impl<'de, P: Part> Deserialize<'de> for PartOrMore<P> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either<P>(PhantomData<P>);
        impl<'de, P: Part> Visitor<'de> for Either<P> {
            type Value = PartOrMore<P>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(P::WANTED)
            }
            fn visit_str<E: Error>(self, text: &str) -> Result<PartOrMore<P>, E> {
                Ok(PartOrMore(vec![Field::Given(TextOr::Text(Text(text.to_owned())))]))
            }
            fn visit_map<M: MapAccess<'de>>(self, map: M) -> Result<PartOrMore<P>, M::Error> {
                let keys = P::deserialize(MapAccessDeserializer::new(map))?;
                Ok(PartOrMore(vec![Field::Given(TextOr::Keys(keys))]))
            }
            fn visit_seq<S: SeqAccess<'de>>(self, items: S) -> Result<PartOrMore<P>, S::Error> {
                all(items).map(PartOrMore)
            }
        }
        deserializer.deserialize_any(Either(PhantomData))
    }
}

/// All items of a list.
fn all<'de, T: Deserialize<'de>, S: SeqAccess<'de>>(mut items: S) -> Result<Vec<T>, S::Error> {
    let mut all = Vec::new();
    while let Some(item) = items.next_element()? {
        all.push(item);
    }
    Ok(all)
}

/// A text, or keys with values in its place.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::design) enum TextOr<P> {
    /// `8A 2B`
    Text(Text),
    /// `{beads: 8A 2B, turn: 3}`
    Keys(P),
}

impl<'de, P: Part> Deserialize<'de> for TextOr<P> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either<P>(PhantomData<P>);
        impl<'de, P: Part> Visitor<'de> for Either<P> {
            type Value = TextOr<P>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(P::WANTED)
            }
            fn visit_str<E: Error>(self, text: &str) -> Result<TextOr<P>, E> {
                Ok(TextOr::Text(Text(text.to_owned())))
            }
            fn visit_map<M: MapAccess<'de>>(self, map: M) -> Result<TextOr<P>, M::Error> {
                P::deserialize(MapAccessDeserializer::new(map)).map(TextOr::Keys)
            }
        }
        deserializer.deserialize_any(Either(PhantomData))
    }
}
