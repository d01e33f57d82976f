//! How the value of a part is written: short values as they are, long ones as the head of their hash.

use sha2::{Digest, Sha256};
use std::fmt::Display;

/// Longest value that is written as it is.
const SHORT: usize = 12;
/// What stands before a hash in place of a value.
pub(super) const HASHED: char = '~';
/// Hexadecimal digits kept of the hash of one value. Two values have to agree in all of them by chance
/// for a change to go unseen: once in 2⁴⁸.
const KEPT: usize = 12;

/// The SHA-256 hash (FIPS 180-4) of some bytes, as hexadecimal.
pub(super) fn hash(bytes: &[u8]) -> String {
    hexadecimal(&Sha256::digest(bytes))
}

/// The hash of several texts, each with its length before it, so that no two lists read alike.
pub(in crate::cli) fn hash_all<'a>(texts: impl Iterator<Item = &'a str>) -> String {
    let mut hasher = Sha256::new();
    for text in texts {
        hasher.update((text.len() as u64).to_be_bytes());
        hasher.update(text);
    }
    hexadecimal(&hasher.finalize())
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
    fn hashes_are_sha_256() {
        // FIPS 180-4, the example "abc" of its Secure Hash Standard test values.
        assert_eq!(hash(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }
}
