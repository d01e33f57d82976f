//! The earring as it stands after some of the steps, so that the maker can compare.

use super::{Planned, telling_step};
use crate::booklet::book::Book;
use crate::booklet::drawing::{Done, so_far};
use crate::booklet::{Figure, Text, Word};
use crate::stitch::{Phase, SectionId, SectionKind, ThreadUse, Work};
use minijinja::context;
use std::collections::BTreeMap;

/// Bodies of fewer rows are not shown half done, nor are fringes of fewer strands.
const ROWS: usize = 6;
const STRANDS: usize = 4;

/// What is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stage {
    Foundation,
    /// A row of the body, by its number.
    Row(usize),
    Body,
    Hanging,
    /// So many strands.
    Strands(usize),
}

/// The figures for each step after which the work is shown, by the step's index.
pub(super) fn figures(book: &Book, steps: &[Planned]) -> BTreeMap<usize, Vec<Figure>> {
    let of = |(stage, done): (Stage, Done)| {
        let last = match done.thread {
            ThreadUse::Body => book.work.body.moves.get(done.body.checked_sub(1)?),
            ThreadUse::Fringe => book.work.fringe.moves.get(done.fringe.checked_sub(1)?),
        };
        Some((telling_step(steps, done.thread, last?)?, figure(book, stage, done)))
    };
    let mut figures: BTreeMap<usize, Vec<Figure>> = BTreeMap::new();
    for (step, figure) in stages(book.work).into_iter().filter_map(of) {
        figures.entry(step).or_default().push(figure);
    }
    figures
}

/// The stages of a work, in order.
fn stages(work: &Work) -> Vec<(Stage, Done)> {
    let fabric = &work.fabric;
    let rows: Vec<SectionId> = fabric.of_kind(SectionKind::Row).map(|(id, _)| id).collect();
    let strands: Vec<SectionId> = fabric.of_kind(SectionKind::Strand).map(|(id, _)| id).collect();
    let (body, fringe) = (&work.body.moves, &work.fringe.moves);
    let after = |moves: &[crate::stitch::Move], phase: Phase| {
        moves.iter().rposition(|made| made.phase == phase).map(|at| at + 1)
    };
    let hung = after(body, Phase::Hanging(work.hangings.len().saturating_sub(1)));
    let of_body = |stage: Stage, phase: Phase| {
        let done = after(body, phase)?;
        let hung = hung.is_some_and(|hung| hung <= done);
        Some((stage, Done { body: done, fringe: 0, hung, thread: ThreadUse::Body }))
    };
    let row = |index: usize| rows.get(index).map(|id| Phase::Section(*id));
    let third = rows.len() / 3;
    let half = strands.len().div_ceil(2);
    let last = rows.len().checked_sub(1);
    let stages = [
        row(0).filter(|_| rows.len() > 1).and_then(|phase| of_body(Stage::Foundation, phase)),
        row(third.wrapping_sub(1))
            .filter(|_| rows.len() >= ROWS)
            .and_then(|phase| of_body(Stage::Row(third), phase)),
        last.and_then(row).and_then(|phase| of_body(Stage::Body, phase)),
        hung.and_then(|_| of_body(Stage::Hanging, Phase::Hanging(work.hangings.len().checked_sub(1)?))),
        strands.get(half.wrapping_sub(1)).filter(|_| strands.len() >= STRANDS).and_then(|id| {
            let fringe = after(fringe, Phase::Section(*id))?;
            Some((
                Stage::Strands(half),
                Done { body: body.len(), fringe, hung: true, thread: ThreadUse::Fringe },
            ))
        }),
    ];
    stages.into_iter().flatten().collect()
}

fn figure(book: &Book, stage: Stage, done: Done) -> Figure {
    let words = &book.words;
    let (drawing, beads) = so_far(book.design, book.work, done, book.edition.large_print);
    let strands = book.design.fringe.strands.len();
    let caption = match stage {
        Stage::Foundation => words.fixed(Word::StepsSoFarFoundation),
        Stage::Row(row) => words.say(Word::StepsSoFarRow, context! { row }),
        Stage::Body => words.fixed(Word::StepsSoFarBody),
        Stage::Hanging => words.fixed(Word::StepsSoFarHanging),
        Stage::Strands(done) => words.say(Word::StepsSoFarStrands, context! { done, strands }),
    };
    let text = Text::marked(&caption);
    let alt = words.say(Word::StepsSoFarAlt, context! { stage => text.words(), beads });
    Figure { drawing, moves: Vec::new(), caption: text, alt }
}
