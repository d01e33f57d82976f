//! How the value of a part is written: short values as they are, long ones as the head of their hash.

use siphasher::sip128::{Hasher128, SipHasher24};
use std::fmt::Display;
use std::hash::Hasher;

/// Longest value that is written as it is.
const SHORT: usize = 12;
/// What stands before a hash in place of a value.
pub(super) const HASHED: char = '~';
/// Hexadecimal digits kept of the hash of one value. Two values have to agree in all of them by chance
/// for a change to go unseen: once in 2⁴⁸.
const KEPT: usize = 12;

/// The hash of some bytes, as hexadecimal: SipHash-2-4 of 128 bits. It tells values apart and guards nothing, so a
/// fast one will do.
pub(super) fn hash(bytes: &[u8]) -> String {
    let mut hasher = SipHasher24::new();
    hasher.write(bytes);
    hexadecimal(&hasher.finish128().as_bytes())
}

/// The hash of several texts, each with its length before it, so that no two lists read alike.
pub(in crate::cli) fn hash_all<'a>(texts: impl Iterator<Item = &'a str>) -> String {
    let mut hasher = SipHasher24::new();
    for text in texts {
        hasher.write(&(text.len() as u64).to_be_bytes());
        hasher.write(text.as_bytes());
    }
    hexadecimal(&hasher.finish128().as_bytes())
}

fn hexadecimal(bytes: &[u8]) -> String {
    let digit = |value: u8| char::from_digit(value.into(), 16).unwrap_or_default();
    bytes.iter().flat_map(|byte| [digit(byte >> 4), digit(byte & 15)]).collect()
}

/// The fields of a part, written `name=value` and joined by blanks.
#[derive(Debug, Default)]
pub(super) struct Fields(String);

impl Fields {
    /// Adds a field. An empty value is left out.
    pub(super) fn add(mut self, name: &str, value: impl Display) -> Fields {
        let value = value.to_string();
        if value.is_empty() {
            return self;
        }
        if !self.0.is_empty() {
            self.0.push(' ');
        }
        self.0.push_str(name);
        self.0.push('=');
        if value.len() <= SHORT && value.chars().all(is_plain) {
            self.0.push_str(&value);
        } else {
            self.0.push(HASHED);
            self.0.push_str(&hash(value.as_bytes())[..KEPT]);
        }
        self
    }

    /// Adds a field that may be missing.
    pub(super) fn maybe(self, name: &str, value: Option<impl Display>) -> Fields {
        match value {
            Some(value) => self.add(name, value),
            None => self,
        }
    }

    /// The whole.
    pub(super) fn done(self) -> String {
        self.0
    }
}

/// Characters that cannot be taken for the writing round a value.
fn is_plain(c: char) -> bool {
    c.is_ascii_alphanumeric() || matches!(c, '#' | '.' | '/' | '-')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_values_can_be_read_and_long_ones_are_hashed() {
        let fields = Fields::default()
            .add("colour", "#1b1c20")
            .add("name", "Ink black, matte")
            .add("code", "")
            .maybe("hole", None::<f64>)
            .maybe("price", Some(2.9))
            .done();
        assert_eq!(fields, format!("colour=#1b1c20 name=~{} price=2.9", &hash(b"Ink black, matte")[..12]));
    }

    #[test]
    fn hashes_are_those_of_the_published_siphash() {
        // Aumasson and Bernstein, SipHash (2012), the authors' vectors for 128 bits: key 00 01 … 0f, no bytes
        // (from memory).
        let key: [u8; 16] = std::array::from_fn(|i| i as u8);
        let hasher = SipHasher24::new_with_key(&key);
        assert_eq!(hexadecimal(&hasher.finish128().as_bytes()), "a3817f04ba25a8e66df67214c7550293");
        assert_ne!(hash(b"abc"), hash(b"abd"));
    }
}
