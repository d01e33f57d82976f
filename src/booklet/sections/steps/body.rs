//! Steps of the body: foundation, rows, hanging, anchoring.

use super::{Steps, cuts_of};
use crate::booklet::Word;
use crate::booklet::sections::parts::{check, paragraph};
use crate::booklet::sections::rows::loop_runs;
use crate::design::{Hang, Pair, Side};
use crate::stitch::{Manner, Phase, RowWork, SectionKind, Shown, ThreadUse};
use minijinja::context;

impl Steps<'_, '_> {
    pub(super) fn begin(&mut self) {
        let book = self.book;
        let words = &book.words;
        let first = cuts_of(book, ThreadUse::Body);
        let start = match book.work.start {
            Side::Left => Word::StepsStartLeft,
            Side::Right => Word::StepsStartRight,
        };
        let mut blocks = Vec::new();
        if let Some(cut) = first.first() {
            blocks.push(paragraph(&words.say(
                Word::StepsFirstText,
                context! {
                    cut => cut.cut.0, thread => book.design.body_thread.name.as_str(), lengths => first.len(),
                    tail => book.design.allowances.tail.0,
                },
            )));
        }
        let mirrored = book.design.pair == Pair::Mirrored && !book.design.is_symmetrical();
        let both = words.say(Word::StepsFirstBoth, context! { mirrored => mirrored });
        blocks.push(paragraph(&format!("{} {both}", words.fixed(start))));
        self.add(words.fixed(Word::StepsFirst), blocks, &[]);
    }

    pub(super) fn ladder(&mut self) {
        let book = self.book;
        let words = &book.words;
        let row = &book.work.rows[0];
        let drop = book.design.body.drop;
        let stacks = self.stacks(row);
        let beads = book.spaced(&row.starts_with);
        let text = match drop {
            1 => words.say(Word::StepsLadderStartSingle, context! { beads => beads }),
            _ => words.say(Word::StepsLadderStartText, context! { beads => beads, drop => drop }),
        };
        let mut blocks = vec![paragraph(&text)];
        let check = check(
            book,
            &words.say(Word::StepsLadderCheck, context! { stacks => stacks, beads => row.pick_ups.len() }),
        );
        match row.then.first() {
            Some(next) => {
                self.add(words.fixed(Word::StepsLadderStart), blocks, &[Shown::body(Manner::Ladder)]);
                let text = words.say(
                    Word::StepsLadderAddText,
                    context! { beads => book.spaced(&next.beads), then => book.stack_runs(&row.then) },
                );
                let mut blocks = vec![paragraph(&text)];
                blocks.extend(self.warnings(std::slice::from_ref(row)));
                blocks.push(check);
                self.add(words.fixed(Word::StepsLadderAdd), blocks, &[Shown::body(Manner::LadderOn)]);
            }
            None => {
                blocks.push(check);
                self.add(words.fixed(Word::StepsLadderStart), blocks, &[Shown::body(Manner::Ladder)]);
            }
        }
    }

    pub(super) fn rows(&mut self) {
        let book = self.book;
        let words = &book.words;
        let rows = &book.work.rows;
        if let Some(row) = rows.get(1) {
            self.second_row(row);
        }
        if let Some(row) = rows.get(2) {
            let title = words.say(Word::StepsNextRows, context! { row => 3 });
            let mut text = words.say(
                Word::StepsNextRowsText,
                context! { row => 3, before => 2, side => book.side_started(row.from), beads => book.spaced(&row.starts_with) },
            );
            if self.is_single(row) {
                text = format!("{text} {}", words.fixed(Word::StepsLastSingleText));
            }
            let mut blocks = vec![paragraph(&text)];
            blocks.extend(self.warnings(std::slice::from_ref(row)));
            let manner = self.manner(row);
            let shown = Shown { again: manner == self.manner(&rows[1]), ..Shown::body(manner) };
            self.add(title, blocks, &[shown]);
        }
        let last = rows.len();
        let mut blocks = Vec::new();
        if last > 3 {
            let mut text = words.fixed(Word::StepsMoreRowsText);
            if self.is_single(&rows[last - 1]) {
                text = format!("{text} {}", words.fixed(Word::StepsLastSingleText));
            }
            blocks.push(paragraph(&text));
            blocks.extend(self.warnings(&rows[3..]));
        }
        let geometry = &book.work.geometry;
        blocks.push(check(
            book,
            &words.say(
                Word::StepsBodyCheck,
                context! {
                    rows => last, beads => rows.iter().map(|r| r.pick_ups.len()).sum::<usize>(),
                    width => geometry.body_width.0, height => geometry.body_height.0,
                },
            ),
        ));
        match (last > 3, self.steps.last_mut()) {
            (false, Some(step)) => step.blocks.extend(blocks),
            _ => {
                let word = if last == 4 { Word::StepsMoreRow } else { Word::StepsMoreRows };
                self.add(words.say(word, context! { from => 4, to => last }), blocks, &[]);
            }
        }
    }

    pub(super) fn second_row(&mut self, row: &RowWork) {
        let book = self.book;
        let words = &book.words;
        let stacks = self.stacks(row);
        let check = check(book, &words.say(Word::StepsRowCheck, context! { row => 2, stacks => stacks }));
        let mut blocks = vec![paragraph(&words.say(
            Word::StepsRowStartText,
            context! { row => 2, side => book.side_started(row.from), beads => book.spaced(&row.starts_with) },
        ))];
        let title = words.say(Word::StepsRowStart, context! { row => 2 });
        let begins = Shown::body(self.manner(row));
        let Some(next) = row.then.first() else {
            if self.is_single(row) {
                blocks = vec![paragraph(&words.fixed(Word::StepsLastSingleText))];
            }
            blocks.extend(self.warnings(std::slice::from_ref(row)));
            self.add(title, blocks, &[begins]);
            return;
        };
        self.add(title, blocks, &[begins]);
        let text = words.say(
            Word::StepsRowAddText,
            context! { beads => book.spaced(&next.beads), then => book.stack_runs(&row.then) },
        );
        let mut blocks = vec![paragraph(&text)];
        blocks.extend(self.warnings(std::slice::from_ref(row)));
        blocks.push(check);
        self.add(words.say(Word::StepsRowAdd, context! { row => 2 }), blocks, &[Shown::body(Manner::Onward)]);
    }

    pub(super) fn is_single(&self, row: &RowWork) -> bool {
        self.stacks(row) == 1
    }

    /// Stacks in a row.
    fn stacks(&self, row: &RowWork) -> usize {
        self.book.work.fabric[row.section].stacks.len()
    }

    /// How a row begins.
    fn manner(&self, row: &RowWork) -> Manner {
        self.book.work.fabric[row.section].manner
    }

    pub(super) fn hanging(&mut self) {
        let book = self.book;
        let words = &book.words;
        let (title, text) = match &book.design.hang {
            Hang::ThreadGuard => (Word::StepsHangGuard, words.fixed(Word::StepsHangGuardText)),
            Hang::Loop(beads) => {
                let single = book.work.rows.last().is_some_and(|r| self.is_single(r));
                let word = if single { Word::StepsHangLoopSingle } else { Word::StepsHangLoopText };
                let values = context! { beads => loop_runs(book), count => beads.len() };
                (Word::StepsHangLoop, words.say(word, values))
            }
        };
        let mut blocks = vec![paragraph(&text)];
        blocks.extend(self.warnings_of(SectionKind::Loop));
        blocks.extend(self.joins_in(ThreadUse::Body, |p| {
            matches!(p, Phase::Hanging | Phase::Travel | Phase::Ending(_) | Phase::Beginning(_) | Phase::Tail)
        }));
        self.add(words.fixed(title), blocks, &[Shown::body(Manner::Hanging)]);
    }

    pub(super) fn anchoring(&mut self) {
        let book = self.book;
        let words = &book.words;
        let mut blocks = Vec::new();
        for (i, anchor) in book.work.anchors.iter().enumerate() {
            if anchor.thread != ThreadUse::Body {
                continue;
            }
            let (place, mark) = (book.anchor_place(anchor), book.anchor_mark(i));
            let text = if anchor.begins {
                words.say(Word::StepsAnchoringTail, context! { place => place, mark => mark })
            } else {
                let close = anchor.is_close();
                words.say(Word::StepsAnchoringText, context! { place => place, mark => mark, close => close })
            };
            let block = paragraph(&text);
            // The running thread is anchored first, while it is on the needle.
            if anchor.begins { blocks.push(block) } else { blocks.insert(0, block) }
        }
        self.add(words.fixed(Word::StepsAnchoring), blocks, &[Shown::body(Manner::End)]);
    }
}
