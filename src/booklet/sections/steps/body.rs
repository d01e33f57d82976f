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

    pub(super) fn hanging(&mut self) {
        let book = self.book;
        let words = &book.words;
        let top = &book.work.rows[book.design.body.above - 1];
        // Nothing lies lower to cross through.
        let alone = book.work.fabric.top_line() == Some(0);
        let (title, text) = match &book.design.hang {
            Hang::ThreadGuard if self.hangs_inside(top) => {
                let [near, far] = book.work.hung_on.map(|stack| book.work.fabric[stack].place + 1);
                (Word::StepsHangGuard, words.say(Word::StepsHangGuardInsideText, context! { near, far }))
            }
            Hang::ThreadGuard if alone => (Word::StepsHangGuard, words.fixed(Word::StepsHangGuardAloneText)),
            Hang::ThreadGuard => (Word::StepsHangGuard, words.fixed(Word::StepsHangGuardText)),
            Hang::Loop(beads) => {
                let inside = self.stacks(top) > 1 && self.hangs_inside(top);
                let word = match (self.stacks(top), alone) {
                    (1, _) => Word::StepsHangLoopSingle,
                    _ if inside => Word::StepsHangLoopInsideText,
                    (_, true) => Word::StepsHangLoopAloneText,
                    (_, false) => Word::StepsHangLoopText,
                };
                let values = context! { beads => loop_runs(book), count => beads.len() };
                let [near, far] = book.work.hung_on.map(|stack| book.work.fabric[stack].place + 1);
                let values = if inside {
                    context! { near, far, ..values }
                } else {
                    values
                };
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

    /// Whether the earring hangs from stacks further in than the outer ones.
    fn hangs_inside(&self, top: &RowWork) -> bool {
        let row = &self.book.work.fabric[top.section];
        let outer = [row.stacks.first(), row.stacks.last()];
        self.book.work.hung_on.iter().any(|stack| !outer.contains(&Some(stack)))
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
