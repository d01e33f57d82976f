//! What a step notes: close fits, joins of thread, what to check.

use super::Steps;
use crate::booklet::Word;
use crate::booklet::sections::fits;
use crate::booklet::sections::materials::joins;
use crate::booklet::sections::parts::callout;
use crate::booklet::{Block, CalloutKind};
use crate::stitch::{Phase, RowWork, SectionId, SectionKind, Spot, ThreadUse};
use minijinja::context;

impl Steps<'_, '_> {
    /// Warnings and joins of these rows.
    pub(super) fn warnings(&self, rows: &[RowWork]) -> Vec<Block> {
        let among = |section| rows.iter().any(|row| row.section == section);
        let mut blocks = self.warnings_where(among);
        blocks.extend(self.joins_in(ThreadUse::Body, |p| matches!(p, Phase::Section(s) if among(s))));
        blocks
    }

    /// Warnings of a close fit in a kind of section.
    pub(super) fn warnings_of(&self, kind: SectionKind) -> Vec<Block> {
        self.warnings_where(|section| self.book.work.fabric[section].kind == kind)
    }

    /// Warnings of a close fit among the beads of these sections.
    fn warnings_where(&self, concerns: impl Fn(SectionId) -> bool) -> Vec<Block> {
        let say = |what| self.book.words.say(Word::StepsTight, context! { what => what });
        let concerns = |spot: &Spot| concerns(self.book.work.fabric[*spot].section);
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
