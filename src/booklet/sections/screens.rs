//! Screens of a tablet edition: a row at a time, and a strand with those beside it that are like it.

use super::rows::{Edges, from_cell, join_text, loop_from, loop_name};
use super::steps::{joined_in, plan_of};
use super::strands::{Places, groups};
use crate::booklet::Word;
use crate::booklet::book::{Book, RUN_SEPARATOR};
use crate::booklet::drawing;
use crate::booklet::{
    Block, Button, Figure, LegendEntry, Place, Placed, RunStyle, Screen, Strung, StrungRun, Text, TextRun,
};
use crate::design::LetterId;
use crate::stitch::{Phase, RowWork, SectionId, StrandWork, ThreadUse};
use minijinja::context;
use std::collections::BTreeMap;

/// Numbers to press, and a screen for each row.
pub(super) fn of_rows(book: &Book, edges: &Edges) -> Vec<Block> {
    let joins = joined_in(book);
    let button =
        |row: &RowWork| Button { words: row.number.to_string(), to: book.place(Placed::Row(row.number)) };
    let mut blocks = vec![Block::Buttons(book.work.rows.iter().map(button).collect())];
    let mut so_far = 0;
    let mut done = Vec::new();
    let before = book.work.rows_round_hanging().0.len();
    for (index, row) in book.work.rows.iter().enumerate() {
        so_far += row.pick_ups.len();
        blocks.push(Block::Screen(row_screen(book, edges, row, &done, (so_far, &joins))));
        done.push(row.section);
        if index + 1 == before {
            for ring in book.work.loops() {
                so_far += book.work.fabric[ring].beads.len();
                blocks.push(Block::Screen(loop_screen(book, ring, &done, (so_far, row))));
                done.push(ring);
            }
        }
    }
    blocks
}

/// A loop that the earring hangs from; the chart is asked for the row that is worked last before it.
fn loop_screen(
    book: &Book,
    ring: SectionId,
    done: &[SectionId],
    (so_far, before): (usize, &RowWork),
) -> Screen {
    let words = &book.words;
    let title = loop_name(book, ring);
    let letters = book.work.loop_letters(ring);
    let runs = letters.chunk_by(|a, b| a == b).map(|run| run_of(book, run.len(), &run[..1])).collect();
    let index = book.work.hangings.iter().position(|carrier| carrier.ring == Some(ring));
    let phase = index.map_or(Phase::Section(ring), Phase::Hanging);
    let from = index.and_then(|index| loop_from(book, &book.work.hangings[index]));
    let facts = words.say(Word::TabletRowFacts, context! { beads => letters.len(), so_far });
    Screen {
        aside: from.map_or_else(String::new, |from| from.replace('\n', " ")),
        facts: with_step(book, &facts, phase),
        here: Vec::new(),
        on_chart: book.place(Placed::ChartRow(before.number)),
        strung: vec![Strung { label: words.fixed(Word::TabletPickUp), runs }],
        lying: None,
        whereabouts: whereabouts(book, &title, &[ring], done),
        legend: legend(book, letters.into_iter()),
        notes: Vec::new(),
        title,
    }
}

fn row_screen(
    book: &Book,
    edges: &Edges,
    row: &RowWork,
    done: &[SectionId],
    (so_far, joins): (usize, &BTreeMap<SectionId, usize>),
) -> Screen {
    let words = &book.words;
    let number = row.number;
    let title = words.say(Word::TabletRow, context! { number });
    let beads = row.pick_ups.len();
    let mut notes = Vec::new();
    if let Some(step) = joins.get(&row.section) {
        notes.push(Text::marked(&join_text(book, row.section, *step)));
    }
    let edge = if edges.shown { edges.of_row(book, row) } else { String::new() };
    if !edge.is_empty() {
        notes.push(Text::plain(words.say(Word::TabletEdges, context! { edges => edge })));
    }
    notes.extend(marks(book, number));
    let starts = StrungRun { count: None, beads: row.starts_with.iter().map(|l| book.swatch(*l)).collect() };
    let then = row.then.iter().map(|run| run_of(book, run.count, &run.beads)).collect();
    let strung = [(Word::RowsStart, vec![starts]), (Word::RowsThen, then)];
    let lying = book.work.fabric[row.section].lies;
    let on = lying.map_or(0, |lies| book.work.fabric[lies.on].number);
    Screen {
        aside: from_cell(book, row.from),
        facts: with_step(
            book,
            &words.say(Word::TabletRowFacts, context! { beads, so_far }),
            Phase::Section(row.section),
        ),
        here: vec![book.place(Placed::Row(number))],
        on_chart: book.place(Placed::ChartRow(number)),
        strung: parts(book, strung),
        lying: Some(Figure {
            drawing: drawing::lying_row(book.design, book.work, row.section),
            moves: Vec::new(),
            caption: Text::default(),
            alt: words.say(Word::TabletLyingAlt, context! { number, on }),
        }),
        whereabouts: whereabouts(book, &title, &[row.section], done),
        legend: legend(book, row.pick_ups.iter().map(|spot| book.work.fabric[*spot].letter)),
        notes,
        title,
    }
}

/// Numbers to press, and a screen for each line of the bead list.
pub(super) fn of_strands(book: &Book) -> Vec<Block> {
    let joins = joined_in(book);
    let groups = groups(book);
    let button = |group: &Vec<&StrandWork>| {
        let (first, last) = (group[0].number, group[group.len() - 1].number);
        let words = if first == last { first.to_string() } else { format!("{first}–{last}") };
        Button { words, to: book.place(Placed::Strand(first)) }
    };
    let mut blocks = vec![Block::Buttons(groups.iter().map(button).collect())];
    let mut done: Vec<SectionId> = book.work.rows.iter().map(|row| row.section).collect();
    done.extend(book.work.loops());
    let mut so_far = 0;
    for group in &groups {
        so_far += group.iter().map(|strand| strand.beads).sum::<usize>();
        blocks.push(Block::Screen(strand_screen(book, group, &done, (so_far, &joins))));
        done.extend(group.iter().map(|strand| strand.section));
    }
    blocks
}

fn strand_screen(
    book: &Book,
    group: &[&StrandWork],
    done: &[SectionId],
    (so_far, joins): (usize, &BTreeMap<SectionId, usize>),
) -> Screen {
    let words = &book.words;
    let (first, last) = (group[0], group[group.len() - 1]);
    let several = group.len() > 1;
    let title = words.say(Word::TabletStrand, context! { from => first.number, to => last.number, several });
    let mut notes = Vec::new();
    if let Some(step) = joins.get(&first.section) {
        notes.push(Text::marked(&join_text(book, first.section, *step)));
    }
    let places = Places::of(book);
    notes.extend(places.told(book, group).into_iter().map(|(label, what)| {
        Text(vec![
            TextRun { text: format!("{}: ", words.fixed(label)), style: RunStyle::Emphasis },
            TextRun { text: what, style: RunStyle::Plain },
        ])
    }));
    let runs = first.runs.iter().map(|run| run_of(book, run.count, &[run.letter])).collect();
    let turn = first.turn.iter().map(|run| run_of(book, run.count, &[run.letter])).collect();
    let these: Vec<SectionId> = group.iter().map(|strand| strand.section).collect();
    let letters = first.runs.iter().chain(&first.turn);
    let letters = letters.flat_map(|run| std::iter::repeat_n(run.letter, run.count));
    Screen {
        aside: String::new(),
        facts: with_step(
            book,
            &words.say(
                Word::TabletStrandFacts,
                context! { beads => first.beads, length => first.length.0, several, so_far },
            ),
            Phase::Section(first.section),
        ),
        here: group.iter().map(|strand| book.place(Placed::Strand(strand.number))).collect(),
        on_chart: book.place(Placed::ChartStrand(first.number)),
        strung: parts(book, [(Word::StrandsRuns, runs), (Word::StrandsTurn, turn)]),
        lying: None,
        whereabouts: whereabouts(book, &title, &these, done),
        legend: legend(book, letters),
        notes,
        title,
    }
}

/// The titles of the steps, each leading to its screen.
pub(super) fn of_steps(titles: impl Iterator<Item = String>) -> Block {
    let button = |(index, words): (usize, String)| {
        let to = Place::step(index + 1);
        Button { words, to }
    };
    Block::Index(titles.enumerate().map(button).collect())
}

fn parts(book: &Book, strung: [(Word, Vec<StrungRun>); 2]) -> Vec<Strung> {
    let strung = strung.into_iter().filter(|(_, runs)| !runs.is_empty());
    strung.map(|(label, runs)| Strung { label: book.words.fixed(label), runs }).collect()
}

fn run_of(book: &Book, count: usize, beads: &[LetterId]) -> StrungRun {
    StrungRun { count: Some(count), beads: beads.iter().map(|letter| book.swatch(*letter)).collect() }
}

/// The beads of a row or strand with how many of each it takes.
fn legend(book: &Book, letters: impl Iterator<Item = LetterId>) -> Vec<LegendEntry> {
    let mut counts: BTreeMap<LetterId, usize> = BTreeMap::new();
    for letter in letters {
        *counts.entry(letter).or_default() += 1;
    }
    let entry = |(letter, count): (LetterId, usize)| LegendEntry {
        swatch: book.swatch(letter),
        name: book.words.own(&book.design.bead(letter).name),
        note: book.words.number(count),
    };
    counts.into_iter().map(entry).collect()
}

fn whereabouts(book: &Book, title: &str, these: &[SectionId], done: &[SectionId]) -> Figure {
    Figure {
        drawing: drawing::whereabouts(book.design, book.work, these, done),
        moves: Vec::new(),
        caption: Text::default(),
        alt: book.words.say(Word::TabletWhereaboutsAlt, context! { what => title }),
    }
}

/// The marks of anchors in a row, with what they are for.
fn marks(book: &Book, row: usize) -> Option<Text> {
    let here = book.work.anchors.iter().enumerate().filter(|(_, a)| a.numbers(&book.work.fabric).0 == row);
    let told = here.map(|(index, anchor)| {
        let what = match (anchor.join.is_some(), anchor.thread, anchor.begins) {
            (true, _, false) => Word::TabletMarkEnds,
            (true, _, true) => Word::TabletMarkBegins,
            (false, ThreadUse::Body, true) => Word::ChartAnchorBodyBegin,
            (false, ThreadUse::Body, false) => Word::ChartAnchorBodyEnd,
            (false, ThreadUse::Fringe, true) => Word::ChartAnchorFringeBegin,
            (false, ThreadUse::Fringe, false) => Word::ChartAnchorFringeEnd,
        };
        let what = book.words.fixed(what);
        context! { mark => book.anchor_link(index), what }
    });
    let told: Vec<minijinja::Value> = told.collect();
    (!told.is_empty()).then(|| Text::marked(&book.words.say(Word::TabletMarks, context! { anchors => told })))
}

/// Facts, and the step that tells how it is worked, a link.
fn with_step(book: &Book, facts: &str, phase: Phase) -> Text {
    let mut text = Text::marked(facts);
    if let Some(step) = plan_of(book).step_of(phase) {
        let told = book.words.say(Word::TabletHow, context! { step });
        let place = Place::step(step);
        text.0.push(TextRun { text: RUN_SEPARATOR.to_owned(), style: RunStyle::Plain });
        text.0.extend(Text::leading(told, place, None, true).0);
    }
    text
}
