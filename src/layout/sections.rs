//! The whole booklet: section by section onto pages.

use super::contents::Listed;
use super::galley::Galley;
use super::lines::break_text;
use super::setter::Setter;
use super::{DisplayList, LayerNames, TextArea};
use crate::booklet::{Block, Booklet, Section, Text};
use crate::fonts::OwnFont;
use crate::units::Mm;
use rayon::prelude::*;
use serde::Serialize;

/// A character that no built-in font has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MissingGlyph {
    /// The character.
    pub character: char,
    /// The text that it was met in.
    pub text: String,
}

/// A character that a font of the maker's does not have, so that a built-in face stands in for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct StandIn {
    /// The font.
    pub font: OwnFont,
    /// The character.
    pub character: char,
}

/// Sets a booklet on pages.
///
/// # Errors
/// Every character that no built-in font has.
pub fn lay_out(booklet: &Booklet) -> Result<DisplayList, Vec<MissingGlyph>> {
    let mut setter = Setter::new(booklet);
    let foot_lines = setter.foot_lines();
    let content_foot = setter.sheet.foot - setter.sheet.running.leading * (foot_lines.len() as f64 + 0.8);
    let room = content_foot - setter.sheet.top;
    let mut galleys = galleys(booklet, room);
    for galley in &mut galleys {
        for (character, text) in std::mem::take(&mut galley.missing) {
            setter.shaper.missing.entry(character).or_insert(text);
        }
        setter.shaper.stand_ins.append(&mut galley.stand_ins);
    }
    let drafts = setter.pages(galleys, room);
    let (pages, bookmarks) = setter.finish(drafts, foot_lines);
    setter.missing_glyphs()?;
    let words = &booklet.words;
    let stand_ins = std::mem::take(&mut setter.shaper.stand_ins);
    let stand_ins = stand_ins.into_iter().map(|(font, character)| StandIn { font, character }).collect();
    Ok(DisplayList {
        meta: booklet.meta.clone(),
        pages,
        text_area: TextArea { top: setter.sheet.top, height: room },
        nodes: setter.tree.into_nodes(),
        bookmarks,
        stand_ins,
        layer_names: LayerNames {
            letters: words.layer_letters.clone(),
            marks: words.layer_marks.clone(),
            grid: words.layer_grid.clone(),
        },
    })
}

/// Every section set by itself, for pages of this height. Those of a booklet know nothing of each other, so both
/// processors set some; on a bench copy the names of boxes must differ.
fn galleys(booklet: &Booklet, room: Mm) -> Vec<Galley<'_>> {
    if booklet.setting.bench {
        let mut setter = Setter::new(booklet);
        return booklet.sections.iter().map(|section| setter.galley(section, room)).collect();
    }
    let set = |section| Setter::new(booklet).galley(section, room);
    let lists = |section: &Section| section.blocks.iter().any(|block| matches!(block, Block::Contents));
    let others = booklet.sections.par_iter().map(|section| (!lists(section)).then(|| set(section)));
    let mut galleys: Vec<Option<Galley>> = others.collect();
    // The contents say what stands apart from its section: how many lines that makes is known once the others are set,
    // their order once the pages are.
    let of = |(index, galley): (usize, &Option<Galley>)| Some((index + 1, galley.as_ref()?.listed.clone()?));
    let listed: Vec<(usize, Listed)> = galleys.iter().enumerate().filter_map(of).collect();
    for (section, galley) in booklet.sections.iter().zip(&mut galleys) {
        galley.get_or_insert_with(|| {
            let mut setter = Setter::new(booklet);
            setter.listed.clone_from(&listed);
            setter.galley(section, room)
        });
    }
    galleys.into_iter().flatten().collect()
}

impl Setter<'_> {
    /// Refuses what has been set where a character of it is in no face.
    ///
    /// # Errors
    /// Every such character.
    pub(super) fn missing_glyphs(&mut self) -> Result<(), Vec<MissingGlyph>> {
        let missing = std::mem::take(&mut self.shaper.missing);
        let missing: Vec<MissingGlyph> =
            missing.into_iter().map(|(character, text)| MissingGlyph { character, text }).collect();
        if missing.is_empty() { Ok(()) } else { Err(missing) }
    }

    /// The copyright line, broken where it must be; it leaves room for the page number. One of the maker's takes a line.
    fn foot_lines(&mut self) -> Vec<super::lines::SetLine> {
        if self.booklet.foot.is_some() {
            return vec![super::lines::SetLine::default()];
        }
        let style = self.sheet.running;
        let width = self.sheet.width() * 0.76;
        let how = self.plain();
        break_text(&mut self.shaper, &Text::plain(&self.booklet.foot_line), &style, width, how)
    }
}
