//! The back: a photograph on the last page, over the name of the studio.

use super::cover::Imprint;
use super::fragment::Fragment;
use super::setter::Setter;
use super::{NodeId, Role};
use crate::booklet::Back;
use crate::drawn::Align;
use crate::units::{Mm, Point, Size};

/// From the page's top to the photograph, and from that to its words.
const TOP: Mm = Mm(22.0);
const OVER_CAPTION: Mm = Mm(3.0);
/// From photograph and words to the foot.
const OVER_FOOT: Mm = Mm(12.0);

impl Setter<'_> {
    /// The back, a whole page from its top left.
    pub fn back(&mut self, back: &Back, parent: NodeId) -> Fragment {
        let (page, foot_top, side) = (self.sheet.page, self.foot_top(), self.cover_side());
        let width = page.width - side * 2.0;
        let mut piece = Fragment { height: page.height, ..Fragment::default() };
        let node = self.tree.add(parent, Role::Figure { alt: back.photograph.alt.clone() });
        let caption = if back.photograph.caption.0.is_empty() {
            Fragment::default()
        } else {
            let caption = self.tree.add(node, Role::Caption);
            let (style, how) = (self.sheet.small, self.plain());
            let measure = width.min(self.sheet.measure());
            self.block(&back.photograph.caption, &style, measure, how, Align::Start, caption)
        };
        let size = back.photograph.drawing.size;
        let below = if caption.height.0 > 0.0 { OVER_CAPTION + caption.height } else { Mm::ZERO };
        let room = Size { width, height: foot_top - OVER_FOOT - TOP - below };
        let scale = (room.width / size.width).min(room.height / size.height);
        let drawn = self.drawing(&back.photograph.drawing, scale, node);
        // With its words in the middle of what the foot leaves, a little higher than low.
        let (wide, high) = (size.width * scale, size.height * scale);
        let at = Point { x: side + (width - wide) / 2.0, y: TOP + (room.height - high) * 0.4 };
        piece.absorb(drawn, at.x, at.y);
        piece.absorb(caption, at.x, at.y + high + OVER_CAPTION);
        let imprint = Imprint { studio: &back.studio, web: &back.web, end: "" };
        self.imprint(&imprint, side, width, foot_top, &mut piece, parent);
        piece
    }
}
