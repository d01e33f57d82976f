//! Steps of joining a new length of thread.

use super::names::StepName;
use super::{Steps, Told, cuts_of};
use crate::booklet::Word;
use crate::booklet::sections::parts::paragraph;
use crate::stitch::{Anchor, Manner, Move, MoveKind, Pass, Phase, SectionId, SectionKind, Shown, ThreadUse};
use minijinja::context;
use minijinja::value::merge_maps;

impl Steps<'_, '_> {
    /// The step of the join before a row or strand, if there is one. Each is drawn; of the first of each thread outlines
    /// show the ways there and back as well, of the others words tell them.
    pub(super) fn join(&mut self, thread: ThreadUse, section: SectionId) {
        let book = self.book;
        let words = &book.words;
        let here = |anchor: &&(usize, &Anchor)| anchor.1.join == Some(section);
        let anchors: Vec<(usize, &Anchor)> = book.work.anchors.iter().enumerate().collect();
        let mut here = anchors.iter().filter(here);
        let (Some((ends, end)), Some((begins, begin))) = (here.next(), here.next()) else { return };
        let cut = cuts_of(book, thread).into_iter().find(|cut| cut.joins_at == Phase::Section(section));
        let described = match thread {
            ThreadUse::Body => &book.design.body_thread,
            ThreadUse::Fringe => &book.design.fringe_thread,
        };
        let time = 1 + self.joins_told(thread);
        let [end_shown, begin_shown] =
            [Manner::JoinEnd, Manner::JoinBegin].map(|manner| Shown { manner, thread, time });
        let (ending, beginning) = (Phase::Ending(*ends), Phase::Beginning(*begins));
        // A pass that comes out of the stack where the old length came out.
        let out = self.moves(thread, beginning).last().map_or(String::new(), |made| self.pass_of(made));
        let number = book.work.fabric[section].number;
        let strand = book.work.fabric[section].kind == SectionKind::Strand;
        let old = context! { end_place => book.anchor_place(end), end_mark => book.anchor_link(*ends) };
        let new = context! {
            cut => cut.map_or(0.0, |cut| cut.cut.0), thread => words.own(&described.name),
            stretch => described.stretch_first, tail => book.design.allowances.tail.0,
            begin_place => book.anchor_place(begin), begin_mark => book.anchor_link(*begins), out,
        };
        let title = words.say(Word::StepsJoinTitle, context! { number, strand });
        let mut texts = if time == 1 {
            let enlarged = self.enlarges(end_shown);
            let values = merge_maps([
                context! { enlarged, number, strand, tails => words.fixed(Word::FinishingTails) },
                old,
                new,
            ]);
            vec![paragraph(&words.say(Word::StepsJoinText, values))]
        } else {
            let told = |moves: &[Move]| (!moves.is_empty()).then(|| self.said(moves.iter()));
            let [there, _] = self.moves_not_drawn(end_shown, ending).map(told);
            let [_, back] = self.moves_not_drawn(begin_shown, beginning).map(told);
            let old = merge_maps([context! { way => there }, old]);
            let new = merge_maps([context! { way => back }, new]);
            [(Word::StepsJoinAgainEnd, old), (Word::StepsJoinAgainBegin, new)]
                .map(|(word, values)| paragraph(&words.say(word, values)))
                .to_vec()
        };
        if thread == ThreadUse::Body && self.is_told(Shown::body(Manner::Turned)) {
            texts.insert(0, paragraph(&words.fixed(Word::StepsTurnedJoin)));
        }
        self.add(StepName::Join { strand, number }, title, texts, &[end_shown, begin_shown]);
        self.tells([Told::Anchor(*ends), Told::Anchor(*begins)]);
    }

    /// How many joins of a thread are told already.
    fn joins_told(&self, thread: ThreadUse) -> usize {
        let ends = |shown: &&Shown| shown.thread == thread && shown.manner == Manner::JoinEnd;
        self.steps.iter().flat_map(|step| &step.shows).filter(ends).count()
    }

    /// `up stack 2 of row 3`.
    fn pass_of(&self, made: &Move) -> String {
        match made.kind {
            MoveKind::Pass(Pass { stack, .. }) => {
                let fabric = &self.book.work.fabric;
                let (row, stack) = (fabric.row_number(stack), fabric[stack].place + 1);
                let side = self.book.side_counted();
                self.book.words.say(Word::StepsStackPlace, context! { row, stack, side })
            }
            _ => String::new(),
        }
    }
}
