//! What a step notes: close fits.

use super::Steps;
use crate::booklet::Word;
use crate::booklet::sections::fits;
use crate::booklet::sections::parts::callout;
use crate::booklet::words::number_ranges;
use crate::booklet::{Block, CalloutKind};
use crate::stitch::{Manner, Phase, RowWork, SectionId, SectionKind, Shown, Spot, ThreadUse};
use crate::tally::FitGrade;
use minijinja::context;
use std::collections::{BTreeMap, BTreeSet};

/// The pass through a bead that no other comes after.
#[derive(Clone, Copy)]
struct LastPass {
    thread: ThreadUse,
    manner: Manner,
    /// The strand that is worked by it.
    strand: Option<usize>,
}

impl Steps<'_, '_> {
    /// Warnings of these rows.
    pub(super) fn warnings(&self, rows: &[RowWork]) -> Vec<Block> {
        self.warnings_where(|section| rows.iter().any(|row| row.section == section))
    }

    /// Warnings of a close fit in a kind of section.
    pub(super) fn warnings_of(&self, kind: SectionKind) -> Vec<Block> {
        self.warnings_where(|section| self.book.work.fabric[section].kind == kind)
    }

    /// What a step says of nearly full beads that it goes through for the last time: at the ends of threads, and of all
    /// strands after the first.
    pub(super) fn last_close_pass(&self, shown: Shown) -> Option<Block> {
        let of_strands = shown == Shown::fringe(Manner::Strand).again();
        if !of_strands && !matches!(shown.manner, Manner::Begin | Manner::End | Manner::Tail) {
            return None;
        }
        let work = self.book.work;
        let last = self.last_passes();
        let here = last.iter().filter(|(_, made)| {
            (made.thread, made.manner) == (shown.thread, shown.manner)
                && (!of_strands || made.strand.is_some())
        });
        let mut stacks = BTreeSet::new();
        let mut strands = BTreeSet::new();
        for (spot, made) in here {
            stacks.extend(work.fabric[*spot].stack);
            strands.extend(made.strand);
        }
        if stacks.is_empty() {
            return None;
        }
        let side = self.book.side_counted();
        let mut rows: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
        for id in stacks {
            rows.entry(work.fabric.row_number(id)).or_default().insert(work.fabric[id].place + 1);
        }
        let told = rows.iter().map(|(row, stacks)| {
            let (list, many) = (number_ranges(stacks), stacks.len());
            let values = context! { row, list, stacks => many, side => side.as_str() };
            self.book.words.say(Word::StepsStacksPlace, values)
        });
        let place = self.book.words.list(&told.collect::<Vec<_>>());
        if !of_strands {
            strands.clear();
        }
        let (list, many) = (number_ranges(&strands), strands.len());
        let values = context! { where => place, strands => many, list };
        Some(callout(CalloutKind::Caution, &self.book.words.say(Word::StepsTightLast, values)))
    }

    /// By what each nearly full bead is gone through last.
    fn last_passes(&self) -> BTreeMap<Spot, LastPass> {
        let work = self.book.work;
        let close = self.book.tally.fit.iter().filter(|fit| fit.grade != FitGrade::Fits);
        let close: BTreeSet<Spot> = close.flat_map(|fit| fit.spots.iter().copied()).collect();
        let mut last = BTreeMap::new();
        if close.is_empty() {
            return last;
        }
        let paths =
            [(ThreadUse::Body, &work.body), (ThreadUse::Body, &work.tail), (ThreadUse::Fringe, &work.fringe)];
        for (thread, path) in paths {
            for made in &path.moves {
                let strand = match made.phase {
                    Phase::Section(id) => work.strands.iter().find(|strand| strand.section == id),
                    _ => None,
                };
                let pass =
                    LastPass { thread, manner: made.manner, strand: strand.map(|strand| strand.number) };
                let through = made.beads.iter().filter(|spot| close.contains(spot));
                last.extend(through.map(|spot| (*spot, pass)));
            }
        }
        last
    }

    /// Warnings of a close fit among the beads of these sections.
    fn warnings_where(&self, concerns: impl Fn(SectionId) -> bool) -> Vec<Block> {
        let say = |what| self.book.words.say(Word::StepsTight, context! { what => what });
        let concerns = |spot: &Spot| concerns(self.book.work.fabric[*spot].section);
        let texts = fits::warnings(self.book, concerns).into_iter().map(say);
        texts.map(|text| callout(CalloutKind::Caution, &text)).collect()
    }
}
