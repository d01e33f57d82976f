//! Cells of several parts, some with a box to tick before them: set one after another, wrapped by part.

use crate::booklet::CellPart;
use crate::drawn::Align;
use crate::layout::faces::cap_height;
use crate::layout::fragment::Fragment;
use crate::layout::setter::{Ink, Setter};
use crate::layout::sheet::Style;
use crate::layout::{NodeId, Role};
use crate::units::{Mm, Point};

impl Setter<'_> {
    /// Sets the parts on lines of this width, in reading order: box, then its text.
    pub fn parts(&mut self, parts: &[CellPart], style: &Style, width: Mm, node: NodeId) -> Fragment {
        let gap = self.part_gap(style);
        let side = self.tick_side();
        let mut piece = Fragment::default();
        let (mut x, mut y) = (Mm::ZERO, Mm::ZERO);
        let line = style.leading.max(side + style.size.mm() * 0.3);
        let mut words_node = node;
        for (i, part) in parts.iter().enumerate() {
            let wide = self.part_width(part, style);
            if x > Mm::ZERO && x + wide > width {
                (x, y) = (Mm::ZERO, y + line);
            }
            let middle = y + style.leading / 2.0;
            let mut start = x;
            if let Some(tick) = &part.tick {
                let tick = self.tick(tick, node);
                piece.absorb(tick, x, middle - side / 2.0);
                start = x + side + style.size.mm() * 0.35;
            }
            // Words between boxes are elements, so that each box is read before what it is for.
            if part.tick.is_some() || (i == 0 && parts.iter().any(|p| p.tick.is_some())) {
                words_node = self.tree.add(node, Role::Span);
            }
            let baseline = middle + cap_height(style.face, style.size) / 2.0;
            let at = Point { x: start, y: baseline };
            let words = part.text.words();
            let items = self.label(
                Ink { face: style.face, size: style.size, colour: style.colour },
                &words,
                at,
                Align::Start,
                words_node,
            );
            piece.items.extend(items);
            x = x + wide + gap;
        }
        piece.height = y + style.leading.max(side);
        piece
    }

    /// Space between parts on a line.
    pub fn part_gap(&self, style: &Style) -> Mm {
        style.size.mm() * 0.6
    }

    /// How wide one part is.
    pub fn part_width(&mut self, part: &CellPart, style: &Style) -> Mm {
        let text = self.shaper.width(style.face, &part.text.words(), style.size);
        match part.tick {
            Some(_) => self.tick_side() + style.size.mm() * 0.35 + text,
            None => text,
        }
    }
}
