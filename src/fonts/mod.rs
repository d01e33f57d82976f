//! Fonts of a maker's own: read, checked, and ready to shape, measure and embed with.
//!
//! A font that has been read stays for as long as the process, as the built-in faces do, and once only: all booklets
//! share it, and a run that goes through a catalogue reads no file twice.

mod fault;

pub use fault::Fault;

use harfrust::ShapePlan;
use serde::{Serialize, Serializer};
use sha2::{Digest, Sha256};
use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::fmt;
use std::sync::{Mutex, OnceLock, PoisonError};
use subsetter::GlyphRemapper;
use ttf_parser::Tag;

/// Largest font file, in bytes: those with all Latin, Greek and Cyrillic letters have half a million.
pub const LARGEST_FONT: u64 = 10_000_000;
/// Writing systems that are shaped each in its own way: Latin, Greek, Cyrillic.
pub const WRITINGS: usize = 3;
/// Longest PostScript name, in bytes (OpenType 1.9, table `name`, name 6).
const LONGEST_NAME: usize = 63;

/// How the outlines of a font are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outlines {
    /// In a table `glyf`.
    TrueType,
    /// In a table `CFF `.
    Cff,
}

/// A font that can be printed with and stand in a file.
pub struct Font {
    /// The file.
    pub bytes: &'static [u8],
    /// The parsed font.
    pub parsed: ttf_parser::Face<'static>,
    /// The font to shape with.
    pub shaping: harfrust::Font,
    /// How its outlines are written.
    pub outlines: Outlines,
    /// Its PostScript name.
    pub name: String,
    /// SHA-256 of the file, as hexadecimal.
    pub hash: String,
    /// What a file that holds it calls it: short, and like that of no other.
    pub label: String,
    /// How to shape with it, by writing system; made when it is first asked for.
    pub plans: [OnceLock<ShapePlan>; WRITINGS],
}

/// What a font works out when it is first asked for is whole or not there, whatever has gone wrong meanwhile.
impl std::panic::RefUnwindSafe for Font {}

/// A font of the maker's own. What is equal is the same file, wherever it was read.
#[derive(Clone, Copy)]
pub struct OwnFont(&'static Font);

impl std::ops::Deref for OwnFont {
    type Target = Font;

    fn deref(&self) -> &'static Font {
        self.0
    }
}

impl OwnFont {
    /// The font itself.
    #[must_use]
    pub fn font(self) -> &'static Font {
        self.0
    }

    /// Whether it has a character.
    #[must_use]
    pub fn has(self, c: char) -> bool {
        self.parsed.glyph_index(c).is_some_and(|glyph| glyph.0 != 0)
    }
}

impl PartialEq for OwnFont {
    fn eq(&self, other: &OwnFont) -> bool {
        std::ptr::eq(self.0, other.0)
    }
}
impl Eq for OwnFont {}
impl Ord for OwnFont {
    fn cmp(&self, other: &OwnFont) -> Ordering {
        self.hash.cmp(&other.hash)
    }
}
impl PartialOrd for OwnFont {
    fn partial_cmp(&self, other: &OwnFont) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl std::hash::Hash for OwnFont {
    fn hash<H: std::hash::Hasher>(&self, state: &mut H) {
        std::ptr::from_ref(self.0).hash(state);
    }
}
impl fmt::Debug for OwnFont {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.name, self.label)
    }
}
impl Serialize for OwnFont {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.label)
    }
}

/// Fonts read so far, by the hash of their files.
static READ: Mutex<BTreeMap<String, OwnFont>> = Mutex::new(BTreeMap::new());

/// The font in a file.
///
/// # Errors
/// When it is none that a booklet can hold.
pub fn read(bytes: Vec<u8>) -> Result<OwnFont, Fault> {
    let hash: String = Sha256::digest(&bytes).iter().map(|byte| format!("{byte:02x}")).collect();
    let mut known = READ.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(font) = known.get(&hash) {
        return Ok(*font);
    }
    sound(&bytes)?;
    let bytes: &'static [u8] = Vec::leak(bytes);
    let parsed = ttf_parser::Face::parse(bytes, 0).map_err(|_| Fault::Damaged)?;
    let shaping = harfrust::Font::new(bytes, 0).ok_or(Fault::Damaged)?;
    let outlines = outlines(&parsed).ok_or(Fault::NoOutlines)?;
    let name = postscript_name(&parsed);
    let label = format!("Own{}", &hash[..12]);
    let plans = [const { OnceLock::new() }; WRITINGS];
    let font = Font { bytes, parsed, shaping, outlines, name, hash, label, plans };
    let font = OwnFont(Box::leak(Box::new(font)));
    known.insert(font.hash.clone(), font);
    Ok(font)
}

/// Whether a booklet can hold the font in a file.
fn sound(bytes: &[u8]) -> Result<(), Fault> {
    match bytes.get(..4) {
        Some(b"ttcf") => return Err(Fault::Collection),
        Some(b"wOFF" | b"wOF2") => return Err(Fault::ForTheWeb),
        Some([0, 1, 0, 0] | b"OTTO" | b"true") => {}
        _ => return Err(Fault::NotAFont),
    }
    let font = ttf_parser::Face::parse(bytes, 0).map_err(|_| Fault::Damaged)?;
    let ends = font
        .raw_face()
        .table_records
        .into_iter()
        .map(|table| u64::from(table.offset) + u64::from(table.length));
    if ends.max().is_some_and(|end| end > bytes.len() as u64) {
        return Err(Fault::Damaged);
    }
    if font.raw_face().table(Tag::from_bytes(b"fvar")).is_some() {
        return Err(Fault::Variable);
    }
    outlines(&font).ok_or(Fault::NoOutlines)?;
    permitted(&font)?;
    harfrust::Font::new(bytes.to_vec(), 0).ok_or(Fault::Damaged)?;
    // Cutting it down shows that its outlines can be read.
    let all: Vec<u16> = (1..font.number_of_glyphs()).collect();
    subsetter::subset(bytes, 0, &GlyphRemapper::new_from_glyphs_sorted(&all)).map_err(|_| Fault::Damaged)?;
    Ok(())
}

fn outlines(font: &ttf_parser::Face) -> Option<Outlines> {
    let tables = font.tables();
    if tables.glyf.is_some() {
        return Some(Outlines::TrueType);
    }
    tables.cff.is_some().then_some(Outlines::Cff)
}

/// What the font's own bits say of embedding (OpenType 1.9, table `OS/2`, `fsType`).
fn permitted(font: &ttf_parser::Face) -> Result<(), Fault> {
    /// The exclusive uses: with none of them it may be installed.
    const RESTRICTED: u16 = 0x0002;
    const PREVIEW_AND_PRINT: u16 = 0x0004;
    const EDITABLE: u16 = 0x0008;
    const NO_SUBSETTING: u16 = 0x0100;
    const BITMAPS_ONLY: u16 = 0x0200;
    let table = font.raw_face().table(Tag::from_bytes(b"OS/2")).ok_or(Fault::NothingSaid)?;
    let bits = table.get(8..10).map(|b| u16::from_be_bytes([b[0], b[1]])).ok_or(Fault::NothingSaid)?;
    // Of several uses, which old fonts may name, the widest holds.
    if bits & RESTRICTED != 0 && bits & (PREVIEW_AND_PRINT | EDITABLE) == 0 {
        return Err(Fault::Restricted);
    }
    if bits & NO_SUBSETTING != 0 {
        return Err(Fault::OnlyWhole);
    }
    if bits & BITMAPS_ONLY != 0 {
        return Err(Fault::OnlyBitmaps);
    }
    Ok(())
}

/// The font's PostScript name, of characters that may stand in one.
fn postscript_name(font: &ttf_parser::Face) -> String {
    let names = font.names().into_iter();
    let given = names
        .filter(|n| n.name_id == ttf_parser::name_id::POST_SCRIPT_NAME)
        .find_map(|n| n.to_string())
        .unwrap_or_default();
    let good = |c: &char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
    let name: String = given.chars().filter(good).take(LONGEST_NAME).collect();
    if name.is_empty() { "Font".to_owned() } else { name }
}

#[cfg(test)]
mod tests;
