//! Rows and strands in words: read off the pick-ups of the path, never off the picture.

use super::needs::{Needs, turn_of};
use super::{BeadRun, Fabric, Move, MoveKind, Phase, RowWork, SectionKind, Spot, StackRun, StrandWork};
use crate::design::LetterId;

/// Rows as picked up along the body's path.
pub(super) fn rows(moves: &[Move], fabric: &Fabric) -> Vec<RowWork> {
    let mut rows: Vec<RowWork> = Vec::new();
    for made in moves {
        let (Phase::Section(section), MoveKind::String { .. }) = (made.phase, &made.kind) else {
            continue;
        };
        let letters = letters(fabric, &made.beads);
        match rows.last_mut().filter(|last| last.section == section) {
            Some(work) => {
                work.pick_ups.extend(&made.beads);
                match work.then.last_mut().filter(|run| run.beads == letters) {
                    Some(run) => run.count += 1,
                    None => work.then.push(StackRun { count: 1, beads: letters }),
                }
            }
            None => rows.push(RowWork {
                section,
                number: fabric[section].number,
                from: fabric[section].from,
                starts_with: letters,
                then: Vec::new(),
                pick_ups: made.beads.clone(),
            }),
        }
    }
    rows
}

/// Strands from left to right.
pub(super) fn strands(fabric: &Fabric, needs: &Needs) -> Vec<StrandWork> {
    let strand = |(section, strand): (_, &super::Section)| {
        let written = &needs.strands[strand.source];
        let letters = letters(fabric, &strand.beads);
        let (core, turn) = letters.split_at(letters.len() - turn_of(written));
        StrandWork {
            section,
            number: strand.number,
            runs: runs(core),
            turn: runs(turn),
            beads: letters.len(),
            length: needs.strand_length(written),
        }
    };
    fabric.of_kind(SectionKind::Strand).map(strand).collect()
}

/// Beads as runs of equal ones.
fn runs(letters: &[LetterId]) -> Vec<BeadRun> {
    letters.chunk_by(|a, b| a == b).map(|equal| BeadRun { count: equal.len(), letter: equal[0] }).collect()
}

fn letters(fabric: &Fabric, beads: &[Spot]) -> Vec<LetterId> {
    beads.iter().map(|spot| fabric[*spot].letter).collect()
}
