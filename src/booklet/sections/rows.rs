//! Word chart: each row as it is picked up.

use crate::booklet::Word;
use crate::booklet::book::{Book, RUN_SEPARATOR};
use crate::booklet::sections::screens::of_rows;
use crate::booklet::sections::steps::{ToldRows, joined_in, plan_of, told_rows};
use crate::booklet::{
    Block, CalloutKind, Cell, Column, ColumnWidth, ParagraphStyle, Place, Placed, RowKind, Section, Table,
    TableRow, Text,
};
use crate::design::Side;
use crate::drawn::Align;
use crate::stitch::{Carrier, Manner, Phase, RowWork, SectionId, Way};
use minijinja::context;
use std::collections::BTreeMap;

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let edges = Edges::of(book);
    let single = book.design.body.drop == 1;
    let ladder = book.work.is_one_row();
    let note = match (single, ladder) {
        (true, _) => Word::RowsOrderNoteSingle,
        (false, true) => Word::RowsOrderNoteLadder,
        (false, false) => Word::RowsOrderNote,
    };
    let begin = if ladder { Word::RowsIntroLadder } else { Word::RowsIntro };
    let mut intro = format!("{} {}", words.fixed(begin), words.fixed(note));
    if !single && book.work.works_downwards() {
        intro = format!("{intro} {}", words.fixed(Word::RowsOrderNoteBelow));
    }
    let is_built = |row: &&RowWork| book.work.fabric.built_out(row.section) != [0, 0];
    if !single && book.work.rows.iter().any(|row| is_built(&row)) {
        intro = format!("{intro} {}", words.fixed(Word::RowsOrderNoteBuilt));
    }
    if edges.shown {
        let note = if book.edition.tablet { Word::TabletEdgesNote } else { Word::RowsEdgesNote };
        intro = format!("{intro} {}", words.fixed(note));
    }
    let mut blocks = vec![Block::Paragraph { text: Text::marked(&intro), style: ParagraphStyle::Body }];
    // A screen says what each part of a row is.
    if let Some(row) = example_row(book).filter(|_| !book.edition.tablet) {
        blocks.push(example(book, row));
    }
    if book.edition.tablet {
        blocks.extend(of_rows(book, &edges));
    } else {
        blocks.push(Block::Table(table(book, &edges)));
    }
    Section {
        name: "rows".into(),
        title: words.fixed(Word::RowsTitle),
        new_page: true,
        faces: true,
        listed: true,
        blocks,
    }
}

/// The row that serves as an example: the second, or the first after it to which nothing is built on beside others, as
/// such stacks are picked up between those that follow one another.
fn example_row<'b>(book: &'b Book) -> Option<&'b RowWork> {
    let plain = |row: &&RowWork| book.work.fabric.built_out(row.section) == [0, 0];
    let mut rows = book.work.rows.iter().skip(1);
    rows.clone().find(|row| plain(row) && !row.then.is_empty()).or_else(|| rows.find(plain))
}

/// Most runs of a row that are told in words.
const MOST_SPELLED: usize = 8;

/// How to read a row, with one of this design's own.
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
        let runs = &row.then[..row.then.len().min(MOST_SPELLED)];
        // What follows is read in the same way.
        let more = |gap: &str| if runs.len() < row.then.len() { format!("{gap}…") } else { String::new() };
        let spelled: Vec<String> = runs
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
                then => Some(book.stack_runs(runs)).filter(|t| !t.is_empty()).map(|t| t + &more(RUN_SEPARATOR)),
                spelled => spelled.join(", ") + &more(", "), beads => row.pick_ups.len(),
            },
        )
    };
    Block::Callout {
        kind: CalloutKind::Note,
        title: Text::plain(words.say(Word::RowsExampleTitle, context! { number => number })),
        blocks: vec![Block::Paragraph { text: Text::marked(&text), style: ParagraphStyle::Body }],
    }
}

/// An arrow the way the row runs, and the side it starts from, on one line.
pub(in crate::booklet) fn from_cell(book: &Book, side: Side) -> String {
    match side {
        Side::Left => format!("→\u{a0}{}", book.side(side)),
        Side::Right => format!("←\u{a0}{}", book.side(side)),
    }
}

/// The word chart by itself.
pub(super) fn word_chart(book: &Book) -> Vec<Block> {
    let edges = Edges::of(book);
    if book.edition.tablet { of_rows(book, &edges) } else { vec![Block::Table(table(book, &edges))] }
}

fn table(book: &Book, edges: &Edges) -> Table {
    let words = &book.words;
    let joins = joined_in(book);
    let mut rows: Vec<TableRow> = Vec::new();
    for row in &book.work.rows {
        if let Some(step) = joins.get(&row.section) {
            let join = Cell::Text(Text::marked(&join_text(book, row.section, *step)));
            rows.push(edges.line(String::new(), join, String::new(), RowKind::Plain));
        }
        rows.push(row_line(book, edges, row));
    }
    let body: usize = book.work.rows.iter().map(|r| r.pick_ups.len()).sum();
    rows.push(edges.line(words.fixed(Word::RowsTotal), Cell::Empty, words.number(body), RowKind::Total));
    rows.extend(book.work.loops().map(|ring| loop_line(book, edges, ring)));
    let mut columns = vec![
        Column { align: Align::End, width: ColumnWidth::Fit },
        Column { align: Align::Start, width: ColumnWidth::Fit },
        Column { align: Align::Start, width: ColumnWidth::Fit },
        Column { align: Align::Start, width: ColumnWidth::Share(1.0) },
        Column { align: Align::End, width: ColumnWidth::Fit },
    ];
    let mut head = vec![Word::RowsRow, Word::RowsFrom, Word::RowsStart, Word::RowsThen, Word::RowsBeads];
    if edges.shown {
        columns.insert(2, Column { align: Align::Start, width: edges.width(book) });
        head.insert(2, Word::RowsEdges);
    }
    Table {
        summary: words.fixed(Word::RowsSummary),
        columns,
        head: head.into_iter().map(|w| Text::plain(words.fixed(w))).collect(),
        rows,
        row_header: Some(0),
    }
}

fn row_line(book: &Book, edges: &Edges, row: &RowWork) -> TableRow {
    let cell = |text: String| Cell::Text(Text::plain(text));
    let (on_chart, here) = (Placed::ChartRow(row.number), Placed::Row(row.number));
    let number = Text::leading(row.number.to_string(), book.place(on_chart), Some(book.place(here)), true);
    let from = from_cell(book, row.from);
    let step = plan_of(book).step_of(Phase::Section(row.section));
    let mut cells = vec![
        Cell::Text(number),
        Cell::Text(step.map_or_else(|| Text::plain(from.as_str()), |step| step_text(&from, step))),
        Cell::Text(Text::marked(&format!("**{}**", book.spaced(&row.starts_with)))),
        cell(book.stack_runs(&row.then)),
        cell(book.words.number(row.pick_ups.len())),
    ];
    if edges.shown {
        cells.insert(2, cell(edges.of_row(book, row)));
    }
    TableRow { cells, kind: RowKind::Plain }
}

/// `Join a new length, **75 cm**: step 9`, before a row or strand; without the step where `step` is 0.
pub(in crate::booklet) fn join_text(book: &Book, section: SectionId, step: usize) -> String {
    let cut = book.work.cuts.iter().find(|cut| cut.number > 1 && cut.joins_at == Phase::Section(section));
    let mut marks = book.join_marks(section);
    let (end_mark, begin_mark) = (marks.next().unwrap_or_default(), marks.next().unwrap_or_default());
    let cut = cut.map_or(0.0, |cut| cut.cut.0);
    book.words.say(Word::RowsJoin, context! { cut, step, end_mark, begin_mark })
}

/// Words that lead to a step.
fn step_text(words: &str, step: usize) -> Text {
    Text::leading(words, Place::step(step), None, false)
}

/// `Loop`; of several with its number.
pub(in crate::booklet) fn loop_name(book: &Book, ring: SectionId) -> String {
    let number = (book.work.loops().count() > 1).then(|| book.work.fabric[ring].number);
    book.words.say(Word::RowsLoop, context! { number => number })
}

/// The stacks that a loop or guard stands on, counted as in the steps: from the left, for the second of a mirrored pair from
/// the right; nothing where the earring hangs from one place.
pub(in crate::booklet) fn loop_from(book: &Book, carrier: &Carrier) -> Option<String> {
    let right = book.earring == 2;
    let top = book.design.body.top_row().stacks.len();
    let mut stacks = carrier.numbers(&book.work.fabric).map(|n| if right { top + 1 - n } else { n });
    stacks.sort_unstable();
    let [near, far] = stacks;
    let several = book.work.hangings.len() > 1;
    several.then(|| book.words.say(Word::RowsLoopFrom, context! { near, far, right }))
}

fn loop_line(book: &Book, edges: &Edges, ring: SectionId) -> TableRow {
    let cell = |text: String| Cell::Text(Text::plain(text));
    let name = loop_name(book, ring);
    let hanging = book.work.hangings.iter().position(|carrier| carrier.ring == Some(ring));
    let step = hanging.and_then(|index| plan_of(book).step_of(Phase::Hanging(index)));
    let from = hanging.and_then(|index| loop_from(book, &book.work.hangings[index]));
    let mut cells = vec![
        Cell::Text(step.map_or_else(|| Text::plain(name.as_str()), |step| step_text(&name, step))),
        from.map_or(Cell::Empty, cell),
        Cell::Empty,
        cell(book.loop_runs(ring)),
        cell(book.words.number(book.work.fabric[ring].beads.len())),
    ];
    if edges.shown {
        cells.insert(2, Cell::Empty);
    }
    TableRow { cells, kind: RowKind::Plain }
}

/// How rows start and end against those that they hang on; told only where they do not all do it alike.
pub(in crate::booklet) struct Edges {
    /// Whether they are told.
    pub(in crate::booklet) shown: bool,
    /// The step that shows a manner.
    steps: BTreeMap<Manner, usize>,
    /// The step that tells a row.
    told: BTreeMap<SectionId, usize>,
}

impl Edges {
    fn of(book: &Book) -> Edges {
        let mut edges = Edges::without_steps(book);
        if edges.shown {
            let ToldRows { shown, told } = told_rows(book);
            (edges.steps, edges.told) = (shown, told);
        }
        edges
    }

    /// On a page that has no steps.
    pub(in crate::booklet) fn without_steps(book: &Book) -> Edges {
        Edges {
            shown: !book.design.is_plain() && !book.work.is_one_row(),
            steps: BTreeMap::new(),
            told: BTreeMap::new(),
        }
    }

    /// The width of their column: long ones wrap.
    pub(in crate::booklet) fn width(&self, book: &Book) -> ColumnWidth {
        let long = book.work.rows.iter().any(|row| self.of_row(book, row).contains(", "));
        if long { ColumnWidth::Share(0.4) } else { ColumnWidth::Fit }
    }

    /// Whether the first row below the foundation begins narrower.
    fn turns_narrower(&self, book: &Book) -> bool {
        let fabric = &book.work.fabric;
        let mut turned = book.work.rows.iter().map(|row| &fabric[row.section]);
        let turned = turned.find(|section| section.manner == Manner::Turned);
        turned.and_then(|section| section.lies).is_some_and(|lies| lies.starts == -1)
    }

    /// `narrower (4)`; `even: starts narrower (4), ends wider (6)`; `starts wider (4), 1 built on (5); ends wider (7)`.
    pub(in crate::booklet) fn of_row(&self, book: &Book, row: &RowWork) -> String {
        let words = &book.words;
        let section = &book.work.fabric[row.section];
        let Some(lies) = section.lies else { return String::new() };
        let step = |manner: Manner| self.steps.get(&manner).copied().unwrap_or(0);
        // In which way, and where it is shown. Beyond half a stack further out, stacks are built on.
        let edge = |out: i32, wider: Manner| match out {
            ..-1 => (Word::RowsFurtherIn, Manner::WalkIn),
            -1 => (Word::RowsNarrower, Manner::Narrower),
            0.. => (Word::RowsWider, wider),
        };
        let (starts, shows_start) = edge(lies.starts, Manner::Wider);
        let (ends, shows_end) = edge(lies.ends, Manner::WiderEnd);
        let shows_start = match section.manner {
            Manner::Turned => step(Manner::Turned),
            Manner::Alone => self.told.get(&row.section).copied().unwrap_or(0),
            // Below the foundation, away and back are the other way round: the first row there shows it.
            _ if lies.away == Way::Down && lies.starts == -1 && self.turns_narrower(book) => {
                step(Manner::Turned)
            }
            _ => step(shows_start),
        };
        // A row that ends further in just stops, and one that ends narrower ends as all do.
        let shows_end = if lies.ends < 0 { 0 } else { step(shows_end) };
        let [before, after] = lies.built_out();
        let say = |which, word, step: usize| words.say(which, context! { word, step });
        if lies.starts == lies.ends && before == 0 && (shows_end == 0 || shows_end == shows_start) {
            return say(Word::RowsEdgeBoth, words.fixed(starts), shows_start);
        }
        let with_built = |told: String, stacks: usize, built: Manner| {
            if stacks == 0 {
                return told;
            }
            let word = words.say(Word::RowsFurtherOut, context! { stacks });
            format!("{told}, {}", say(Word::RowsEdgeBoth, word, step(built)))
        };
        let both = [
            with_built(say(Word::RowsEdgeStarts, words.fixed(starts), shows_start), before, Manner::BuiltOut),
            with_built(say(Word::RowsEdgeEnds, words.fixed(ends), shows_end), after, Manner::BuiltOutEnd),
        ];
        let told = match &both {
            [start, end] if before + after > 0 => words.say(Word::RowsEdgesBuilt, context! { start, end }),
            both => both.join(", "),
        };
        if lies.starts == -lies.ends { words.say(Word::RowsEven, context! { told }) } else { told }
    }

    /// A line of the table with a name and a number of beads.
    fn line(&self, name: String, then: Cell, beads: String, kind: RowKind) -> TableRow {
        let text = |t: String| if t.is_empty() { Cell::Empty } else { Cell::Text(Text::plain(t)) };
        let mut cells = vec![Cell::Empty, text(name), Cell::Empty, then, text(beads)];
        if self.shown {
            cells.insert(2, Cell::Empty);
        }
        TableRow { cells, kind }
    }
}
