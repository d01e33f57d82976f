//! Excerpts: the moves of the paths that show each manner of working once.

use super::{Manner, Move, MoveKind, Phase, SectionKind, ThreadUse, Work};
use crate::design::Side;
use serde::Serialize;
use std::collections::BTreeMap;
use std::ops::Range;

/// What an excerpt shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize)]
pub struct Shown {
    /// The manner.
    pub manner: Manner,
    /// The thread that works in it.
    pub thread: ThreadUse,
    /// For which time, from 1: a second time a row is seen from the other side, or beside what hangs there already; every
    /// join has a place of its own.
    pub time: usize,
}

impl Shown {
    /// A manner of the body thread, for the first time.
    #[must_use]
    pub fn body(manner: Manner) -> Shown {
        Shown { manner, thread: ThreadUse::Body, time: 1 }
    }

    /// A manner of the fringe thread, for the first time.
    #[must_use]
    pub fn fringe(manner: Manner) -> Shown {
        Shown { manner, thread: ThreadUse::Fringe, time: 1 }
    }

    /// The same for the second time.
    #[must_use]
    pub fn again(self) -> Shown {
        Shown { time: 2, ..self }
    }
}

/// Moves of one thread's path that show a manner of working.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Excerpt {
    /// What they show.
    pub shown: Shown,
    /// Their indices in the path's moves.
    pub moves: Range<usize>,
}

impl Manner {
    /// How often it is worth seeing: a second time looks different, and each join lies elsewhere.
    fn times_shown(self) -> usize {
        match self {
            Manner::Narrower | Manner::Wider | Manner::Hanging | Manner::Strand => 2,
            Manner::JoinEnd | Manner::JoinBegin => usize::MAX,
            Manner::Ladder
            | Manner::LadderOn
            | Manner::WalkIn
            | Manner::Turned
            | Manner::Alone
            | Manner::Onward
            | Manner::OnwardBelow
            | Manner::WiderEnd
            | Manner::BuiltOut
            | Manner::BuiltOutEnd
            | Manner::Begin
            | Manner::End
            | Manner::Tail => 1,
        }
    }

    /// Whether one pick-up shows it: what comes after is the same again.
    fn is_shown_by_one_pick_up(self) -> bool {
        match self {
            Manner::Ladder
            | Manner::LadderOn
            | Manner::Narrower
            | Manner::Wider
            | Manner::WalkIn
            | Manner::Turned
            | Manner::Alone
            | Manner::Onward
            | Manner::OnwardBelow
            | Manner::WiderEnd
            | Manner::BuiltOut
            | Manner::BuiltOutEnd => true,
            Manner::Hanging
            | Manner::Begin
            | Manner::Strand
            | Manner::End
            | Manner::JoinEnd
            | Manner::JoinBegin
            | Manner::Tail => false,
        }
    }
}

/// The excerpts of what a design uses, in working order.
#[must_use]
pub fn excerpts(work: &Work) -> Vec<Excerpt> {
    let mut seen: BTreeMap<(ThreadUse, Manner), Seen> = BTreeMap::new();
    let mut excerpts = Vec::new();
    for path in [&work.body, &work.tail, &work.fringe] {
        let (thread, moves) = (path.thread, &path.moves);
        for run in runs(moves) {
            let manner = moves[run.start].manner;
            let row_from = match moves[run.start].phase {
                Phase::Section(section) if work.fabric[section].kind == SectionKind::Row => {
                    Some(work.fabric[section].from)
                }
                _ => None,
            };
            let seen = seen.entry((thread, manner)).or_insert(Seen { times: 0, row_from });
            // A row from the same side looks as the first did.
            let looks_alike = seen.times > 0 && row_from.is_some() && row_from == seen.row_from;
            if seen.times >= manner.times_shown() || looks_alike {
                continue;
            }
            seen.times += 1;
            let shown = Shown { manner, thread, time: seen.times };
            let moves = if manner.is_shown_by_one_pick_up() { first_pick_up(moves, run) } else { run };
            excerpts.push(Excerpt { shown, moves });
        }
    }
    excerpts
}

/// How a manner has been shown so far.
struct Seen {
    times: usize,
    /// The side from which the first row in it was worked; none where it was no row.
    row_from: Option<Side>,
}

/// Runs of moves in one manner, each in one section.
fn runs(moves: &[Move]) -> impl Iterator<Item = Range<usize>> + '_ {
    // What is worked by itself; the way to an anchor and the anchor are one run.
    let piece = |made: &Move| match made.phase {
        Phase::Section(_) | Phase::Hanging(_) => Some(made.phase),
        Phase::Beginning(_) | Phase::Ending(_) | Phase::Travel | Phase::Tail => None,
    };
    let mut start = 0;
    moves.chunk_by(move |a, b| a.manner == b.manner && piece(a) == piece(b)).map(move |chunk| {
        let run = start..start + chunk.len();
        start = run.end;
        run
    })
}

/// A run up to its second pick-up.
fn first_pick_up(moves: &[Move], run: Range<usize>) -> Range<usize> {
    let strings = |i: &usize| matches!(moves[*i].kind, MoveKind::String { .. });
    let second = run.clone().filter(strings).nth(1);
    run.start..second.unwrap_or(run.end)
}
