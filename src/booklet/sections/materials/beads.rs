//! The bead table and what stands below it.

use super::parts::{column, price_head, small, text_cell};
use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::sections::fits;
use crate::booklet::sections::parts::callout;
use crate::booklet::{Block, CalloutKind, Cell, ColumnWidth, RowKind, Table, TableRow, Text};
use crate::design::Bead;
use crate::drawn::Align;
use crate::tally::{BeadCount, prices};
use minijinja::context;

/// The bead table; code, packs and price have columns only when the palette gives any.
pub(super) fn table(book: &Book) -> Table {
    let (words, design) = (&book.words, book.design);
    let used: Vec<&BeadCount> = book.tally.beads.iter().filter(|b| b.one > 0).collect();
    let bead_of = |count: &BeadCount| &design.palette.beads[count.bead.0];
    let with_code = used.iter().any(|b| bead_of(b).code.is_some());
    let with_packs = used.iter().any(|b| b.packs.is_some());
    let with_price = prices(design).beads;

    let mut columns =
        vec![column(Align::Middle, ColumnWidth::Fit), column(Align::Start, ColumnWidth::Share(1.0))];
    let mut head = vec![words.fixed(Word::MaterialsLetter), words.fixed(Word::MaterialsBead)];
    let mut add = |present: bool, align: Align, word: Word| {
        if present {
            let folds = word == Word::MaterialsCode;
            columns.push(column(align, if folds { ColumnWidth::Fold } else { ColumnWidth::Fit }));
            head.push(words.fixed(word));
        }
    };
    add(with_code, Align::Start, Word::MaterialsCode);
    add(true, Align::End, Word::MaterialsOne);
    add(true, Align::End, Word::MaterialsPair);
    add(true, Align::End, Word::MaterialsGrams);
    add(with_packs, Align::End, Word::MaterialsPacks);
    if with_price {
        columns.push(column(Align::End, ColumnWidth::Fit));
        head.push(price_head(book));
    }

    let mut rows = Vec::new();
    for letters in by_bead(&used) {
        let count = together(&letters);
        let bead = bead_of(&count);
        let swatches = letters.iter().map(|count| book.swatch(count.letter)).collect();
        let mut cells = vec![Cell::Swatches(swatches), Cell::Text(bead_text(book, bead))];
        if with_code {
            cells.push(text_cell(bead.code.clone().unwrap_or_default()));
        }
        cells.push(text_cell(book.words.number(count.one)));
        cells.push(text_cell(book.words.number(count.pair)));
        cells.push(text_cell(book.words.decimals(count.grams.0, 1)));
        if with_packs {
            cells.push(text_cell(count.packs.map_or_else(String::new, |p| p.to_string())));
        }
        if with_price {
            cells.push(text_cell(count.price.map_or_else(String::new, |p| book.words.decimals(p, 2))));
        }
        rows.push(TableRow { cells, kind: RowKind::Plain });
    }
    rows.push(total(book, &used, (with_code, with_packs, with_price)));
    Table {
        summary: words.fixed(Word::MaterialsBeadsSummary),
        columns,
        head: head.into_iter().map(Text::plain).collect(),
        rows,
        row_header: Some(1),
    }
}

/// Letters that stand for one bead, together, in the order of the first of them.
pub(in crate::booklet::sections) fn by_bead<'t>(used: &[&'t BeadCount]) -> Vec<Vec<&'t BeadCount>> {
    let mut beads: Vec<Vec<&BeadCount>> = Vec::new();
    for count in used {
        match beads.iter_mut().find(|letters| letters[0].bead == count.bead) {
            Some(letters) => letters.push(count),
            None => beads.push(vec![count]),
        }
    }
    beads
}

/// The counts of a bead's letters added up; its packs and their price stand with the first.
pub(in crate::booklet::sections) fn together(letters: &[&BeadCount]) -> BeadCount {
    let sum = |of: fn(&BeadCount) -> usize| letters.iter().map(|count| of(count)).sum();
    BeadCount {
        body: sum(|count| count.body),
        fringe: sum(|count| count.fringe),
        one: sum(|count| count.one),
        pair: sum(|count| count.pair),
        grams: letters.iter().map(|count| count.grams).sum(),
        ..letters[0].clone()
    }
}

fn total(book: &Book, used: &[&BeadCount], with: (bool, bool, bool)) -> TableRow {
    let mut cells = vec![Cell::Empty, text_cell(book.words.fixed(Word::MaterialsTotal))];
    if with.0 {
        cells.push(Cell::Empty);
    }
    cells.push(text_cell(book.words.number(book.tally.beads_one)));
    cells.push(text_cell(book.words.number(book.tally.beads_pair)));
    // What the lines above add up to as they are printed.
    let printed = |letters: &Vec<&BeadCount>| (together(letters).grams.0 * 10.0).round() / 10.0;
    cells.push(text_cell(book.words.decimals(by_bead(used).iter().map(printed).sum(), 1)));
    if with.1 {
        cells.push(text_cell(book.words.number(used.iter().filter_map(|b| b.packs).sum::<u32>() as usize)));
    }
    if with.2 {
        cells.push(text_cell(book.words.decimals(used.iter().filter_map(|b| b.price).sum(), 2)));
    }
    TableRow { cells, kind: RowKind::Total }
}

/// Name and finish, then shape and size.
fn bead_text(book: &Book, bead: &Bead) -> Text {
    let words = &book.words;
    let finish = words.own(&bead.finish);
    let first = words.say(
        Word::MaterialsBeadLine,
        context! { name => words.own(&bead.name), finish => Some(finish).filter(|f| !f.is_empty()) },
    );
    let second = words.say(
        Word::MaterialsBeadLine2,
        context! {
            shape => book.shape(bead.shape), size => bead.size.as_deref().map(|size| words.own(size)), width => bead.width.0, length => bead.length.0,
            supplier => bead.supplier.as_deref(),
        },
    );
    Text::marked(&format!("{first}\n{second}"))
}

/// Spare beads, replacements, and close fits.
pub(super) fn notes(book: &Book) -> Vec<Block> {
    let (words, design) = (&book.words, book.design);
    let spare = words.say(Word::MaterialsSpare, context! { spare => design.allowances.spare });
    let mut blocks = vec![small(&spare)];
    for letter in &design.letters {
        let Some(old) = letter.replaces else { continue };
        let old = &design.palette.beads[old.0];
        let text = words.say(
            Word::MaterialsReplaced,
            context! { letter => letter.symbol.to_string(), old => words.own(&old.name), code => old.code.as_deref(),
            new => words.own(&design.palette.beads[letter.bead.0].name) },
        );
        blocks.push(callout(CalloutKind::Note, &text));
    }
    for what in fits::warnings(book, |_| true) {
        let text = words.say(Word::MaterialsTight, context! { what => what });
        blocks.push(callout(CalloutKind::Caution, &text));
    }
    blocks
}
