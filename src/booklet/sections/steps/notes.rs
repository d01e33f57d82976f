//! What a step notes: close fits, joins of thread, what to check.

use super::Steps;
use crate::booklet::Word;
use crate::booklet::sections::fits;
use crate::booklet::sections::materials::joins;
use crate::booklet::sections::parts::callout;
use crate::booklet::{Block, CalloutKind};
use crate::stitch::{Phase, Spot, ThreadUse};
use minijinja::context;

impl Steps<'_, '_> {
    /// Warnings and joins of these rows.
    pub(super) fn warnings(&self, rows: &[usize]) -> Vec<Block> {
        let mut blocks =
            self.warnings_where(|spot| matches!(spot, Spot::Body { row, .. } if rows.contains(row)));
        blocks.extend(self.joins_in(ThreadUse::Body, |p| matches!(p, Phase::Row(r) if rows.contains(&r))));
        blocks
    }

    /// Warnings of a close fit among these beads.
    pub(super) fn warnings_where(&self, concerns: impl Fn(&Spot) -> bool) -> Vec<Block> {
        let say = |what| self.book.words.say(Word::StepsTight, context! { what => what });
        let texts = fits::warnings(self.book, concerns).into_iter().map(say);
        texts.map(|text| callout(CalloutKind::Caution, &text)).collect()
    }

    /// Where further lengths of a thread are joined.
    pub(super) fn joins_in(&self, thread: ThreadUse, concerns: impl Fn(Phase) -> bool) -> Vec<Block> {
        let words = &self.book.words;
        let cuts = self.book.work.cuts.iter();
        cuts.filter(|c| c.thread == thread && c.number > 1 && concerns(c.joins_at))
            .map(|c| {
                let text = words.say(
                    Word::StepsJoin,
                    context! {
                        cut => c.cut.0, where => joins(self.book, c), anchoring => words.fixed(Word::StepsAnchoring),
                    },
                );
                callout(CalloutKind::Note, &text)
            })
            .collect()
    }
}
