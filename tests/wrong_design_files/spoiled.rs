//! A builder of spoiled files, so that each test reads as what was spoiled.

use super::good;
use fringebook::design::{Reading, Texts, Wishes, read_from};
use fringebook::diagnostic::{Look, has_errors, render_all};
use std::path::Path;

/// The good files, spoiled.
pub struct Spoiled {
    files: Vec<(String, Vec<u8>)>,
    wishes: Wishes,
}

/// The good files.
pub fn good() -> Spoiled {
    let files =
        [("little.yaml", good::DESIGN), ("palette.yaml", good::PALETTE), ("studio.yaml", good::STUDIO)];
    let files = files.map(|(name, text)| (name.to_owned(), text.as_bytes().to_vec()));
    Spoiled { files: files.to_vec(), wishes: Wishes::default() }
}

impl Spoiled {
    /// The design with a part of its text replaced.
    pub fn design(self, old: &str, new: &str) -> Spoiled {
        self.replaced("little.yaml", old, new)
    }

    /// The palette with a part of its text replaced.
    pub fn palette(self, old: &str, new: &str) -> Spoiled {
        self.replaced("palette.yaml", old, new)
    }

    /// The studio with a part of its text replaced.
    pub fn studio(self, old: &str, new: &str) -> Spoiled {
        self.replaced("studio.yaml", old, new)
    }

    /// A file with other bytes.
    pub fn file(mut self, name: &str, bytes: impl Into<Vec<u8>>) -> Spoiled {
        self.files.retain(|(n, _)| n != name);
        self.files.push((name.to_owned(), bytes.into()));
        self
    }

    /// Without a file.
    pub fn without(mut self, name: &str) -> Spoiled {
        self.files.retain(|(n, _)| n != name);
        self
    }

    /// With wishes of a command.
    pub fn wishing(mut self, wishes: Wishes) -> Spoiled {
        self.wishes = wishes;
        self
    }

    fn replaced(mut self, name: &str, old: &str, new: &str) -> Spoiled {
        let (_, bytes) = self.files.iter_mut().find(|(n, _)| n == name).expect("a file of the good ones");
        let text = std::str::from_utf8(bytes).expect("text");
        assert!(text.contains(old), "{old:?} is not in {name}");
        *bytes = text.replacen(old, new, 1).into_bytes();
        self
    }

    /// What comes of reading them.
    pub fn read(&self) -> Reading {
        let texts = Texts::new(self.files.iter().map(|(n, b)| (n.clone(), b.clone())));
        read_from(&texts, Path::new("little.yaml"), &self.wishes)
    }

    /// What the maker is told; no design comes of it.
    pub fn told(&self) -> String {
        let reading = self.read();
        let text = render_all(&reading.problems, Look::Plain);
        assert!(has_errors(&reading.problems), "nothing is wrong: {text}");
        assert!(reading.design.is_none(), "a design came of it: {text}");
        text
    }
}
