//! The linked table of contents: a line a section, with leader dots to its page number.

use super::fragment::{Fragment, LinkTo, OpenLink, OpenNumber, Slab, line};
use super::index::LEAST;
use super::setter::{Setter, baseline, glyph_item};
use super::{NodeId, Role};
use crate::booklet::{Block, Text};
use crate::drawn::{Align, Stroke};
use crate::units::{Mm, Point, Size};

/// Thickness of a leader dot.
const DOT: Mm = Mm(0.25);
/// From dot to dot; grows with the type.
const DOTS_APART: Mm = Mm(1.6);
/// Between a title and its first dot, at least.
const DOTS_AFTER: Mm = Mm(2.0);
/// Between the last dot and the room for the page number.
const DOTS_BEFORE: Mm = Mm(1.5);

/// A line of the contents.
#[derive(Clone, Debug)]
pub(super) struct Listed {
    /// What it says.
    pub title: String,
    /// The place that it leads to, by name: a section, or what floats.
    pub name: String,
}

impl Setter<'_> {
    /// The contents; their page numbers are filled in when the pages are known.
    pub fn contents(&mut self, width: Mm, parent: NodeId) -> Vec<Slab> {
        let contents = self.tree.add(parent, Role::Contents);
        let booklet = self.booklet;
        let mut listed: Vec<Listed> = Vec::new();
        for (index, section) in booklet.sections.iter().enumerate() {
            let before = self.listed.iter().filter(|(before, _)| *before == index);
            listed.extend(before.map(|(_, listed)| listed.clone()));
            // What holds the contents is open before the reader.
            let holds_them = section.blocks.iter().any(|block| matches!(block, Block::Contents));
            if section.listed && !section.title.is_empty() && !holds_them {
                let (title, name) = (section.title.clone(), section.name.clone());
                listed.push(Listed { title, name });
            }
        }
        // What stands behind the last section.
        let behind = self.listed.iter().filter(|(before, _)| *before >= booklet.sections.len());
        listed.extend(behind.map(|(_, listed)| listed.clone()));
        let tablet = self.booklet.setting.tablet;
        let column = if tablet { self.index_column(width) } else { width };
        let entries: Vec<Fragment> =
            listed.iter().map(|listed| self.contents_entry(listed, column, contents)).collect();
        let mut slabs: Vec<Slab> = if tablet {
            self.in_two_columns(entries, width)
        } else {
            entries.into_iter().map(|fragment| Slab { fragment, ..Slab::default() }).collect()
        };
        let leading = self.sheet.body.leading;
        if let Some(first) = slabs.first_mut() {
            first.before = leading * 0.4;
            first.keep_next = true;
        }
        // No entry stands alone at the head of a page.
        if let [.., before, _] = &mut slabs[..] {
            before.keep_next = true;
        }
        if let Some(last) = slabs.last_mut() {
            last.after = leading * 0.6;
            last.keep_next = false;
        }
        slabs
    }

    /// One line of the contents, or more for a long title: all of it is a link.
    fn contents_entry(&mut self, listed: &Listed, width: Mm, contents: NodeId) -> Fragment {
        let Listed { title, name } = listed;
        let style = self.sheet.body;
        let width = width.min(self.sheet.measure());
        let number_room = self.shaper.width(style.face, "000", style.size);
        let how = self.plain();
        let item = self.tree.add(contents, Role::ContentsItem);
        let reference = self.tree.add(item, Role::Reference);
        let link = self.tree.add(reference, Role::Link);
        let text = Text::plain(title);
        let words = self.block(&text, &style, width - number_room * 2.0, how, Align::Start, link);
        // On a screen an entry is to be pressed.
        let pad = match self.booklet.setting.tablet {
            true => ((LEAST - words.height) / 2.0).max(style.leading * 0.05),
            false => style.leading * 0.05,
        };
        let mut piece = Fragment { height: words.height + pad * 2.0, ..Fragment::default() };
        let y = words.height - style.leading + pad + baseline(&style);
        let whole = self.shaper.width(style.face, title, style.size);
        let ended = last_line_end(&words, whole, style.leading);
        piece.absorb(words, Mm::ZERO, pad);
        self.leader(&mut piece, ended + DOTS_AFTER, width - number_room - DOTS_BEFORE, y);
        let at = Point { x: width, y };
        piece.numbers.push(OpenNumber { item: piece.items.len(), section: name.clone() });
        piece.items.push(glyph_item(style.face, style.size, style.colour, at, Vec::new(), link));
        piece.links.push(OpenLink {
            at: Point::default(),
            size: Size { width, height: piece.height },
            to: LinkTo::Section(name.clone()),
            node: link,
            alt: title.clone(),
        });
        piece
    }

    /// Dots from the title to its number, at multiples from the right, so that those of all lines stand
    /// under each other.
    fn leader(&self, piece: &mut Fragment, from: Mm, to: Mm, y: Mm) {
        if to <= from {
            return;
        }
        let step = self.sheet.grown(DOTS_APART);
        let first = to - step * ((to - from) / step).floor();
        let mut dots = line(Point { x: first, y }, Point { x: to, y }, self.sheet.muted, DOT);
        dots.stroke = dots.stroke.map(|s| Stroke { dash: vec![Mm::ZERO, step], round: true, ..s });
        piece.rule(dots);
    }
}

/// Where the last line of an entry ends: its own width when the title stands on one line, else unknown, so
/// that dots begin late.
fn last_line_end(words: &Fragment, whole: Mm, leading: Mm) -> Mm {
    if words.height.0 < leading.0 * 1.5 { whole } else { whole * 0.7 }
}
