//! What glyphs stand for.

use serde::{Serialize, Serializer};
use std::fmt;
use std::ops::Deref;
use std::sync::Arc;

/// The text that a glyph stands for. A word's glyphs are set many times over: copies share it.
#[derive(Clone, PartialEq, Eq)]
pub struct Meaning(Arc<str>);

impl Meaning {
    /// The text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl From<&str> for Meaning {
    fn from(text: &str) -> Meaning {
        Meaning(text.into())
    }
}

impl Deref for Meaning {
    type Target = str;
    fn deref(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Meaning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Debug for Meaning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(&*self.0, f)
    }
}

impl Serialize for Meaning {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.0)
    }
}
