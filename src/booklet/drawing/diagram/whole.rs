//! What all diagrams of a design look at, found once: its lines of stacks and the accent.

use super::paint::accent;
use crate::colour::Colour;
use crate::design::{Design, LetterId};
use crate::stitch::{Bridge, Move, MoveKind, SectionId, SectionKind, StackId, Work};

/// A design and its work, with what their diagrams have in common.
pub(super) struct Whole<'a> {
    pub(super) design: &'a Design,
    pub(super) work: &'a Work,
    /// The stacks of each line, from the lowest.
    pub(super) lines: Vec<Vec<StackId>>,
    /// The stacks that are strung in each line and the bridges that are laid there, with the number of the move: as each
    /// diagram looks at few lines, none goes through the whole path. Moves of the fringe are numbered on from those of the
    /// body, and all stand in order.
    pub(super) strung: Vec<Vec<(usize, StackId)>>,
    pub(super) laid: Vec<Vec<(usize, Bridge)>>,
    /// The loops and the strands that moves string, likewise.
    pub(super) loops: Vec<(usize, SectionId)>,
    pub(super) strands: Vec<(usize, SectionId)>,
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
            strung: vec![Vec::new(); lines.len()],
            laid: vec![Vec::new(); lines.len()],
            lines,
            loops: Vec::new(),
            strands: Vec::new(),
            accent: accent(design),
        };
        for (at, made) in work.body.moves.iter().chain(&work.fringe.moves).enumerate() {
            whole.note(at, made);
        }
        whole
    }

    fn note(&mut self, at: usize, made: &Move) {
        let fabric = &self.work.fabric;
        if let MoveKind::String { through } = &made.kind {
            for pass in through {
                self.strung[fabric[pass.stack].line].push((at, pass.stack));
            }
            let section = made.beads.first().map(|spot| fabric[*spot].section);
            match section.map(|section| (section, fabric[section].kind)) {
                Some((ring, SectionKind::Loop)) => self.loops.push((at, ring)),
                Some((strand, SectionKind::Strand)) => self.strands.push((at, strand)),
                Some((_, SectionKind::Row)) | None => {}
            }
        }
        for bridge in made.lays.iter().map(|bridge| fabric[*bridge]) {
            self.laid[fabric[bridge.stacks[0]].line].push((at, bridge));
        }
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
