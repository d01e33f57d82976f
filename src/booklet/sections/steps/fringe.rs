//! Steps of the fringe.

use super::names::StepName;
use super::{Steps, Told, cuts_of};
use crate::booklet::book::Book;
use crate::booklet::sections::parts::{check, paragraph};
use crate::booklet::sections::strands::Places;
use crate::booklet::{Block, Word};
use crate::stitch::{Anchor, BeadRun, Manner, SectionKind, Shown, StrandWork, ThreadUse};
use minijinja::context;
use std::collections::BTreeSet;

impl Steps<'_, '_> {
    pub(super) fn fringe(&mut self) {
        let book = self.book;
        let words = &book.words;
        let strands = book.work.strands_in_order();
        let cuts = cuts_of(book, ThreadUse::Fringe);
        let begin = self.anchor_values(ThreadUse::Fringe, true);
        let on_foundation = book.design.hangs_on_its_foundation();
        let values = context! {
            stretch => book.design.fringe_thread.stretch_first, cut => cuts.first().map_or(0.0, |c| c.cut.0),
            thread => words.own(&book.design.fringe_thread.name), lengths => cuts.len(),
            way => self.has_way(Shown::fringe(Manner::Begin)), tail => book.design.allowances.tail.0,
            tails => words.fixed(Word::FinishingTails), ..begin
        };
        let text = if on_foundation {
            let side = book.side(book.work.fringe_from);
            words.say(Word::StepsFringeBeginText, context! { side, ..values })
        } else {
            let stack = strands.first().map_or(String::new(), |strand| self.stack_of(strand));
            words.say(Word::StepsFringeBeginEdgeText, context! { stack, ..values })
        };
        self.add(
            StepName::Word("fringe"),
            words.fixed(Word::StepsFringeBegin),
            vec![paragraph(&text)],
            &[Shown::fringe(Manner::Begin)],
        );

        let Some(first) = strands.first() else { return };
        let picot = first.turn.iter().map(|r| r.count).sum::<usize>() > 1;
        let word = match (on_foundation, picot) {
            (true, true) => Word::StepsStrandPicot,
            (true, false) => Word::StepsStrandText,
            (false, true) => Word::StepsStrandEdgePicot,
            (false, false) => Word::StepsStrandEdgeText,
        };
        let values = context! { runs => book.bead_runs(&first.runs), turn => turn_text(book, &first.turn) };
        let mut blocks = vec![paragraph(&words.say(word, values))];
        blocks.push(check(
            book,
            &words.say(
                if on_foundation { Word::StepsStrandCheck } else { Word::StepsStrandEdgeCheck },
                context! { beads => first.beads, length => first.length.0, ruler => !book.edition.tablet },
            ),
        ));
        self.add(
            StepName::Strands { from: first.number, to: first.number },
            words.fixed(Word::StepsStrand),
            blocks,
            &[Shown::fringe(Manner::Strand)],
        );
        self.tells([Told::Section(first.section)]);

        self.further_strands(&strands);
        let shown = Shown::fringe(Manner::End);
        let end = self.anchor_values(ThreadUse::Fringe, false);
        let values = context! { way => self.has_way(shown), ..end };
        let word = if on_foundation { Word::StepsFringeEndText } else { Word::StepsFringeEndEdgeText };
        self.add(
            StepName::Word("ending"),
            words.fixed(Word::StepsFringeEnd),
            vec![paragraph(&words.say(word, values))],
            &[shown],
        );
    }

    /// The steps of the second strand and those after it, between which new lengths may be joined.
    fn further_strands(&mut self, strands: &[&StrandWork]) {
        let book = self.book;
        let words = &book.words;
        let on_foundation = book.design.hangs_on_its_foundation();
        let mut rest = strands.get(1..).unwrap_or_default();
        let mut second = true;
        while let Some(next) = rest.first() {
            self.join(ThreadUse::Fringe, next.section);
            let more = rest[1..].iter().position(|strand| self.joins_before(strand.section));
            let (these, others) = rest.split_at(more.map_or(rest.len(), |more| more + 1));
            let last = these.last().map_or(next.number, |strand| strand.number);
            let values = context! {
                number => next.number, last, side => book.side(book.work.fringe_from.other()),
                ends => others.is_empty(),
            };
            let (title, text) = if second {
                let word =
                    if on_foundation { Word::StepsStrandNextText } else { Word::StepsStrandNextEdgeText };
                let (runs, turn) = (book.bead_runs(&next.runs), turn_text(book, &next.turn));
                let values = context! { runs, turn, more => these.len() > 1, ..values };
                let told = if on_foundation {
                    words.say(word, values)
                } else {
                    words.say(word, context! { ways => Places::of(book).tell_ways(), ..values })
                };
                (words.fixed(Word::StepsStrandNext), told)
            } else {
                let title = context! { from => next.number, to => last };
                (words.say(Word::StepsStrandsMore, title), words.say(Word::StepsStrandsMoreText, values))
            };
            let mut blocks = vec![paragraph(&text)];
            if second {
                blocks.extend(self.warnings_of(SectionKind::Strand));
            }
            if others.is_empty() {
                blocks.push(self.fringe_check(strands));
            }
            let shown = Shown::fringe(Manner::Strand).again();
            let name = StepName::Strands { from: next.number.min(last), to: next.number.max(last) };
            self.add(name, title, blocks, [shown].get(usize::from(!second)..).unwrap_or_default());
            self.tells(these.iter().map(|strand| Told::Section(strand.section)));
            (rest, second) = (others, false);
        }
    }

    fn fringe_check(&self, strands: &[&StrandWork]) -> Block {
        let book = self.book;
        let beads = strands.iter().map(|strand| strand.beads).sum::<usize>();
        let stacks: BTreeSet<_> =
            strands.iter().map(|strand| book.work.fabric[strand.section].hangs_on).collect();
        let shared = stacks.len() < strands.len();
        let values = context! { hang => book.hang_name(), strands => strands.len(), beads, shared };
        check(book, &book.words.say(Word::StepsFringeCheck, values))
    }

    /// `row 3, stack 1 from the left`: what a strand hangs on.
    fn stack_of(&self, strand: &StrandWork) -> String {
        let fabric = &self.book.work.fabric;
        let Some(stack) = fabric[strand.section].hangs_on else { return String::new() };
        let (row, number) = (fabric.row_number(stack), fabric[stack].place + 1);
        let side = self.book.side_counted();
        self.book.words.say(Word::StepsStackPlace, context! { row, stack => number, side })
    }

    /// Place and mark of the anchor where a thread begins or ends.
    pub(super) fn anchor_values(&self, thread: ThreadUse, begins: bool) -> minijinja::Value {
        let anchors = &self.book.work.anchors;
        let ends = |a: &Anchor| a.thread == thread && a.begins == begins && a.join.is_none();
        match anchors.iter().enumerate().find(|(_, anchor)| ends(anchor)) {
            Some((i, anchor)) => {
                let (place, mark) = (self.book.anchor_place(anchor), self.book.anchor_link(i));
                context! { place, mark, wraps => self.wraps_drawn_in() }
            }
            None => context! { place => "", mark => "", wraps => () },
        }
    }
}

/// `1 D`, the turning bead.
fn turn_text(book: &Book, turn: &[BeadRun]) -> String {
    book.bead_runs(turn)
}
