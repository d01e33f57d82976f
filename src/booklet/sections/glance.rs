//! At a glance: contents, how to read the booklet, words used.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::{Block, Cell, Column, ColumnWidth, RowKind, Section, Table, TableRow, Text};
use crate::drawn::Align;
use minijinja::context;

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let blocks = vec![
        Block::Contents,
        Block::Heading { level: 2, text: Text::plain(words.fixed(Word::GlanceHow)) },
        Block::List { numbered: false, items: how(book).iter().map(|t| Text::marked(t)).collect() },
        Block::Heading { level: 2, text: Text::plain(words.fixed(Word::GlanceWords)) },
        Block::Table(glossary(book)),
    ];
    Section {
        name: "glance".into(),
        title: words.fixed(Word::GlanceTitle),
        new_page: true,
        faces: false,
        listed: true,
        blocks,
    }
}

fn how(book: &Book) -> Vec<String> {
    let words = &book.words;
    let drop = book.design.body.drop;
    vec![
        words.fixed(Word::GlanceHowChart),
        how_rows(book),
        if drop == 1 {
            words.fixed(Word::GlanceHowStackSingle)
        } else {
            words.say(Word::GlanceHowStack, context! { drop => drop })
        },
        match drop {
            1 => words.fixed(Word::GlanceHowWordsSingle),
            _ => words.say(Word::GlanceHowWords, context! { drop => drop }),
        },
        words.fixed(Word::GlanceHowStrands),
        words.fixed(Word::GlanceHowCheck),
        words.fixed(Word::GlanceHowLinks),
    ]
}

/// The words that this booklet uses, and only those.
fn glossary(book: &Book) -> Table {
    let words = &book.words;
    let drop = book.design.body.drop;
    let stack = words.say(Word::GlanceStack, context! { drop => drop, name => book.drop_name() });
    let mut entries = vec![
        (Word::GlanceWStack, stack),
        (Word::GlanceWBridge, words.fixed(Word::GlanceBridge)),
        (Word::GlanceWUpDown, words.fixed(Word::GlanceUpDown)),
        (Word::GlanceWAnchor, words.fixed(Word::GlanceAnchor)),
        (Word::GlanceWTail, words.fixed(Word::GlanceTail)),
    ];
    let strands = &book.design.fringe.strands;
    if strands.iter().any(|s| s.turn == 1) {
        entries.push((Word::GlanceWTurning, words.fixed(Word::GlanceTurning)));
    }
    if strands.iter().any(|s| s.turn > 1) {
        entries.push((Word::GlanceWPicot, words.fixed(Word::GlancePicot)));
    }
    if book.work.hangings.iter().any(|carrier| carrier.ring.is_none()) {
        entries.push((Word::GlanceWGuard, words.fixed(Word::GlanceGuard)));
    }
    let rows = entries.into_iter().map(|(term, meaning)| TableRow {
        cells: vec![
            Cell::Text(Text::marked(&format!("**{}**", words.fixed(term)))),
            Cell::Text(Text::plain(meaning)),
        ],
        kind: RowKind::Plain,
    });
    Table {
        summary: words.fixed(Word::GlanceWordsSummary),
        columns: vec![
            Column { align: Align::Start, width: ColumnWidth::Fit },
            Column { align: Align::Start, width: ColumnWidth::Share(1.0) },
        ],
        head: vec![Text::plain(words.fixed(Word::GlanceWord)), Text::plain(words.fixed(Word::GlanceMeaning))],
        rows: rows.collect(),
        row_header: None,
    }
}

/// How rows are numbered.
fn how_rows(book: &Book) -> String {
    if book.work.is_one_row() {
        return book.words.fixed(Word::GlanceHowRowsLadder);
    }
    if book.design.is_plain() {
        return book.words.fixed(Word::GlanceHowRows);
    }
    book.words.say(Word::GlanceHowRowsShape, context! { below => book.work.works_downwards() })
}
