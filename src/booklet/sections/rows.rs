//! Word chart: each row as it is picked up.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::drawing::Align;
use crate::booklet::{
    Block, CalloutKind, Cell, Column, ColumnWidth, ParagraphStyle, RowKind, Section, Table, TableRow, Text,
};
use crate::design::{Hang, Side};
use crate::stitch::RowWork;
use minijinja::context;

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let single = book.design.body.drop == 1;
    let note = if single { Word::RowsOrderNoteSingle } else { Word::RowsOrderNote };
    let intro = format!("{} {}", words.fixed(Word::RowsIntro), words.fixed(note));
    let mut blocks = vec![Block::Paragraph { text: Text::plain(intro), style: ParagraphStyle::Body }];
    if let Some(row) = book.work.rows.get(1) {
        blocks.push(example(book, row));
    }
    blocks.push(Block::Table(table(book)));
    Section { name: "rows".into(), title: words.fixed(Word::RowsTitle), new_page: true, listed: true, blocks }
}

/// How to read a row, with this design's own row 2.
fn example(book: &Book, row: &RowWork) -> Block {
    let words = &book.words;
    let number = row.number;
    let side = book.side_started(row.from);
    let start = book.spaced(&row.starts_with);
    let text = if row.then.is_empty() && row.starts_with.len() == book.design.body.drop {
        words.say(
            Word::RowsExampleOne,
            context! { number => number, side => side, start => start, beads => row.pick_ups.len() },
        )
    } else {
        let spelled: Vec<String> = row
            .then
            .iter()
            .map(|run| {
                words
                    .say(Word::RowsSpelled, context! { count => run.count, beads => book.spaced(&run.beads) })
            })
            .collect();
        words.say(
            Word::RowsExample,
            context! {
                number => number, side => side, start => start,
                then => Some(book.stack_runs(&row.then)).filter(|t| !t.is_empty()),
                spelled => spelled.join(", "), beads => row.pick_ups.len(),
            },
        )
    };
    Block::Callout {
        kind: CalloutKind::Note,
        title: Text::plain(words.say(Word::RowsExampleTitle, context! { number => number })),
        blocks: vec![Block::Paragraph { text: Text::marked(&text), style: ParagraphStyle::Body }],
    }
}

/// An arrow the way the row runs, and the side it starts from.
pub(in crate::booklet) fn from_cell(book: &Book, side: Side) -> String {
    match side {
        Side::Left => format!("→ {}", book.side(side)),
        Side::Right => format!("← {}", book.side(side)),
    }
}

fn table(book: &Book) -> Table {
    let words = &book.words;
    let cell = |text: String| Cell::Text(Text::plain(text));
    let mut rows: Vec<TableRow> = book
        .work
        .rows
        .iter()
        .map(|row| TableRow {
            cells: vec![
                Cell::Text(Text::marked(&format!("**{}**", row.number))),
                cell(from_cell(book, row.from)),
                Cell::Text(Text::marked(&format!("**{}**", book.spaced(&row.starts_with)))),
                cell(book.stack_runs(&row.then)),
                cell(words.number(row.pick_ups.len())),
            ],
            kind: RowKind::Plain,
        })
        .collect();
    let body: usize = book.work.rows.iter().map(|r| r.pick_ups.len()).sum();
    rows.push(total(words.fixed(Word::RowsTotal), words.number(body)));
    if let Hang::Loop(beads) = &book.design.hang {
        rows.push(TableRow {
            cells: vec![
                cell(words.fixed(Word::RowsLoop)),
                Cell::Empty,
                Cell::Empty,
                cell(loop_runs(book)),
                cell(words.number(beads.len())),
            ],
            kind: RowKind::Plain,
        });
    }
    Table {
        summary: words.fixed(Word::RowsSummary),
        columns: vec![
            Column { align: Align::End, width: ColumnWidth::Fit },
            Column { align: Align::Start, width: ColumnWidth::Fit },
            Column { align: Align::Start, width: ColumnWidth::Fit },
            Column { align: Align::Start, width: ColumnWidth::Share(1.0) },
            Column { align: Align::End, width: ColumnWidth::Fit },
        ],
        head: [Word::RowsRow, Word::RowsFrom, Word::RowsStart, Word::RowsThen, Word::RowsBeads]
            .map(|w| Text::plain(words.fixed(w)))
            .to_vec(),
        rows,
        row_header: Some(0),
    }
}

fn total(name: String, beads: String) -> TableRow {
    let text = |t: String| Cell::Text(Text::plain(t));
    TableRow {
        cells: vec![Cell::Empty, text(name), Cell::Empty, Cell::Empty, text(beads)],
        kind: RowKind::Total,
    }
}

/// The loop's beads as runs, in the order strung.
pub(in crate::booklet) fn loop_runs(book: &Book) -> String {
    let Hang::Loop(beads) = &book.design.hang else { return String::new() };
    let runs: Vec<crate::stitch::BeadRun> = beads
        .chunk_by(|a, b| a == b)
        .map(|run| crate::stitch::BeadRun { count: run.len(), letter: run[0] })
        .collect();
    book.bead_runs(&runs)
}
