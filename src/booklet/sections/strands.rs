//! Bead list: each strand of the fringe from the body down.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::diagrams;
use crate::booklet::drawing;
use crate::booklet::sections::rows::join_text;
use crate::booklet::sections::screens::of_strands;
use crate::booklet::sections::steps::{joined_in, plan_of};
use crate::booklet::{
    Block, Cell, Column, ColumnWidth, Figure, ParagraphStyle, Place, Placed, RowKind, Section, Table,
    TableRow, Text,
};
use crate::drawn::Align;
use crate::stitch::{MoveKind, Phase, StrandWork, Way};
use crate::units::Mm;
use minijinja::context;
use std::collections::BTreeMap;

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let strands = &book.design.fringe.strands;
    let tablet = book.edition.tablet;
    let mut intro = vec![begin(book)];
    if strands.iter().any(|s| s.turn == 1) && !tablet {
        intro.push(words.fixed(Word::StrandsIntroTurning));
    }
    if strands.iter().any(|s| s.turn > 1) && !tablet {
        intro.push(words.fixed(Word::StrandsIntroPicot));
    }
    let groups = groups(book);
    if groups.iter().any(|g| g.len() > 1) {
        intro.push(words.fixed(if tablet { Word::TabletGrouped } else { Word::StrandsGrouped }));
    }
    if book.design.fringe.mirrored {
        intro.push(words.fixed(Word::StrandsMirrored));
    }
    let list = if tablet {
        // A ruler at true size is for paper.
        of_strands(book)
    } else {
        vec![Block::Table(table(book, &groups)), Block::Together(ruler_and_words(book))]
    };
    Section {
        name: "strands".into(),
        title: words.fixed(Word::StrandsTitle),
        new_page: true,
        faces: true,
        listed: true,
        blocks: vec![Block::Paragraph { text: Text::marked(&intro.join(" ")), style: ParagraphStyle::Body }]
            .into_iter()
            .chain(list)
            .collect(),
    }
}

/// Where the first strand hangs, and how the list is read.
pub(super) fn begin(book: &Book) -> String {
    let begin = match (book.edition.tablet, book.design.hangs_on_its_foundation()) {
        (true, _) => Word::TabletStrandsIntro,
        (false, true) => Word::StrandsIntro,
        (false, false) => Word::StrandsIntroEdge,
    };
    book.words.say(begin, context! { side => book.side(book.work.fringe_from) })
}

/// Neighbouring strands that are alike, in working order.
pub(super) fn groups<'a>(book: &'a Book) -> Vec<Vec<&'a StrandWork>> {
    let mut groups: Vec<Vec<&StrandWork>> = Vec::new();
    for strand in book.work.strands_in_order() {
        match groups.last_mut() {
            Some(group)
                if group[0].runs == strand.runs
                    && group[0].turn == strand.turn
                    && !joins_before(book, strand)
                    && way(book, strand).is_none()
                    && goes_on(book, group, strand) =>
            {
                group.push(strand);
            }
            _ => groups.push(vec![strand]),
        }
    }
    groups
}

/// Whether a strand hangs as those of a group do: each on another stack, or all on one.
fn goes_on(book: &Book, group: &[&StrandWork], strand: &StrandWork) -> bool {
    let on = |strand: &StrandWork| book.work.fabric[strand.section].hangs_on;
    let shares = |one: &StrandWork, other: &StrandWork| on(one) == on(other);
    match group {
        [first, second, ..] => shares(first, second) == shares(second, strand),
        _ => true,
    }
}

/// Whether a new length of thread is joined before a strand.
fn joins_before(book: &Book, strand: &StrandWork) -> bool {
    book.work.anchors.iter().any(|anchor| anchor.join == Some(strand.section))
}

/// The way to a strand from the one before, where the thread does not just go down the next stack: `up stack 2 of row
/// 8`.
fn way(book: &Book, strand: &StrandWork) -> Option<String> {
    let own = book.work.fabric[strand.section].hangs_on;
    let moves = book.work.fringe.moves.iter().filter(|made| made.phase == Phase::Section(strand.section));
    let led = moves.take_while(|made| match made.kind {
        MoveKind::Pass(pass) => own != Some(pass.stack) || pass.way != Way::Down,
        MoveKind::UnderBridge { .. } => true,
        _ => false,
    });
    let led: Vec<&MoveKind> = led.map(|made| &made.kind).collect();
    (!led.is_empty()).then(|| diagrams::passes(book, led.into_iter()))
}

/// The first strand of each strand's line in the bead list, by the number of the strand.
pub(super) fn lines(book: &Book) -> BTreeMap<usize, usize> {
    let of = |group: Vec<&StrandWork>| {
        let first = group[0].number;
        group.into_iter().map(move |strand| (strand.number, first)).collect::<Vec<_>>()
    };
    groups(book).into_iter().flat_map(of).collect()
}

/// The bead list by itself.
pub(super) fn bead_list(book: &Book) -> Vec<Block> {
    if book.edition.tablet { of_strands(book) } else { vec![Block::Table(table(book, &groups(book)))] }
}

fn table(book: &Book, groups: &[Vec<&StrandWork>]) -> Table {
    let words = &book.words;
    let mut rows: Vec<TableRow> = groups.iter().map(|group| row(book, group)).collect();
    rows.push(total(book));
    let joins = joined_in(book);
    let mut columns = vec![
        Column { align: Align::End, width: ColumnWidth::Fit },
        Column { align: Align::Start, width: ColumnWidth::Share(1.0) },
        Column { align: Align::Start, width: ColumnWidth::Fit },
        Column { align: Align::End, width: ColumnWidth::Fit },
        Column { align: Align::End, width: ColumnWidth::Fit },
    ];
    let mut head = vec![
        Word::StrandsStrand,
        Word::StrandsRuns,
        Word::StrandsTurn,
        Word::StrandsBeads,
        Word::StrandsLength,
    ];
    let places = Places::of(book);
    for (index, (word, width)) in places.heads().enumerate() {
        columns.insert(1 + index, Column { align: Align::Start, width });
        head.insert(1 + index, word);
    }
    let of_groups = groups.iter().map(|group| places.cells(book, group));
    let nowhere = vec![Cell::Empty; places.columns()];
    for (row, cells) in rows.iter_mut().zip(of_groups.chain([nowhere])) {
        row.cells.splice(1..1, cells);
    }
    // Lines of joins, from the last so that those before stay where they are.
    let runs = head.iter().position(|word| *word == Word::StrandsRuns).unwrap_or(1);
    for (index, group) in groups.iter().enumerate().rev() {
        if let Some(step) = joins.get(&group[0].section) {
            let mut cells = vec![Cell::Empty; head.len()];
            cells[runs] = Cell::Text(Text::marked(&join_text(book, group[0].section, *step)));
            rows.insert(index, TableRow { cells, kind: RowKind::Plain });
        }
    }
    Table {
        summary: words.fixed(Word::StrandsSummary),
        columns,
        head: head.into_iter().map(|w| Text::plain(words.fixed(w))).collect(),
        rows,
        row_header: Some(0),
    }
}

/// The columns of a bead list that say where strands hang and how the thread comes there, where they do not simply hang
/// side by side on the foundation.
pub(in crate::booklet) struct Places {
    hangs_on: bool,
    ways: bool,
}

impl Places {
    /// Of a design.
    pub(in crate::booklet) fn of(book: &Book) -> Places {
        let ways = book.work.strands.iter().any(|strand| way(book, strand).is_some());
        Places { hangs_on: !book.design.hangs_on_its_foundation(), ways }
    }

    /// Whether one says how the thread comes to where strands hang.
    pub(super) fn tell_ways(&self) -> bool {
        self.ways
    }

    /// How many columns there are.
    pub(in crate::booklet) fn columns(&self) -> usize {
        self.heads().count()
    }

    /// Their headings and widths.
    pub(in crate::booklet) fn heads(&self) -> impl Iterator<Item = (Word, ColumnWidth)> + use<> {
        let hangs_on = self.hangs_on.then_some((Word::StrandsHangsOn, ColumnWidth::Fit));
        let way = self.ways.then_some((Word::StrandsWay, ColumnWidth::Share(0.7)));
        hangs_on.into_iter().chain(way)
    }

    /// What they hold in words, each with its heading.
    pub(super) fn told(&self, book: &Book, strands: &[&StrandWork]) -> Vec<(Word, String)> {
        let hangs_on = self.hangs_on.then(|| (Word::StrandsHangsOn, hangs_on(book, strands)));
        let way = strands.first().and_then(|first| way(book, first));
        hangs_on.into_iter().chain(way.map(|way| (Word::StrandsWay, way))).collect()
    }

    /// The cells of strands that share a line.
    pub(in crate::booklet) fn cells(&self, book: &Book, strands: &[&StrandWork]) -> Vec<Cell> {
        let hangs_on = self.hangs_on.then(|| cell(hangs_on(book, strands)));
        let way =
            self.ways.then(|| strands.first().and_then(|first| way(book, first)).map_or(Cell::Empty, cell));
        hangs_on.into_iter().chain(way).collect()
    }
}

/// The stacks that strands hang on: `row 2, 1; row 1, 1–3`.
fn hangs_on(book: &Book, strands: &[&StrandWork]) -> String {
    let fabric = &book.work.fabric;
    let mut by_row: Vec<(usize, Vec<usize>)> = Vec::new();
    for stack in strands.iter().filter_map(|strand| fabric[strand.section].hangs_on) {
        let (row, number) = (fabric.row_number(stack), fabric[stack].place + 1);
        match by_row.last_mut().filter(|(last, _)| *last == row) {
            Some((_, stacks)) if stacks.last() == Some(&number) => {}
            Some((_, stacks)) => stacks.push(number),
            None => by_row.push((row, vec![number])),
        }
    }
    let said = by_row.iter().map(|(row, stacks)| {
        book.words.say(Word::StrandsHangsOnRow, context! { row => row, stacks => ranges(stacks) })
    });
    said.collect::<Vec<_>>().join("; ")
}

/// Numbers in their order, those that follow each other as a range: `1–3`, and where they fall `5–3`.
fn ranges(numbers: &[usize]) -> String {
    let mut ranges: Vec<(usize, usize)> = Vec::new();
    for &number in numbers {
        match ranges.last_mut() {
            Some((first, last))
                if last.abs_diff(number) == 1 && (first == last || (*first < *last) == (*last < number)) =>
            {
                *last = number;
            }
            _ => ranges.push((number, number)),
        }
    }
    let said = ranges.iter().map(
        |(first, last)| {
            if first == last { first.to_string() } else { format!("{first}–{last}") }
        },
    );
    said.collect::<Vec<_>>().join(", ")
}

/// One row for strands that are alike.
fn row(book: &Book, group: &[&StrandWork]) -> TableRow {
    let words = &book.words;
    let (first, last) = (group[0], group[group.len() - 1]);
    let (number, beads) = if group.len() == 1 {
        (first.number.to_string(), words.number(first.beads))
    } else {
        let each = words.say(Word::StrandsEach, context! { beads => first.beads });
        (format!("{}–{}", first.number, last.number), each)
    };
    let (on_chart, here) = (Placed::ChartStrand(first.number), Placed::Strand(first.number));
    let turn = book.bead_runs(&first.turn);
    let turn = match plan_of(book).step_of(Phase::Section(first.section)) {
        Some(step) => Text::leading(turn, Place::step(step), None, true),
        None => Text::marked(&format!("**{turn}**")),
    };
    TableRow {
        cells: vec![
            Cell::Text(Text::leading(number, book.place(on_chart), Some(book.place(here)), true)),
            cell(book.bead_runs(&first.runs)),
            Cell::Text(turn),
            cell(beads),
            cell(words.short(first.length)),
        ],
        kind: RowKind::Plain,
    }
}

fn total(book: &Book) -> TableRow {
    let words = &book.words;
    let fringe: usize = book.work.strands.iter().map(|s| s.beads).sum();
    TableRow {
        cells: vec![
            Cell::Empty,
            cell(words.fixed(Word::StrandsTotal)),
            Cell::Empty,
            cell(words.number(fringe)),
            Cell::Empty,
        ],
        kind: RowKind::Total,
    }
}

fn cell(text: String) -> Cell {
    Cell::Text(Text::plain(text))
}

fn ruler_and_words(book: &Book) -> Vec<Block> {
    let words = &book.words;
    let text = Text::marked(&words.fixed(Word::StrandsRulerText));
    vec![
        Block::Heading { level: 2, text: Text::plain(words.fixed(Word::StrandsRuler)) },
        Block::Paragraph { text, style: ParagraphStyle::Body },
        Block::Figure(ruler(book)),
    ]
}

/// A ruler at true size, long enough for the longest strand, to the next 10 mm, as far as a page allows.
pub(in crate::booklet) fn ruler(book: &Book) -> Figure {
    /// What is left between the margins of the narrower paper (A4: 210 mm less twice 20 mm).
    const WIDEST: Mm = Mm(170.0);
    /// What the units take of that in large print, left of the ruler.
    const UNITS: Mm = Mm(14.0);
    let widest = if book.edition.large_print { WIDEST - UNITS } else { WIDEST };
    let longest = book.work.strands.iter().fold(Mm::ZERO, |m, s| m.max(s.length));
    let length = Mm((longest.0 / 10.0).ceil() * 10.0).max(Mm(50.0)).min(widest);
    Figure {
        drawing: drawing::ruler(length, book.edition.large_print),
        moves: Vec::new(),
        caption: Text::default(),
        alt: book.words.say(Word::StrandsRulerAlt, context! { length => length.0 }),
    }
}
