//! Colourways: the same chart small in each colourway, with the beads that change.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::{
    Block, Cell, Chart, Column, ColumnWidth, ParagraphStyle, RowKind, Section, Table, TableRow, Text,
};
use crate::design::Colourway;
use crate::drawn::Align;
use crate::units::Mm;
use minijinja::context;

/// Height of a small chart: a row of them leaves room for the tables below.
const SMALL_CHART: Mm = Mm(66.0);

/// `None` when the design has no colourways, or the booklet is of one colourway only.
pub(super) fn section(book: &Book) -> Option<Section> {
    let words = &book.words;
    if book.design.colourways.is_empty() || book.design.colourway.is_some() {
        return None;
    }
    let mut blocks = vec![Block::Paragraph {
        text: Text::plain(words.fixed(Word::ColourwaysIntro)),
        style: ParagraphStyle::Body,
    }];
    // Small charts that follow one another stand side by side, so that colourways can be compared.
    blocks.push(as_charted(book));
    blocks.extend(book.design.colourways.iter().map(|c| small_chart(book, c)));
    for colourway in &book.design.colourways {
        blocks.push(Block::Together(vec![
            Block::Heading { level: 2, text: Text::plain(words.own(&colourway.name)) },
            changes(book, colourway),
        ]));
    }
    Some(Section {
        name: "colourways".into(),
        title: words.fixed(Word::ColourwaysTitle),
        new_page: true,
        listed: true,
        blocks,
    })
}

fn changes(book: &Book, colourway: &Colourway) -> Block {
    let words = &book.words;
    let mut in_order: Vec<_> = colourway.changes.iter().collect();
    in_order.sort_by_key(|(letter, _)| *letter);
    let rows = in_order.into_iter().map(|(letter, new)| {
        let old = book.design.bead(*letter);
        let bead = &book.design.palette.beads[new.bead.0];
        let mut swatch = book.swatch(*letter);
        swatch.colour = bead.colour;
        swatch.shape = bead.shape;
        swatch.alt = book.swatch_alt(new.symbol, bead);
        let name = format!("**{}**", words.own(&bead.name));
        let finish = words.own(&bead.finish);
        let parts = [Some(name.as_str()), Some(finish.as_str()), bead.code.as_deref()];
        let given: Vec<&str> = parts.into_iter().flatten().filter(|t| !t.is_empty()).collect();
        let bead_text = given.join(", ");
        TableRow {
            cells: vec![
                Cell::Swatch(swatch),
                Cell::Text(Text::marked(&bead_text)),
                Cell::Text(Text::plain(words.own(&old.name))),
            ],
            kind: RowKind::Plain,
        }
    });
    let share = |share| Column { align: Align::Start, width: ColumnWidth::Share(share) };
    Block::Table(Table {
        summary: words.say(Word::ColourwaysSummary, context! { name => words.own(&colourway.name) }),
        columns: vec![Column { align: Align::Middle, width: ColumnWidth::Fit }, share(1.4), share(1.0)],
        head: [Word::ColourwaysLetter, Word::ColourwaysBead, Word::ColourwaysInstead]
            .map(|w| Text::plain(words.fixed(w)))
            .to_vec(),
        rows: rows.collect(),
        row_header: Some(1),
    })
}

fn as_charted(book: &Book) -> Block {
    let name = book.words.fixed(Word::ColourwaysAsCharted);
    Block::Chart(Chart { alt: name.clone(), ..bare_chart(book, name) })
}

/// A small chart without numbers and legend.
fn bare_chart(book: &Book, caption: String) -> Chart {
    Chart { caption: Text::plain(caption), max_height: Some(SMALL_CHART), ..super::chart::small(book) }
}

fn small_chart(book: &Book, colourway: &Colourway) -> Block {
    let words = &book.words;
    let mut chart = bare_chart(book, words.own(&colourway.name));
    for (letter, new) in &colourway.changes {
        let bead = &book.design.palette.beads[new.bead.0];
        let symbol = book.design.symbol(*letter);
        for b in chart.beads.iter_mut().filter(|b| b.letter == symbol) {
            b.colour = bead.colour;
            b.shape = bead.shape;
        }
    }
    let changed: Vec<String> = colourway
        .changes
        .iter()
        .map(|(_, new)| {
            let bead = &book.design.palette.beads[new.bead.0];
            words.say(
                Word::ColourwaysChange,
                context! { letter => new.symbol.to_string(), bead => words.own(&bead.name) },
            )
        })
        .collect();
    chart.alt = words.say(
        Word::ColourwaysAlt,
        context! { name => words.own(&colourway.name), changes => words.list(&changed) },
    );
    Block::Chart(chart)
}
