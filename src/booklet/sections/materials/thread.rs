//! Threads: what to cut, and how the lengths come about.

use super::parts::{column, small, text_cell};
use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::{Block, Cell, ColumnWidth, RowKind, Table, TableRow, Text};
use crate::drawn::Align;
use crate::stitch::{Cut, Phase, SectionKind, ThreadUse};
use crate::units::Mm;
use minijinja::context;

/// Threads with the lengths to cut.
pub(super) fn table(book: &Book) -> Table {
    let words = &book.words;
    let rows = book.tally.threads.iter().map(|count| {
        let thread = match count.thread {
            ThreadUse::Body => &book.design.body_thread,
            ThreadUse::Fringe => &book.design.fringe_thread,
        };
        let mut name = words.say(
            Word::MaterialsThreadLine,
            context! { name => words.own(&thread.name), diameter => thread.diameter.0 },
        );
        if thread.stretch_first {
            name = format!("{name}\n{}", words.fixed(Word::MaterialsStretch));
        }
        let cuts: Vec<String> =
            count.cuts.chunk_by(|a, b| a == b).flat_map(|cuts| alike(book, cuts)).collect();
        TableRow {
            cells: vec![
                Cell::Text(Text::marked(&name)),
                text_cell(book.thread_use(count.thread)),
                text_cell(cuts.join("\n")),
                text_cell(book.words.cuts_for_both(&count.cuts)),
            ],
            kind: RowKind::Plain,
        }
    });
    Table {
        summary: words.fixed(Word::MaterialsThreadsSummary),
        columns: vec![
            column(Align::Start, ColumnWidth::Share(1.0)),
            column(Align::Start, ColumnWidth::Fit),
            column(Align::End, ColumnWidth::Fit),
            column(Align::End, ColumnWidth::Fit),
        ],
        head: [Word::MaterialsThread, Word::MaterialsFor, Word::MaterialsCutOne, Word::MaterialsCutPair]
            .map(|w| Text::plain(words.fixed(w)))
            .to_vec(),
        rows: rows.collect(),
        row_header: Some(0),
    }
}

/// Equal lengths one after another: a few in a line each, many as how often one is cut.
fn alike(book: &Book, cuts: &[Mm]) -> Vec<String> {
    const MOST_LISTED: usize = 4;
    if cuts.len() <= MOST_LISTED {
        return cuts.iter().map(|cut| book.words.cut(*cut)).collect();
    }
    let values = context! { count => cuts.len(), cut => cuts[0].0 };
    vec![book.words.say(Word::MaterialsCutsAlike, values)]
}

/// How each length of thread comes about, so that a customer can check it.
pub(super) fn plan(book: &Book) -> Vec<Block> {
    let words = &book.words;
    let cuts = &book.work.cuts;
    let rows = cuts.iter().map(|c| {
        let of = cuts.iter().filter(|o| o.thread == c.thread).count();
        let mut name = words.say(
            Word::MaterialsPlanName,
            context! { thread => book.thread_use(c.thread), number => c.number, of => of },
        );
        if c.number > 1 {
            name = format!("{name}, {}", joins(book, c));
        }
        let part = |length| text_cell(words.part(length));
        TableRow {
            cells: vec![
                text_cell(name),
                part(c.path),
                part(c.tails),
                part(c.anchors),
                part(c.handling),
                Cell::Text(Text::marked(&format!("**{}**", book.words.cut(c.cut)))),
            ],
            kind: RowKind::Plain,
        }
    });
    let mut columns = vec![column(Align::Start, ColumnWidth::Share(1.0))];
    columns.extend((0..5).map(|_| column(Align::End, ColumnWidth::Fit)));
    let handling =
        words.say(Word::MaterialsPlanHandling, context! { handling => book.design.allowances.handling });
    let head = [
        words.fixed(Word::MaterialsPlanLength),
        words.fixed(Word::MaterialsPlanPath),
        words.fixed(Word::MaterialsPlanTails),
        words.fixed(Word::MaterialsPlanAnchors),
        handling,
        words.fixed(Word::MaterialsPlanCut),
    ];
    let table = Table {
        summary: words.fixed(Word::MaterialsPlanSummary),
        columns,
        head: head.into_iter().map(Text::plain).collect(),
        rows: rows.collect(),
        row_header: Some(0),
    };
    let several = cuts.iter().any(|cut| cut.number > 1);
    let span = book.design.allowances.arm_span.0;
    let split = words.say(Word::MaterialsPlanSplit, context! { span, several });
    let note = format!("{} {split}", words.fixed(Word::MaterialsPlanNote));
    let heading = Block::Heading { level: 3, text: Text::plain(words.fixed(Word::MaterialsPlan)) };
    vec![Block::Together(vec![heading, Block::Table(table)]), small(&note)]
}

/// `from row 7`: where a further length is joined.
fn joins(book: &Book, cut: &Cut) -> String {
    match cut.joins_at {
        Phase::Section(section) => {
            let section = &book.work.fabric[section];
            let values = context! { number => section.number };
            match section.kind {
                SectionKind::Row => book.words.say(Word::MaterialsJoinsRow, values),
                SectionKind::Strand => book.words.say(Word::MaterialsJoinsStrand, values),
                SectionKind::Loop => book.words.fixed(Word::MaterialsJoinsHanging),
            }
        }
        Phase::Hanging(_) | Phase::Beginning(_) | Phase::Ending(_) | Phase::Travel | Phase::Tail => {
            book.words.fixed(Word::MaterialsJoinsHanging)
        }
    }
}
