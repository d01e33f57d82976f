//! The cover, in one of three arrangements. Framed: title and summary at the head, the drawing or photograph large on a
//! quiet ground, facts in columns, studio and edition at the foot. `banner` and `column` hold the other two.

mod banner;
mod column;
mod screen;

use super::fragment::{Fragment, LinkTo, OpenLink, filled, line};
use super::setter::{Ink, Setter, baseline};
use super::sheet::Style;
use super::tree::Tree;
use super::{NodeId, Role};
use crate::booklet::{Cover, CoverArt, Text};
use crate::colour::Colour;
use crate::design::{CoverWay, link_to};
use crate::drawn::{Align, Face};
use crate::images::Image;
use crate::units::{Mm, Point, Pt, Size};

/// Most lines of a cover's title before it is set smaller.
const TITLE_LINES: f64 = 3.0;
/// Sizes to try for the title, as shares of its usual size.
const TITLE_SIZES: [f64; 4] = [1.0, 0.84, 0.7, 0.6];
/// Most of the page's height that title and summary may take.
const MOST_HEAD: f64 = 0.34;
/// Least height that drawing or photograph can be seen in.
const LEAST_ART: Mm = Mm(20.0);

/// How much further in than other pages the cover begins at either side.
const INSET: Mm = Mm(2.0);
/// The bar over the title, and how far from the page's top it stands.
const BAR: Size = Size { width: Mm(18.0), height: Mm(1.1) };
const BAR_TOP: Mm = Mm(22.0);
/// From the page's top to what stands over the title.
const HEAD_TOP: Mm = Mm(26.0);
/// Above the name of a colourway, and above the summary.
const OVER_COLOURWAY: Mm = Mm(1.5);
const OVER_SUMMARY: Mm = Mm(4.0);
/// Longest line of the summary, in ems.
const SUMMARY_EMS: f64 = 25.0;
/// Most that a logo may take, how far from the page's top it stands, and from the title.
const LOGO: Size = Size { width: Mm(38.0), height: Mm(18.0) };
const LOGO_TOP: Mm = Mm(18.0);
const LOGO_APART: Mm = Mm(6.0);
/// Above and below the drawing or photograph, and between the edge of its ground and what is drawn.
const OVER_ART: Mm = Mm(9.0);
const UNDER_ART: Mm = Mm(8.0);
const ART_PAD: Mm = Mm(7.0);
/// Between columns of facts, between their rows, and below all of them.
const FACTS_APART: Mm = Mm(8.0);
const FACT_ROWS_APART: Mm = Mm(3.2);
const UNDER_FACTS: Mm = Mm(6.0);
/// Least width of a column of facts beyond the usual number of them, in ems.
const LEAST_FACT: f64 = 9.5;
/// From this enlargement on facts stand in fewer columns, or beside what is drawn: then they take this share of the width.
const LARGE: f64 = 1.5;
const FACTS_ASIDE: f64 = 0.42;
/// The rule over the foot, and the white over it and under it.
const FOOT_RULE: Mm = Mm(0.2);
const OVER_FOOT: Mm = Mm(1.6);
const UNDER_FOOT_RULE: Mm = Mm(1.4);
/// Share of the width that the studio's name may take.
const STUDIO_SHARE: f64 = 0.7;
/// Between studio and address, and at least between address and edition.
const STUDIO_APART: Mm = Mm(2.0);
const EDITION_APART: Mm = Mm(6.0);

/// Where on the page something stands.
#[derive(Clone, Copy)]
struct Placed {
    at: Point,
    area: Size,
}

/// How what stands over the title, the title, colourway and summary are set.
struct HeadLook {
    kind: Style,
    title: Style,
    /// How wide the title may be.
    title_width: Mm,
    colourway: Style,
    summary: Style,
}

impl HeadLook {
    /// The same with title and summary at a share of their size.
    fn sized(&self, share: f64) -> HeadLook {
        let sized =
            |style: Style| Style { size: style.size * share, leading: style.leading * share, ..style };
        HeadLook { title: sized(self.title), summary: sized(self.summary), ..*self }
    }

    /// The same in one colour.
    fn coloured(self, colour: Colour) -> HeadLook {
        let [kind, title, colourway, summary] =
            [self.kind, self.title, self.colourway, self.summary].map(|style| style.coloured(colour));
        HeadLook { kind, title, colourway, summary, ..self }
    }
}

impl Setter<'_> {
    /// The cover, a whole page from its top left.
    pub fn cover(&mut self, cover: &Cover, parent: NodeId) -> Fragment {
        if self.booklet.setting.tablet {
            return self.screen_cover(cover, parent);
        }
        match cover.way {
            CoverWay::Framed => self.framed_cover(cover, parent),
            CoverWay::Banner => self.banner_cover(cover, parent),
            // Where the column cannot hold what must stand in it, the page's whole width does.
            CoverWay::Column => {
                self.column_cover(cover, parent).unwrap_or_else(|| self.framed_cover(cover, parent))
            }
        }
    }

    fn framed_cover(&mut self, cover: &Cover, parent: NodeId) -> Fragment {
        let page = self.sheet.page;
        let side = self.cover_side();
        let width = page.width - side * 2.0;
        let mut piece = Fragment { height: page.height, ..Fragment::default() };
        piece.rule(filled(side, BAR_TOP, BAR.width, BAR.height, self.sheet.accent));
        let logo_width = self.logo(cover, side, &mut piece, parent);
        let look = self.head_look(cover, width - logo_width);
        let head = self.fitted_head(cover, &look, width, parent);
        let head_end = HEAD_TOP + head.height;
        piece.absorb(head, side, HEAD_TOP);

        // Figures come before facts in reading, so the facts' height must be known first.
        let foot_top = self.foot_top();
        let top = head_end + OVER_ART;
        let columns = self.fact_columns(cover.facts.len(), width);
        let facts_height = self.facts_height(&cover.facts, columns, width);
        let facts_top = foot_top - UNDER_FACTS - facts_height;
        let over = Size { width, height: facts_top - UNDER_ART - top };
        let aside = width * FACTS_ASIDE;
        let beside = Size { width: width - aside - FACTS_APART, height: foot_top - UNDER_FACTS - top };
        match self.split_facts(cover, [width, aside], (over, beside)) {
            None => {
                self.grounded_art(cover, Point { x: side, y: top }, over, &mut piece, parent);
                let facts = self.facts(&cover.facts, columns, width, parent);
                piece.absorb(facts, side, facts_top);
            }
            Some((first, room)) => {
                let at = Point { x: side + aside + FACTS_APART, y: top };
                self.grounded_art(cover, at, Size { height: room, ..beside }, &mut piece, parent);
                let (first, rest) = cover.facts.split_at(first);
                let facts = self.facts(first, 1, aside, parent);
                piece.absorb(facts, side, top);
                let facts = self.facts(rest, self.fact_columns(rest.len(), width), width, parent);
                let y = foot_top - UNDER_FACTS - facts.height;
                piece.absorb(facts, side, y);
            }
        }
        let imprint = Imprint { studio: &cover.studio, web: &cover.web, end: &cover.edition };
        self.imprint(&imprint, side, width, foot_top, &mut piece, parent);
        piece
    }

    /// Large facts may take so much that what is drawn is larger beside the first of them, with the others below: how many
    /// then stand beside it, and the height that leaves for it.
    fn split_facts(
        &mut self,
        cover: &Cover,
        [width, aside]: [Mm; 2],
        (over, beside): (Size, Size),
    ) -> Option<(usize, Mm)> {
        if self.sheet.enlarged <= LARGE {
            return None;
        }
        let mut best = (shown_at(&cover.art, over), None);
        for first in (1..=cover.facts.len()).rev() {
            let (first_facts, rest) = cover.facts.split_at(first);
            let under = match rest {
                [] => Mm::ZERO,
                _ => self.facts_height(rest, self.fact_columns(rest.len(), width), width) + UNDER_ART,
            };
            let room = beside.height - under;
            let shown = shown_at(&cover.art, Size { height: room, ..beside });
            if shown > best.0 && self.facts_height(first_facts, 1, aside) <= room {
                best = (shown, Some((first, room)));
            }
        }
        best.1
    }

    /// How title, colourway and summary are usually set; the title fits this width.
    fn head_look(&mut self, cover: &Cover, title_width: Mm) -> HeadLook {
        HeadLook {
            kind: self.sheet.body.coloured(self.sheet.muted),
            title: self.title_style(cover, title_width),
            title_width,
            colourway: self.sheet.heading(2),
            summary: self.sheet.cover_summary,
        }
    }

    /// Title and summary, set smaller where they would leave no room for the drawing or photograph.
    fn fitted_head(&mut self, cover: &Cover, look: &HeadLook, width: Mm, parent: NodeId) -> Fragment {
        let room = self.sheet.page.height * MOST_HEAD;
        let fits = TITLE_SIZES.into_iter().find(|&share| {
            let look = look.sized(share);
            self.tried(|on| on.cover_head(cover, &look, width, Tree::ROOT)).height <= room
        });
        let share = fits.unwrap_or(TITLE_SIZES[TITLE_SIZES.len() - 1]);
        self.cover_head(cover, &look.sized(share), width, parent)
    }

    fn cover_head(&mut self, cover: &Cover, look: &HeadLook, width: Mm, parent: NodeId) -> Fragment {
        let mut piece = Fragment::default();
        let how = self.balanced();
        let heading = self.tree.add(parent, Role::Heading(1));
        let words = Text::plain(&cover.title);
        let title = self.block(&words, &look.title, look.title_width, how, Align::Start, heading);
        let kind = (!cover.kind.is_empty()).then(|| {
            let node = self.tree.add(parent, Role::Paragraph);
            self.block(&Text::plain(&cover.kind), &look.kind, look.title_width, how, Align::Start, node)
        });
        // It is read after the title that it stands over: a document begins with its title.
        let over = kind.as_ref().map_or(Mm::ZERO, |kind| kind.height);
        piece.height = over + title.height;
        piece.absorb(title, Mm::ZERO, over);
        kind.into_iter().for_each(|kind| piece.absorb(kind, Mm::ZERO, Mm::ZERO));
        if let Some(colourway) = &cover.colourway {
            let node = self.tree.add(parent, Role::Paragraph);
            let words = self.block(&Text::plain(colourway), &look.colourway, width, how, Align::Start, node);
            piece.put_below(words, OVER_COLOURWAY);
        }
        if !cover.summary.0.is_empty() {
            let node = self.tree.add(parent, Role::Paragraph);
            let measure = width.min(look.summary.size.mm() * SUMMARY_EMS);
            let words = self.block(&cover.summary, &look.summary, measure, how, Align::Start, node);
            piece.put_below(words, OVER_SUMMARY);
        }
        piece
    }

    fn title_style(&mut self, cover: &Cover, width: Mm) -> Style {
        let full = self.sheet.cover_title;
        let mut style = full;
        for share in TITLE_SIZES {
            style = Style { size: full.size * share, leading: full.leading * share, ..full };
            let text = Text::plain(&cover.title);
            let lines = super::lines::natural_width(&mut self.shaper, &text, &style) / width;
            let whole = super::lines::least_width(&mut self.shaper, &text, &style) <= width;
            if whole && lines <= TITLE_LINES * 0.9 {
                break;
            }
        }
        style
    }

    /// The logo at the top right; gives the width it takes from the title.
    fn logo(&mut self, cover: &Cover, side: Mm, piece: &mut Fragment, parent: NodeId) -> Mm {
        let Some(logo) = &cover.logo else { return Mm::ZERO };
        let size = contained(logo, LOGO);
        let node = self.tree.add(parent, Role::Figure { alt: logo.alt.clone() });
        let at = Point { x: self.sheet.page.width - side - size.width, y: LOGO_TOP };
        let placed = self.placed(logo, at, size, node);
        piece.items.push(placed);
        size.width + LOGO_APART
    }

    /// What the cover shows, a drawing on a quiet ground that fills the area.
    fn grounded_art(&mut self, cover: &Cover, at: Point, area: Size, piece: &mut Fragment, parent: NodeId) {
        if area.height >= LEAST_ART && matches!(cover.art, CoverArt::Drawn(_)) {
            self.on_tint(piece, at.x, at.y, area.width, area.height);
        }
        let ground = self.sheet.tint.unwrap_or(Colour::WHITE);
        self.cover_art(cover, ground, Placed { at, area }, piece, parent);
    }

    /// What the cover shows, in the middle of an area of a ground.
    fn cover_art(
        &mut self,
        cover: &Cover,
        ground: Colour,
        Placed { at, area }: Placed,
        piece: &mut Fragment,
        parent: NodeId,
    ) {
        if area.height < LEAST_ART {
            return;
        }
        let node = self.tree.add(parent, Role::Figure { alt: cover.alt.clone() });
        match &cover.art {
            CoverArt::Photo(photo) => {
                let size = contained(photo, area);
                let x = at.x + (area.width - size.width) / 2.0;
                let y = at.y + (area.height - size.height) / 2.0;
                let placed = self.placed(photo, Point { x, y }, size, node);
                piece.items.push(placed);
            }
            CoverArt::Drawn(drawing) => {
                let scale = shown_at(&cover.art, area);
                if !scale.is_finite() || scale <= 0.0 {
                    return;
                }
                let drawn = self.drawing_on(Some(ground), drawing, scale, node);
                let x = at.x + (area.width - drawing.size.width * scale) / 2.0;
                let y = at.y + (area.height - drawing.size.height * scale) / 2.0;
                piece.absorb(drawn, x, y);
            }
        }
    }

    /// In how many columns facts stand: as few rows as a usual number of columns makes, or one fewer where the page is
    /// wide enough for a column more, so that no fact stands in a row of its own.
    fn fact_columns(&self, facts: usize, width: Mm) -> usize {
        let most = if self.sheet.enlarged > LARGE { 2 } else { 3 };
        let column = (width + FACTS_APART) / (most + 1) as f64 - FACTS_APART;
        let alone = facts > most && facts % most == 1;
        let most = if alone && column >= self.sheet.body.size.mm() * LEAST_FACT { most + 1 } else { most };
        let rows = facts.div_ceil(most).max(1);
        facts.div_ceil(rows).max(1)
    }

    fn facts_height(&mut self, facts: &[(String, String)], columns: usize, width: Mm) -> Mm {
        self.tried(|on| on.facts(facts, columns, width, Tree::ROOT)).height
    }

    /// Facts in columns: a quiet label over its value.
    fn facts(&mut self, facts: &[(String, String)], columns: usize, width: Mm, parent: NodeId) -> Fragment {
        let mut piece = Fragment::default();
        if facts.is_empty() {
            return piece;
        }
        let list = self.tree.add(parent, Role::List { numbered: false });
        let gap = FACTS_APART;
        let column = (width + gap) / columns as f64 - gap;
        let (label_style, value_style) = (self.sheet.small, self.sheet.body);
        let how = self.plain();
        for (r, row) in facts.chunks(columns).enumerate() {
            let top = if r == 0 { Mm::ZERO } else { piece.height + FACT_ROWS_APART };
            piece.height = top;
            for (i, (label, value)) in row.iter().enumerate() {
                let item = self.tree.add(list, Role::ListItem);
                let label_node = self.tree.add(item, Role::ListLabel);
                let body = self.tree.add(item, Role::ListBody);
                let words =
                    self.block(&Text::plain(label), &label_style, column, how, Align::Start, label_node);
                let even = self.balanced();
                let value = self.block(&Text::plain(value), &value_style, column, even, Align::Start, body);
                let x = (column + gap) * i as f64;
                let y = top + words.height;
                piece.height = piece.height.max(y + value.height);
                piece.absorb(words, x, top);
                piece.absorb(value, x, y);
            }
        }
        piece
    }

    /// From the page's top to the rule over the foot of cover and back.
    pub fn foot_top(&self) -> Mm {
        self.sheet.foot - self.sheet.small.leading * 2.0 - OVER_FOOT
    }

    /// The white at either side of cover and back.
    pub fn cover_side(&self) -> Mm {
        self.sheet.side + INSET
    }

    /// Studio and address at the left, the edition or what stands in its place at the right, under a rule.
    pub fn imprint(
        &mut self,
        imprint: &Imprint,
        side: Mm,
        width: Mm,
        top: Mm,
        piece: &mut Fragment,
        parent: NodeId,
    ) {
        let end = side + width;
        piece.rule(line(Point { x: side, y: top }, Point { x: end, y: top }, self.sheet.hairline, FOOT_RULE));
        let node = self.tree.add(parent, Role::Paragraph);
        let style = Style { size: Pt(self.sheet.small.size.0 + 1.0), ..self.sheet.small };
        let y = top + UNDER_FOOT_RULE + baseline(&style);
        let name = self.tree.add(node, Role::Span);
        let most = width * STUDIO_SHARE;
        let studio = format!("{} ", self.shortened(Face::Bold, imprint.studio, style.size, most));
        let bold = Ink { face: Face::Bold, size: style.size, colour: self.sheet.ink };
        piece.items.extend(self.label(bold, &studio, Point { x: side, y }, Align::Start, name));
        if !imprint.web.is_empty() {
            let studio_width = self.shaper.width(Face::Bold, &studio, style.size) + STUDIO_APART;
            let end_width = self.shaper.width(Face::Regular, imprint.end, style.size);
            let web = self.shortened(Face::Regular, imprint.web, style.size, width);
            let web_width = self.shaper.width(Face::Regular, &web, style.size);
            // The address goes to a line of its own where it would meet the edition.
            let beside = studio_width + web_width + end_width + EDITION_APART <= width;
            let (x, y) = if beside { (side + studio_width, y) } else { (side, y + style.leading) };
            self.web_address(imprint.web, Point { x, y }, &style, web_width, piece, node);
        }
        if !imprint.end.is_empty() {
            let node = self.tree.add(parent, Role::Paragraph);
            let quiet = Ink { face: Face::Regular, size: style.size, colour: self.sheet.muted };
            let most = width - self.shaper.width(Face::Bold, &studio, style.size) - EDITION_APART;
            let words = self.shortened(Face::Regular, imprint.end, style.size, most);
            piece.items.extend(self.label(quiet, &words, Point { x: end, y }, Align::End, node));
        }
    }

    /// The studio's address as far as it fits, a link to it.
    fn web_address(
        &mut self,
        web: &str,
        at: Point,
        style: &Style,
        width: Mm,
        piece: &mut Fragment,
        parent: NodeId,
    ) {
        let link = self.tree.add(parent, Role::Link);
        let shown = self.shortened(Face::Regular, web, style.size, width);
        let ink = Ink { face: Face::Regular, size: style.size, colour: self.sheet.accent_text };
        piece.items.extend(self.label(ink, &shown, at, Align::Start, link));
        piece.links.push(OpenLink {
            at: Point { x: at.x, y: at.y - baseline(style) },
            size: Size { width, height: style.leading },
            to: LinkTo::Web(link_to(web)),
            node: link,
            alt: web.to_owned(),
        });
    }
}

/// The scale at which an area shows a drawing, or the width at which it shows a photograph.
fn shown_at(art: &CoverArt, area: Size) -> f64 {
    match art {
        CoverArt::Photo(photo) => contained(photo, area).width.0,
        CoverArt::Drawn(drawing) => {
            let (w, h) = (area.width - ART_PAD * 2.0, area.height - ART_PAD * 2.0);
            (w / drawing.size.width).min(h / drawing.size.height)
        }
    }
}

/// What stands at the foot of cover and back.
pub(super) struct Imprint<'c> {
    pub studio: &'c str,
    /// Its address; may be empty.
    pub web: &'c str,
    /// What stands at the right; may be empty.
    pub end: &'c str,
}

/// The size of an image when it just fits into an area.
fn contained(image: &Image, area: Size) -> Size {
    let (across, down) = image.file.pixels();
    let (across, down) = (f64::from(across.max(1)), f64::from(down.max(1)));
    let scale = (area.width.0 / across).min(area.height.0 / down);
    Size { width: Mm(across * scale), height: Mm(down * scale) }
}
