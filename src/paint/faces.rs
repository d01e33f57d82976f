//! Faces, parsed once a process and shared by all documents.

use super::error::PaintError;
use crate::drawn::Face;
use crate::fonts::{Font, Outlines, OwnFont};
use crate::layout::face_bytes;
use std::collections::BTreeMap;
use std::sync::{Mutex, OnceLock, PoisonError};
use ttf_parser::GlyphId;

/// What the painter needs to know of a face.
pub(super) struct FaceData {
    /// The font file.
    pub bytes: &'static [u8],
    /// The parsed font.
    pub font: ttf_parser::Face<'static>,
    /// PostScript name.
    pub name: String,
    /// How its outlines are written.
    pub outlines: Outlines,
    /// Advance of every glyph in thousandths of the size, cut off: whole numbers as they stand in the file.
    widths: Vec<f64>,
}

impl FaceData {
    /// Advance as a viewer will take it from the file, in thousandths of the size.
    pub(super) fn width(&self, glyph: u16) -> f64 {
        self.widths.get(usize::from(glyph)).copied().unwrap_or(0.0)
    }
    /// How many glyphs there are.
    pub(super) fn glyphs(&self) -> usize {
        self.widths.len()
    }
    /// Whether the face draws this glyph; number 0 is the box for missing ones.
    pub(super) fn has(&self, glyph: u16) -> bool {
        glyph != 0 && usize::from(glyph) < self.widths.len()
    }
}

/// The parsed face.
///
/// # Errors
/// When a built-in font file cannot be read.
pub(super) fn face(face: Face) -> Result<&'static FaceData, PaintError> {
    static PARSED: [OnceLock<Result<FaceData, String>>; Face::ALL.len()] =
        [const { OnceLock::new() }; Face::ALL.len()];
    static OWN: Mutex<BTreeMap<OwnFont, &'static FaceData>> = Mutex::new(BTreeMap::new());
    let built_in = match face {
        Face::Own(own) => {
            let mut known = OWN.lock().unwrap_or_else(PoisonError::into_inner);
            return Ok(known.entry(own).or_insert_with(|| Box::leak(Box::new(of_own(own)))));
        }
        built_in => built_in.index().unwrap_or_default(),
    };
    PARSED[built_in]
        .get_or_init(|| parse(face_bytes(face)))
        .as_ref()
        .map_err(|reason| PaintError::Face { face, reason: reason.clone() })
}

fn parse(bytes: &'static [u8]) -> Result<FaceData, String> {
    let font = ttf_parser::Face::parse(bytes, 0).map_err(|e| e.to_string())?;
    let name = font
        .names()
        .into_iter()
        .filter(|n| n.name_id == ttf_parser::name_id::POST_SCRIPT_NAME)
        .find_map(|n| n.to_string())
        .ok_or("it has no PostScript name")?;
    Ok(data(bytes, font, name, Outlines::TrueType))
}

fn of_own(own: OwnFont) -> FaceData {
    let Font { bytes, parsed, outlines, name, .. } = own.font();
    data(bytes, parsed.clone(), name.clone(), *outlines)
}

fn data(bytes: &'static [u8], font: ttf_parser::Face<'static>, name: String, outlines: Outlines) -> FaceData {
    let em = f64::from(font.units_per_em());
    let widths = (0..font.number_of_glyphs())
        .map(|g| (f64::from(font.glyph_hor_advance(GlyphId(g)).unwrap_or(0)) * 1000.0 / em).trunc())
        .collect();
    FaceData { bytes, font, name, outlines, widths }
}
