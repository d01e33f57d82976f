//! Colour chart: every bead at its true proportion.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::{
    Block, Chart, ChartAnchor, ChartBead, ChartPart, ChartRow, ChartStrand, ParagraphStyle, Section, Text,
};
use crate::design::{Design, LetterId};
use crate::stitch::{self, Lying, SectionId, SectionKind, Stack, StackId, ThreadUse};
use crate::units::{Mm, Point};
use minijinja::context;
use std::collections::{BTreeMap, BTreeSet};

/// Height of a bead's hole on a whole-earring chart below which body and fringe get a page each.
/// 3 mm holds a letter of 6 pt with room round it.
const SMALLEST_ON_ONE_PAGE: Mm = Mm(3.0);
/// What a page leaves for a chart, less numbers and legend.
const ROOM: (Mm, Mm) = (Mm(140.0), Mm(185.0));
/// Distance of strands that are spread, as a share of a stack's width.
const SPREAD: f64 = 1.25;

pub(super) fn section(book: &Book) -> Section {
    Section {
        name: "chart".into(),
        title: book.words.fixed(Word::ChartTitle),
        new_page: true,
        listed: true,
        blocks: blocks(book),
    }
}

/// What is said of the chart, and the chart, in one or as body and fringe.
pub(super) fn blocks(book: &Book) -> Vec<Block> {
    let words = &book.words;
    let mut blocks = vec![Block::Paragraph {
        text: Text::plain(words.fixed(Word::ChartIntro)),
        style: ParagraphStyle::Body,
    }];
    if !book.work.anchors.is_empty() {
        blocks
            .push(Block::Paragraph { text: Text::marked(&anchors_line(book)), style: ParagraphStyle::Body });
    }
    if fits_one_page(book) {
        blocks.push(Block::Chart(chart(book, ChartPart::Whole)));
    } else {
        blocks.push(Block::Heading { level: 2, text: Text::plain(words.fixed(Word::ChartBody)) });
        blocks.push(Block::Chart(chart(book, ChartPart::Body)));
        blocks.push(Block::NewPage);
        blocks.push(Block::Heading { level: 2, text: Text::plain(words.fixed(Word::ChartFringe)) });
        blocks.push(Block::Paragraph {
            text: Text::plain(words.fixed(if strands_hide(book) {
                Word::ChartFringeIntroEdge
            } else {
                Word::ChartFringeIntro
            })),
            style: ParagraphStyle::Body,
        });
        blocks.push(Block::Chart(chart(book, ChartPart::Fringe)));
    }
    blocks
}

/// Marks and purposes of the places to anchor.
fn anchors_line(book: &Book) -> String {
    let anchors: Vec<minijinja::Value> = book
        .work
        .anchors
        .iter()
        .enumerate()
        .map(|(i, anchor)| {
            let fixed = |word| book.words.fixed(word);
            let what = match (anchor.join, anchor.thread, anchor.begins) {
                (None, ThreadUse::Body, true) => fixed(Word::ChartAnchorBodyBegin),
                (None, ThreadUse::Body, false) => fixed(Word::ChartAnchorBodyEnd),
                (None, ThreadUse::Fringe, true) => fixed(Word::ChartAnchorFringeBegin),
                (None, ThreadUse::Fringe, false) => fixed(Word::ChartAnchorFringeEnd),
                (Some(_), _, true) => fixed(Word::ChartAnchorJoinBegin),
                (Some(section), _, false) => {
                    let section = &book.work.fabric[section];
                    let strand = section.kind == SectionKind::Strand;
                    let values = context! { strand, number => section.number };
                    book.words.say(Word::ChartAnchorJoinEnd, values)
                }
            };
            context! { mark => book.anchor_mark(i), what }
        })
        .collect();
    book.words.say(Word::ChartAnchors, context! { anchors => anchors })
}

/// The charts that show all of an earring: one, or body and fringe apart where strands would hide what lies behind
/// them.
pub(in crate::booklet) fn parts(book: &Book) -> &'static [ChartPart] {
    if strands_hide(book) { &[ChartPart::Body, ChartPart::Fringe] } else { &[ChartPart::Whole] }
}

/// Whether strands lie over rows below what they hang on, or over each other: along a stepped edge they hang half a
/// stack apart.
fn strands_hide(book: &Book) -> bool {
    let (fabric, wide) = (&book.work.fabric, book.work.geometry.stack_width);
    let hung: Vec<&Stack> =
        strands(book).filter_map(|(_, strand)| strand.hangs_on).map(|s| &fabric[s]).collect();
    let near = |a: Mm, b: Mm| (a - b).abs() < wide * 0.9;
    let over_each_other = hung.windows(2).any(|pair| near(pair[0].upper.x, pair[1].upper.x));
    let lowest = hung.iter().map(|stack| stack.line).max().unwrap_or(0);
    let over_rows = || {
        let below = fabric.stacks.iter().filter(|stack| stack.line < lowest);
        below
            .into_iter()
            .any(|low| hung.iter().any(|stack| low.line < stack.line && near(low.upper.x, stack.upper.x)))
    };
    over_each_other || over_rows()
}

fn strands<'b>(book: &'b Book) -> impl DoubleEndedIterator<Item = (SectionId, &'b stitch::Section)> {
    book.work.fabric.of_kind(SectionKind::Strand)
}

/// How far a strand is moved aside on a chart of the fringe where strands would hide each other: there they hang a
/// little more than their width apart.
fn aside(book: &Book, part: ChartPart) -> BTreeMap<SectionId, Mm> {
    if part != ChartPart::Fringe || !strands_hide(book) {
        return BTreeMap::new();
    }
    let apart = book.work.geometry.stack_width * SPREAD;
    let count = strands(book).count();
    let middle = book.work.geometry.body_width / 2.0;
    let moved = strands(book).enumerate().filter_map(|(index, (id, strand))| {
        let x = book.work.fabric[strand.hangs_on?].upper.x;
        let wanted = middle + apart * (index as f64 - (count as f64 - 1.0) / 2.0);
        Some((id, wanted - x))
    });
    moved.collect()
}

/// Whether letters stay easy to read with body and fringe on one page.
fn fits_one_page(book: &Book) -> bool {
    if book.edition.large_print || strands_hide(book) {
        return false;
    }
    let (top_left, bottom_right) = book.work.geometry.bounds;
    let width = bottom_right.x - top_left.x;
    let height = bottom_right.y - top_left.y;
    let scale = (ROOM.0 / width).min(ROOM.1 / height);
    let shortest = book
        .used()
        .iter()
        .map(|&(l, _)| book.design.bead(l))
        .map(|b| b.length.min(b.width))
        .fold(Mm(f64::INFINITY), Mm::min);
    shortest * scale >= SMALLEST_ON_ONE_PAGE
}

/// A chart of one part of the earring.
pub(in crate::booklet) fn chart(book: &Book, part: ChartPart) -> Chart {
    let (design, work) = (book.design, book.work);
    let fabric = &work.fabric;
    let aside = aside(book, part);
    let hung_on: BTreeSet<SectionId> = strands(book)
        .filter(|_| aside.is_empty())
        .filter_map(|(_, strand)| strand.hangs_on)
        .map(|stack| fabric[stack].section)
        .collect();
    let beads: Vec<ChartBead> = work
        .fabric
        .beads
        .iter()
        .filter(|lying| shows(part, fabric[lying.section].kind, || hung_on.contains(&lying.section)))
        .map(|lying| {
            let mut bead = chart_bead(book, design, lying, part);
            bead.centre.x += aside.get(&lying.section).copied().unwrap_or(Mm::ZERO);
            bead
        })
        .collect();
    let shown = |l: LetterId| beads.iter().any(|b| b.letter == design.symbol(l) && !b.faded);
    let legend = book.legend(book.used().into_iter().filter(|&(l, _)| shown(l)).map(|(l, n)| (l, Some(n))));
    let alt = match part {
        ChartPart::Whole => Word::ChartAltWhole,
        ChartPart::Body => Word::ChartAltBody,
        ChartPart::Fringe => Word::ChartAltFringe,
    };
    Chart {
        part,
        rows: if part == ChartPart::Fringe { Vec::new() } else { chart_rows(book) },
        strands: if part == ChartPart::Body { Vec::new() } else { chart_strands(book, &aside) },
        anchors: if part == ChartPart::Fringe { Vec::new() } else { chart_anchors(book) },
        beads,
        legend,
        alt: book.words.fixed(alt),
        caption: Text::default(),
        ticks: None,
        max_height: None,
    }
}

/// Whether a part shows beads of a kind of section, which strands may hang on.
fn shows(part: ChartPart, kind: SectionKind, is_hung_on: impl FnOnce() -> bool) -> bool {
    match (part, kind) {
        (ChartPart::Whole, _)
        | (ChartPart::Body, SectionKind::Row | SectionKind::Loop)
        | (ChartPart::Fringe, SectionKind::Strand) => true,
        (ChartPart::Fringe, SectionKind::Row) => is_hung_on(),
        (ChartPart::Body, SectionKind::Strand) | (ChartPart::Fringe, SectionKind::Loop) => false,
    }
}

fn chart_bead(book: &Book, design: &Design, lying: &Lying, part: ChartPart) -> ChartBead {
    let bead = design.bead(lying.letter);
    let section = &book.work.fabric[lying.section];
    ChartBead {
        kind: section.kind,
        number: section.number,
        letter: design.symbol(lying.letter),
        colour: bead.colour,
        centre: lying.centre,
        width: bead.width,
        length: bead.length,
        shape: bead.shape,
        turned: lying.turned,
        pattern: book.patterns[lying.letter.0],
        faded: part == ChartPart::Fringe && section.kind == SectionKind::Row,
    }
}

/// Outer edges of the beads of one row or strand.
struct Edges {
    left: Mm,
    right: Mm,
    top: Mm,
    bottom: Mm,
}

impl Edges {
    fn of<'a>(design: &Design, beads: impl Iterator<Item = &'a Lying>) -> Edges {
        let none = Edges {
            left: Mm(f64::INFINITY),
            right: Mm(f64::NEG_INFINITY),
            top: Mm(f64::INFINITY),
            bottom: Mm(f64::NEG_INFINITY),
        };
        beads.fold(none, |e, lying| {
            let bead = design.bead(lying.letter);
            Edges {
                left: e.left.min(lying.centre.x - bead.width / 2.0),
                right: e.right.max(lying.centre.x + bead.width / 2.0),
                top: e.top.min(lying.centre.y - bead.length / 2.0),
                bottom: e.bottom.max(lying.centre.y + bead.length / 2.0),
            }
        })
    }
}

fn chart_rows(book: &Book) -> Vec<ChartRow> {
    let row = |(id, row): (SectionId, &stitch::Section)| {
        let e = Edges::of(book.design, book.work.fabric.beads_of(id));
        ChartRow {
            number: row.number,
            from: row.from,
            top: e.top,
            bottom: e.bottom,
            left: e.left,
            right: e.right,
        }
    };
    book.work.fabric.of_kind(SectionKind::Row).map(row).collect()
}

fn chart_strands(book: &Book, aside: &BTreeMap<SectionId, Mm>) -> Vec<ChartStrand> {
    let strand = |(id, strand): (SectionId, &stitch::Section)| {
        let beads = book.work.fabric.beads_of(id);
        let e = Edges::of(book.design, beads.clone());
        let fifths = beads.clone().skip(4).step_by(5);
        ChartStrand {
            number: strand.number,
            x: beads.clone().next().map_or(Mm::ZERO, |b| b.centre.x)
                + aside.get(&id).copied().unwrap_or(Mm::ZERO),
            top: e.top,
            bottom: e.bottom,
            fifths: fifths.map(|b| b.centre.y + book.design.bead(b.letter).length / 2.0).collect(),
        }
    };
    book.work.fabric.of_kind(SectionKind::Strand).map(strand).collect()
}

fn chart_anchors(book: &Book) -> Vec<ChartAnchor> {
    let fabric = &book.work.fabric;
    let edges =
        |stack: StackId| Edges::of(book.design, fabric[stack].beads.iter().map(|spot| &fabric[*spot]));
    book.work
        .anchors
        .iter()
        .enumerate()
        .map(|(i, anchor)| {
            let [a, b] = anchor.stacks.map(edges);
            let (top, bottom) = (a.top.min(b.top), a.bottom.max(b.bottom));
            ChartAnchor {
                at: Point { x: (a.left + b.right) / 2.0, y: (top + bottom) / 2.0 },
                width: b.right - a.left,
                height: bottom - top,
                mark: book.anchor_mark(i),
            }
        })
        .collect()
}
