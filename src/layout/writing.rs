//! Lines to write on.

use super::Role;
use super::fragment::{Fragment, Slab, line};
use super::setter::Setter;
use super::tree::Tree;
use crate::booklet::WritingLines;
use crate::drawn::Align;
use crate::units::{Mm, Point};

/// How far apart the lines are, and how wide: ruled paper has 7 to 9 mm (common practice, no source).
const APART: Mm = Mm(8.5);
const WIDTH: Mm = Mm(0.15);

impl Setter<'_> {
    /// As many lines as a height has room for. Where these are too few they are left out, or the least of them are there.
    pub fn writing_lines(&mut self, lines: &WritingLines, height: Mm) -> Slab {
        let WritingLines { words, least, needed, most, alt } = lines;
        let mut piece = Fragment::default();
        let words_height = if words.0.is_empty() { Mm::ZERO } else { self.sheet.body.leading };
        let room = ((height - words_height) / APART).floor().max(0.0) as usize;
        let count = if *needed { room.max(*least) } else { room }.min(*most);
        let lowest = if *needed { words_height + APART * *least as f64 } else { Mm::ZERO };
        if count >= *least {
            if !words.0.is_empty() {
                let (style, how) = (self.sheet.body, self.plain());
                let node = self.tree.add(Tree::ROOT, Role::Paragraph);
                piece = self.block(words, &style, self.sheet.width(), how, Align::Start, node);
            }
            let node = self.tree.add(Tree::ROOT, Role::Figure { alt: alt.clone() });
            for _ in 0..count {
                piece.height += APART;
                let y = piece.height - WIDTH;
                let ends = [Point { x: Mm::ZERO, y }, Point { x: self.sheet.width(), y }];
                piece.path(node, None, line(ends[0], ends[1], self.sheet.muted, WIDTH));
            }
        }
        Slab { least: Some(lowest), before: APART / 2.0, ..Slab::spaced(piece, Mm::ZERO) }
    }
}
