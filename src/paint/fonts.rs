//! Fonts of one document: which glyphs are used, and the fonts cut down to them.

use super::error::PaintError;
use super::faces::face;
use crate::drawn::Face;
use crate::fonts::Outlines;
use crate::layout::{DisplayList, Page};
use crate::layout::{Glyph, Glyphs, Paint};
use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use subsetter::GlyphRemapper;

/// Flags of a font descriptor (ISO 32000-1, table 123).
const SYMBOLIC: i64 = 1 << 2;
const ITALIC: i64 = 1 << 6;

/// The glyphs used of a face: new number and text, by the number in the whole face.
#[derive(Default)]
struct Used {
    glyphs: BTreeMap<u16, (u16, String)>,
    /// New numbers by the number in the whole face, 0 for glyphs that are not used.
    numbers: Vec<u16>,
}

/// The fonts of a document: the built-in ones first, then the maker's by their hashes.
pub(super) struct Fonts {
    used: BTreeMap<Face, Used>,
}

impl Fonts {
    /// Collects the glyphs that a display list uses.
    ///
    /// # Errors
    /// At the first glyph that its face does not have.
    pub(super) fn collect(list: &DisplayList) -> Result<Fonts, PaintError> {
        let mut texts: BTreeMap<Face, Vec<Option<String>>> = BTreeMap::new();
        for page in &list.pages {
            for line in lines(page) {
                let face_data = face(line.face)?;
                let texts = texts.entry(line.face).or_default();
                texts.resize(face_data.glyphs(), None);
                for glyph in &line.glyphs {
                    if !face_data.has(glyph.id) {
                        return Err(missing(page, line, glyph));
                    }
                    let known = &mut texts[usize::from(glyph.id)];
                    if known.as_deref() == Some(glyph.text.as_str()) {
                        continue;
                    }
                    let text = readable(&glyph.text);
                    // Where characters share a glyph the least is kept, whatever order they come in.
                    match known {
                        Some(kept) if !kept.is_empty() && (text.is_empty() || text >= *kept) => {}
                        _ => *known = Some(text),
                    }
                }
            }
        }
        let used = texts.into_iter().map(|(face, texts)| {
            let mut used = Used { glyphs: BTreeMap::new(), numbers: vec![0; texts.len()] };
            let met = texts.into_iter().enumerate().filter_map(|(id, text)| Some((id, text?)));
            for (new, (id, mut text)) in (1..).zip(met) {
                if text.is_empty() {
                    // A glyph that stands for nothing by itself: PDF/A asks for a character all the
                    // same, and the word joiner is read as nothing.
                    text.push('\u{2060}');
                }
                used.numbers[id] = new;
                used.glyphs.insert(id as u16, (new, text));
            }
            (face, used)
        });
        Ok(Fonts { used: used.collect() })
    }

    /// The numbers of a face's glyphs in the document's font, by their numbers in the whole face; 0 for glyphs that are
    /// not in it.
    pub(super) fn numbers(&self, face: Face) -> &[u16] {
        self.used.get(&face).map_or(&[], |used| &used.numbers)
    }

    /// The fonts that are used, cut down, as objects of the document: what the pages' resources name.
    ///
    /// # Errors
    /// When a built-in face cannot be cut down.
    pub(super) fn embed(&self, doc: &mut Document) -> Result<Dictionary, PaintError> {
        let mut fonts = Dictionary::new();
        for (face, used) in &self.used {
            if !used.glyphs.is_empty() {
                fonts.set(face.name(), embed(doc, *face, used)?);
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

/// Adds a font cut down to its used glyphs: glyph numbers of two bytes lead straight to glyphs, as PDF/A
/// asks (ISO 19005-2, 6.2.11.3.2), with the text that they stand for and a list of those there are (6.2.11.4.2).
fn embed(doc: &mut Document, face_name: Face, used: &Used) -> Result<ObjectId, PaintError> {
    let data = face(face_name)?;
    let old: Vec<u16> = used.glyphs.keys().copied().collect();
    let program = subsetter::subset(data.bytes, 0, &GlyphRemapper::new_from_glyphs_sorted(&old))
        .map_err(|e| PaintError::Face { face: face_name, reason: e.to_string() })?;
    let program = match data.outlines {
        Outlines::TrueType => without_tables(&program, &[b"name", b"post"]).unwrap_or(program),
        // The bare table, whose numbers lead straight to glyphs (ISO 32000-1, table 126).
        Outlines::Cff => {
            let bare = table(&program, b"CFF ").map(<[u8]>::to_vec);
            let reason = "its outlines cannot be cut down".to_owned();
            bare.ok_or(PaintError::Face { face: face_name, reason })?
        }
    };
    let name = Object::Name(format!("{}+{}", tag(&old), data.name).into_bytes());
    let widths = old.iter().map(|glyph| Object::Integer(data.width(*glyph) as i64)).collect();
    let about = match data.outlines {
        Outlines::TrueType => dictionary! { "Length1" => program.len() as i64 },
        Outlines::Cff => dictionary! { "Subtype" => "CIDFontType0C" },
    };
    let program = doc.add_object(Stream::new(about, program));
    let present = doc.add_object(Stream::new(Dictionary::new(), present(old.len())));
    let text = doc.add_object(Stream::new(Dictionary::new(), characters(used).into_bytes()));
    let mut descriptor = descriptor(&data.font, name.clone());
    let (file, kind) = match data.outlines {
        Outlines::TrueType => ("FontFile2", "CIDFontType2"),
        Outlines::Cff => ("FontFile3", "CIDFontType0"),
    };
    descriptor.set(file, program);
    descriptor.set("CIDSet", present);
    let descriptor = doc.add_object(descriptor);
    let mut glyphs = dictionary! {
        "Type" => "Font",
        "Subtype" => kind,
        "BaseFont" => name.clone(),
        "CIDSystemInfo" => dictionary! {
            "Registry" => Object::string_literal("Adobe"),
            "Ordering" => Object::string_literal("Identity"),
            "Supplement" => 0,
        },
        "CIDToGIDMap" => "Identity",
        "DW" => 1000,
        "W" => vec![1.into(), Object::Array(widths)],
        "FontDescriptor" => descriptor,
    };
    if data.outlines == Outlines::Cff {
        glyphs.remove(b"CIDToGIDMap");
    }
    let glyphs = doc.add_object(glyphs);
    Ok(doc.add_object(dictionary! {
        "Type" => "Font",
        "Subtype" => "Type0",
        "BaseFont" => name,
        "Encoding" => "Identity-H",
        "ToUnicode" => text,
        "DescendantFonts" => vec![glyphs.into()],
    }))
}

/// What a reader needs to know of a font as a whole, in thousandths of the size (ISO 32000-1, 9.8).
fn descriptor(font: &ttf_parser::Face, name: Object) -> Dictionary {
    let scaled = |v: i16| (f64::from(v) * 1000.0 / f64::from(font.units_per_em())).round() as i64;
    let bounds = font.global_bounding_box();
    // No table holds the thickness of upright strokes; this is how writers of PDF commonly put it.
    let stem = 50.0 + (f64::from(font.weight().to_number()) / 65.0).powi(2);
    let slant = f64::from(font.italic_angle()).round() as i64;
    // All characters go through the font's own numbers: it is symbolic. An italic face says so too.
    let flags = SYMBOLIC | if slant == 0 { 0 } else { ITALIC };
    dictionary! {
        "Type" => "FontDescriptor",
        "FontName" => name,
        "Flags" => flags,
        "FontBBox" => [bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max]
            .map(|v| Object::Integer(scaled(v)))
            .to_vec(),
        "ItalicAngle" => slant,
        "Ascent" => scaled(font.ascender()),
        "Descent" => scaled(font.descender()),
        "CapHeight" => scaled(font.capital_height().unwrap_or(font.ascender())),
        "StemV" => stem.round() as i64,
    }
}

/// The list of the glyphs there are, a bit each: the box for missing ones and all that are used.
fn present(used: usize) -> Vec<u8> {
    let glyphs = used + 1;
    let mut bits = vec![0xff; glyphs / 8];
    if !glyphs.is_multiple_of(8) {
        bits.push(0xff << (8 - glyphs % 8));
    }
    bits
}

/// The map from glyphs to characters (ISO 32000-1, 9.10.3), with at most a hundred a list.
fn characters(used: &Used) -> String {
    let mut map = String::from(
        "/CIDInit/ProcSet findresource begin\n12 dict begin\nbegincmap\n/CIDSystemInfo<</Registry(Adobe)\
         /Ordering(UCS)/Supplement 0>>def\n/CMapName/Adobe-Identity-UCS def\n/CMapType 2 def\n\
         1 begincodespacerange\n<0000><FFFF>\nendcodespacerange\n",
    );
    let all: Vec<&(u16, String)> = used.glyphs.values().collect();
    for list in all.chunks(100) {
        // Writing to a string cannot fail.
        let _ = writeln!(map, "{} beginbfchar", list.len());
        for (glyph, text) in list {
            let _ = write!(map, "<{glyph:04X}><");
            for unit in text.encode_utf16() {
                let _ = write!(map, "{unit:04X}");
            }
            map.push_str(">\n");
        }
        map.push_str("endbfchar\n");
    }
    map.push_str("endcmap\nCMapName currentdict/CMap defineresource pop\nend\nend");
    map
}

/// A table of a font.
fn table<'f>(font: &'f [u8], name: &[u8; 4]) -> Option<&'f [u8]> {
    let raw = ttf_parser::RawFace::parse(font, 0).ok()?;
    raw.table(ttf_parser::Tag::from_bytes(name))
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

/// Six capitals that tell subsets apart (ISO 32000-1, 9.6.4), from the glyphs they hold.
fn tag(glyphs: &[u16]) -> String {
    let bytes: Vec<u8> = glyphs.iter().flat_map(|g| g.to_be_bytes()).collect();
    Sha256::digest(&bytes).iter().take(6).map(|b| char::from(b'A' + b % 26)).collect()
}
