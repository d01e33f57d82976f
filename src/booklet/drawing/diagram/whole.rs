//! What all diagrams of a design look at, found once: its lines of stacks and the accent.

use super::paint::accent;
use crate::colour::Colour;
use crate::design::{Design, LetterId};
use crate::stitch::{Move, MoveKind, SectionId, SectionKind, StackId, Work};

/// A design and its work, with what their diagrams have in common.
pub(super) struct Whole<'a> {
    pub(super) design: &'a Design,
    pub(super) work: &'a Work,
    /// The stacks of each line, from the lowest.
    pub(super) lines: Vec<Vec<StackId>>,
    /// For each line, the moves that string beads or lay bridges on it, in order: as each diagram looks at few lines,
    /// none goes through the whole path. Moves of the fringe are numbered on from those of the body.
    pub(super) worked: Vec<Vec<usize>>,
    /// The moves that string beads of loops and strands, in order.
    pub(super) hung: Vec<(usize, SectionId, SectionKind)>,
    /// Colour of the thread.
    pub(super) accent: Colour,
}

impl<'a> Whole<'a> {
    pub(super) fn of(design: &'a Design, work: &'a Work) -> Whole<'a> {
        let mut lines = vec![Vec::new(); work.fabric.top_line().map_or(0, |top| top + 1)];
        for (id, stack) in work.fabric.named_stacks() {
            lines[stack.line].push(id);
        }
        let mut whole = Whole {
            design,
            work,
            worked: vec![Vec::new(); lines.len()],
            lines,
            hung: Vec::new(),
            accent: accent(design),
        };
        for (at, made) in work.body.moves.iter().chain(&work.fringe.moves).enumerate() {
            whole.note(at, made);
        }
        whole
    }

    fn note(&mut self, at: usize, made: &Move) {
        let fabric = &self.work.fabric;
        let mut lines: Vec<usize> =
            made.lays.iter().map(|bridge| fabric[fabric[*bridge].stacks[0]].line).collect();
        if let MoveKind::String { through } = &made.kind {
            lines.extend(through.iter().map(|pass| fabric[pass.stack].line));
            if let Some(spot) = made.beads.first() {
                let section = fabric[*spot].section;
                match fabric[section].kind {
                    kind @ (SectionKind::Loop | SectionKind::Strand) => self.hung.push((at, section, kind)),
                    SectionKind::Row => {}
                }
            }
        }
        lines.sort_unstable();
        lines.dedup();
        for line in lines {
            self.worked[line].push(at);
        }
    }

    /// A move by its number here.
    pub(super) fn made(&self, at: usize) -> &Move {
        let (body, fringe) = (&self.work.body.moves, &self.work.fringe.moves);
        body.get(at).unwrap_or_else(|| &fringe[at - body.len()])
    }

    /// The topmost line, on which the earring hangs.
    pub(super) fn top_line(&self) -> Option<usize> {
        self.lines.len().checked_sub(1)
    }

    /// The middle of a stack, in millimetres of the earring.
    pub(super) fn middle(&self, stack: StackId) -> f64 {
        self.work.fabric[stack].upper.x.0
    }

    /// Letters of a stack from top to bottom.
    pub(super) fn letters(&self, stack: StackId) -> Vec<LetterId> {
        let fabric = &self.work.fabric;
        fabric[stack].beads.iter().map(|spot| fabric[*spot].letter).collect()
    }
}
