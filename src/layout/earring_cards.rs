//! Sheets of cards: as many as the paper takes, in its middle, so that fronts and backs meet when it is printed on both
//! sides.

use super::fragment::{Fragment, filled};
use super::setter::Setter;
use super::sheet::Style;
use super::{Artifact, NodeId, Path, Role, Standing};
use crate::booklet::{CardBack, CardFace, CardFront, EarringCards, Text};
use crate::drawn::{Align, Segment, Stroke, circle};
use crate::units::{Mm, Point, Size};

/// White at the edges of the sheet, for marks to cut by and for what a printer leaves out.
const EDGE: Mm = Mm(10.0);
/// Marks to cut by: how long, and how far from the cards.
const MARK: Mm = Mm(5.0);
const MARK_APART: Mm = Mm(1.5);
/// Pen of marks and of places to pierce.
const PEN: Mm = Mm(0.15);
/// Radius of a place to pierce, and how far its cross reaches.
const HOLE: Mm = Mm(0.8);
const CROSS: Mm = Mm(1.6);
/// White within a card, at its sides, its head and its foot.
const INSET: Mm = Mm(5.0);
/// The bar of the accent above the title.
const BAR: Size = Size { width: Mm(9.0), height: Mm(0.7) };

/// Between the bar and the title below it, and on backs below the title and below each text.
const OVER_TITLE: Mm = Mm(2.0);
const UNDER_TITLE: Mm = Mm(1.0);
const UNDER_TEXT: Mm = Mm(1.6);
/// From the places to pierce to what stands on the back.
const UNDER_HOLES: Mm = Mm(2.5);

impl Setter<'_> {
    /// A sheet of cards, a whole page from its top left; one at least, even where it is larger than the sheet. The first
    /// is told, the others only repeat it.
    pub fn earring_cards(&mut self, cards: &EarringCards, parent: NodeId) -> Fragment {
        let page = self.sheet.page;
        let fits = |room: Mm, side: Mm| (((room - EDGE * 2.0) / side).floor() as usize).max(1);
        let (across, down) = (fits(page.width, cards.size.width), fits(page.height, cards.size.height));
        let start = Point {
            x: (page.width - cards.size.width * across as f64) / 2.0,
            y: (page.height - cards.size.height * down as f64) / 2.0,
        };
        let card = self.earring_card(cards, parent);
        let mut piece = Fragment { height: page.height, ..Fragment::default() };
        for place in 0..across * down {
            let (column, row) = (place % across, place / across);
            let mut one = card.clone();
            if place > 0 {
                one.items.iter_mut().for_each(|item| item.standing = Standing::Artifact(Artifact::Layout));
                one.links.clear();
            }
            let at = |from: Mm, side: Mm, times: usize| from + side * times as f64;
            let (x, y) = (at(start.x, cards.size.width, column), at(start.y, cards.size.height, row));
            piece.absorb(one, x, y);
        }
        self.cut_marks(&mut piece, start, cards.size, (across, down));
        piece
    }

    fn earring_card(&mut self, cards: &EarringCards, parent: NodeId) -> Fragment {
        match &cards.face {
            CardFace::Front(front) => self.card_front(cards.size, front, parent),
            CardFace::Back(back) => self.card_back(cards.size, back, parent),
        }
    }

    /// A text of a card, as wide as that takes.
    fn on_card(
        &mut self,
        size: Size,
        (text, style, align): (&Text, &Style, Align),
        (role, parent): (Role, NodeId),
    ) -> Fragment {
        let node = self.tree.add(parent, role);
        let how = self.plain();
        self.block(text, style, size.width - INSET * 2.0, how, align, node)
    }

    fn card_front(&mut self, size: Size, front: &CardFront, parent: NodeId) -> Fragment {
        let mut piece = Fragment { height: size.height, ..Fragment::default() };
        let (small, heading) = (self.sheet.small, self.sheet.heading(2));
        let studio = Text::plain(front.studio.as_str());
        let studio = self.on_card(size, (&studio, &small, Align::Middle), (Role::Paragraph, parent));
        piece.absorb(studio, INSET, INSET);
        // Title, colourway and address end at the foot.
        let mut lines = vec![(Text::plain(front.title.as_str()), heading, Role::Heading(1))];
        let colourway = front.colourway.as_deref().map(Text::plain);
        let address = Some(front.web.clone()).filter(|web| !web.0.is_empty());
        lines.extend(colourway.into_iter().chain(address).map(|text| (text, small, Role::Paragraph)));
        let lines: Vec<Fragment> = lines
            .into_iter()
            .map(|(text, style, role)| self.on_card(size, (&text, &style, Align::Middle), (role, parent)))
            .collect();
        let mut y = size.height - INSET - lines.iter().map(|line| line.height).sum::<Mm>();
        let bar = ((size.width - BAR.width) / 2.0, y - BAR.height - OVER_TITLE);
        for line in lines {
            let height = line.height;
            piece.absorb(line, INSET, y);
            y += height;
        }
        piece.rule(filled(bar.0, bar.1, BAR.width, BAR.height, self.sheet.accent));
        let node = self.tree.add(parent, Role::Figure { alt: front.alt.clone() });
        let (apart, below) = front.holes;
        for side in [-0.5, 0.5] {
            let at = Point { x: size.width / 2.0 + apart * side, y: below };
            piece.path(node, None, self.thin(circle(at, HOLE)));
            let over = |dx: Mm, dy: Mm| {
                vec![
                    Segment::Move(Point { x: at.x - dx, y: at.y - dy }),
                    Segment::Line(Point { x: at.x + dx, y: at.y + dy }),
                ]
            };
            piece.path(node, None, self.thin(over(CROSS, Mm::ZERO)));
            piece.path(node, None, self.thin(over(Mm::ZERO, CROSS)));
        }
        piece
    }

    fn card_back(&mut self, size: Size, back: &CardBack, parent: NodeId) -> Fragment {
        let mut piece = Fragment { height: size.height, ..Fragment::default() };
        let (small, heading) = (self.sheet.small, self.sheet.heading(3));
        let title = Text::plain(back.title.as_str());
        let title = self.on_card(size, (&title, &heading, Align::Start), (Role::Heading(1), parent));
        let mut set = |texts: &[Text], align| -> Vec<Fragment> {
            let one = |text| self.on_card(size, (text, &small, align), (Role::Paragraph, parent));
            texts.iter().map(one).collect()
        };
        let (texts, foot) = (set(&back.texts, Align::Start), set(&back.foot, Align::Middle));
        let mut bottom = size.height - INSET - foot.iter().map(|line| line.height).sum::<Mm>();
        let whole = texts.iter().fold(title.height + UNDER_TITLE, |y, text| y + text.height + UNDER_TEXT);
        let below = back.holes_below + CROSS + UNDER_HOLES;
        let mut y = if below + whole <= bottom { below } else { INSET };
        for (piece_of, under) in
            [(title, UNDER_TITLE)].into_iter().chain(texts.into_iter().map(|text| (text, UNDER_TEXT)))
        {
            let height = piece_of.height;
            piece.absorb(piece_of, INSET, y);
            y += height + under;
        }
        for line in foot {
            let height = line.height;
            piece.absorb(line, INSET, bottom);
            bottom += height;
        }
        piece
    }

    fn thin(&self, segments: Vec<Segment>) -> Path {
        let stroke = Stroke { colour: self.sheet.muted, width: PEN, dash: Vec::new(), round: false };
        Path { segments, fill: None, stroke: Some(stroke) }
    }

    /// Marks round all cards, at each place to cut.
    fn cut_marks(&self, piece: &mut Fragment, start: Point, size: Size, (across, down): (usize, usize)) {
        let (right, foot) = (start.x + size.width * across as f64, start.y + size.height * down as f64);
        let line = |from: Point, to: Point| self.thin(vec![Segment::Move(from), Segment::Line(to)]);
        for column in 0..=across {
            let x = start.x + size.width * column as f64;
            for (from, to) in [
                (start.y - MARK_APART - MARK, start.y - MARK_APART),
                (foot + MARK_APART, foot + MARK_APART + MARK),
            ] {
                piece.rule(line(Point { x, y: from }, Point { x, y: to }));
            }
        }
        for row in 0..=down {
            let y = start.y + size.height * row as f64;
            for (from, to) in [
                (start.x - MARK_APART - MARK, start.x - MARK_APART),
                (right + MARK_APART, right + MARK_APART + MARK),
            ] {
                piece.rule(line(Point { x: from, y }, Point { x: to, y }));
            }
        }
    }
}
