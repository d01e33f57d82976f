//! Sheets of cards: as many as the paper takes, in its middle, so that fronts and backs meet when it is printed on both
//! sides.

use super::fragment::{Fragment, filled};
use super::setter::Setter;
use super::{Artifact, NodeId, Path, Role, Standing};
use crate::booklet::{CardFace, EarringCards, Text};
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
            CardFace::Front { .. } => self.card_front(cards, parent),
            CardFace::Back { title, texts, foot } => self.card_back(cards.size, (title, texts, foot), parent),
        }
    }

    fn card_front(&mut self, cards: &EarringCards, parent: NodeId) -> Fragment {
        let CardFace::Front { holes: (apart, below), studio, title, colourway, web, alt } = &cards.face
        else {
            return Fragment::default();
        };
        let size = cards.size;
        let mut piece = Fragment { height: size.height, ..Fragment::default() };
        let (small, how) = (self.sheet.small, self.plain());
        let mut line = |setter: &mut Self, text: &Text, style, y: Mm, role: Role| {
            let node = setter.tree.add(parent, role);
            let set = setter.block(text, &style, size.width - INSET * 2.0, how, Align::Middle, node);
            let height = set.height;
            piece.absorb(set, INSET, y);
            height
        };
        line(self, &Text::plain(studio.as_str()), small, INSET, Role::Paragraph);
        // From the foot upwards: address, colourway, title.
        let heading = self.sheet.heading(2);
        let measure = |setter: &mut Self, text: &Text, style| {
            setter
                .tried(|on| {
                    on.block(
                        text,
                        &style,
                        size.width - INSET * 2.0,
                        how,
                        Align::Middle,
                        super::tree::Tree::ROOT,
                    )
                })
                .height
        };
        let mut lines = vec![(Text::plain(title.as_str()), heading, Role::Heading(1))];
        lines.extend(colourway.as_deref().map(|name| (Text::plain(name), small, Role::Paragraph)));
        lines.extend((!web.0.is_empty()).then(|| (web.clone(), small, Role::Paragraph)));
        let tall: Mm = lines.iter().map(|(text, style, _)| measure(self, text, *style)).sum();
        let mut y = size.height - INSET - tall;
        let bar = ((size.width - BAR.width) / 2.0, y - BAR.height - Mm(2.0));
        for (text, style, role) in lines {
            y += line(self, &text, style, y, role);
        }
        piece.rule(filled(bar.0, bar.1, BAR.width, BAR.height, self.sheet.accent));
        let node = self.tree.add(parent, Role::Figure { alt: alt.clone() });
        for side in [-0.5, 0.5] {
            let at = Point { x: size.width / 2.0 + *apart * side, y: *below };
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

    fn card_back(
        &mut self,
        size: Size,
        (title, texts, foot): (&str, &[Text], &[Text]),
        parent: NodeId,
    ) -> Fragment {
        let mut piece = Fragment { height: size.height, ..Fragment::default() };
        let (small, how, width) = (self.sheet.small, self.plain(), size.width - INSET * 2.0);
        let mut y = INSET;
        let heading = self.sheet.heading(3);
        let node = self.tree.add(parent, Role::Heading(1));
        let set = self.block(&Text::plain(title), &heading, width, how, Align::Start, node);
        y += set.height + Mm(1.0);
        piece.absorb(set, INSET, INSET);
        for text in texts {
            let node = self.tree.add(parent, Role::Paragraph);
            let set = self.block(text, &small, width, how, Align::Start, node);
            let height = set.height;
            piece.absorb(set, INSET, y);
            y += height + Mm(1.6);
        }
        let mut bottom = size.height - INSET;
        for line in foot.iter().rev() {
            let node = self.tree.add(parent, Role::Paragraph);
            let set = self.block(line, &small, width, how, Align::Middle, node);
            bottom -= set.height;
            piece.absorb(set, INSET, bottom);
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
