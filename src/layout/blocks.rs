//! One block becomes slabs: headings, paragraphs, lists and whatever has its own file.

use super::fragment::{Fragment, Goal, Slab, filled, line};
use super::measures::BAR;
use super::setter::{Ink, Setter, baseline};
use super::sheet::Style;
use super::{NodeId, Path, Role};
use crate::booklet::{Block, Floating, Text};
use crate::drawn::{Align, Face, Stroke, circle};
use crate::units::{Mm, Point};
use std::sync::Arc;

/// Length of the bar over a section's title; grows with the type.
const SECTION_BAR: Mm = Mm(14.0);
/// From the top of that bar to the title; grows with the type.
const UNDER_BAR: Mm = Mm(3.2);
/// Above a section that runs on after another: usual print, large print.
const OVER_SECTION: Mm = Mm(15.0);
const OVER_SECTION_LARGE: Mm = Mm(14.0);
/// Below a section's title; grows with the type.
const UNDER_SECTION: Mm = Mm(6.5);
/// Round a line to cut along, and its pen and dashes.
const OVER_CUT: Mm = Mm(7.0);
const UNDER_CUT: Mm = Mm(4.0);
const CUT_PEN: Mm = Mm(0.25);
const CUT_DASH: Mm = Mm(2.4);
/// Length of the scissors at its left end; grows with the type.
const SCISSORS: Mm = Mm(6.8);
/// Share of a page that is kept free below a section's title.
const SECTION_WANTS: f64 = 0.24;
/// Above and below headings of level 2; grows with the type.
const ROUND_HEADING: (Mm, Mm) = (Mm(8.0), Mm(2.2));
/// Above and below smaller headings; grows with the type.
const ROUND_SMALL_HEADING: (Mm, Mm) = (Mm(5.0), Mm(0.8));
/// How much more stands above headings in large print, instead of growing with the type.
const LARGE_OVER_HEADING: f64 = 1.15;

/// What a block is set into.
#[derive(Clone, Copy, Debug)]
pub(super) struct Slot {
    /// Width of the column.
    pub width: Mm,
    /// Greatest height of a chart.
    pub room: Mm,
    /// The node that the block belongs to.
    pub parent: NodeId,
}

impl Setter<'_> {
    /// Sets blocks one after the other.
    pub fn blocks(&mut self, blocks: &[Block], slot: Slot) -> Vec<Slab> {
        let mut slabs = Vec::new();
        let mut rest = blocks;
        while !rest.is_empty() {
            let small = super::chart::small_charts(rest);
            if small.len() > 1 {
                slabs.extend(self.small_charts(&small, slot));
                rest = &rest[small.len()..];
            } else {
                // A code stays with what it is about.
                if let (Block::Code(_), Some(last)) = (&rest[0], slabs.last_mut()) {
                    last.keep_next = true;
                }
                slabs.extend(self.block_slabs(&rest[0], slot));
                rest = &rest[1..];
            }
        }
        slabs
    }

    /// Sets one block.
    pub fn block_slabs(&mut self, block: &Block, slot: Slot) -> Vec<Slab> {
        let Slot { width, room, parent } = slot;
        match block {
            Block::Heading { level, text } => vec![self.heading(*level, text, width, parent)],
            Block::Paragraph { text, style } => {
                let node = self.tree.add(parent, Role::Paragraph);
                let style = self.sheet.paragraph(*style);
                let measure = width.min(self.sheet.measure().max(style.comfortable_width()));
                self.paragraph(text, &style, measure, node)
            }
            Block::List { numbered, items } => self.list(*numbered, items, width, parent),
            Block::Items { from, items } => self.items(*from, items, slot),
            Block::Table(table) => self.table(table, width, parent),
            Block::Figure(figure) => vec![self.figure_slab(figure, width, room, parent)],
            Block::Chart(chart) => self.chart(chart, width, room, parent),
            // A column that is no page cannot turn one either: the chart is split if it must be.
            Block::ChartOnOnePage { chart, .. } => self.chart(chart, width, room, parent),
            Block::Step(step) => self.step(step, slot),
            Block::Screen(screen) => self.screen(screen, slot),
            Block::Key(signs) => self.key(signs, width, room, parent),
            Block::Index(buttons) => self.index(buttons, width, parent),
            Block::Buttons(buttons) => self.buttons(buttons, width, parent),
            Block::Callout { kind, title, blocks } => self.callout(*kind, title, blocks, slot),
            Block::Code(code) => vec![self.code(code, slot)],
            Block::Pictures(figures) => self.pictures(figures, slot),
            Block::Contents => self.contents(width, parent),
            Block::CutLine => vec![self.cut_line(width)],
            Block::WritingLines(lines) => vec![self.writing_lines(lines, room)],
            Block::Together(blocks) | Block::Float(Floating { blocks, .. }) => {
                let mut slabs = self.blocks(blocks, slot);
                let last = slabs.len().saturating_sub(1);
                slabs[..last].iter_mut().for_each(|s| s.keep_next = true);
                slabs
            }
            // Whole pages are the business of the section; inside another block they mean nothing.
            Block::Cover(_) | Block::Back(_) | Block::EarringCards(_) | Block::NewPage => Vec::new(),
        }
    }

    /// The title of a section: a short bar of the accent, and the words below it.
    pub fn section_title(&mut self, name: &str, title: &str, listed: bool, parent: NodeId) -> Slab {
        let style = self.sheet.heading(1);
        let node = self.tree.add(parent, Role::Heading(1));
        let how = self.balanced();
        let words = self.block(&Text::plain(title), &style, self.sheet.width(), how, Align::Start, node);
        let mut piece = Fragment::default();
        piece.rule(filled(Mm::ZERO, Mm::ZERO, self.sheet.grown(SECTION_BAR), BAR, self.sheet.accent));
        let y = self.sheet.grown(UNDER_BAR);
        piece.height = y + words.height;
        piece.absorb(words, Mm::ZERO, y);
        let bookmark = listed.then(|| (title.to_owned(), 1));
        piece.goals.push(Goal { y: Mm::ZERO, section: Some(name.to_owned()), place: None, bookmark });
        Slab {
            fragment: piece,
            before: if self.booklet.setting.large_print { OVER_SECTION_LARGE } else { OVER_SECTION },
            after: self.sheet.grown(UNDER_SECTION),
            keep_next: true,
            wants: self.sheet.page.height * SECTION_WANTS,
            ..Slab::default()
        }
    }

    /// Dashes across the page.
    fn cut_line(&self, width: Mm) -> Slab {
        let mut piece = Fragment::default();
        let dashes = self.sheet.grown(CUT_DASH);
        self.scissors(&mut piece);
        let from = Point { x: self.sheet.grown(SCISSORS) + dashes * 0.5, y: Mm::ZERO };
        let mut cut = line(from, Point { x: width, y: Mm::ZERO }, self.sheet.muted, CUT_PEN);
        cut.stroke = cut.stroke.map(|pen| Stroke { dash: vec![dashes, dashes * 0.7], ..pen });
        piece.rule(cut);
        Slab { fragment: piece, before: OVER_CUT, after: UNDER_CUT, keep_next: true, ..Slab::default() }
    }

    /// Scissors at the left end of a line to cut along: two rings, and blades that cross and open to the right.
    fn scissors(&self, piece: &mut Fragment) {
        let unit = self.sheet.grown(Mm(1.0));
        let at = |x: f64, y: f64| Point { x: unit * x, y: unit * y };
        let pen = |mut path: Path| {
            path.stroke = path.stroke.map(|pen| Stroke { round: true, ..pen });
            path
        };
        for side in [-1.0, 1.0] {
            let ring = circle(at(1.1, side * 1.15), unit * 0.8);
            let shank = line(at(1.8, side * 0.85), at(6.4, side * -0.75), self.sheet.muted, unit * 0.32);
            let stroke = shank.stroke.clone();
            piece.rule(pen(Path { segments: ring, fill: None, stroke }));
            piece.rule(pen(shank));
        }
    }

    fn heading(&mut self, level: u8, text: &Text, width: Mm, parent: NodeId) -> Slab {
        let style = self.sheet.heading(level.max(2));
        let node = self.tree.add(parent, Role::Heading(level.clamp(2, 6)));
        let how = self.balanced();
        let mut fragment = self.block(text, &style, width.min(self.sheet.measure()), how, Align::Start, node);
        if level <= 2 {
            let bookmark = Some((text.words(), 2));
            fragment.goals.push(Goal { y: Mm::ZERO, section: None, place: None, bookmark });
        }
        let (above, below) = if level <= 2 { ROUND_HEADING } else { ROUND_SMALL_HEADING };
        Slab {
            fragment,
            before: if self.booklet.setting.large_print {
                above * LARGE_OVER_HEADING
            } else {
                self.sheet.grown(above)
            },
            after: self.sheet.grown(below),
            keep_next: true,
            ..Slab::default()
        }
    }

    fn list(&mut self, numbered: bool, items: &[Text], width: Mm, parent: NodeId) -> Vec<Slab> {
        let style = self.sheet.body;
        let list = self.tree.add(parent, Role::List { numbered });
        let widest = format!("{}.", items.len());
        let indent = if numbered { self.mark_indent(&widest, &style) } else { style.size.mm() * 1.15 };
        let measure = width.min(self.sheet.measure()) - indent;
        let mut slabs = Vec::new();
        for (i, text) in items.iter().enumerate() {
            let item = self.tree.add(list, Role::ListItem);
            let label = self.tree.add(item, Role::ListLabel);
            let body = self.tree.add(item, Role::ListBody);
            let mut lines = self.paragraph(text, &style, measure, body);
            for (l, slab) in lines.iter_mut().enumerate() {
                let words = std::mem::take(&mut slab.fragment);
                let mut piece = Fragment { height: words.height, ..Fragment::default() };
                if l == 0 {
                    let mark = if numbered { format!("{}.", i + 1) } else { "•".to_owned() };
                    piece.items.extend(self.list_mark(&mark, &style, label));
                }
                piece.absorb(words, indent, Mm::ZERO);
                slab.fragment = piece;
                slab.before =
                    if l == 0 { style.leading * if i == 0 { 0.45 } else { 0.14 } } else { Mm::ZERO };
            }
            if let (Some(last), true) = (lines.last_mut(), i + 1 < items.len()) {
                last.after = Mm::ZERO;
                last.keep_next |= i == 0 || i + 2 == items.len();
            }
            slabs.extend(lines);
        }
        slabs
    }

    /// A list whose items hold blocks, each set into what its mark leaves of the width.
    fn items(&mut self, from: Option<usize>, items: &[Vec<Block>], slot: Slot) -> Vec<Slab> {
        let style = self.sheet.body;
        let list = self.tree.add(slot.parent, Role::List { numbered: from.is_some() });
        let marks: Vec<String> = (0..items.len())
            .map(|i| from.map_or("•".to_owned(), |from| format!("{}.", from.saturating_add(i))))
            .collect();
        let widest = marks.iter().map(|mark| self.shaper.width(Face::Bold, mark, style.size));
        let indent = match from {
            Some(_) => widest.fold(Mm::ZERO, Mm::max) + style.size.mm() * 0.6,
            None => style.size.mm() * 1.15,
        };
        let width = slot.width.min(self.sheet.measure()) - indent;
        let mut slabs: Vec<Slab> = Vec::new();
        for (mark, blocks) in marks.iter().zip(items) {
            let item = self.tree.add(list, Role::ListItem);
            let label = self.tree.add(item, Role::ListLabel);
            let parent = self.tree.add(item, Role::ListBody);
            let mut set = self.blocks(blocks, Slot { width, parent, ..slot });
            if set.is_empty() {
                set.push(Slab {
                    fragment: Fragment { height: style.leading, ..Fragment::default() },
                    ..Slab::default()
                });
            }
            for (i, slab) in set.iter_mut().enumerate() {
                let within = std::mem::take(&mut slab.fragment);
                let mut piece = Fragment { height: within.height, ..Fragment::default() };
                if i == 0 {
                    piece.items.extend(self.list_mark(mark, &style, label));
                    // Items stand nearer than paragraphs do.
                    slab.before = if slabs.is_empty() { slab.before } else { style.leading * 0.14 };
                }
                piece.absorb(within, indent, Mm::ZERO);
                slab.fragment = piece;
                slab.repeat = slab.repeat.take().map(|repeat| {
                    let mut shifted = Fragment { height: repeat.height, ..Fragment::default() };
                    shifted.absorb(Fragment::clone(&repeat), indent, Mm::ZERO);
                    Arc::new(shifted)
                });
            }
            if let Some(last) = slabs.last_mut() {
                last.after = last.after.min(style.leading * 0.14);
            }
            slabs.extend(set);
        }
        slabs
    }

    /// How far the words of a numbered list stand from the left of its widest mark.
    pub fn mark_indent(&mut self, widest: &str, style: &Style) -> Mm {
        self.shaper.width(Face::Bold, widest, style.size) + style.size.mm() * 0.6
    }

    pub fn list_mark(&mut self, mark: &str, style: &Style, node: NodeId) -> Vec<super::Item> {
        let ink = Ink { face: Face::Bold, size: style.size, colour: self.sheet.accent_text };
        self.label(ink, mark, Point { x: Mm::ZERO, y: baseline(style) }, Align::Start, node)
    }
}
