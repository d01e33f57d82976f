//! Which step tells what lies where on the chart, and where the chart shows what a step tells.

use super::names::StepName;
use super::{Planned, telling_step};
use crate::booklet::book::Book;
use crate::booklet::{Place, Placed};
use crate::stitch::{Anchor, Phase, ThreadUse};
use std::collections::BTreeMap;

/// The steps of a booklet as they are planned, and which of them tells each phase of the work.
pub(in crate::booklet) struct StepPlan {
    pub(super) steps: Vec<Planned>,
    /// The index of the step that tells the first move of each phase.
    told: BTreeMap<Phase, usize>,
}

impl StepPlan {
    pub(super) fn of(book: &Book, steps: Vec<Planned>) -> StepPlan {
        let mut told = BTreeMap::new();
        let work = book.work;
        let paths =
            [(ThreadUse::Body, &work.body), (ThreadUse::Fringe, &work.fringe), (ThreadUse::Body, &work.tail)];
        for (thread, path) in paths {
            for phase in path.moves.chunk_by(|a, b| a.phase == b.phase) {
                if let Some(step) = phase.first().and_then(|made| telling_step(&steps, thread, made)) {
                    told.entry(phase[0].phase).or_insert(step);
                }
            }
        }
        // The starting tail is put away where nothing begins any more.
        let tail =
            |anchor: &Anchor| anchor.begins && anchor.thread == ThreadUse::Body && anchor.join.is_none();
        if let Some(step) = told.get(&Phase::Tail).copied() {
            for (index, _) in book.work.anchors.iter().enumerate().filter(|(_, anchor)| tail(anchor)) {
                told.entry(Phase::Beginning(index)).or_insert(step);
            }
        }
        StepPlan { steps, told }
    }

    /// The number of the step that tells how a phase begins.
    pub(in crate::booklet) fn step_of(&self, phase: Phase) -> Option<usize> {
        self.told.get(&phase).map(|step| step + 1)
    }

    /// The numbers of the steps that tell the places to anchor, by their index.
    pub(in crate::booklet) fn steps_of_marks(&self) -> BTreeMap<usize, usize> {
        let mark = |(phase, step): (&Phase, &usize)| match phase {
            Phase::Beginning(anchor) | Phase::Ending(anchor) => Some((*anchor, step + 1)),
            _ => None,
        };
        self.told.iter().filter_map(mark).collect()
    }

    /// Where the chart shows what a step tells, by the step's index, and what it says there.
    pub(in crate::booklet) fn on_chart(&self, book: &Book, step: usize) -> Option<(Place, String)> {
        let what = match self.steps.get(step)?.name {
            StepName::Ladder(_) => Placed::ChartRow(1),
            StepName::Rows { from, .. } => Placed::ChartRow(from),
            StepName::Strands { from, .. } => Placed::ChartStrand(from),
            StepName::Join { strand: true, number } => Placed::ChartStrand(number),
            StepName::Join { strand: false, number } => Placed::ChartRow(number),
            StepName::Word(_) => {
                let told = self.told.iter().filter(|(_, told)| **told == step);
                told.filter_map(|(phase, _)| shown(book, *phase)).next().unwrap_or(Placed::ChartRow(1))
            }
        };
        let said = match what {
            Placed::ChartMark(anchor) => book.anchor_mark(anchor),
            Placed::ChartRow(n) | Placed::ChartStrand(n) | Placed::Row(n) | Placed::Strand(n) => {
                n.to_string()
            }
            Placed::Step(n) => n.to_string(),
        };
        Some((book.place(what), said))
    }
}

/// Where the chart shows a phase that is about no row or strand.
fn shown(book: &Book, phase: Phase) -> Option<Placed> {
    match phase {
        Phase::Beginning(anchor) | Phase::Ending(anchor) => Some(Placed::ChartMark(anchor)),
        Phase::Hanging(index) => {
            let [stack, _] = book.work.hangings.get(index)?.stacks;
            Some(Placed::ChartRow(book.work.fabric.row_number(stack)))
        }
        Phase::Section(_) | Phase::Travel | Phase::Tail => None,
    }
}
