//! The thread plan: where lengths join, and what to cut of each, from the paths.

use super::{Cut, Move, Phase, SectionId, ThreadPath, ThreadUse, join::Joins, practice};
use crate::design::Allowances;
use crate::units::Mm;

/// A piece of work that is done with one length: a row or a strand, with what is hung before the next.
struct Piece {
    starts: SectionId,
    path: Mm,
}

/// What one thread's path asks for.
pub(super) struct Demand {
    thread: ThreadUse,
    pieces: Vec<Piece>,
    /// Thread in the anchor at its beginning.
    begins: Mm,
    /// Thread in the anchor at its end.
    ends: Mm,
}

/// What body and fringe ask for, followed in one length each; the starting tail of the body has a path of its own.
pub(super) fn demands(body: &ThreadPath, tail: &ThreadPath, fringe: &ThreadPath) -> [Demand; 2] {
    let mut body = demand(body);
    body.begins = tail.moves.iter().map(Move::length).sum();
    [body, demand(fringe)]
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
            (Phase::Travel, _) | (Phase::Hanging(_), None) => travel += length,
            (Phase::Hanging(_), Some(last)) => last.path += length,
            (Phase::Section(section), Some(last)) if last.starts == section => last.path += length,
            (Phase::Section(starts), _) => {
                demand.pieces.push(Piece { starts, path: length + travel });
                travel = Mm::ZERO;
            }
        }
    }
    demand
}

/// Before which rows or strands a new length is joined, with so much more allowed for the anchors at each join than
/// the known ones take: none where the thread is no longer than an arm span; else as few as possible, and the lengths
/// as equal as rows or strands allow, so that none is a mere remnant.
pub(super) fn joins(demand: &Demand, allowances: &Allowances, anchored: Mm) -> Vec<(ThreadUse, SectionId)> {
    let plan = Plan { demand, allowances, anchored };
    let fewest = plan.fill(allowances.arm_span);
    let (mut low, mut high) = (0, (allowances.arm_span / practice::CUT_STEP).floor().max(0.0) as usize);
    let mut best = fewest;
    while low < high {
        let half = (low + high) / 2;
        let lengths = plan.fill(practice::CUT_STEP * half as f64);
        if lengths.len() <= best.len() {
            high = half;
            best = lengths;
        } else {
            low = half + 1;
        }
    }
    best.into_iter().skip(1).map(|first| (demand.thread, demand.pieces[first].starts)).collect()
}

/// Whether a length takes in more than one row or strand, so that it could be joined earlier.
pub(super) fn is_splittable(demands: &[Demand], joins: &Joins, cut: &Cut) -> bool {
    let Some(demand) = demands.iter().find(|demand| demand.thread == cut.thread) else { return false };
    let Phase::Section(begins) = cut.joins_at else { return false };
    let after = demand.pieces.iter().skip_while(|piece| piece.starts != begins).nth(1);
    after.is_some_and(|next| !joins.contains(&(cut.thread, next.starts)))
}

/// What lengths are planned by.
struct Plan<'a> {
    demand: &'a Demand,
    allowances: &'a Allowances,
    /// More than the known anchors, for each anchor at a join.
    anchored: Mm,
}

impl Plan<'_> {
    /// Lengths filled with rows or strands one after another up to a limit: the first piece of each. A row or strand
    /// that is longer by itself gets a length of its own.
    fn fill(&self, limit: Mm) -> Vec<usize> {
        let pieces = &self.demand.pieces;
        let mut lengths = Vec::new();
        let mut first = 0;
        while first < pieces.len() {
            let mut path = pieces[first].path;
            let mut after = first + 1;
            while let Some(piece) = pieces.get(after) {
                if self.cut(first, after + 1, path + piece.path) > limit {
                    break;
                }
                path += piece.path;
                after += 1;
            }
            lengths.push(first);
            first = after;
        }
        lengths
    }

    /// What to cut for the pieces from `first` up to `after`.
    fn cut(&self, first: usize, after: usize, path: Mm) -> Mm {
        let Demand { begins, ends, pieces, .. } = self.demand;
        let joined = begins.max(*ends) + self.anchored;
        let begins = if first == 0 { *begins } else { joined };
        let ends = if after == pieces.len() { *ends } else { joined };
        to_cut(path, begins + ends, self.allowances)
    }
}

/// What to cut for so much path and anchors.
fn to_cut(path: Mm, anchors: Mm, allowances: &Allowances) -> Mm {
    rounded_up(path + anchors + allowances.tail * 2.0 + path * allowances.handling)
}

/// The lengths to cut for the body, whose starting tail has a path of its own, and the fringe.
pub(super) fn cuts(
    body: &ThreadPath,
    tail: &ThreadPath,
    fringe: &ThreadPath,
    allowances: &Allowances,
) -> Vec<Cut> {
    let tail: Mm = tail.moves.iter().map(Move::length).sum();
    let lengths = |path: &ThreadPath, begins: Mm| -> Vec<Cut> {
        let length = |(index, moves): (usize, &[Move])| {
            length(path.thread, index + 1, moves, if index == 0 { begins } else { Mm::ZERO }, allowances)
        };
        path.lengths().enumerate().map(length).collect()
    };
    [lengths(body, tail), lengths(fringe, Mm::ZERO)].concat()
}

/// One length to cut, from its moves and what is anchored beside them.
fn length(thread: ThreadUse, number: usize, moves: &[Move], beside: Mm, allowances: &Allowances) -> Cut {
    let anchored = |made: &Move| match made.phase {
        Phase::Beginning(_) | Phase::Ending(_) | Phase::Tail => true,
        Phase::Section(_) | Phase::Hanging(_) | Phase::Travel => false,
    };
    let sum =
        |which: bool| -> Mm { moves.iter().filter(|made| anchored(made) == which).map(Move::length).sum() };
    let works = |made: &&Move| matches!(made.phase, Phase::Section(_) | Phase::Hanging(_));
    let (path, anchors) = (sum(false), beside + sum(true));
    Cut {
        thread,
        number,
        joins_at: moves.iter().find(works).map_or(Phase::Travel, |made| made.phase),
        path,
        tails: allowances.tail * 2.0,
        anchors,
        handling: path * allowances.handling,
        cut: to_cut(path, anchors, allowances),
    }
}

/// Rounded up to the step in which thread is measured.
fn rounded_up(length: Mm) -> Mm {
    // A hair above a step is an error of summing, not thread.
    practice::CUT_STEP * (length / practice::CUT_STEP - 1e-9).ceil()
}
