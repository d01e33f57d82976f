//! A diagram as it comes about: what lies there before, then how far the thread has come after each of its moves.

use super::bezier::direction;
use super::draw::{MARGIN, Scene};
use super::paint::{number, number_rows, paint};
use super::stage::{Shown, Stage, Strung};
use super::thread::{End, Run, Thread};
use super::whole::Whole;
use crate::booklet::drawing::sketch::{Extent, Sketch};
use crate::drawn::Drawing;
use crate::stitch::{Fabric, Move, MoveKind};
use std::collections::BTreeMap;

/// One drawing for what is there before the first of these moves and one after each, all in one size. Beads that are
/// picked up are there from then on; numbers stand where they stand in the whole diagram, and begin after `numbered`.
pub(super) fn frames(whole: &Whole, scene: &Scene, (numbered, moves): (usize, &[Move])) -> Vec<Drawing> {
    let strung = strung(&whole.work.fabric, moves);
    let done = (0..=moves.len()).map(|moves| Done { moves, numbered });
    let sketches: Vec<Sketch> = done.map(|done| after(whole, scene, &strung, done, moves.len())).collect();
    // The needle may reach further in between than it does at the end.
    let all = sketches.iter().chain([&scene.sketch]).filter_map(Sketch::extent).reduce(Extent::with);
    match all {
        Some(all) => sketches.into_iter().map(|sketch| sketch.cropped(all, MARGIN, false)).collect(),
        None => Vec::new(),
    }
}

/// Which of some moves, from 1, strings what.
fn strung(fabric: &Fabric, moves: &[Move]) -> BTreeMap<Strung, usize> {
    let mut strung = BTreeMap::new();
    for (index, made) in moves.iter().enumerate() {
        if matches!(made.kind, MoveKind::String { .. }) {
            for spot in &made.beads {
                let lying = &fabric[*spot];
                let of = lying.stack.map_or(Strung::Whole(lying.section), Strung::Stack);
                strung.entry(of).or_insert(index + 1);
            }
        }
    }
    strung
}

/// How far the thread has come.
#[derive(Clone, Copy)]
struct Done {
    /// How many moves of the diagram are done.
    moves: usize,
    /// How many are numbered before its first.
    numbered: usize,
}

impl Done {
    /// Whether the move of a number is done.
    fn has(self, number: usize) -> bool {
        number <= self.numbered + self.moves
    }
}

/// What is seen when so many moves are done.
fn after(whole: &Whole, scene: &Scene, strung: &BTreeMap<Strung, usize>, done: Done, of: usize) -> Sketch {
    let is_there = |shown: &&Shown| strung.get(&shown.of).is_none_or(|at| *at <= done.moves);
    let beads: Vec<Shown> = scene.stage.beads.iter().filter(is_there).cloned().collect();
    let stage = Stage { beads, ..scene.stage.clone() };
    let thread = thread(&scene.thread, done, of);
    let mut sketch = paint(&scene.columns, &stage, &thread, whole.accent);
    let numbers: Vec<_> = scene.numbers.iter().filter(|(number, _)| done.has(*number)).copied().collect();
    number(&mut sketch, &thread, &numbers, whole.accent);
    number_rows(&mut sketch, whole, &scene.columns, &scene.stage, scene.around);
    sketch
}

/// The thread when so many moves are done: from then on it is in the needle.
fn thread(all: &Thread, done: Done, of: usize) -> Thread {
    if done.moves == of {
        return all.clone();
    }
    let runs: Vec<Run> =
        all.runs.iter().filter(|run| run.number.is_none_or(|number| done.has(number))).cloned().collect();
    let end =
        runs.last().and_then(|run| direction(&run.line)).map(|(tip, towards)| (tip, towards, End::Needle));
    Thread { runs, end, beginning: all.beginning.filter(|_| done.moves > 0) }
}
