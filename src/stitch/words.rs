//! Rows and strands in words: read off the pick-ups of the path, never off the picture.

use super::needs::{Needs, turn_of};
use super::rows::starts_from;
use super::{BeadRun, Move, MoveKind, Phase, RowWork, Spot, StackRun, StrandWork};
use crate::design::{LetterId, Side};

/// Rows as picked up along the body's path.
pub(super) fn rows(moves: &[Move], needs: &Needs) -> Vec<RowWork> {
    let mut rows: Vec<RowWork> = Vec::new();
    for made in moves {
        let (Phase::Row(row), MoveKind::String { beads }) = (made.phase, &made.kind) else {
            continue;
        };
        let letters: Vec<LetterId> = beads.iter().filter_map(|&s| letter(s, needs)).collect();
        match rows.last_mut().filter(|last| last.row == row) {
            Some(work) => {
                work.pick_ups.extend(beads);
                match work.then.last_mut().filter(|run| run.beads == letters) {
                    Some(run) => run.count += 1,
                    None => work.then.push(StackRun { count: 1, beads: letters }),
                }
            }
            None => rows.push(RowWork {
                row,
                from: starts_from(row, needs.start),
                starts_with: letters,
                then: Vec::new(),
                pick_ups: beads.clone(),
            }),
        }
    }
    rows
}

/// Strands as picked up along the fringe's path, from left to right.
pub(super) fn strands(moves: &[Move], needs: &Needs) -> Vec<StrandWork> {
    let mut strands: Vec<StrandWork> = Vec::new();
    for made in moves {
        let (Phase::Strand(number), MoveKind::String { beads }) = (made.phase, &made.kind) else {
            continue;
        };
        let strand = &needs.strands[number];
        let letters: Vec<LetterId> = beads.iter().filter_map(|&s| letter(s, needs)).collect();
        let (core, turn) = letters.split_at(letters.len() - turn_of(strand));
        strands.push(StrandWork {
            strand: number,
            order: strands.len() + 1,
            runs: runs(core),
            turn: runs(turn),
            beads: letters.len(),
            length: needs.strand_length(strand),
        });
    }
    if needs.start == Side::Right {
        strands.reverse();
    }
    strands
}

/// Beads as runs of equal ones.
fn runs(letters: &[LetterId]) -> Vec<BeadRun> {
    letters.chunk_by(|a, b| a == b).map(|equal| BeadRun { count: equal.len(), letter: equal[0] }).collect()
}

/// The letter that lies at a spot.
fn letter(spot: Spot, needs: &Needs) -> Option<LetterId> {
    match spot {
        Spot::Body { row, stack, level } => needs.stacks(row).get(stack)?.0.get(level).copied(),
        Spot::Loop { bead } => needs.loop_beads().get(bead).copied(),
        Spot::Strand { strand, bead } => needs.strands.get(strand)?.beads.get(bead).copied(),
    }
}
