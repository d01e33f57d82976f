//! Bench copies: big type and little ink, with a box to tick for every row, strand and long run.

use super::book::{Book, Edition};
use super::boxes::{BoxName, Worked};
use super::compose::{finish, open};
use super::diagrams;
use super::sections::{chart, rows, strands};
use super::{
    Block, Booklet, Cell, CellPart, Chart, ChartTicks, Column, ColumnWidth, RowKind, Section, Table,
    TableRow, Text, Tick,
};
use crate::booklet::{Word, Wording};
use crate::design::Design;
use crate::diagnostic::Problem;
use crate::drawn::Align;
use crate::stitch::{
    Anchor, Carrier, Manner, MoveKind, Phase, RowWork, SectionId, SectionKind, StrandWork, ThreadUse, Way,
    Work,
};
use crate::tally::Tally;
use minijinja::context;
use std::ops::RangeInclusive;

/// Where a line begins that runs over all columns but those of boxes and numbers.
const ACROSS: usize = 2;
/// Where the side stands that a row starts from.
const FROM: usize = 2;
/// Where the column of edges stands, if it does: after that side.
const EDGES: usize = FROM + 1;
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
    let ticked =
        |chart: Chart| Chart { ticks: Some(chart_ticks(book, earring)), anchors: Vec::new(), ..chart };
    let mut blocks = vec![Block::Paragraph {
        text: Text::plain(format!("{name}. {}", words.fixed(Word::BenchIntro))),
        style: super::ParagraphStyle::Body,
    }];
    if let Some(only) = only {
        let mut chart = ticked(chart::body(book));
        chart.rows.retain(|r| only.contains(&r.number));
        chart.beads.retain(|b| b.kind == SectionKind::Row && only.contains(&b.number));
        // Its beads are not all that are counted in the legend.
        chart.legend.iter_mut().for_each(|entry| entry.note.clear());
        blocks.push(Block::Chart(chart));
    } else {
        blocks.extend(chart::for_bench(book, ticked));
    }
    let mut list = vec![Section {
        name: format!("e{earring}-chart"),
        title: title.clone(),
        new_page: true,
        faces: false,
        listed: true,
        blocks,
    }];
    list.push(Section {
        name: format!("e{earring}-rows"),
        title: part_title(Word::BenchRows),
        new_page: true,
        faces: false,
        listed: true,
        blocks: vec![Block::Table(row_table(book, earring, only))],
    });
    if only.is_none() {
        let blocks = vec![Block::Figure(strands::ruler(book)), Block::Table(strand_table(book, earring))];
        list.push(Section {
            name: format!("e{earring}-strands"),
            title: part_title(Word::BenchStrands),
            new_page: true,
            faces: false,
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
    let mut told = String::new();
    let line = |name: BoxName, label: String, what: Text| once(name, label, what, [4, 6], edges.shown);
    let mut so_far = 0;
    let mut lines_of = |rows: &[RowWork]| -> Vec<TableRow> {
        let mut lines = Vec::new();
        for row in rows {
            so_far += row.pick_ups.len();
            if only.is_none_or(|only| only.contains(&row.number)) {
                lines.extend(join_line(book, earring, row.section, &line));
                lines.extend(turn_line(book, earring, row, &line));
                lines.push(row_line(book, earring, edges_of(book, &edges, row, &mut told), row, so_far));
            }
        }
        lines
    };
    let (before, after) = book.work.rows_round_hanging();
    let mut table_rows = lines_of(before);
    if only.is_none() {
        table_rows.extend(hanging_lines(book, earring, &line));
    }
    table_rows.extend(lines_of(after));
    if only.is_none() {
        // The running thread ends first, then the starting tail.
        for (begins, word) in [(false, Word::BenchEnd), (true, Word::BenchTail)] {
            table_rows.extend(anchor_line(book, earring, (ThreadUse::Body, begins), word, &line));
        }
    }
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

/// How a row starts and ends, if it is told, in words only where the row before does otherwise.
fn edges_of(book: &Book, edges: &rows::Edges, row: &RowWork, told: &mut String) -> Option<String> {
    edges.shown.then(|| {
        let here = edges.of_row(book, row);
        let alike = here == *told && here.contains(", ");
        told.clone_from(&here);
        if alike { book.words.fixed(Word::BenchEdgesAlike) } else { here }
    })
}

fn row_line(book: &Book, earring: usize, edges: Option<String>, row: &RowWork, so_far: usize) -> TableRow {
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
    if let Some(edges) = edges {
        cells.insert(EDGES, text(edges));
    }
    plain(cells)
}

/// A line for what is done once: a box, a name if it has one, and what it is in one of so many columns; without a name,
/// from the first free column over all that follow.
fn once(name: BoxName, label: String, what: Text, [column, columns]: [usize; 2], edges: bool) -> TableRow {
    let tooltip = if label.is_empty() { what.words() } else { label.clone() };
    let mut cells = vec![Cell::Empty; columns];
    cells[0] = Cell::Tick(Tick { name: name.in_list(), tooltip });
    if label.is_empty() {
        cells[ACROSS] = Cell::Across(what);
    } else {
        cells[1] = text(label);
        cells[column] = Cell::Text(what);
    }
    if edges {
        cells.insert(EDGES, Cell::Empty);
    }
    plain(cells)
}

/// How a line of a table is made of a box, a name and what is done.
type Line<'l> = &'l dyn Fn(BoxName, String, Text) -> TableRow;

/// Guards and loops.
fn hanging_lines(book: &Book, earring: usize, line: Line) -> Vec<TableRow> {
    let several = book.work.hangings.len() > 1;
    let mut guards = 0;
    let mut of = |carrier: &Carrier| match carrier.ring {
        Some(ring) => {
            let letters = book.work.loop_letters(ring);
            let name = BoxName::of_loop(book.design, earring, book.work.fabric[ring].number, &letters);
            line(name, rows::loop_name(book, ring), Text::plain(book.loop_runs(ring)))
        }
        None => {
            guards += 1;
            let number = several.then_some(guards);
            let has_loop = book.design.ear_wire().has_loop() && !several;
            let of_wire = book.of_wire();
            let label = book.words.say(Word::BenchGuard, context! { number, has_loop, of_wire });
            let stacks = carrier.numbers(&book.work.fabric);
            let words = format!("stacks {} {}", stacks[0], stacks[1]);
            line(BoxName::of_step(earring, Worked::Guard(guards), &words), String::new(), Text::plain(label))
        }
    };
    let with_stacks = |carrier: &Carrier| {
        let mut line = of(carrier);
        if let Some(from) = rows::loop_from(book, carrier) {
            // What would run over this column stands after it.
            if let Cell::Across(_) = line.cells[FROM] {
                line.cells.swap(FROM, FROM + 1);
            }
            line.cells[FROM] = text(from);
        }
        line
    };
    book.work.hangings.iter().map(with_stacks).collect()
}

/// Bringing the thread down and turning the work for the first row below the foundation.
fn turn_line(book: &Book, earring: usize, row: &RowWork, line: Line) -> Option<TableRow> {
    let below = book.work.fabric[row.section].manner == Manner::Turned;
    let moves = book.work.body.moves.iter().filter(|made| made.phase == Phase::Section(row.section));
    let to = moves.take_while(|made| !matches!(made.kind, MoveKind::String { .. }));
    let way = below.then(|| diagrams::told(book, to))?;
    let name = BoxName::of_step(earring, Worked::Turn, &row.number.to_string());
    Some(line(name, String::new(), Text::marked(&book.words.say(Word::BenchTurn, context! { way }))))
}

/// Whether the work lies upside down after a row or strand was begun.
fn is_turned(book: &Book, section: SectionId) -> bool {
    let lies = |section: SectionId| book.work.fabric[section].lies;
    lies(section).is_some_and(|lies| lies.away == Way::Down)
        && book.work.fabric[section].manner != Manner::Turned
}

/// Where a thread begins or ends, if it does.
fn anchor_line(
    book: &Book,
    earring: usize,
    (thread, begins): (ThreadUse, bool),
    word: Word,
    line: Line,
) -> Option<TableRow> {
    let wanted =
        |anchor: &Anchor| anchor.thread == thread && anchor.begins == begins && anchor.join.is_none();
    let (index, anchor) = book.work.anchors.iter().enumerate().find(|(_, anchor)| wanted(anchor))?;
    let place = book.anchor_place(anchor);
    let (row, [left, right]) = anchor.numbers(&book.work.fabric);
    let name = BoxName::of_step(earring, Worked::Anchor(index + 1), &format!("{row} {left} {right}"));
    let values = match word {
        Word::BenchEnd => {
            context! { place, turned => thread == ThreadUse::Body && book.work.works_downwards() }
        }
        _ => context! { place },
    };
    Some(line(name, String::new(), Text::marked(&book.words.say(word, values))))
}

/// Where a new length is joined before a row or strand, if one is.
fn join_line(book: &Book, earring: usize, section: SectionId, line: Line) -> Option<TableRow> {
    let anchors = book.work.anchors.iter().enumerate();
    let mut here = anchors.filter(|(_, anchor)| anchor.join == Some(section));
    let ((ends, end), (_, begin)) = (here.next()?, here.next()?);
    let cut = book.work.cuts.iter().find(|cut| cut.number > 1 && cut.joins_at == Phase::Section(section))?;
    let values = context! {
        cut => cut.cut.0, end_place => book.anchor_place(end), begin_place => book.anchor_place(begin),
        turned => is_turned(book, section),
    };
    let numbers = [end, begin].map(|anchor| anchor.numbers(&book.work.fabric));
    let name = BoxName::of_step(earring, Worked::Join(ends + 1), &format!("{numbers:?} {}", cut.cut.0));
    Some(line(name, String::new(), Text::marked(&book.words.say(Word::BenchJoin, values))))
}

fn strand_table(book: &Book, earring: usize) -> Table {
    let words = &book.words;
    let places = strands::Places::of(book);
    let placed = places.columns();
    let line =
        |name: BoxName, label: String, what: Text| once(name, label, what, [2 + placed, 7 + placed], false);
    let mut so_far = 0;
    let mut table_rows = Vec::new();
    let fringe = |begins| (ThreadUse::Fringe, begins);
    table_rows.extend(anchor_line(book, earring, fringe(true), Word::BenchBegin, &line));
    for strand in book.work.strands_in_order() {
        so_far += strand.beads;
        table_rows.extend(join_line(book, earring, strand.section, &line));
        table_rows.push(strand_line(book, earring, &places, strand, so_far));
    }
    table_rows.extend(anchor_line(book, earring, fringe(false), Word::BenchEnd, &line));
    let mut columns = vec![
        (Align::Middle, ColumnWidth::Fit, words.fixed(Word::BenchDone)),
        (Align::End, ColumnWidth::Fit, words.fixed(Word::StrandsStrand)),
    ];
    columns.extend(places.heads().map(|(word, width)| (Align::Start, width, words.fixed(word))));
    columns.extend([
        (Align::Start, ColumnWidth::Share(1.0), words.fixed(Word::StrandsRuns)),
        (Align::Start, ColumnWidth::Fit, words.fixed(Word::StrandsTurn)),
        (Align::End, ColumnWidth::Fit, words.fixed(Word::StrandsBeads)),
        (Align::End, ColumnWidth::Fit, words.fixed(Word::BenchSoFar)),
        (Align::End, ColumnWidth::Fit, words.fixed(Word::StrandsLength)),
    ]);
    table(words.fixed(Word::StrandsSummary), &columns, table_rows)
}

fn strand_line(
    book: &Book,
    earring: usize,
    places: &strands::Places,
    strand: &StrandWork,
    so_far: usize,
) -> TableRow {
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
    let mut cells = vec![Cell::Tick(tick), strong(number)];
    cells.extend(places.cells(book, &[strand]));
    cells.extend([
        Cell::Parts(parts.collect()),
        Cell::Text(Text::marked(&format!("**{}**", book.bead_runs(&strand.turn)))),
        text(words.number(strand.beads)),
        text(words.number(so_far)),
        text(words.short(strand.length)),
    ]);
    plain(cells)
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
