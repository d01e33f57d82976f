//! The thread plan: what to cut, from the paths.

use super::{Cut, Move, Phase, ThreadPath, ThreadUse, practice};
use crate::design::Allowances;
use crate::units::Mm;

/// A piece of work that is done with one length: a row or a strand.
struct Piece {
    starts: Phase,
    path: Mm,
}

/// What one thread's path asks for.
struct Demand {
    thread: ThreadUse,
    pieces: Vec<Piece>,
    /// Thread in the anchor at its beginning.
    begins: Mm,
    /// Thread in the anchor at its end.
    ends: Mm,
}

/// The lengths to cut for the body, whose starting tail has a path of its own, and the fringe.
pub(super) fn cuts(
    body: &ThreadPath,
    tail: &ThreadPath,
    fringe: &ThreadPath,
    allowances: &Allowances,
) -> Vec<Cut> {
    let mut body = demand(body);
    body.begins = tail.moves.iter().map(Move::length).sum();
    [body, demand(fringe)].iter().flat_map(|demand| split(demand, allowances)).collect()
}

/// Sums a path by what is worked. The hanging belongs to the last row, travel to what it leads to.
fn demand(path: &ThreadPath) -> Demand {
    let mut demand = Demand { thread: path.thread, pieces: Vec::new(), begins: Mm::ZERO, ends: Mm::ZERO };
    let mut travel = Mm::ZERO;
    for made in &path.moves {
        let length = made.length();
        match (made.phase, demand.pieces.last_mut()) {
            (Phase::Beginning(_) | Phase::Tail, _) => demand.begins += length,
            (Phase::Ending(_), _) => demand.ends += length,
            (Phase::Travel, _) => travel += length,
            (Phase::Hanging(_), Some(last)) => last.path += length,
            (phase, Some(last)) if last.starts == phase => last.path += length,
            (phase, _) => {
                demand.pieces.push(Piece { starts: phase, path: length + travel });
                travel = Mm::ZERO;
            }
        }
    }
    demand
}

/// One length where it is no longer than an arm span; else as many as needed, as equal as rows or
/// strands allow, so that none is a mere remnant.
fn split(demand: &Demand, allowances: &Allowances) -> Vec<Cut> {
    let fewest = fill(demand, allowances, allowances.arm_span);
    let (mut low, mut high) = (0, (allowances.arm_span / practice::CUT_STEP).floor().max(0.0) as usize);
    let mut best = fewest;
    while low < high {
        let half = (low + high) / 2;
        let cuts = fill(demand, allowances, practice::CUT_STEP * half as f64);
        if cuts.len() <= best.len() {
            high = half;
            best = cuts;
        } else {
            low = half + 1;
        }
    }
    best
}

/// Lengths filled with rows or strands one after another up to a limit. A row or strand that is
/// longer by itself gets a length of its own.
fn fill(demand: &Demand, allowances: &Allowances, limit: Mm) -> Vec<Cut> {
    let mut cuts: Vec<Cut> = Vec::new();
    let mut first = 0;
    while first < demand.pieces.len() {
        let mut path = demand.pieces[first].path;
        let mut after = first + 1;
        while let Some(piece) = demand.pieces.get(after) {
            if cut(demand, allowances, first, after + 1, path + piece.path, cuts.len()).cut > limit {
                break;
            }
            path += piece.path;
            after += 1;
        }
        cuts.push(cut(demand, allowances, first, after, path, cuts.len()));
        first = after;
    }
    cuts
}

/// The length for the pieces from `first` up to `after`.
fn cut(demand: &Demand, allowances: &Allowances, first: usize, after: usize, path: Mm, before: usize) -> Cut {
    // Where lengths join, the places are the maker's choice: as much as the larger known anchor.
    let joined = demand.begins.max(demand.ends);
    let begins = if first == 0 { demand.begins } else { joined };
    let ends = if after == demand.pieces.len() { demand.ends } else { joined };
    let tails = allowances.tail * 2.0;
    let anchors = begins + ends;
    let handling = path * allowances.handling;
    Cut {
        thread: demand.thread,
        number: before + 1,
        joins_at: demand.pieces[first].starts,
        path,
        tails,
        anchors,
        handling,
        cut: rounded_up(path + tails + anchors + handling),
    }
}

/// Rounded up to the step in which thread is measured.
fn rounded_up(length: Mm) -> Mm {
    // A hair above a step is an error of summing, not thread.
    practice::CUT_STEP * (length / practice::CUT_STEP - 1e-9).ceil()
}
