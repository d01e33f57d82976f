//! Bench copies: big type and little ink, with a box to tick for every row, strand and long run.

use super::book::{Book, Edition};
use super::boxes::BoxName;
use super::compose::{finish, open};
use super::sections::{chart, rows, strands};
use super::{
    Block, Booklet, Cell, CellPart, ChartPart, ChartTicks, Column, ColumnWidth, RowKind, Section, Table,
    TableRow, Text, Tick,
};
use crate::booklet::{Word, Wording};
use crate::design::Design;
use crate::diagnostic::Problem;
use crate::drawn::Align;
use crate::stitch::{RowWork, SectionKind, StrandWork, Work};
use crate::tally::Tally;
use minijinja::context;
use std::ops::RangeInclusive;

/// Where the column of edges stands, if it does: after the side that a row starts from.
const EDGES: usize = 3;
/// A run this long gets a box of its own: the eye loses count at about five.
const LONG_RUN: usize = 5;

/// One earring of the pair on the bench.
#[derive(Clone, Copy)]
pub struct BenchEarring<'a> {
    /// 1 or 2.
    pub number: usize,
    /// Its design: mirrored for the second, where the pair is mirrored.
    pub design: &'a Design,
    /// Its stitched work.
    pub work: &'a Work,
    /// Its tally.
    pub tally: &'a Tally,
}

/// Composes a bench copy of one or both earrings; `only` prints a part of the rows, counted from 1.
///
/// # Errors
/// When a text of the wording cannot be filled in.
pub fn bench(
    earrings: &[BenchEarring],
    wording: &Wording,
    edition: &Edition,
    only: Option<&RangeInclusive<usize>>,
) -> Result<Booklet, Vec<Problem>> {
    let mut sections = Vec::new();
    let mut problems = Vec::new();
    let mut last: Option<Book> = None;
    for earring in earrings {
        let book = open(earring.design, earring.work, earring.tally, wording, edition);
        sections.extend(sections_of(&book, earring.number, only));
        // Some texts are said of the first earring only.
        problems.extend(last.replace(book).map_or(Vec::new(), |book| book.words.problems()));
    }
    match last {
        Some(book) => finish(book, sections, true, problems),
        None => Err(Vec::new()),
    }
}

fn sections_of(book: &Book, earring: usize, only: Option<&RangeInclusive<usize>>) -> Vec<Section> {
    let words = &book.words;
    let name = words.say(Word::BenchEarring, context! { number => earring });
    let title = words.fixed(if earring == 1 { Word::BenchFirst } else { Word::BenchSecond });
    let part_title = |part| {
        let part = words.fixed(part);
        words.say(Word::BenchPartTitle, context! { earring => title.as_str(), part => part })
    };
    let parts = if only.is_some() { &[ChartPart::Body] } else { chart::parts(book) };
    let mut blocks = vec![Block::Paragraph {
        text: Text::plain(format!("{name}. {}", words.fixed(Word::BenchIntro))),
        style: super::ParagraphStyle::Body,
    }];
    for part in parts {
        let mut chart = chart::chart(book, *part);
        chart.ticks = Some(chart_ticks(book, earring));
        chart.anchors.clear();
        if let Some(only) = only {
            chart.rows.retain(|r| only.contains(&r.number));
            chart.beads.retain(|b| b.kind == SectionKind::Row && only.contains(&b.number));
        }
        if *part == ChartPart::Fringe {
            blocks.push(Block::NewPage);
        }
        blocks.push(Block::Chart(chart));
    }
    let mut list = vec![Section {
        name: format!("e{earring}-chart"),
        title: title.clone(),
        new_page: true,
        listed: true,
        blocks,
    }];
    list.push(Section {
        name: format!("e{earring}-rows"),
        title: part_title(Word::BenchRows),
        new_page: true,
        listed: true,
        blocks: vec![Block::Table(row_table(book, earring, only))],
    });
    if only.is_none() {
        let blocks = vec![Block::Figure(strands::ruler(book)), Block::Table(strand_table(book, earring))];
        list.push(Section {
            name: format!("e{earring}-strands"),
            title: part_title(Word::BenchStrands),
            new_page: true,
            listed: true,
            blocks,
        });
    }
    list
}

/// Boxes beside the chart, of every row and strand.
fn chart_ticks(book: &Book, earring: usize) -> ChartTicks {
    let (design, work) = (book.design, book.work);
    let of_row = |row: &RowWork| (row.number, BoxName::of_row(design, earring, row).on_chart());
    let of_strand =
        |strand: &StrandWork| (strand.number, BoxName::of_strand(design, earring, strand).on_chart());
    ChartTicks {
        rows: work.rows.iter().map(of_row).collect(),
        strands: work.strands.iter().map(of_strand).collect(),
    }
}

fn row_table(book: &Book, earring: usize, only: Option<&RangeInclusive<usize>>) -> Table {
    let words = &book.words;
    let edges = rows::Edges::without_steps(book);
    let mut so_far = 0;
    let mut table_rows = Vec::new();
    for row in &book.work.rows {
        so_far += row.pick_ups.len();
        if only.is_none_or(|only| only.contains(&row.number)) {
            table_rows.push(row_line(book, earring, &edges, row, so_far));
        }
    }
    let loops = book.work.loops().enumerate().filter(|_| only.is_none());
    table_rows.extend(loops.map(|(index, ring)| {
        let letters = book.work.loop_letters(ring);
        let name = BoxName::of_loop(book.design, earring, index + 1, &letters).in_list();
        let tick = Tick { name, tooltip: rows::loop_name(book, ring) };
        let mut cells = vec![
            Cell::Tick(tick),
            text(rows::loop_name(book, ring)),
            Cell::Empty,
            Cell::Empty,
            text(book.loop_runs(ring)),
            Cell::Empty,
        ];
        if edges.shown {
            cells.insert(EDGES, Cell::Empty);
        }
        plain(cells)
    }));
    let mut columns = vec![
        (Align::Middle, ColumnWidth::Fit, words.fixed(Word::BenchDone)),
        (Align::End, ColumnWidth::Fit, words.fixed(Word::RowsRow)),
        (Align::Start, ColumnWidth::Fit, words.fixed(Word::RowsFrom)),
        (Align::Start, ColumnWidth::Fit, words.fixed(Word::RowsStart)),
        (Align::Start, ColumnWidth::Share(1.0), words.fixed(Word::RowsThen)),
        (Align::End, ColumnWidth::Fit, words.fixed(Word::BenchSoFar)),
    ];
    if edges.shown {
        columns.insert(EDGES, (Align::Start, edges.width(book), words.fixed(Word::RowsEdges)));
    }
    table(words.fixed(Word::RowsSummary), &columns, table_rows)
}

fn row_line(book: &Book, earring: usize, edges: &rows::Edges, row: &RowWork, so_far: usize) -> TableRow {
    let words = &book.words;
    let number = row.number;
    let name = BoxName::of_row(book.design, earring, row);
    let tick =
        Tick { name: name.in_list(), tooltip: words.say(Word::BenchRowTip, context! { number => number }) };
    let parts = row.then.iter().enumerate().map(|(i, run)| {
        let run_text = book.stack_runs(std::slice::from_ref(run));
        let tick = (run.count >= LONG_RUN).then(|| Tick {
            name: name.of_run(i + 1),
            tooltip: words.say(Word::BenchRunTip, context! { row => number, run => run_text.as_str() }),
        });
        CellPart { tick, text: Text::plain(run_text) }
    });
    let mut cells = vec![
        Cell::Tick(tick),
        strong(number),
        text(rows::from_cell(book, row.from)),
        Cell::Text(Text::marked(&format!("**{}**", book.spaced(&row.starts_with)))),
        Cell::Parts(parts.collect()),
        text(words.number(so_far)),
    ];
    if edges.shown {
        cells.insert(EDGES, text(edges.of_row(book, row)));
    }
    plain(cells)
}

fn strand_table(book: &Book, earring: usize) -> Table {
    let words = &book.words;
    let mut so_far = 0;
    let mut table_rows = Vec::new();
    for strand in book.work.strands_in_order() {
        so_far += strand.beads;
        table_rows.push(strand_line(book, earring, strand, so_far));
    }
    table(
        words.fixed(Word::StrandsSummary),
        &[
            (Align::Middle, ColumnWidth::Fit, words.fixed(Word::BenchDone)),
            (Align::End, ColumnWidth::Fit, words.fixed(Word::StrandsStrand)),
            (Align::Start, ColumnWidth::Share(1.0), words.fixed(Word::StrandsRuns)),
            (Align::Start, ColumnWidth::Fit, words.fixed(Word::StrandsTurn)),
            (Align::End, ColumnWidth::Fit, words.fixed(Word::StrandsBeads)),
            (Align::End, ColumnWidth::Fit, words.fixed(Word::BenchSoFar)),
            (Align::End, ColumnWidth::Fit, words.fixed(Word::StrandsLength)),
        ],
        table_rows,
    )
}

fn strand_line(book: &Book, earring: usize, strand: &StrandWork, so_far: usize) -> TableRow {
    let words = &book.words;
    let number = strand.number;
    let name = BoxName::of_strand(book.design, earring, strand);
    let tick = Tick {
        name: name.in_list(),
        tooltip: words.say(Word::BenchStrandTip, context! { number => number }),
    };
    let parts = strand.runs.iter().enumerate().map(|(i, run)| {
        let run_text = book.bead_runs(std::slice::from_ref(run));
        let tick = (run.count >= LONG_RUN).then(|| Tick {
            name: name.of_run(i + 1),
            tooltip: words
                .say(Word::BenchStrandRunTip, context! { strand => number, run => run_text.as_str() }),
        });
        CellPart { tick, text: Text::plain(run_text) }
    });
    plain(vec![
        Cell::Tick(tick),
        strong(number),
        Cell::Parts(parts.collect()),
        Cell::Text(Text::marked(&format!("**{}**", book.bead_runs(&strand.turn)))),
        text(words.number(strand.beads)),
        text(words.number(so_far)),
        text(words.short(strand.length)),
    ])
}

fn text(text: String) -> Cell {
    Cell::Text(Text::plain(text))
}

fn strong(number: usize) -> Cell {
    Cell::Text(Text::marked(&format!("**{number}**")))
}

fn plain(cells: Vec<Cell>) -> TableRow {
    TableRow { cells, kind: RowKind::Plain }
}

fn table(summary: String, columns: &[(Align, ColumnWidth, String)], rows: Vec<TableRow>) -> Table {
    Table {
        summary,
        columns: columns.iter().map(|&(align, width, _)| Column { align, width }).collect(),
        head: columns.iter().map(|(_, _, head)| Text::plain(head.clone())).collect(),
        rows,
        row_header: Some(1),
    }
}
