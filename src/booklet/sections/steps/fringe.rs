//! Steps of the fringe.

use super::{Steps, cuts_of};
use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::sections::parts::{check, paragraph};
use crate::stitch::{BeadRun, Manner, SectionKind, Shown, ThreadUse};
use minijinja::context;

impl Steps<'_, '_> {
    pub(super) fn fringe(&mut self) {
        let book = self.book;
        let words = &book.words;
        let strands = book.work.strands_in_order();
        let cuts = cuts_of(book, ThreadUse::Fringe);
        let from = book.side(book.work.fringe_from);
        let begin = self.anchor_values(ThreadUse::Fringe, true);
        let text = words.say(
            Word::StepsFringeBeginText,
            context! {
                stretch => book.design.fringe_thread.stretch_first, cut => cuts.first().map_or(0.0, |c| c.cut.0),
                thread => book.design.fringe_thread.name.as_str(), lengths => cuts.len(), side => from, ..begin
            },
        );
        self.add(
            words.fixed(Word::StepsFringeBegin),
            vec![paragraph(&text)],
            &[Shown::fringe(Manner::Begin)],
        );

        let Some(first) = strands.first() else { return };
        let picot = first.turn.iter().map(|r| r.count).sum::<usize>() > 1;
        let word = if picot { Word::StepsStrandPicot } else { Word::StepsStrandText };
        let values = context! { runs => book.bead_runs(&first.runs), turn => turn_text(book, &first.turn) };
        let mut blocks = vec![paragraph(&words.say(word, values))];
        blocks.push(check(
            book,
            &words.say(Word::StepsStrandCheck, context! { beads => first.beads, length => first.length.0 }),
        ));
        self.add(words.fixed(Word::StepsStrand), blocks, &[Shown::fringe(Manner::Strand)]);

        if let Some(next) = strands.get(1) {
            let text = words.say(
                Word::StepsStrandNextText,
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
        }
        let end = self.anchor_values(ThreadUse::Fringe, false);
        let text = words.say(Word::StepsFringeEndText, end);
        self.add(words.fixed(Word::StepsFringeEnd), vec![paragraph(&text)], &[Shown::fringe(Manner::End)]);
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
