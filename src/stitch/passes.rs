//! How often each thread passes through each bead.

use super::{Move, Phase, Spot, ThreadUse, Work};
use std::collections::BTreeMap;

/// Passes through every bead of the finished earring: by the body thread, by the fringe thread.
#[must_use]
pub fn passes(work: &Work) -> BTreeMap<Spot, [usize; 2]> {
    passes_while(work, |_| true)
}

/// Passes through every bead by the moves of some phases only.
pub fn passes_while(work: &Work, counted: impl Fn(Phase) -> bool) -> BTreeMap<Spot, [usize; 2]> {
    let mut passes: BTreeMap<Spot, [usize; 2]> =
        work.fabric.beads.iter().map(|lying| (lying.spot, [0, 0])).collect();
    for path in [&work.body, &work.tail, &work.fringe] {
        let counted = |made: &&Move| counted(made.phase);
        for spot in path.moves.iter().filter(counted).flat_map(|made| &made.beads) {
            let counts = passes.entry(*spot).or_default();
            match path.thread {
                ThreadUse::Body => counts[0] += 1,
                ThreadUse::Fringe => counts[1] += 1,
            }
        }
    }
    passes
}
