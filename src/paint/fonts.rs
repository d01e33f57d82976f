//! Fonts of one document: which glyphs are used, and the fonts cut down to them.

use super::error::PaintError;
use super::faces::face;
use crate::booklet::drawing::Face;
use crate::layout::{DisplayList, Page};
use crate::layout::{Glyph, Glyphs, Paint};
use printpdf::{Codepoint, Op, PdfFontHandle, TextItem};
use printpdf::{FontId, FontMetrics, FontType, ParsedFont, PdfFont, PdfFontMetricsStub};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use subsetter::GlyphRemapper;

/// The glyphs used of a face: new number and text, by the number in the whole face.
#[derive(Default)]
struct Used {
    glyphs: BTreeMap<u16, (u16, String)>,
    /// New numbers by the number in the whole face, 0 for glyphs that are not used.
    numbers: Vec<u16>,
}

/// The fonts of a document.
pub(super) struct Fonts {
    used: [Used; Face::ALL.len()],
}

impl Fonts {
    /// Collects the glyphs that a display list uses.
    ///
    /// # Errors
    /// At the first glyph that its face does not have.
    pub(super) fn collect(list: &DisplayList) -> Result<Fonts, PaintError> {
        let mut used: [Used; Face::ALL.len()] = Default::default();
        for page in &list.pages {
            for line in lines(page) {
                let face_data = face(line.face)?;
                for glyph in &line.glyphs {
                    if !face_data.has(glyph.id) {
                        return Err(missing(page, line, glyph));
                    }
                    let entry = used[line.face.index()].glyphs.entry(glyph.id).or_default();
                    if entry.1 == *glyph.text {
                        continue;
                    }
                    let text = readable(&glyph.text);
                    // Where characters share a glyph the least is kept, whatever order they come in.
                    if entry.1.is_empty() || (!text.is_empty() && text < entry.1) {
                        entry.1 = text;
                    }
                }
            }
        }
        for face in &mut used {
            let last = face.glyphs.last_key_value().map_or(0, |(id, _)| usize::from(*id));
            face.numbers = vec![0; last + 1];
            for (new, (id, (number, text))) in (1..).zip(face.glyphs.iter_mut()) {
                *number = new;
                face.numbers[usize::from(*id)] = new;
                if text.is_empty() {
                    // A glyph that stands for nothing by itself: PDF/A asks for a character all the
                    // same, and the word joiner is read as nothing.
                    text.push('\u{2060}');
                }
            }
        }
        Ok(Fonts { used })
    }

    /// A glyph's number in the document's font.
    pub(super) fn number(&self, face: Face, id: u16) -> Option<u16> {
        let new = *self.used[face.index()].numbers.get(usize::from(id))?;
        (new != 0).then_some(new)
    }

    /// Operations that show each used glyph once: from them printpdf learns which fonts there are and
    /// what their glyphs stand for.
    pub(super) fn roll(&self) -> Vec<Op> {
        let mut ops = vec![Op::StartTextSection];
        for face in Face::ALL {
            let glyphs = self.used[face.index()].glyphs.values();
            let all = glyphs.map(|(new, text)| Codepoint::with_cid(*new, 0.0, text.clone())).collect();
            let font = PdfFontHandle::External(FontId(face.name().to_owned()));
            ops.push(Op::SetFont { font, size: printpdf::Pt(1.0) });
            ops.push(Op::ShowText { items: vec![TextItem::GlyphIds(all)] });
        }
        ops.push(Op::EndTextSection);
        ops
    }

    /// The fonts that are used, cut down, in printpdf's form.
    ///
    /// # Errors
    /// When a built-in face cannot be cut down.
    pub(super) fn subset(&self) -> Result<Vec<(FontId, PdfFont)>, PaintError> {
        let mut fonts = Vec::new();
        for face in Face::ALL {
            let used = &self.used[face.index()];
            if !used.glyphs.is_empty() {
                let font = subset(face, used)?;
                fonts.push((FontId(face.name().to_owned()), PdfFont::new(font)));
            }
        }
        Ok(fonts)
    }
}

fn lines(page: &Page) -> impl Iterator<Item = &Glyphs> {
    page.items.iter().filter_map(|item| match &item.paint {
        Paint::Glyphs(glyphs) => Some(glyphs),
        Paint::Bead(_) | Paint::Path(_) | Paint::Image(_) => None,
    })
}

fn missing(page: &Page, line: &Glyphs, glyph: &Glyph) -> PaintError {
    PaintError::MissingGlyph {
        page: page.label.clone(),
        face: line.face,
        text: glyph.text.to_string(),
        line: line.glyphs.iter().map(|g| g.text.as_str()).collect(),
    }
}

/// The text that readers are given for a glyph: spaces that share the space's glyph are spaces, and
/// a soft hyphen that is shown is a hyphen.
fn readable(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '\u{a0}' | '\u{202f}' | '\u{2007}' | '\u{2009}' | '\n' | '\t' => ' ',
            '\u{ad}' | '\u{2011}' => '-',
            other => other,
        })
        .filter(|c| !matches!(c, '\0' | '\u{feff}' | '\u{fffe}'))
        .collect()
}

fn subset(face_name: Face, used: &Used) -> Result<ParsedFont, PaintError> {
    let data = face(face_name)?;
    let glyphs: Vec<u16> = used.glyphs.keys().copied().collect();
    let bytes = subsetter::subset(data.bytes, 0, &GlyphRemapper::new_from_glyphs_sorted(&glyphs))
        .map_err(|e| PaintError::Face { face: face_name, reason: e.to_string() })?;
    let bytes = without_tables(&bytes, &[b"name", b"post"]).unwrap_or(bytes);
    let font = &data.font;
    let bounds = font.global_bounding_box();
    let (rise, run) = slope(font);
    Ok(ParsedFont {
        font_name: Some(format!("{}+{}", tag(&glyphs), data.name)),
        font_index: 0,
        codepoint_to_glyph: BTreeMap::new(),
        glyph_widths: used
            .glyphs
            .iter()
            .map(|(old, (new, _))| (*new, font.glyph_hor_advance(ttf_parser::GlyphId(*old)).unwrap_or(0)))
            .collect(),
        units_per_em: font.units_per_em(),
        font_metrics: FontMetrics { ascent: font.ascender(), descent: font.descender() },
        font_type: FontType::TrueType,
        pdf_font_metrics: PdfFontMetricsStub {
            units_per_em: font.units_per_em(),
            x_min: bounds.x_min,
            y_min: bounds.y_min,
            x_max: bounds.x_max,
            y_max: bounds.y_max,
            caret_slope_rise: rise,
            caret_slope_run: run,
            us_weight_class: font.weight().to_number(),
        },
        original_bytes: bytes,
    })
}

/// A font without some of its tables: names and PostScript data, which an embedded font that is reached
/// by glyph numbers does not need (ISO 32000-1, 9.9). `None` for what is no font.
fn without_tables(font: &[u8], unneeded: &[&[u8; 4]]) -> Option<Vec<u8>> {
    let word = |at: usize| Some(u16::from_be_bytes(font.get(at..at + 2)?.try_into().ok()?));
    let long = |at: usize| Some(u32::from_be_bytes(font.get(at..at + 4)?.try_into().ok()?) as usize);
    let mut kept = Vec::new();
    for table in 0..usize::from(word(4)?) {
        let entry = font.get(12 + 16 * table..28 + 16 * table)?;
        if !unneeded.iter().any(|name| entry.starts_with(*name)) {
            let start = long(20 + 16 * table)?;
            kept.push((entry, font.get(start..start + long(24 + 16 * table)?)?));
        }
    }
    let count = kept.len() as u16;
    let exponent = count.checked_ilog2()?;
    let range = 16u16 << exponent;
    let mut out = font.get(..4)?.to_vec();
    for number in [count, range, exponent as u16, count * 16 - range] {
        out.extend(number.to_be_bytes());
    }
    let mut start = 12 + 16 * kept.len();
    for (entry, table) in &kept {
        out.extend(&entry[..8]);
        out.extend((start as u32).to_be_bytes());
        out.extend(&entry[12..16]);
        start += table.len().next_multiple_of(4);
    }
    for (_, table) in &kept {
        out.extend(*table);
        out.resize(out.len().next_multiple_of(4), 0);
    }
    Some(out)
}

/// Rise and run of the face's slant: tangent of the italic angle.
fn slope(font: &ttf_parser::Face) -> (i16, i16) {
    let run = (f64::from(-font.italic_angle())).to_radians().tan() * 1000.0;
    (1000, run.round() as i16)
}

/// Six capitals that tell subsets apart (ISO 32000-1, 9.6.4), from the glyphs they hold.
fn tag(glyphs: &[u16]) -> String {
    let bytes: Vec<u8> = glyphs.iter().flat_map(|g| g.to_be_bytes()).collect();
    Sha256::digest(&bytes).iter().take(6).map(|b| char::from(b'A' + b % 26)).collect()
}
