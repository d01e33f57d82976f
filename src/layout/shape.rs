//! Words become glyphs: kerning, ligatures, and another face where one lacks a character.
//! A word is shaped once on each thread.

use super::Glyph;
use super::faces::{chain, has, shaping, units};
use crate::booklet::Text;
use crate::drawn::{Face, OwnFaces};
use crate::fonts::{OwnFont, WRITINGS};
use crate::units::{Mm, Pt};
use harfrust::{Buffer, Direction, Font, Script, ShapeOptions, ShapePlan, ShaperFont, shape};
use rustc_hash::FxHashMap;
use smol_str::SmolStr;
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;
use std::sync::OnceLock;

/// Width of a narrow no-break space (U+202F) as a share of the word space: half is common practice in
/// typesetting, no source.
const NARROW_SPACE: f64 = 0.6;

/// A stretch of glyphs in one face.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stretch {
    /// The face that has the glyphs.
    pub face: Face,
    /// The glyphs.
    pub glyphs: Vec<Glyph>,
}

/// Shaped text.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Shaped {
    /// Its stretches, from left to right.
    pub stretches: Vec<Stretch>,
    /// How far it runs, in thousandths of the size.
    pub advance: f64,
}

impl Shaped {
    /// How far it runs at a size.
    pub fn width(&self, size: Pt) -> Mm {
        size.mm() * (self.advance / 1000.0)
    }
}

/// Most words remembered before all are forgotten, so that a long run over a catalogue stays small.
const REMEMBERED: usize = 20_000;

/// Words by how they are written.
type Words = FxHashMap<Box<str>, Rc<Shaped>>;

thread_local! {
    /// Words shaped on this thread, by face. What a word looks like depends on nothing else, so booklets share them.
    static KNOWN: RefCell<[Words; Face::ALL.len()]> = RefCell::default();
    /// Those shaped in a maker's font, also by the face that it is set in place of.
    static OWN: RefCell<FxHashMap<(Face, OwnFont), Words>> = RefCell::default();
}

/// Shapes words and remembers them.
#[derive(Default)]
pub(super) struct Shaper {
    buffer: Buffer,
    fonts: [Option<ShaperFont<'static, 'static>>; Face::ALL.len()],
    own_fonts: FxHashMap<OwnFont, ShaperFont<'static, 'static>>,
    /// The maker's fonts.
    pub own: OwnFaces,
    /// Characters that no face has, with the first text each was met in.
    pub missing: BTreeMap<char, String>,
    /// Characters that the maker's fonts do not have, and built-in faces stand in for.
    pub stand_ins: BTreeSet<(OwnFont, char)>,
}

impl Shaper {
    /// For a booklet with these fonts of the maker's.
    pub fn new(own: OwnFaces) -> Shaper {
        Shaper { own, ..Shaper::default() }
    }

    /// Shapes a text that is to stand on one line.
    pub fn shape(&mut self, face: Face, text: &str) -> Rc<Shaped> {
        let own = self.own.of(face);
        if let Some(known) = known(face, own, text) {
            if let Some(own) = own {
                self.note_stand_ins(own, &known, text);
            }
            return known;
        }
        let lacking = self.missing.len();
        let shaped = Rc::new(self.shape_new(face, text));
        if let Some(own) = own {
            self.note_stand_ins(own, &shaped, text);
        }
        // A word with a character that no face has must be noticed in every booklet.
        let whole = self.missing.len() == lacking && !text.chars().any(|c| self.missing.contains_key(&c));
        if whole {
            remember(face, own, text, &shaped);
        }
        shaped
    }

    /// Shapes a text that must stand in one face, as a number: the built-in one where the maker's lacks part of it.
    pub fn in_one_face(&mut self, face: Face, text: &str) -> Rc<Shaped> {
        let shaped = self.shape(face, text);
        if shaped.stretches.len() <= 1 {
            return shaped;
        }
        let own = std::mem::take(&mut self.own);
        let shaped = self.shape(face, text);
        self.own = own;
        shaped
    }

    /// Notes what of a word another face has been set in than the maker's.
    fn note_stand_ins(&mut self, own: OwnFont, shaped: &Shaped, text: &str) {
        if shaped.stretches.iter().any(|stretch| stretch.face != Face::Own(own)) {
            let lacking = text.chars().filter(|&c| !unseen(c) && !own.has(plain(c)));
            self.stand_ins.extend(lacking.map(|c| (own, c)));
        }
    }

    /// Gives characters that no face has the whole text they stand in, in place of the word.
    pub fn name_missing(&mut self, text: &Text) {
        for (c, met) in &mut self.missing {
            let words = text.words();
            if words.contains(*c) && words.contains(met.as_str()) {
                *met = words;
            }
        }
    }

    /// Width of a text on one line.
    pub fn width(&mut self, face: Face, text: &str, size: Pt) -> Mm {
        self.shape(face, text).width(size)
    }

    fn shape_new(&mut self, face: Face, text: &str) -> Shaped {
        let mut shaped = Shaped::default();
        for (used, part) in by_face(self.own.of(face), face, text, &mut self.missing) {
            let glyphs = self.glyphs(used, &part);
            shaped.advance += glyphs.iter().map(|g| g.advance).sum::<f64>();
            shaped.stretches.push(Stretch { face: used, glyphs });
        }
        shaped
    }

    fn glyphs(&mut self, face: Face, text: &str) -> Vec<Glyph> {
        let Some(font) = shaping(face) else { return Vec::new() };
        let units = units(face);
        let shaping = match face {
            Face::Own(own) => self.own_fonts.entry(own).or_insert_with(|| ShaperFont::new(font)),
            built_in => {
                let place = built_in.index().unwrap_or_default();
                self.fonts[place].get_or_insert_with(|| ShaperFont::new(font))
            }
        };
        let spaced: String = text.chars().map(plain).collect();
        let (plan, script) = plan(face, writing(text), font);
        let buffer = &mut self.buffer;
        buffer.clear();
        buffer.push_str(&spaced);
        buffer.set_direction(Direction::LeftToRight);
        buffer.set_script(Some(script));
        // The plan fits direction and script, so there is nothing to fail.
        if shape(shaping, buffer, ShapeOptions::new().plan(Some(plan))).is_err() {
            return Vec::new();
        }
        let infos = buffer.glyph_infos();
        let narrow: Vec<usize> = narrow_spaces(text);
        let mut glyphs: Vec<Glyph> = Vec::with_capacity(infos.len());
        for (i, (info, position)) in infos.iter().zip(buffer.glyph_positions()).enumerate() {
            let start = info.cluster as usize;
            let first = i == 0 || infos[i - 1].cluster != info.cluster;
            let end = infos[i + 1..].iter().map(|n| n.cluster as usize).find(|&c| c != start);
            let words = if first { spaced.get(start..end.unwrap_or(spaced.len())).unwrap_or("") } else { "" };
            let mut advance = f64::from(position.x_advance) * 1000.0 / units;
            if narrow.contains(&start) {
                advance *= NARROW_SPACE;
            }
            glyphs.push(Glyph { id: info.glyph_id as u16, advance, text: SmolStr::new(words) });
        }
        glyphs
    }
}

/// Byte places of narrow spaces in the text once every special space has become a plain one.
fn narrow_spaces(text: &str) -> Vec<usize> {
    let mut at = 0;
    let mut places = Vec::new();
    for c in text.chars() {
        if c == '\u{202f}' {
            places.push(at);
        }
        at += plain(c).len_utf8();
    }
    places
}

/// Splits a text where another face must stand in; a character that none has is noted.
fn by_face(
    own: Option<OwnFont>,
    face: Face,
    text: &str,
    missing: &mut BTreeMap<char, String>,
) -> Vec<(Face, String)> {
    let mut parts: Vec<(Face, String)> = Vec::new();
    for c in text.chars().filter(|&c| !unseen(c)) {
        let mut tried = own.map(Face::Own).into_iter().chain(chain(face).iter().copied());
        let used = tried.find(|&f| has(f, plain(c))).unwrap_or_else(|| {
            missing.entry(c).or_insert_with(|| text.to_owned());
            face
        });
        match parts.last_mut() {
            Some((last, part)) if *last == used => part.push(c),
            _ => parts.push((used, c.into())),
        }
    }
    parts
}

/// The character whose glyph shows another: special spaces show none.
fn plain(c: char) -> char {
    if matches!(c, '\u{a0}' | '\u{202f}' | '\t') { ' ' } else { c }
}

/// The word as it was shaped before on this thread.
fn known(face: Face, own: Option<OwnFont>, text: &str) -> Option<Rc<Shaped>> {
    match own {
        Some(own) => OWN.with_borrow(|all| all.get(&(face, own))?.get(text).cloned()),
        None => KNOWN.with_borrow(|all| all[face.index()?].get(text).cloned()),
    }
}

fn remember(face: Face, own: Option<OwnFont>, text: &str, shaped: &Rc<Shaped>) {
    let keep = |words: &mut Words| {
        if words.len() >= REMEMBERED {
            words.clear();
        }
        words.insert(text.into(), Rc::clone(shaped));
    };
    match (own, face.index()) {
        (Some(own), _) => OWN.with_borrow_mut(|all| keep(all.entry((face, own)).or_default())),
        (None, Some(place)) => KNOWN.with_borrow_mut(|all| keep(&mut all[place])),
        (None, None) => {}
    }
}

/// Characters that only guide line breaking and are not shown: soft hyphen, zero-width space and
/// no-break space, word joiner, line feed.
fn unseen(c: char) -> bool {
    matches!(c, '\u{ad}' | '\u{200b}' | '\u{feff}' | '\u{2060}' | '\n' | '\r')
}

#[derive(Clone, Copy)]
enum Writing {
    Latin,
    Greek,
    Cyrillic,
}

/// The writing system of a word: that of its first letter.
fn writing(text: &str) -> Writing {
    match text.chars().find(|c| c.is_alphabetic()) {
        Some('\u{370}'..='\u{3ff}' | '\u{1f00}'..='\u{1fff}') => Writing::Greek,
        Some('\u{400}'..='\u{52f}') => Writing::Cyrillic,
        _ => Writing::Latin,
    }
}

/// The shaping plan of a face for a writing system; made once in the process.
fn plan(face: Face, writing: Writing, font: &Font) -> (&'static ShapePlan, Script) {
    static PLANS: [[OnceLock<ShapePlan>; WRITINGS]; Face::ALL.len()] =
        [const { [const { OnceLock::new() }; WRITINGS] }; Face::ALL.len()];
    let script = match writing {
        Writing::Latin => Script::LATIN,
        Writing::Greek => Script::GREEK,
        Writing::Cyrillic => Script::CYRILLIC,
    };
    let plans = match face {
        Face::Own(own) => &own.font().plans,
        built_in => &PLANS[built_in.index().unwrap_or_default()],
    };
    let plan = plans[writing as usize]
        .get_or_init(|| ShapePlan::new(font, Direction::LeftToRight, Some(script), None, &[]));
    (plan, script)
}
