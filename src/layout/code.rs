//! Codes that cameras read: the code at the left, where they lead beside it. Words and code are one link, and the code
//! is no content of its own: it says to a camera what the link says to everyone.

use super::blocks::Slot;
use super::fragment::{Fragment, LinkTo, OpenLink, Slab};
use super::setter::Setter;
use super::{Artifact, Role, Standing};
use crate::booklet::Code;
use crate::booklet::drawing::QUIET_ZONE;
use crate::drawn::Align;
use crate::units::{Mm, Point, Size};

/// Between the white round a code and the words beside it.
const WORDS_APART: Mm = Mm(1.5);

impl Setter<'_> {
    /// A code with its words. The white round it reaches into the spaces round the block: its modules stand in line with
    /// other text.
    pub fn code(&mut self, code: &Code, slot: Slot) -> Slab {
        let side = code.drawing.size.width - QUIET_ZONE * 2.0;
        let node = self.tree.add(slot.parent, Role::Paragraph);
        let (style, small, how) = (self.sheet.body, self.sheet.small, self.balanced());
        let x = side + QUIET_ZONE + WORDS_APART;
        let width = slot.width.min(self.sheet.measure()) - x;
        let words = self.block(&code.words, &style, width, how, Align::Start, node);
        let note = if code.note.0.is_empty() {
            Fragment::default()
        } else {
            let node = self.tree.add(slot.parent, Role::Paragraph);
            let how = self.plain();
            self.block(&code.note, &small, width, how, Align::Start, node)
        };
        let told = words.height + note.height;
        let mut piece = Fragment { height: side.max(told), ..Fragment::default() };
        let link = words.links.first().map(|link| link.node);
        let mut drawn = self.drawing(&code.drawing, 1.0, node);
        for item in &mut drawn.items {
            item.standing = Standing::Artifact(Artifact::Layout);
        }
        let top = (piece.height - side) / 2.0;
        piece.absorb(drawn, Mm::ZERO - QUIET_ZONE, top - QUIET_ZONE);
        let y = (piece.height - told) / 2.0;
        let below = y + words.height;
        piece.absorb(words, x, y);
        piece.absorb(note, x, below);
        if let Some(node) = link {
            piece.links.push(OpenLink {
                at: Point { x: Mm::ZERO, y: top },
                size: Size { width: side, height: side },
                to: LinkTo::Web(code.address.clone()),
                node,
                alt: code.words.words(),
            });
        }
        Slab::spaced(piece, QUIET_ZONE + self.sheet.grown(WORDS_APART))
    }
}
