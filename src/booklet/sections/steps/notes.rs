//! What a step notes: close fits.

use super::Steps;
use crate::booklet::Word;
use crate::booklet::sections::fits;
use crate::booklet::sections::parts::callout;
use crate::booklet::{Block, CalloutKind};
use crate::stitch::{RowWork, SectionId, SectionKind, Spot};
use minijinja::context;

impl Steps<'_, '_> {
    /// Warnings of these rows.
    pub(super) fn warnings(&self, rows: &[RowWork]) -> Vec<Block> {
        self.warnings_where(|section| rows.iter().any(|row| row.section == section))
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
}
