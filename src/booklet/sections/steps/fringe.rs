//! Steps of the fringe.

use super::{Steps, Told, cuts_of};
use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::sections::parts::{check, paragraph};
use crate::stitch::{BeadRun, Manner, SectionKind, Shown, StrandWork, ThreadUse};
use minijinja::context;

impl Steps<'_, '_> {
    pub(super) fn fringe(&mut self) {
        let book = self.book;
        let words = &book.words;
        let strands = book.work.strands_in_order();
        let cuts = cuts_of(book, ThreadUse::Fringe);
        let from = book.side(book.work.fringe_from);
        let begin = self.anchor_values(ThreadUse::Fringe, true);
        let on_foundation = book.design.hangs_on_its_foundation();
        let values = context! {
            stretch => book.design.fringe_thread.stretch_first, cut => cuts.first().map_or(0.0, |c| c.cut.0),
            thread => book.design.fringe_thread.name.as_str(), lengths => cuts.len(), side => from, ..begin
        };
        let text = if on_foundation {
            words.say(Word::StepsFringeBeginText, values)
        } else {
            let stack = strands.first().map_or(String::new(), |strand| self.stack_of(strand));
            words.say(Word::StepsFringeBeginEdgeText, context! { stack, ..values })
        };
        self.add(
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
                context! { beads => first.beads, length => first.length.0 },
            ),
        ));
        self.add(words.fixed(Word::StepsStrand), blocks, &[Shown::fringe(Manner::Strand)]);
        self.tells([Told::Section(first.section)]);

        if let Some(next) = strands.get(1) {
            let text = words.say(
                if on_foundation { Word::StepsStrandNextText } else { Word::StepsStrandNextEdgeText },
                context! {
                    number => next.number, runs => book.bead_runs(&next.runs), turn => turn_text(book, &next.turn),
                    last => strands.len(), side => book.side(book.work.fringe_from.other()),
                },
            );
            let mut blocks = vec![paragraph(&text)];
            blocks.extend(self.warnings_of(SectionKind::Strand));
            blocks.extend(self.joins_in(ThreadUse::Fringe, |_| true));
            blocks.push(check(
                book,
                &words.say(
                    Word::StepsFringeCheck,
                    context! {
                        hang => book.hang_name(), strands => strands.len(),
                        beads => strands.iter().map(|s| s.beads).sum::<usize>(),
                    },
                ),
            ));
            self.add(words.fixed(Word::StepsStrandNext), blocks, &[Shown::fringe(Manner::Strand).again()]);
            self.tells(strands.iter().skip(1).map(|strand| Told::Section(strand.section)));
        }
        let end = self.anchor_values(ThreadUse::Fringe, false);
        let word = if on_foundation { Word::StepsFringeEndText } else { Word::StepsFringeEndEdgeText };
        let text = words.say(word, end);
        self.add(words.fixed(Word::StepsFringeEnd), vec![paragraph(&text)], &[Shown::fringe(Manner::End)]);
    }

    /// `row 3, stack 1 from the left`: what a strand hangs on.
    fn stack_of(&self, strand: &StrandWork) -> String {
        let fabric = &self.book.work.fabric;
        let Some(stack) = fabric[strand.section].hangs_on else { return String::new() };
        let (row, number) = (fabric.row_number(stack), fabric[stack].place + 1);
        let side = self.book.side_started(crate::design::Side::Left);
        self.book.words.say(Word::StepsStackPlace, context! { row, stack => number, side })
    }

    /// Place and mark of the anchor where a thread begins or ends.
    pub(super) fn anchor_values(&self, thread: ThreadUse, begins: bool) -> minijinja::Value {
        let anchors = &self.book.work.anchors;
        // A thread in several lengths has an anchor at each join: it begins at its first, ends at its last.
        let mut found = anchors.iter().enumerate().filter(|(_, a)| a.thread == thread && a.begins == begins);
        let found = if begins { found.next() } else { found.next_back() };
        match found {
            Some((i, anchor)) => {
                context! { place => self.book.anchor_place(anchor), mark => self.book.anchor_mark(i) }
            }
            None => context! { place => "", mark => "" },
        }
    }
}

/// `1 D`, the turning bead.
fn turn_text(book: &Book, turn: &[BeadRun]) -> String {
    book.bead_runs(turn)
}
