//! Materials: beads, thread with its plan, findings, tools, cost, and the earring at its true size.

mod beads;
mod parts;
mod thread;
mod tools;

pub(super) use beads::{by_bead, together};

use super::parts::heading;
use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::drawing;
use crate::booklet::{
    Block, Cell, ColumnWidth, Figure, Floating, ParagraphStyle, RowKind, Section, Table, TableRow, Text,
};
use crate::design::Paper;
use crate::drawn::Align;
use crate::tally::prices;
use crate::units::Mm;
use minijinja::context;
use parts::{column, price_head, small, text_cell};

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let mut blocks = vec![heading(book, Word::MaterialsBeads), Block::Table(beads::table(book))];
    blocks.extend(beads::notes(book));
    blocks.push(heading(book, Word::MaterialsThreads));
    blocks.push(Block::Table(thread::table(book)));
    blocks.extend(thread::plan(book));
    if !book.tally.findings.is_empty() {
        blocks.push(Block::Together(vec![
            heading(book, Word::MaterialsFindings),
            Block::Table(findings(book)),
        ]));
    }
    let tools: Vec<Text> = tools::names(book).into_iter().map(Text::plain).collect();
    if !tools.is_empty() {
        blocks.push(Block::Together(vec![
            heading(book, Word::MaterialsTools),
            Block::List { numbered: false, items: tools },
        ]));
    }
    if let Some(cost) = book.tally.cost {
        // The tables give the prices of all else.
        let thread: f64 = book.tally.threads.iter().filter_map(|thread| thread.price).sum();
        blocks.push(small(&words.say(Word::MaterialsCost, context! { cost, thread })));
    }
    // Here rather than behind the chart, which fills its page: who sees how small it is buys beads that fit.
    if !book.edition.tablet {
        blocks.push(true_size(book));
    }
    Section {
        name: "materials".into(),
        title: words.fixed(Word::MaterialsTitle),
        new_page: true,
        faces: false,
        listed: true,
        blocks,
    }
}

fn findings(book: &Book) -> Table {
    let words = &book.words;
    let with_price = prices(book.design).findings;
    let rows = book.tally.findings.iter().map(|count| {
        let finding = &book.design.findings[count.finding];
        let mut name = format!("**{}**", words.own(&finding.name));
        if let Some(holes) = finding.holes {
            let holes = words.say(Word::MaterialsHoles, context! { holes => holes.0 });
            name = format!("{name}, {holes}");
        }
        let mut cells = vec![
            Cell::Text(Text::marked(&name)),
            text_cell(count.one.to_string()),
            text_cell(count.pair.to_string()),
        ];
        if with_price {
            cells.push(text_cell(count.price.map_or_else(String::new, |p| book.words.decimals(p, 2))));
        }
        TableRow { cells, kind: RowKind::Plain }
    });
    let mut columns = vec![
        column(Align::Start, ColumnWidth::Share(1.0)),
        column(Align::End, ColumnWidth::Fit),
        column(Align::End, ColumnWidth::Fit),
    ];
    let mut head =
        [Word::MaterialsFinding, Word::MaterialsOne, Word::MaterialsPair].map(|w| words.fixed(w)).to_vec();
    if with_price {
        columns.push(column(Align::End, ColumnWidth::Fit));
        head.push(price_head(book));
    }
    Table {
        summary: words.fixed(Word::MaterialsFindingsSummary),
        columns,
        head: head.into_iter().map(Text::plain).collect(),
        rows: rows.collect(),
        row_header: Some(0),
    }
}

/// Height of the heading and the words above a drawing at true size.
const ABOVE_TRUE_SIZE: Mm = Mm(44.0);

/// The silhouette at true size, with a bar to check the print by.
fn true_size(book: &Book) -> Block {
    let (words, size) = (&book.words, book.tally.size);
    let whole = highest(book.edition.paper);
    // Where a page is too short for the earring anyway, heading and words stand above it.
    let above = ABOVE_TRUE_SIZE * if book.edition.large_print { 1.6 } else { 1.0 };
    let is_too_long = drawing::left_out_of_silhouette(book.design, book.work, whole) > Mm::ZERO;
    let room = if is_too_long { whole - above } else { whole };
    let drawing = drawing::silhouette(book.design, book.work, book.edition.large_print, room);
    let mut text = words.fixed(Word::ChartTrueSizeText);
    let left_out = drawing::left_out_of_silhouette(book.design, book.work, room);
    if left_out > Mm::ZERO {
        let cut = words.say(Word::ChartTrueSizeCut, context! { left_out => left_out.0 });
        text = format!("{text} {cut}");
    }
    let blocks = vec![
        Block::Heading { level: 2, text: Text::plain(words.fixed(Word::ChartTrueSize)) },
        Block::Paragraph { text: Text::plain(text), style: ParagraphStyle::Body },
        Block::Figure(Figure {
            drawing,
            moves: Vec::new(),
            caption: Text::default(),
            alt: words.say(Word::ChartTrueSizeAlt, context! { width => size.width.0, drop => size.drop.0 }),
        }),
    ];
    Block::Float(Floating { blocks, listed: Some(words.fixed(Word::ChartTrueSize)) })
}

/// How high a drawing may be that stands on a page of its own: what is left between running head and foot.
fn highest(paper: Paper) -> Mm {
    match paper {
        Paper::A4 => Mm(226.0),
        Paper::Letter => Mm(208.0),
        Paper::A5 => Mm(138.0),
        Paper::HalfLetter => Mm(144.0),
    }
}
