//! The cover with a banner: title and summary on a band of the accent across the head of the page, the drawing or
//! photograph on bare paper, facts and logo below.

use super::{
    FACTS_APART, FACTS_ASIDE, Imprint, LARGE, LOGO, Placed, UNDER_ART, UNDER_FACTS, contained, shown_at,
};
use crate::booklet::Cover;
use crate::colour::{Colour, ink_on};
use crate::layout::fragment::{Fragment, filled};
use crate::layout::setter::Setter;
use crate::layout::{NodeId, Role};
use crate::units::{Mm, Point, Size};

/// From the page's top to the title, and from the words on the band to its end.
const HEAD_TOP: Mm = Mm(22.0);
const UNDER_HEAD: Mm = Mm(11.0);
/// Between the band and what is shown.
const OVER_ART: Mm = Mm(6.0);

impl Setter<'_> {
    pub(super) fn banner_cover(&mut self, cover: &Cover, parent: NodeId) -> Fragment {
        let page = self.sheet.page;
        let side = self.cover_side();
        let width = page.width - side * 2.0;
        let mut piece = Fragment { height: page.height, ..Fragment::default() };
        let look = self.head_look(cover, width).coloured(ink_on(self.sheet.accent));
        let head = self.fitted_head(cover, &look, width, parent);
        let band = HEAD_TOP + head.height + UNDER_HEAD;
        piece.rule(filled(Mm::ZERO, Mm::ZERO, page.width, band, self.sheet.accent));
        piece.absorb(head, side, HEAD_TOP);

        let foot_top = self.foot_top();
        let logo = cover.logo.as_ref().map(|logo| (logo, contained(logo, LOGO)));
        let beside = logo.map_or(Mm::ZERO, |(_, size)| size.width + FACTS_APART);
        let columns = if logo.is_some() {
            self.fact_columns(cover.facts.len(), width).min(2)
        } else {
            self.fact_columns(cover.facts.len(), width)
        };
        let facts_width = width - beside;
        let facts_height = self.facts_height(&cover.facts, columns, facts_width);
        let low = logo.map_or(facts_height, |(_, size)| facts_height.max(size.height));
        let low_top = foot_top - UNDER_FACTS - low;
        let art_top = band + OVER_ART;
        let area = Size { width, height: low_top - UNDER_ART - art_top };
        // As on the framed cover, what is drawn may be larger beside large facts.
        let aside = width * FACTS_ASIDE;
        let right = Point { x: side + aside + FACTS_APART, y: art_top };
        let low_logo = logo.map_or(Mm::ZERO, |(_, size)| size.height + UNDER_ART);
        let beside =
            Size { width: width - aside - FACTS_APART, height: foot_top - UNDER_FACTS - low_logo - art_top };
        let one_column = self.facts_height(&cover.facts, 1, aside);
        let is_large = self.sheet.enlarged > LARGE && one_column <= foot_top - UNDER_FACTS - art_top;
        if is_large && shown_at(&cover.art, beside) > shown_at(&cover.art, area) {
            self.cover_art(cover, Colour::WHITE, Placed { at: right, area: beside }, &mut piece, parent);
            let facts = self.facts(&cover.facts, 1, aside, parent);
            piece.absorb(facts, side, art_top);
        } else {
            let at = Point { x: side, y: art_top };
            self.cover_art(cover, Colour::WHITE, Placed { at, area }, &mut piece, parent);
            let facts = self.facts(&cover.facts, columns, facts_width, parent);
            piece.absorb(facts, side, low_top + (low - facts_height) / 2.0);
        }
        if let Some((logo, size)) = logo {
            let node = self.tree.add(parent, Role::Figure { alt: logo.alt.clone() });
            let low = if is_large { size.height } else { low };
            let middle = foot_top - UNDER_FACTS - low / 2.0;
            let at = Point { x: side + width - size.width, y: middle - size.height / 2.0 };
            let placed = self.placed(logo, at, size, node);
            piece.items.push(placed);
        }
        let imprint = Imprint { studio: &cover.studio, web: &cover.web, end: &cover.edition };
        self.imprint(&imprint, side, width, foot_top, &mut piece, parent);
        piece
    }
}
