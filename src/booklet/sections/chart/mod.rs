//! Colour chart: every bead at its true proportion.

mod apart;
mod edges;

use crate::booklet::Word;
use crate::booklet::book::{Book, Counted};
use crate::booklet::sections::steps::plan_of;
use crate::booklet::sections::strands::lines;
use crate::booklet::{
    Block, Chart, ChartBead, ChartLeads, ChartPart, Floating, ParagraphStyle, Section, Text,
};
use crate::design::{Design, LetterId};
use crate::stitch::{Lying, SectionId, SectionKind, ThreadUse};
use apart::Apart;
use edges::{chart_anchors, chart_rows, chart_strands};
use minijinja::context;
use std::collections::BTreeSet;

pub(super) fn section(book: &Book) -> Section {
    let listed = Some(book.words.fixed(Word::ChartFringe));
    Section {
        name: "chart".into(),
        title: book.words.fixed(Word::ChartTitle),
        new_page: true,
        faces: false,
        listed: true,
        blocks: blocks(book, |fringe| {
            vec![Block::Float(Floating { blocks: fringe, listed: listed.clone() })]
        }),
    }
}

/// What is said of the chart, and the chart, in one or as body and fringe; that of the fringe as it is to be put.
pub(super) fn blocks(book: &Book, put: impl Fn(Vec<Block>) -> Vec<Block>) -> Vec<Block> {
    let words = &book.words;
    let mut blocks = vec![Block::Paragraph {
        text: Text::plain(words.fixed(Word::ChartIntro)),
        style: ParagraphStyle::Body,
    }];
    // Captions are too small for a screen.
    if book.edition.tablet && !book.work.anchors.is_empty() {
        blocks
            .push(Block::Paragraph { text: Text::marked(&anchors_line(book)), style: ParagraphStyle::Body });
    }
    let apart = Apart::of(book);
    let otherwise = body_and_fringe(book, &apart, put);
    if apart.must_be() {
        blocks.extend(otherwise);
    } else {
        blocks.push(Block::ChartOnOnePage {
            chart: keyed(book, leading(book, chart(book, &apart, ChartPart::Whole))),
            otherwise,
        });
    }
    blocks
}

/// The earring as it hangs without letters, then body and fringe, each with a page of its own.
fn body_and_fringe(book: &Book, apart: &Apart, put: impl Fn(Vec<Block>) -> Vec<Block>) -> Vec<Block> {
    let words = &book.words;
    let heading = |word| Block::Heading { level: 2, text: Text::plain(words.fixed(word)) };
    let foundation = book.design.hangs_on_its_foundation();
    let fringe = if !apart.must_be() {
        words.say(Word::ChartFringeIntro, context! { foundation })
    } else if foundation {
        words.fixed(Word::ChartFringeIntroApart)
    } else {
        words.fixed(Word::ChartFringeIntroEdge)
    };
    let mut blocks = vec![
        Block::Chart(picture(book, apart)),
        Block::NewPage,
        heading(Word::ChartBody),
        Block::Chart(keyed(book, leading(book, chart(book, apart, ChartPart::Body)))),
    ];
    blocks.extend(put(vec![
        heading(Word::ChartFringe),
        Block::Paragraph { text: Text::plain(fringe), style: ParagraphStyle::Body },
        Block::Chart(leading(book, chart(book, apart, ChartPart::Fringe))),
    ]));
    blocks
}

/// The charts of a bench copy, each with what it is given: of the whole earring where one page holds it, else of body
/// and fringe.
pub(in crate::booklet) fn for_bench(book: &Book, given: impl Fn(Chart) -> Chart) -> Vec<Block> {
    let apart = Apart::of(book);
    let of = |part| given(chart(book, &apart, part));
    let otherwise =
        vec![Block::Chart(of(ChartPart::Body)), Block::NewPage, Block::Chart(of(ChartPart::Fringe))];
    if apart.must_be() {
        return otherwise;
    }
    vec![Block::ChartOnOnePage { chart: of(ChartPart::Whole), otherwise }]
}

/// The chart of the body.
pub(in crate::booklet) fn body(book: &Book) -> Chart {
    chart(book, &Apart::of(book), ChartPart::Body)
}

/// A picture of the whole earring, without letters and numbers.
fn picture(book: &Book, apart: &Apart) -> Chart {
    let words = &book.words;
    Chart {
        bare: true,
        alt: words.fixed(Word::ChartAltPicture),
        caption: Text::plain(words.fixed(Word::ChartPicture)),
        ..beads_alone(book, apart)
    }
}

/// The earring as it hangs, small, without numbers, marks and legend; with letters where they can be read.
pub(super) fn small(book: &Book) -> Chart {
    let apart = Apart::of(book);
    Chart { bare: apart.must_be(), ..beads_alone(book, &apart) }
}

fn beads_alone(book: &Book, apart: &Apart) -> Chart {
    Chart {
        rows: Vec::new(),
        strands: Vec::new(),
        anchors: Vec::new(),
        legend: Vec::new(),
        ..chart(book, apart, ChartPart::Whole)
    }
}

/// Marks and purposes of the places to anchor. Where lengths join is told where it comes: in word chart and bead list.
fn anchors_line(book: &Book) -> String {
    let fixed = |word| book.words.fixed(word);
    let ends = book.work.anchors.iter().enumerate().filter(|(_, anchor)| anchor.join.is_none());
    let anchors: Vec<minijinja::Value> = ends
        .map(|(i, anchor)| {
            let what = fixed(match (anchor.thread, anchor.begins) {
                (ThreadUse::Body, true) => Word::ChartAnchorBodyBegin,
                (ThreadUse::Body, false) => Word::ChartAnchorBodyEnd,
                (ThreadUse::Fringe, true) => Word::ChartAnchorFringeBegin,
                (ThreadUse::Fringe, false) => Word::ChartAnchorFringeEnd,
            });
            context! { mark => book.anchor_link(i), what }
        })
        .collect();
    let joins = anchors.len() < book.work.anchors.len();
    let listed = book.words.say(Word::ChartAnchors, context! { anchors => anchors });
    if joins { format!("{listed} {}", fixed(Word::ChartAnchorsOfJoins)) } else { listed }
}

/// A chart of one part of the earring.
fn chart(book: &Book, apart: &Apart, part: ChartPart) -> Chart {
    let (design, work) = (book.design, book.work);
    let fabric = &work.fabric;
    let moves = part == ChartPart::Fringe && apart.must_be();
    let hung_on: BTreeSet<SectionId> = fabric
        .of_kind(SectionKind::Strand)
        .filter(|_| !moves)
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
            if moves {
                bead.centre = apart.moved(lying.section, bead.centre);
            }
            bead
        })
        .collect();
    let here = |l: LetterId| beads.iter().filter(|b| b.letter == design.symbol(l) && !b.faded).count();
    let counted = book.used().into_iter().map(|(l, one)| (l, here(l), one)).filter(|(_, here, _)| *here > 0);
    let legend = book.legend(counted.map(|(l, here, one)| (l, Counted { here, one })));
    let alt = match part {
        ChartPart::Whole => Word::ChartAltWhole,
        ChartPart::Body => Word::ChartAltBody,
        ChartPart::Fringe => Word::ChartAltFringe,
    };
    Chart {
        part,
        rows: if part == ChartPart::Fringe { Vec::new() } else { chart_rows(book) },
        strands: if part == ChartPart::Body {
            Vec::new()
        } else {
            chart_strands(book, moves.then_some(apart))
        },
        anchors: if part == ChartPart::Fringe { Vec::new() } else { chart_anchors(book) },
        beads,
        legend,
        alt: book.words.fixed(alt),
        caption: Text::default(),
        ticks: None,
        leads: None,
        max_height: None,
        bare: false,
    }
}

/// A chart whose numbers and marks lead to what is said of them.
fn leading(book: &Book, chart: Chart) -> Chart {
    let marks = plan_of(book).steps_of_marks();
    Chart { leads: Some(ChartLeads { earring: book.earring, lines: lines(book), marks }), ..chart }
}

/// A chart that says below it what its frames are.
fn keyed(book: &Book, chart: Chart) -> Chart {
    if chart.anchors.is_empty() || book.edition.tablet {
        return chart;
    }
    Chart { caption: Text::marked(&anchors_line(book)), ..chart }
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
