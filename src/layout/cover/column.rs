//! The cover with a column: title, summary and facts one below the other on a tinted column at the left, what is shown as
//! high as the page beside them, under the logo.

use super::{BAR, BAR_TOP, Imprint, LOGO, LOGO_APART, LOGO_TOP, Placed, TITLE_SIZES, UNDER_FACTS, contained};
use crate::booklet::{Cover, Text};
use crate::colour::Colour;
use crate::layout::NodeId;
use crate::layout::fragment::{Fragment, filled};
use crate::layout::lines::least_width;
use crate::layout::setter::Setter;
use crate::layout::tree::Tree;
use crate::units::{Mm, Point, Size};

/// Width of the column, as a share of the page's.
const COLUMN: f64 = 0.4;
/// Between the words of the column and its edge, and between that and what is shown.
const INSIDE: Mm = Mm(7.0);
const ASIDE: Mm = Mm(6.0);
/// From the bar to the title, and least from title and summary to the facts.
const UNDER_BAR: Mm = Mm(4.5);
const OVER_FACTS: Mm = Mm(10.0);
/// From the end of the column to the foot.
const UNDER_COLUMN: Mm = Mm(3.0);

impl Setter<'_> {
    /// `None` where the column is too small for title and facts.
    pub(super) fn column_cover(&mut self, cover: &Cover, parent: NodeId) -> Option<Fragment> {
        let page = self.sheet.page;
        let side = self.cover_side();
        let edge = page.width * COLUMN;
        let inner = edge - side - INSIDE;
        let foot_top = self.foot_top();
        let head_top = BAR_TOP + BAR.height + UNDER_BAR;
        let facts_height = self.facts_height(&cover.facts, 1, inner);
        let facts_top = foot_top - UNDER_FACTS - facts_height;
        let look = self.head_look(cover, inner);
        let room = facts_top - OVER_FACTS - head_top;
        let look = TITLE_SIZES.into_iter().map(|share| look.sized(share)).find(|look| {
            let widest_word = least_width(&mut self.shaper, &Text::plain(&cover.title), &look.title);
            widest_word <= inner
                && self.tried(|on| on.cover_head(cover, look, inner, Tree::ROOT)).height <= room
        })?;

        let mut piece = Fragment { height: page.height, ..Fragment::default() };
        self.on_tint(&mut piece, Mm::ZERO, Mm::ZERO, edge, foot_top - UNDER_COLUMN);
        piece.rule(filled(side, BAR_TOP, BAR.width, BAR.height, self.sheet.accent));
        self.logo(cover, side, &mut piece, parent);
        let head = self.cover_head(cover, &look, inner, parent);
        piece.absorb(head, side, head_top);
        let left = edge + ASIDE;
        let width = page.width - left - side;
        let logo = cover.logo.as_ref().map(|logo| LOGO_TOP + contained(logo, LOGO).height + LOGO_APART);
        let top = logo.unwrap_or(BAR_TOP);
        let area = Size { width, height: foot_top - UNDER_FACTS - top };
        let at = Point { x: left, y: top };
        self.cover_art(cover, Colour::WHITE, Placed { at, area }, &mut piece, parent);
        let facts = self.facts(&cover.facts, 1, inner, parent);
        piece.absorb(facts, side, facts_top);
        let imprint = Imprint { studio: &cover.studio, web: &cover.web, end: &cover.edition };
        self.imprint(&imprint, side, page.width - side * 2.0, foot_top, &mut piece, parent);
        Some(piece)
    }
}
