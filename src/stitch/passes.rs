//! How often each thread passes through each bead.

use super::{MoveKind, Phase, Spot, ThreadPath, ThreadUse, Way, Work};
use std::collections::BTreeMap;

/// Passes through every bead of the finished earring: by the body thread, by the fringe thread.
#[must_use]
pub fn passes(work: &Work) -> BTreeMap<Spot, [usize; 2]> {
    passes_while(work, |_| true)
}

/// Passes through every bead by the moves of some phases only.
pub fn passes_while(work: &Work, counted: impl Fn(Phase) -> bool) -> BTreeMap<Spot, [usize; 2]> {
    let mut passes: BTreeMap<Spot, [usize; 2]> =
        work.geometry.beads.iter().map(|lying| (lying.spot, [0, 0])).collect();
    for path in [&work.body, &work.tail, &work.fringe] {
        for spot in spots_passed(work, path, &counted) {
            let counts = passes.entry(spot).or_default();
            match path.thread {
                ThreadUse::Body => counts[0] += 1,
                ThreadUse::Fringe => counts[1] += 1,
            }
        }
    }
    passes
}

/// Every bead that a path passes through, pass by pass.
fn spots_passed<'a>(
    work: &'a Work,
    path: &'a ThreadPath,
    counted: &'a impl Fn(Phase) -> bool,
) -> impl Iterator<Item = Spot> + 'a {
    path.moves.iter().filter(|made| counted(made.phase)).flat_map(|made| work.beads_of(&made.kind))
}

impl Work {
    /// The beads that a move passes through, in the order passed.
    #[must_use]
    pub fn beads_of(&self, kind: &MoveKind) -> Vec<Spot> {
        match kind {
            MoveKind::String { beads } => beads.clone(),
            MoveKind::Pass { stack, way } => {
                let bead = |level| Spot::Body { row: stack.row, stack: stack.stack, level };
                match way {
                    Way::Down => (0..self.drop).map(bead).collect(),
                    Way::Up => (0..self.drop).rev().map(bead).collect(),
                }
            }
            MoveKind::ThroughLoop { .. } => {
                (0..self.loop_beads.len()).map(|bead| Spot::Loop { bead }).collect()
            }
            MoveKind::ReturnUp { strand } => {
                let work = &self.strands[*strand];
                let turn: usize = work.turn.iter().map(|run| run.count).sum();
                let bead = |bead| Spot::Strand { strand: *strand, bead };
                (0..work.beads - turn).rev().map(bead).collect()
            }
            MoveKind::LeaveTail { .. }
            | MoveKind::UnderBridge { .. }
            | MoveKind::ThroughGuard { .. }
            | MoveKind::Wrap { .. }
            | MoveKind::CutTail { .. } => Vec::new(),
        }
    }
}
