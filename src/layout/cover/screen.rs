//! The cover of a tablet edition, which is wider than high: what is shown at the right as high as the screen, title, summary
//! and facts at the left.

use super::{BAR, FACTS_APART, HeadLook, Imprint, Placed, UNDER_FACTS};
use crate::booklet::{Cover, CoverArt};
use crate::colour::Colour;
use crate::layout::NodeId;
use crate::layout::fragment::{Fragment, filled};
use crate::layout::setter::Setter;
use crate::layout::tree::Tree;
use crate::units::{Mm, Point, Size};

/// Share of the page's width that is shown what the booklet is of.
const ART: f64 = 0.46;
/// From the page's top to the bar over the title, and from there to the title.
const BAR_TOP: Mm = Mm(12.0);
const UNDER_BAR: Mm = Mm(3.5);
/// Sizes to try for title and summary, as shares of their usual size.
const SIZES: [f64; 3] = [1.0, 0.84, 0.7];
/// Between title and facts at least.
const OVER_FACTS: Mm = Mm(5.0);

impl Setter<'_> {
    pub(super) fn screen_cover(&mut self, cover: &Cover, parent: NodeId) -> Fragment {
        // Facts stand in half the page.
        let usual = self.sheet.body;
        self.sheet.body = self.sheet.small.coloured(self.sheet.ink);
        let piece = self.screen_cover_with_small_facts(cover, parent);
        self.sheet.body = usual;
        piece
    }

    fn screen_cover_with_small_facts(&mut self, cover: &Cover, parent: NodeId) -> Fragment {
        let page = self.sheet.page;
        let side = self.sheet.side;
        let left = page.width * (1.0 - ART);
        let width = left - side * 2.0;
        let foot_top = self.foot_top();
        let head_top = BAR_TOP + BAR.height + UNDER_BAR;
        let room = foot_top - UNDER_FACTS - head_top;
        let (cover, look) = self.facts_that_fit(cover, width, room);
        let mut piece = Fragment { height: page.height, ..Fragment::default() };
        piece.rule(filled(side, BAR_TOP, BAR.width, BAR.height, self.sheet.accent));
        let head = self.cover_head(&cover, &look, width, parent);
        piece.absorb(head, side, head_top);
        let area = Size { width: page.width - left, height: foot_top - UNDER_FACTS };
        let at = Point { x: left, y: Mm::ZERO };
        let ground = match cover.art {
            CoverArt::Drawn(_) => {
                self.on_tint(&mut piece, at.x, at.y, area.width, area.height);
                self.sheet.tint.unwrap_or(Colour::WHITE)
            }
            CoverArt::Photo(_) => Colour::WHITE,
        };
        self.cover_art(&cover, ground, Placed { at, area }, &mut piece, parent);
        let columns = fact_columns(width);
        let facts = self.facts(&cover.facts, columns, width, parent);
        let y = foot_top - UNDER_FACTS - facts.height;
        piece.absorb(facts, side, y);
        let imprint = Imprint { studio: &cover.studio, web: &cover.web, end: &cover.edition };
        self.imprint(&imprint, side, page.width - side * 2.0, foot_top, &mut piece, parent);
        piece
    }

    /// The cover with as many of its facts as there is room for below title and summary, the last left out first; these
    /// are in the booklet elsewhere too.
    fn facts_that_fit(&mut self, cover: &Cover, width: Mm, room: Mm) -> (Cover, HeadLook) {
        let look = self.head_look(cover, width);
        let mut cover = cover.clone();
        let columns = fact_columns(width);
        loop {
            let facts = self.facts_height(&cover.facts, columns, width);
            let fits = SIZES.into_iter().map(|share| look.sized(share)).find(|look| {
                let head = self.tried(|on| on.cover_head(&cover, look, width, Tree::ROOT)).height;
                head + OVER_FACTS + facts <= room
            });
            match fits {
                Some(look) => return (cover, look),
                None if cover.facts.is_empty() => {
                    let least = look.sized(SIZES[SIZES.len() - 1]);
                    return (cover, least);
                }
                None => _ = cover.facts.pop(),
            }
        }
    }
}

/// Two columns where both can hold a word or two.
fn fact_columns(width: Mm) -> usize {
    if width > FACTS_APART * 8.0 { 2 } else { 1 }
}
