//! The linked table of contents: a line a section, with leader dots to its page number.

use super::fragment::{Fragment, LinkTo, OpenLink, OpenNumber, Slab, line};
use super::setter::{Setter, baseline, glyph_item};
use super::{NodeId, Role};
use crate::booklet::Text;
use crate::booklet::drawing::{Align, Segment, Stroke};
use crate::units::{Mm, Point, Size};

impl Setter<'_> {
    /// The contents; their page numbers are filled in when the pages are known.
    pub fn contents(&mut self, width: Mm, parent: NodeId) -> Vec<Slab> {
        let style = self.sheet.body;
        let width = width.min(self.sheet.measure());
        let contents = self.tree.add(parent, Role::Contents);
        let number_room = self.shaper.width(style.face, "000", style.size);
        let how = self.plain();
        let listed: Vec<_> =
            self.booklet.sections.iter().filter(|s| s.listed && !s.title.is_empty()).collect();
        let mut slabs = Vec::new();
        for section in listed {
            let item = self.tree.add(contents, Role::ContentsItem);
            let reference = self.tree.add(item, Role::Reference);
            let link = self.tree.add(reference, Role::Link);
            let text = Text::plain(&section.title);
            let words = self.block(&text, &style, width - number_room * 2.0, how, Align::Start, link);
            let pad = style.leading * 0.05;
            let mut piece = Fragment { height: words.height + pad * 2.0, ..Fragment::default() };
            let last_line = words.height - style.leading + pad;
            let y = last_line + baseline(&style);
            let ended = last_line_end(
                &words,
                self.shaper.width(style.face, &section.title, style.size),
                style.leading,
            );
            piece.absorb(words, Mm::ZERO, pad);
            let from = Point { x: ended + Mm(2.0), y };
            let to = Point { x: width - number_room - Mm(1.5), y };
            if to.x > from.x {
                let mut dots = line(from, to, self.sheet.muted, Mm(0.25));
                let round =
                    |s: Stroke| Stroke { dash: vec![Mm(0.0), self.sheet.grown(1.6)], round: true, ..s };
                dots.stroke = dots.stroke.map(round);
                // Dots start at multiples from the right, so that those of all lines stand under each other.
                let step = self.sheet.grown(1.6);
                let count = ((to.x - from.x) / step).floor();
                dots.segments[0] = Segment::Move(Point { x: to.x - step * count, y });
                piece.rule(dots);
            }
            let at = Point { x: width, y };
            piece.numbers.push(OpenNumber { item: piece.items.len(), section: section.name.clone() });
            piece.items.push(glyph_item(style.face, style.size, style.colour, at, Vec::new(), link));
            piece.links.push(OpenLink {
                at: Point::default(),
                size: Size { width, height: piece.height },
                to: LinkTo::Section(section.name.clone()),
                node: link,
                alt: section.title.clone(),
            });
            slabs.push(Slab { fragment: piece, ..Slab::default() });
        }
        if let Some(first) = slabs.first_mut() {
            first.before = style.leading * 0.4;
            first.keep_next = true;
        }
        if let Some(last) = slabs.last_mut() {
            last.after = style.leading * 0.6;
            last.keep_next = false;
        }
        slabs
    }
}

/// Where the last line of an entry ends: its own width when the title stands on one line, else unknown, so
/// that dots begin late.
fn last_line_end(words: &Fragment, whole: Mm, leading: Mm) -> Mm {
    if words.height.0 < leading.0 * 1.5 { whole } else { whole * 0.7 }
}
