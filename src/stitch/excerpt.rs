//! Excerpts: the moves of the paths that show each kind of work once.

use super::{Move, MoveKind, Phase, ThreadUse, Work};
use serde::Serialize;
use std::ops::Range;

/// A kind of work that a step explains.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub enum ExcerptKind {
    /// The first two stacks of the foundation.
    FirstLadderStacks,
    /// The third stack of the foundation.
    AddLadderStack,
    /// The first two stacks of row 2.
    StartRow,
    /// A further stack of row 2.
    AddStack,
    /// The first two stacks of row 3, from the other side.
    StartNextRow,
    /// Guard or loop, all rounds.
    Hanging,
    /// The end of the body thread.
    Anchoring,
    /// The beginning of the fringe thread, to the foot of the first strand.
    DownToFringe,
    /// The first strand and its return.
    Strand,
    /// The second strand.
    NextStrand,
    /// The end of the fringe thread.
    LastTail,
}

/// Moves of one thread's path that show a kind of work.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Excerpt {
    /// What they show.
    pub kind: ExcerptKind,
    /// Whose path they are of.
    pub thread: ThreadUse,
    /// Their indices in the path's moves.
    pub moves: Range<usize>,
}

/// The excerpts of what a design uses, in working order.
#[must_use]
pub fn excerpts(work: &Work) -> Vec<Excerpt> {
    let body = &work.body.moves;
    let fringe = &work.fringe.moves;
    let row = |row| pick_ups(body, Phase::Row(row));
    let (foundation, second, third) = (row(0), row(1), row(2));
    let strands: Vec<Range<usize>> =
        runs(fringe).filter(|run| matches!(fringe[run.start].phase, Phase::Strand(_))).take(2).collect();
    let to_fringe = strands.first().map(|first| 0..first.start).filter(|moves| !moves.is_empty());
    use ExcerptKind::*;
    use ThreadUse::{Body, Fringe};
    [
        (FirstLadderStacks, Body, foundation.first().cloned()),
        (AddLadderStack, Body, foundation.get(1).cloned()),
        (StartRow, Body, second.first().cloned()),
        (AddStack, Body, second.get(1).cloned()),
        (StartNextRow, Body, third.first().cloned()),
        (Hanging, Body, run_of(body, |p| p == Phase::Hanging)),
        (Anchoring, Body, run_of(body, |p| matches!(p, Phase::Ending(_)))),
        (DownToFringe, Fringe, to_fringe),
        (Strand, Fringe, strands.first().cloned()),
        (NextStrand, Fringe, strands.get(1).cloned()),
        (LastTail, Fringe, run_of(fringe, |p| matches!(p, Phase::Ending(_)))),
    ]
    .into_iter()
    .filter_map(|(kind, thread, moves)| Some(Excerpt { kind, thread, moves: moves? }))
    .collect()
}

/// The moves of a phase, cut where beads are picked up: each range from one pick-up to the next.
fn pick_ups(moves: &[Move], phase: Phase) -> Vec<Range<usize>> {
    let Some(run) = run_of(moves, |p| p == phase) else {
        return Vec::new();
    };
    let strings = |i: &usize| matches!(moves[*i].kind, MoveKind::String { .. });
    // What comes before the first pick-up, a tail or travel, belongs to it.
    let mut bounds: Vec<usize> = run.clone().filter(strings).collect();
    if let Some(first) = bounds.first_mut() {
        *first = run.start;
    }
    bounds.push(run.end);
    bounds.windows(2).map(|b| b[0]..b[1]).collect()
}

/// The first run of moves whose phase is wanted.
fn run_of(moves: &[Move], wanted: impl Fn(Phase) -> bool) -> Option<Range<usize>> {
    runs(moves).find(|run| wanted(moves[run.start].phase))
}

/// Runs of moves of one phase.
fn runs(moves: &[Move]) -> impl Iterator<Item = Range<usize>> + '_ {
    let mut start = 0;
    moves.chunk_by(|a, b| a.phase == b.phase).map(move |chunk| {
        let run = start..start + chunk.len();
        start = run.end;
        run
    })
}
