//! The faces that are built in: their files, their metrics, and which face stands in for which.

use crate::drawn::Face;
use crate::units::{Mm, Pt};
use std::sync::LazyLock;

/// The whole font file of a face, as shipped (all under the SIL Open Font Licence 1.1).
#[must_use]
pub fn face_bytes(face: Face) -> &'static [u8] {
    match face {
        Face::Regular => include_bytes!("../../fonts/SourceSans3_400Regular.ttf"),
        Face::Bold => include_bytes!("../../fonts/SourceSans3_700Bold.ttf"),
        Face::Italic => include_bytes!("../../fonts/SourceSans3_400Regular_Italic.ttf"),
        Face::Title => include_bytes!("../../fonts/SourceSerif4_600SemiBold.ttf"),
        Face::TitleLight => include_bytes!("../../fonts/SourceSerif4_400Regular.ttf"),
        Face::Letters => include_bytes!("../../fonts/IBMPlexSansCondensed_700Bold.ttf"),
    }
}

/// The SHA-256 hash of all these files, one after another in order of their names, as hexadecimal; found
/// when the program is built.
pub const FACES_HASH: &str = env!("FONTS_SHA_256");

/// The faces to try for a character, best first.
pub(super) fn chain(face: Face) -> &'static [Face] {
    match face {
        Face::Regular => &[Face::Regular, Face::TitleLight],
        Face::Bold => &[Face::Bold, Face::Title],
        Face::Italic => &[Face::Italic, Face::Regular, Face::TitleLight],
        Face::Title => &[Face::Title, Face::Bold],
        Face::TitleLight => &[Face::TitleLight, Face::Regular],
        Face::Letters => &[Face::Letters, Face::Bold, Face::Title],
    }
}

/// A face ready to shape with.
pub(super) struct Loaded {
    /// The face to shape with; `None` only if the built-in file is damaged, which a test rules out.
    pub shaping: Option<harfrust::Font>,
    /// The face to ask for its characters and outlines; `None` as above.
    pub parsed: Option<ttf_parser::Face<'static>>,
    /// Units in one em.
    pub units: f64,
    /// Height of capitals, as a share of the size.
    pub cap: f64,
}

static LOADED: LazyLock<[Loaded; Face::ALL.len()]> = LazyLock::new(|| Face::ALL.map(load));

fn load(face: Face) -> Loaded {
    let bytes = face_bytes(face);
    let parsed = ttf_parser::Face::parse(bytes, 0).ok();
    let units = parsed.as_ref().map_or(1000.0, |f| f64::from(f.units_per_em()));
    let cap = parsed.as_ref().and_then(|f| f.capital_height()).map_or(0.66, |cap| f64::from(cap) / units);
    Loaded { shaping: harfrust::Font::new(bytes, 0), parsed, units, cap }
}

/// A face ready to shape with; parsed once in the process.
pub(super) fn loaded(face: Face) -> &'static Loaded {
    &LOADED[face.index()]
}

/// Whether a face has a character. All that are built in have printable ASCII; a test holds them to it.
pub(super) fn has(face: Face, c: char) -> bool {
    matches!(c, ' '..='~') || loaded(face).parsed.as_ref().is_some_and(|f| f.glyph_index(c).is_some())
}

/// Height of a face's capitals at a size.
pub(super) fn cap_height(face: Face, size: Pt) -> Mm {
    size.mm() * loaded(face).cap
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_face_is_readable_and_has_the_marks_that_booklets_use() {
        for face in Face::ALL {
            assert!(loaded(face).shaping.is_some(), "{face:?}");
            let font = loaded(face).parsed.as_ref().expect("readable");
            assert!((' '..='~').all(|c| font.glyph_index(c).is_some()), "{face:?}");
            for c in "Ab1×–—→←·½“”".chars() {
                assert!(chain(face).iter().any(|&f| has(f, c)), "{face:?} {c}");
            }
        }
    }
}
