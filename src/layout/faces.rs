//! Faces: their files, their metrics, and which built-in face stands in for which.

use crate::drawn::Face;
use crate::units::{Mm, Pt};
use std::sync::LazyLock;

/// The whole font file of a face; those built in are under the SIL Open Font Licence 1.1.
#[must_use]
pub fn face_bytes(face: Face) -> &'static [u8] {
    match face {
        Face::Regular => include_bytes!("../../fonts/SourceSans3_400Regular.ttf"),
        Face::Bold => include_bytes!("../../fonts/SourceSans3_700Bold.ttf"),
        Face::Italic => include_bytes!("../../fonts/SourceSans3_400Regular_Italic.ttf"),
        Face::Title => include_bytes!("../../fonts/SourceSerif4_600SemiBold.ttf"),
        Face::TitleLight => include_bytes!("../../fonts/SourceSerif4_400Regular.ttf"),
        Face::Letters => include_bytes!("../../fonts/IBMPlexSansCondensed_700Bold.ttf"),
        Face::Own(own) => own.font().bytes,
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
        // Tried before those of the face that it is set in place of.
        Face::Own(_) => &[],
    }
}

/// A built-in face ready to shape with.
struct Loaded {
    /// The face to shape with; `None` only if the built-in file is damaged, which a test rules out.
    shaping: Option<harfrust::Font>,
    /// The face to ask for its characters and outlines; `None` as above.
    parsed: Option<ttf_parser::Face<'static>>,
    /// Units in one em.
    units: f64,
    /// Height of capitals, as a share of the size.
    cap: f64,
}

static LOADED: LazyLock<[Loaded; Face::ALL.len()]> = LazyLock::new(|| Face::ALL.map(load));

fn load(face: Face) -> Loaded {
    let bytes = face_bytes(face);
    let parsed = ttf_parser::Face::parse(bytes, 0).ok();
    let units = parsed.as_ref().map_or(1000.0, units_of);
    let cap = parsed.as_ref().map_or(CAP, cap_of);
    Loaded { shaping: harfrust::Font::new(bytes, 0), parsed, units, cap }
}

/// Height of capitals where a font does not tell it, as a share of the size: that of most faces for text.
const CAP: f64 = 0.66;

fn units_of(font: &ttf_parser::Face) -> f64 {
    f64::from(font.units_per_em())
}

fn cap_of(font: &ttf_parser::Face) -> f64 {
    font.capital_height().map_or(CAP, |cap| f64::from(cap) / units_of(font))
}

/// A built-in face, parsed once in the process; `None` for the maker's own.
fn loaded(face: Face) -> Option<&'static Loaded> {
    face.index().map(|place| &LOADED[place])
}

/// The face to shape with.
pub(super) fn shaping(face: Face) -> Option<&'static harfrust::Font> {
    match face {
        Face::Own(own) => Some(&own.font().shaping),
        built_in => loaded(built_in)?.shaping.as_ref(),
    }
}

/// The face to ask for its characters and outlines.
pub(super) fn parsed(face: Face) -> Option<&'static ttf_parser::Face<'static>> {
    match face {
        Face::Own(own) => Some(&own.font().parsed),
        built_in => loaded(built_in)?.parsed.as_ref(),
    }
}

/// Units in one em of a face.
pub(super) fn units(face: Face) -> f64 {
    match face {
        Face::Own(own) => units_of(&own.font().parsed),
        built_in => loaded(built_in).map_or(1000.0, |loaded| loaded.units),
    }
}

/// Height of a face's capitals, as a share of its size.
pub(super) fn cap(face: Face) -> f64 {
    match face {
        Face::Own(own) => cap_of(&own.font().parsed),
        built_in => loaded(built_in).map_or(CAP, |loaded| loaded.cap),
    }
}

/// Whether a face has a character. All that are built in have printable ASCII; a test holds them to it.
pub(super) fn has(face: Face, c: char) -> bool {
    match face {
        Face::Own(own) => own.has(c),
        built_in => matches!(c, ' '..='~') || parsed(built_in).is_some_and(|f| f.glyph_index(c).is_some()),
    }
}

/// Height of a face's capitals at a size. Lines stand by the built-in faces, whichever font is set in their place, so
/// that the lines of a page keep their distance.
pub(super) fn cap_height(face: Face, size: Pt) -> Mm {
    size.mm() * cap(face)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_face_is_readable_and_has_the_marks_that_booklets_use() {
        for face in Face::ALL {
            assert!(shaping(face).is_some(), "{face:?}");
            let font = parsed(face).expect("readable");
            assert!((' '..='~').all(|c| font.glyph_index(c).is_some()), "{face:?}");
            for c in "Ab1×–—→←·½“”".chars() {
                assert!(chain(face).iter().any(|&f| has(f, c)), "{face:?} {c}");
            }
        }
    }
}
