//! Colourways: the same chart small in each colourway, with the beads that change.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::{
    Block, Cell, Chart, Column, ColumnWidth, ParagraphStyle, RowKind, Section, Swatch, Table, TableRow, Text,
};
use crate::design::{BeadId, Colourway, LetterId};
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
    // All tables have the same columns.
    let most = |colourway| by_bead(colourway).iter().map(|(_, letters)| letters.len()).max();
    let abreast = book.design.colourways.iter().filter_map(most).max().unwrap_or(1);
    for colourway in &book.design.colourways {
        blocks.push(Block::Together(vec![
            Block::Heading { level: 2, text: Text::plain(words.own(&colourway.name)) },
            changes(book, colourway, abreast),
        ]));
    }
    Some(Section {
        name: "colourways".into(),
        title: words.fixed(Word::ColourwaysTitle),
        new_page: true,
        faces: false,
        listed: true,
        blocks,
    })
}

fn changes(book: &Book, colourway: &Colourway, abreast: usize) -> Block {
    let words = &book.words;
    let rows = by_bead(colourway).into_iter().map(|(bead, letters)| {
        let bead = &book.design.palette.beads[bead.0];
        let swatch = |letter: &LetterId| Swatch {
            colour: bead.colour,
            shape: bead.shape,
            alt: book.swatch_alt(book.design.symbol(*letter), bead),
            ..book.swatch(*letter)
        };
        let mut instead: Vec<String> = Vec::new();
        for name in letters.iter().map(|letter| words.own(&book.design.bead(*letter).name)) {
            if !instead.contains(&name) {
                instead.push(name);
            }
        }
        let name = format!("**{}**", words.own(&bead.name));
        let finish = words.own(&bead.finish);
        let parts = [Some(name.as_str()), Some(finish.as_str()), bead.code.as_deref()];
        let given: Vec<&str> = parts.into_iter().flatten().filter(|t| !t.is_empty()).collect();
        let bead_text = given.join(", ");
        TableRow {
            cells: vec![
                Cell::Swatches(letters.iter().map(swatch).collect()),
                Cell::Text(Text::marked(&bead_text)),
                Cell::Text(Text::plain(instead.join(", "))),
            ],
            kind: RowKind::Plain,
        }
    });
    let share = |share| Column { align: Align::Start, width: ColumnWidth::Share(share) };
    Block::Table(Table {
        summary: words.say(Word::ColourwaysSummary, context! { name => words.own(&colourway.name) }),
        columns: vec![
            Column { align: Align::Start, width: ColumnWidth::Swatches(abreast) },
            share(1.4),
            share(1.0),
        ],
        head: [Word::ColourwaysLetter, Word::ColourwaysBead, Word::ColourwaysInstead]
            .map(|w| Text::plain(words.fixed(w)))
            .to_vec(),
        rows: rows.collect(),
        row_header: Some(1),
    })
}

/// The beads of a colourway, each with the letters that change to it, in the order of the first of them.
fn by_bead(colourway: &Colourway) -> Vec<(BeadId, Vec<LetterId>)> {
    let mut changes: Vec<(LetterId, BeadId)> =
        colourway.changes.iter().map(|(letter, new)| (*letter, new.bead)).collect();
    changes.sort_unstable();
    let mut beads: Vec<(BeadId, Vec<LetterId>)> = Vec::new();
    for (letter, bead) in changes {
        match beads.iter_mut().find(|(known, _)| *known == bead) {
            Some((_, letters)) => letters.push(letter),
            None => beads.push((bead, vec![letter])),
        }
    }
    beads
}

fn as_charted(book: &Book) -> Block {
    let words = &book.words;
    let chart = bare_chart(book, words.fixed(Word::ColourwaysAsCharted));
    Block::Chart(Chart { alt: words.fixed(Word::ColourwaysAsChartedAlt), ..chart })
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
    let changed: Vec<String> = by_bead(colourway)
        .into_iter()
        .map(|(bead, letters)| {
            let bead = &book.design.palette.beads[bead.0];
            let symbols: Vec<String> = letters.iter().map(|l| book.design.symbol(*l).to_string()).collect();
            words.say(
                Word::ColourwaysChange,
                context! { letters => words.list(&symbols), count => letters.len(), bead => words.own(&bead.name) },
            )
        })
        .collect();
    chart.alt = words.say(
        Word::ColourwaysAlt,
        context! { name => words.own(&colourway.name), changes => words.list(&changed) },
    );
    Block::Chart(chart)
}
