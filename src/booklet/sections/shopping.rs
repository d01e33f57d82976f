//! Shopping lists to take out: one for the earring as charted, and one for each colourway.

use super::materials::{by_bead, together};
use super::parts::heading_text;
use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::{
    Block, Cell, Column, ColumnWidth, ParagraphStyle, RowKind, Section, Swatch, Table, TableRow, Text, Tick,
    WritingLines,
};
use crate::design::{Bead, Design};
use crate::drawn::Align;
use crate::stitch::ThreadUse;
use crate::tally::{BeadCount, Tally, tally};
use minijinja::context;

/// Fewest lines to write on below the lists, and most.
const LINES: [usize; 2] = [2, 10];
/// Where the column of codes stands, if beads have any: after what is bought.
const CODE: usize = 3;

pub(super) fn section(book: &Book) -> Section {
    let (words, design) = (&book.words, book.design);
    let mut blocks = vec![Block::Paragraph {
        text: Text::plain(words.say(
            Word::ShoppingIntro,
            context! { spare => design.allowances.spare, title => words.own(&design.title) },
        )),
        style: ParagraphStyle::Body,
    }];
    let named = design.colourway_name().map(|name| words.own(name));
    let others = design.colourway.is_none().then_some(&design.colourways).into_iter().flatten();
    let own = named.unwrap_or_else(|| words.fixed(Word::ColourwaysAsCharted));
    let alone = design.colourway.is_some() || design.colourways.is_empty();
    // Beads of other colours lie where those of the chart do: only what is bought differs.
    let others: Vec<(String, Design, Tally)> = others
        .filter_map(|colourway| {
            let other = design.in_colourway(&colourway.key)?;
            let tally = tally(&other, book.work);
            Some((words.own(&colourway.name), other, tally))
        })
        .collect();
    // All lists have the same columns.
    let tallies = std::iter::once(book.tally).chain(others.iter().map(|(_, _, tally)| tally));
    let abreast = tallies.map(most_letters).max().unwrap_or(1);
    // Colourways name other beads, and these may have codes where the chart's have none.
    let designs =
        std::iter::once((design, book.tally)).chain(others.iter().map(|(_, other, tally)| (other, tally)));
    let coded = designs.into_iter().any(|(design, tally)| has_codes(design, tally));
    let columns = Columns { abreast, coded };
    blocks.push(list(book, (design, book.tally), (1, (!alone).then_some(own)), columns));
    for (index, (name, other, tally)) in others.into_iter().enumerate() {
        blocks.push(list(book, (&other, &tally), (index + 2, Some(name)), columns));
    }
    let [least, most] = LINES;
    blocks.push(Block::WritingLines(WritingLines {
        words: Text::plain(words.fixed(Word::ShoppingElse)),
        least,
        needed: false,
        most,
        alt: words.fixed(Word::NotesAlt),
    }));
    Section {
        name: "shopping".into(),
        title: words.fixed(Word::ShoppingTitle),
        new_page: true,
        faces: false,
        listed: true,
        blocks,
    }
}

/// What the columns of all lists are.
#[derive(Clone, Copy)]
struct Columns {
    /// So many letters have room beside one another.
    abreast: usize,
    /// Whether beads have codes.
    coded: bool,
}

/// One list; its number tells its boxes from those of others, and its name is that of the colourway.
fn list(
    book: &Book,
    (design, tally): (&Design, &Tally),
    (number, name): (usize, Option<String>),
    Columns { abreast, coded }: Columns,
) -> Block {
    let words = &book.words;
    let title = words.own(&design.title);
    // What is cut out says what it is for.
    let heading = name.as_ref().map_or_else(|| title.clone(), |name| format!("{title} · {name}"));
    let called = name.unwrap_or(title);
    let mut rows = Rows { book, number, called: &called, coded, rows: Vec::new() };
    for letters in by_bead(&used(tally)) {
        rows.bead(design, &letters);
    }
    for count in &tally.threads {
        let thread = match count.thread {
            ThreadUse::Body => &design.body_thread,
            ThreadUse::Fringe => &design.fringe_thread,
        };
        let spools = count.spools.map(|spools| words.number(spools as usize));
        rows.add(
            Vec::new(),
            (strong(&words.own(&thread.name)), None),
            words.cuts_for_both(&count.cuts),
            spools,
        );
    }
    for count in &tally.findings {
        let finding = &design.findings[count.finding];
        let amount = words.number(count.pair as usize);
        rows.add(Vec::new(), (strong(&words.own(&finding.name)), None), amount, None);
    }
    let column = |align, width| Column { align, width };
    let mut columns = vec![
        (column(Align::Middle, ColumnWidth::Fit), Word::ShoppingGot),
        (column(Align::Start, ColumnWidth::Swatches(abreast)), Word::MaterialsLetter),
        (column(Align::Start, ColumnWidth::Share(1.0)), Word::ShoppingWhat),
        (column(Align::End, ColumnWidth::Fit), Word::ShoppingAmount),
        (column(Align::End, ColumnWidth::Fit), Word::MaterialsPacks),
    ];
    if coded {
        columns.insert(CODE, (column(Align::Start, ColumnWidth::Fold), Word::MaterialsCode));
    }
    let table = Block::Table(Table {
        summary: words.say(Word::ShoppingSummary, context! { name => called.as_str() }),
        head: columns.iter().map(|(_, word)| Text::plain(words.fixed(*word))).collect(),
        columns: columns.into_iter().map(|(column, _)| column).collect(),
        rows: rows.rows,
        row_header: Some(2),
    });
    // What is cut out stays on one page.
    Block::Together(vec![Block::CutLine, heading_text(2, &heading), table])
}

fn strong(name: &str) -> String {
    format!("**{name}**")
}

/// Most letters that stand for one bead of a list.
fn most_letters(tally: &Tally) -> usize {
    by_bead(&used(tally)).iter().map(Vec::len).max().unwrap_or(1)
}

/// Whether a bead that is bought has a code.
fn has_codes(design: &Design, tally: &Tally) -> bool {
    used(tally).iter().any(|count| design.palette.beads[count.bead.0].code.is_some())
}

fn used(tally: &Tally) -> Vec<&BeadCount> {
    tally.beads.iter().filter(|bead| bead.one > 0).collect()
}

/// The rows of a list so far.
struct Rows<'a, 'b> {
    book: &'a Book<'b>,
    number: usize,
    called: &'a str,
    /// Whether there is a column of codes.
    coded: bool,
    rows: Vec<TableRow>,
}

impl Rows<'_, '_> {
    fn bead(&mut self, design: &Design, letters: &[&BeadCount]) {
        let words = &self.book.words;
        let count = together(letters);
        let bead = &design.palette.beads[count.bead.0];
        let swatch = |count: &&BeadCount| Swatch {
            colour: bead.colour,
            shape: bead.shape,
            alt: self.book.swatch_alt(design.symbol(count.letter), bead),
            ..self.book.swatch(count.letter)
        };
        let swatches: Vec<Swatch> = letters.iter().map(swatch).collect();
        let size = bead.size.as_deref().map(|size| words.own(size));
        let parts = [
            Some(strong(&words.own(&bead.name))),
            Some(words.own(&bead.finish)),
            size.map(|size| format!("{} {size}", self.book.shape(bead.shape))),
            bead.supplier.clone(),
        ];
        let given: Vec<String> = parts.into_iter().flatten().filter(|part| !part.is_empty()).collect();
        let grams = words.say(Word::ShoppingGrams, context! { grams => count.grams.0 });
        // Packs of one letter may hold the beads of others.
        let packs = count.packs.filter(|packs| *packs > 0).map(|packs| self.packs(packs, bead));
        self.add(swatches, (given.join(", "), bead.code.clone()), grams, packs);
    }

    /// `2 × 10 g`.
    fn packs(&self, packs: u32, bead: &Bead) -> String {
        let words = &self.book.words;
        let Some(pack) = bead.pack else { return words.number(packs as usize) };
        let holds = words.decimals(pack.grams.0, usize::from(pack.grams.0.fract() != 0.0));
        words.say(Word::ShoppingPacks, context! { packs, holds })
    }

    fn add(
        &mut self,
        swatches: Vec<Swatch>,
        (what, code): (String, Option<String>),
        amount: String,
        packs: Option<String>,
    ) {
        let row = self.rows.len() + 1;
        let what = Text::marked(&what);
        let tooltip =
            self.book.words.say(Word::ShoppingTip, context! { name => self.called, what => what.words() });
        let tick = Tick { name: format!("shopping-{}-{row}", self.number), tooltip };
        let swatches = if swatches.is_empty() { Cell::Empty } else { Cell::Swatches(swatches) };
        let text = |text: String| Cell::Text(Text::plain(text));
        let mut cells =
            vec![Cell::Tick(tick), swatches, Cell::Text(what), text(amount), text(packs.unwrap_or_default())];
        if self.coded {
            cells.insert(CODE, code.map_or(Cell::Empty, text));
        }
        self.rows.push(TableRow { cells, kind: RowKind::Plain });
    }
}
