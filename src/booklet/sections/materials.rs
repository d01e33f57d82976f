//! Materials: beads, thread with its plan, findings, tools, cost, and the earring at its true size.

use super::fits;
use crate::booklet::book::Book;
use crate::booklet::drawing::{self, Align};
use crate::booklet::{
    Block, CalloutKind, Cell, Column, ColumnWidth, Figure, ParagraphStyle, RowKind, Section, Table, TableRow,
    Text,
};
use crate::design::{Bead, Word};
use crate::stitch::{Cut, Phase, ThreadUse};
use crate::tally::BeadCount;
use minijinja::context;

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let mut blocks = vec![heading(book, Word::MaterialsBeads), Block::Table(beads(book))];
    blocks.extend(bead_notes(book));
    blocks.push(heading(book, Word::MaterialsThreads));
    blocks.push(Block::Table(threads(book)));
    blocks.push(Block::Together(thread_plan(book)));
    if !book.tally.findings.is_empty() {
        blocks.push(Block::Together(vec![
            heading(book, Word::MaterialsFindings),
            Block::Table(findings(book)),
        ]));
    }
    if !book.design.palette.tools.is_empty() {
        blocks.push(Block::Together(vec![
            heading(book, Word::MaterialsTools),
            Block::List {
                numbered: false,
                items: book.design.palette.tools.iter().map(Text::plain).collect(),
            },
        ]));
    }
    if let Some(cost) = book.tally.cost {
        blocks.push(small(&words.say(Word::MaterialsCost, context! { cost => cost })));
    }
    // Here rather than behind the chart, which fills its page: who sees how small it is buys beads that fit.
    blocks.push(true_size(book));
    Section {
        name: "materials".into(),
        title: words.fixed(Word::MaterialsTitle),
        new_page: true,
        listed: true,
        blocks,
    }
}

fn heading(book: &Book, word: Word) -> Block {
    Block::Heading { level: 2, text: Text::plain(book.words.fixed(word)) }
}

fn small(text: &str) -> Block {
    Block::Paragraph { text: Text::marked(text), style: ParagraphStyle::Small }
}

fn text_cell(text: impl Into<String>) -> Cell {
    Cell::Text(Text::plain(text))
}

fn column(align: Align, width: ColumnWidth) -> Column {
    Column { align, width }
}

/// The bead table; code, packs and price have columns only when the palette gives any.
fn beads(book: &Book) -> Table {
    let (words, design) = (&book.words, book.design);
    let used: Vec<&BeadCount> = book.tally.beads.iter().filter(|b| b.one > 0).collect();
    let bead_of = |count: &BeadCount| &design.palette.beads[count.bead.0];
    let with_code = used.iter().any(|b| bead_of(b).code.is_some());
    let with_packs = used.iter().any(|b| b.packs.is_some());
    let with_price = used.iter().any(|b| b.price.is_some());

    let mut columns =
        vec![column(Align::Middle, ColumnWidth::Fit), column(Align::Start, ColumnWidth::Share(1.0))];
    let mut head = vec![words.fixed(Word::MaterialsLetter), words.fixed(Word::MaterialsBead)];
    let mut add = |present: bool, align: Align, word: Word| {
        if present {
            columns.push(column(align, ColumnWidth::Fit));
            head.push(words.fixed(word));
        }
    };
    add(with_code, Align::Start, Word::MaterialsCode);
    add(true, Align::End, Word::MaterialsOne);
    add(true, Align::End, Word::MaterialsPair);
    add(true, Align::End, Word::MaterialsGrams);
    add(with_packs, Align::End, Word::MaterialsPacks);
    add(with_price, Align::End, Word::MaterialsPrice);

    let mut rows = Vec::new();
    for count in &used {
        let bead = bead_of(count);
        let mut cells = vec![Cell::Swatch(book.swatch(count.letter)), Cell::Text(bead_text(book, bead))];
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

fn total(book: &Book, used: &[&BeadCount], with: (bool, bool, bool)) -> TableRow {
    let mut cells = vec![Cell::Empty, text_cell(book.words.fixed(Word::MaterialsTotal))];
    if with.0 {
        cells.push(Cell::Empty);
    }
    cells.push(text_cell(book.words.number(book.tally.beads_one)));
    cells.push(text_cell(book.words.number(book.tally.beads_pair)));
    cells.push(text_cell(book.words.decimals(used.iter().map(|b| b.grams.0).sum(), 1)));
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
    let first = book.words.say(
        Word::MaterialsBeadLine,
        context! { name => bead.name.as_str(), finish => Some(bead.finish.as_str()).filter(|f| !f.is_empty()) },
    );
    let second = book.words.say(
        Word::MaterialsBeadLine2,
        context! {
            shape => book.shape(bead.shape), size => bead.size.as_deref(), width => bead.width.0, length => bead.length.0,
            supplier => bead.supplier.as_deref(),
        },
    );
    Text::marked(&format!("{first}\n{second}"))
}

fn bead_notes(book: &Book) -> Vec<Block> {
    let (words, design) = (&book.words, book.design);
    let spare = words.say(Word::MaterialsSpare, context! { spare => design.allowances.spare });
    let used: Vec<&BeadCount> = book.tally.beads.iter().filter(|b| b.one > 0).collect();
    let shared = used.iter().enumerate().any(|(i, b)| used[..i].iter().any(|o| o.bead == b.bead));
    let note = if shared { format!("{spare} {}", words.fixed(Word::MaterialsShared)) } else { spare };
    let mut blocks = vec![small(&note)];
    for letter in &design.letters {
        let Some(old) = letter.replaces else { continue };
        let old = &design.palette.beads[old.0];
        let text = words.say(
            Word::MaterialsReplaced,
            context! { letter => letter.symbol.to_string(), old => old.name.as_str(), code => old.code.as_deref(),
            new => design.palette.beads[letter.bead.0].name.as_str() },
        );
        blocks.push(callout(CalloutKind::Note, &text));
    }
    for what in fits::warnings(book, |_| true) {
        let text = words.say(Word::MaterialsTight, context! { what => what });
        blocks.push(callout(CalloutKind::Caution, &text));
    }
    blocks
}

fn callout(kind: CalloutKind, text: &str) -> Block {
    Block::Callout {
        kind,
        title: Text::default(),
        blocks: vec![Block::Paragraph { text: Text::marked(text), style: ParagraphStyle::Body }],
    }
}

fn threads(book: &Book) -> Table {
    let words = &book.words;
    let rows = book.tally.threads.iter().map(|count| {
        let thread = match count.thread {
            ThreadUse::Body => &book.design.body_thread,
            ThreadUse::Fringe => &book.design.fringe_thread,
        };
        let mut name = words.say(
            Word::MaterialsThreadLine,
            context! { name => thread.name.as_str(), diameter => thread.diameter.0 },
        );
        if thread.stretch_first {
            name = format!("{name}\n{}", words.fixed(Word::MaterialsStretch));
        }
        let cuts: Vec<String> = count.cuts.iter().map(|c| book.words.cut(*c)).collect();
        TableRow {
            cells: vec![
                Cell::Text(Text::marked(&name)),
                text_cell(book.thread_use(count.thread)),
                text_cell(cuts.join("\n")),
                text_cell(book.words.cut(count.pair)),
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

/// How each length of thread comes about, so that a customer can check it.
fn thread_plan(book: &Book) -> Vec<Block> {
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
    let split = words.say(Word::MaterialsPlanSplit, context! { span => book.design.allowances.arm_span.0 });
    let note = format!("{} {split}", words.fixed(Word::MaterialsPlanNote));
    vec![
        Block::Heading { level: 3, text: Text::plain(words.fixed(Word::MaterialsPlan)) },
        Block::Table(table),
        small(&note),
    ]
}

/// `from row 7`: where a further length is joined.
pub(super) fn joins(book: &Book, cut: &Cut) -> String {
    match cut.joins_at {
        Phase::Row(row) => book.words.say(Word::MaterialsJoinsRow, context! { number => row + 1 }),
        Phase::Strand(strand) => {
            book.words.say(Word::MaterialsJoinsStrand, context! { number => book.work.strands[strand].order })
        }
        Phase::Hanging | Phase::Beginning(_) | Phase::Ending(_) | Phase::Travel | Phase::Tail => {
            book.words.fixed(Word::MaterialsJoinsHanging)
        }
    }
}

fn findings(book: &Book) -> Table {
    let words = &book.words;
    let with_price = book.tally.findings.iter().any(|f| f.price.is_some());
    let rows = book.tally.findings.iter().map(|count| {
        let finding = &book.design.findings[count.finding];
        let name = match finding.holes {
            Some(holes) => {
                let holes = words.say(Word::MaterialsHoles, context! { holes => holes.0 });
                format!("**{}**, {holes}", finding.name)
            }
            None => format!("**{}**", finding.name),
        };
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
    let mut head = vec![Word::MaterialsFinding, Word::MaterialsOne, Word::MaterialsPair];
    if with_price {
        columns.push(column(Align::End, ColumnWidth::Fit));
        head.push(Word::MaterialsPrice);
    }
    Table {
        summary: words.fixed(Word::MaterialsFindingsSummary),
        columns,
        head: head.into_iter().map(|w| Text::plain(words.fixed(w))).collect(),
        rows: rows.collect(),
        row_header: Some(0),
    }
}

/// The silhouette at true size, with a bar to check the print by.
fn true_size(book: &Book) -> Block {
    let (words, size) = (&book.words, book.tally.size);
    Block::Together(vec![
        Block::Heading { level: 2, text: Text::plain(words.fixed(Word::ChartTrueSize)) },
        Block::Paragraph {
            text: Text::plain(words.fixed(Word::ChartTrueSizeText)),
            style: ParagraphStyle::Body,
        },
        Block::Figure(Figure {
            drawing: drawing::silhouette(book.design, book.work),
            caption: Text::default(),
            alt: words.say(Word::ChartTrueSizeAlt, context! { width => size.width.0, drop => size.drop.0 }),
        }),
    ])
}
