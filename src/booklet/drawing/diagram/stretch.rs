//! Which moves of an excerpt are drawn: long travel and repeated rounds are left to the words.

use crate::stitch::{Excerpt, Fabric, Manner, Move, MoveKind, Way, Work};
use std::ops::Range;

/// Most moves that are drawn in one diagram where they lie in different rows.
const MANY: usize = 7;

/// Passes that are drawn of a way that leads to where a row starts.
const LED_BY: usize = 2;

/// The stretch of an excerpt that is drawn, and the one of a second diagram.
pub(super) fn stretches(work: &Work, excerpt: &Excerpt) -> (Range<usize>, Option<Range<usize>>) {
    let all = excerpt.moves.clone();
    let path = &work.path(excerpt.shown.thread).moves;
    let Some(moves) = path.get(all.clone()) else { return (all, None) };
    let position = |wanted: fn(&Move) -> bool| moves.iter().position(wanted).map(|i| all.start + i);
    let wraps = |m: &Move| matches!(m.kind, MoveKind::Wrap { .. });
    match excerpt.shown.manner {
        Manner::Hanging => {
            let end = second_round(moves).map_or(all.end, |i| all.start + i);
            // Of a long way there the last passes.
            let from = match position(carried) {
                Some(first) if first > all.start + MANY => first - LED_BY,
                _ => all.start,
            };
            (from..end, None)
        }
        Manner::End | Manner::Tail => {
            // From the pass that leads to the wraps.
            let from = position(wraps).map_or(all.start, |i| i.saturating_sub(1).max(all.start));
            (from..all.end, None)
        }
        Manner::Begin if moves.len() > MANY => {
            let wrapped = moves.iter().rposition(wraps).map_or(0, |i| i + 1);
            let arrived = match path.get(all.end).map(|m| &m.kind) {
                Some(MoveKind::Pass(_)) => all.end + 1,
                _ => all.end,
            };
            let split = (all.start + comes_out(&work.fabric, moves, wrapped)).min(all.end);
            (all.start..split, Some(split.max(arrived.saturating_sub(3))..arrived))
        }
        // From the last passes that lead there.
        Manner::WalkIn | Manner::Turned => {
            let strings = |m: &Move| matches!(m.kind, MoveKind::String { .. });
            let from = position(strings).map_or(all.start, |i| i.saturating_sub(LED_BY).max(all.start));
            (from..all.end, None)
        }
        Manner::Begin
        | Manner::Ladder
        | Manner::LadderOn
        | Manner::Narrower
        | Manner::Wider
        | Manner::WiderEnd
        | Manner::BuiltOut
        | Manner::Alone
        | Manner::Onward
        | Manner::Strand => (all, None),
    }
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
    moves.iter().enumerate().filter(|(_, m)| carried(m)).nth(1).map(|(i, _)| i)
}

/// Whether the thread goes through the guard or the loop.
fn carried(made: &Move) -> bool {
    match &made.kind {
        MoveKind::ThroughGuard { .. } | MoveKind::ThroughLoop { .. } | MoveKind::String { .. } => true,
        MoveKind::LeaveTail { .. }
        | MoveKind::Pass(_)
        | MoveKind::UnderBridge { .. }
        | MoveKind::ReturnUp { .. }
        | MoveKind::Wrap { .. }
        | MoveKind::CutTail { .. } => false,
    }
}
