//! Which moves of an excerpt are drawn one by one: of long travel an outline shows the way, and repeated rounds are
//! left to the words.

use crate::stitch::{Excerpt, Fabric, Manner, Move, MoveKind, Way, Work};
use std::ops::Range;

/// Most moves that are drawn in one diagram where they lie in different rows.
const MANY: usize = 7;

/// Passes that are drawn of a way that leads to where a row starts.
const LED_BY: usize = 2;
/// Passes that are drawn where a thread that begins arrives.
const LAST: usize = 3;

/// Fewest passes of a way that are worth an outline of its own.
const WORTH: usize = 2;

/// A part of an excerpt that has a figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Part {
    /// Indices of its moves in the path.
    pub(super) moves: Range<usize>,
    /// Whether it is a way that an outline shows, and not drawn move by move.
    pub(super) is_way: bool,
    /// How many moves the figures before it in the same step have numbered.
    pub(super) numbered: usize,
}

impl Part {
    fn drawn(moves: Range<usize>) -> Part {
        Part { moves, is_way: false, numbered: 0 }
    }

    fn way(moves: Range<usize>) -> Part {
        Part { is_way: true, ..Part::drawn(moves) }
    }
}

/// The parts of every excerpt of a path. The numbers of moves run on through the figures of a step: through the parts of
/// an excerpt, and from the end of one length of thread to the beginning of the next, which are joined in one step.
pub(super) fn numbered_parts(work: &Work, excerpts: &[Excerpt]) -> Vec<Vec<Part>> {
    let mut numbered = 0;
    let of = |excerpt: &Excerpt| {
        if excerpt.shown.manner != Manner::JoinBegin {
            numbered = 0;
        }
        let mut parts = parts(work, excerpt);
        for part in &mut parts {
            part.numbered = numbered;
            numbered += if part.is_way { 0 } else { part.moves.len() };
        }
        parts
    };
    excerpts.iter().map(of).collect()
}

/// The parts of an excerpt in order, without a gap between them. What comes after the last is the same again. Of a join
/// like one before, that part alone which shows its place: the ways there and back are told in words.
pub(super) fn parts(work: &Work, excerpt: &Excerpt) -> Vec<Part> {
    let all = excerpt.moves.clone();
    let path = &work.path_of(excerpt).moves;
    let drawn = |moves| vec![Part::drawn(moves)];
    let Some(moves) = path.get(all.clone()) else { return drawn(all) };
    let position = |wanted: fn(&Move) -> bool| moves.iter().position(wanted).map(|i| all.start + i);
    let wraps = |m: &Move| matches!(m.kind, MoveKind::Wrap { .. });
    // A long way there, and the moves from the last passes that lead on.
    let led = |to: Option<usize>, by: usize, end: usize| {
        let from = to.map_or(all.start, |to| to.saturating_sub(by).max(all.start));
        let way = all.start..from;
        let short = end - all.start <= MANY || way.len() < WORTH;
        if short { drawn(all.start..end) } else { after_way(way, from..end) }
    };
    let is_join = matches!(excerpt.shown.manner, Manner::JoinEnd | Manner::JoinBegin);
    let is_like_another = is_join && excerpt.shown.time > 1;
    match excerpt.shown.manner {
        Manner::Hanging => {
            let end = second_round(moves).map_or(all.end, |i| all.start + i);
            led(position(Move::is_through_hanging), LED_BY, end)
        }
        Manner::End | Manner::JoinEnd | Manner::Tail => {
            let mut parts = led(position(wraps), 1, all.end);
            parts.retain(|part| !is_like_another || !part.is_way);
            parts
        }
        Manner::Begin | Manner::JoinBegin if moves.len() > MANY => {
            let wrapped = moves.iter().rposition(wraps).map_or(0, |i| i + 1);
            let split = (all.start + comes_out(&work.fabric, moves, wrapped)).min(all.end);
            if is_like_another {
                return drawn(all.start..split);
            }
            let last = all.end.saturating_sub(LAST).max(split);
            let mut parts = drawn(all.start..split);
            if split < last {
                parts.push(Part::way(split..last));
            }
            parts.extend(drawn(last..all.end));
            parts
        }
        Manner::WalkIn | Manner::Turned => {
            let strings = |m: &Move| matches!(m.kind, MoveKind::String { .. });
            led(position(strings), LED_BY, all.end)
        }
        Manner::Begin
        | Manner::JoinBegin
        | Manner::Ladder
        | Manner::LadderOn
        | Manner::Narrower
        | Manner::Wider
        | Manner::WiderEnd
        | Manner::BuiltOut
        | Manner::BuiltOutEnd
        | Manner::Alone
        | Manner::Onward
        | Manner::OnwardBelow
        | Manner::Strand => drawn(all),
    }
}

fn after_way(way: Range<usize>, drawn: Range<usize>) -> Vec<Part> {
    vec![Part::way(way), Part::drawn(drawn)]
}

/// How many moves are shown so that the thread, after its wraps, comes out above or below every row
/// shown: its needle is then clear of beads.
fn comes_out(fabric: &Fabric, moves: &[Move], wrapped: usize) -> usize {
    let line = |m: &Move| match m.kind {
        MoveKind::Pass(pass) => Some((fabric[pass.stack].line, pass.way)),
        _ => None,
    };
    (wrapped + 1..=wrapped + 3)
        .find(|count| {
            let lines = || moves.iter().take(*count).filter_map(line).map(|(line, _)| line);
            match count.checked_sub(1).and_then(|last| moves.get(last)).and_then(line) {
                Some((line, Way::Up)) => lines().max() == Some(line),
                Some((line, Way::Down)) => lines().min() == Some(line),
                None => false,
            }
        })
        .unwrap_or(wrapped + 1)
}

/// Where the thread goes through the guard or the loop for the second time.
fn second_round(moves: &[Move]) -> Option<usize> {
    moves.iter().enumerate().filter(|(_, m)| m.is_through_hanging()).nth(1).map(|(i, _)| i)
}
