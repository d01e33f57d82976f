//! What is already there when a diagram begins.

use super::route::{Leg, Through};
use super::whole::Whole;
use crate::stitch::{Bridge, Manner, SectionId, Shown, StackId, ThreadUse, Work};
use std::collections::BTreeSet;
use std::ops::RangeInclusive;

/// What is strung and which bridges are laid.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct State {
    /// Stacks with a bead or more.
    pub(super) stacks: BTreeSet<StackId>,
    /// Strands with a bead or more.
    pub(super) strands: BTreeSet<SectionId>,
    /// Loops with a bead or more.
    pub(super) loops: BTreeSet<SectionId>,
    pub(super) bridges: BTreeSet<Bridge>,
}

impl State {
    /// The state before a move of a thread, in the lines of stacks that some legs concern: no other is shown. The body
    /// is finished before the fringe begins.
    pub(super) fn before(whole: &Whole, shown: Shown, at: usize, legs: &[Leg]) -> State {
        let lines = lines_of(whole.work, legs);
        let body = whole.work.body.moves.len();
        let until = match (shown.thread, shown.manner) {
            // The starting tail is worked away when the body is finished.
            (ThreadUse::Body, Manner::Tail) => body,
            (ThreadUse::Body, _) => at,
            (ThreadUse::Fringe, _) => body + at,
        };
        State {
            stacks: in_lines(&whole.strung, &lines, until).collect(),
            strands: before(&whole.strands, until).collect(),
            loops: before(&whole.loops, until).collect(),
            bridges: in_lines(&whole.laid, &lines, until).collect(),
        }
    }
}

/// Of what stands in the order of moves, that before one of them.
fn before<T: Copy>(all: &[(usize, T)], until: usize) -> impl Iterator<Item = T> {
    all.iter().take_while(move |(at, _)| *at < until).map(|(_, one)| *one)
}

/// Of what stands by lines of stacks, that in some of them before a move; nothing in lines that are not there.
fn in_lines<T: Copy>(
    all: &[Vec<(usize, T)>],
    lines: &RangeInclusive<usize>,
    until: usize,
) -> impl Iterator<Item = T> {
    all.get(lines.clone()).unwrap_or_default().iter().flat_map(move |line| before(line, until))
}

/// The lines of stacks that some legs concern, from the lowest to the highest.
fn lines_of(work: &Work, legs: &[Leg]) -> RangeInclusive<usize> {
    let fabric = &work.fabric;
    let lines = legs.iter().filter_map(|leg| match leg.through {
        Through::Down { strand } | Through::Up { strand } => {
            fabric[strand].hangs_on.map(|stack| fabric[stack].line)
        }
        Through::Wrap { anchor } => work.anchors.get(anchor).map(|anchor| fabric[anchor.stacks[0]].line),
        through => through.line(fabric),
    });
    let (low, high) = lines.fold((usize::MAX, 0), |(low, high), line| (low.min(line), high.max(line)));
    low..=high
}
