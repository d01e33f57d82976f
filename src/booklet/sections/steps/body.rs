//! Steps of the body: foundation, rows, hanging, anchoring.

use super::{Steps, Told, cuts_of};
use crate::booklet::Word;
use crate::booklet::sections::parts::{check, paragraph};
use crate::design::{Pair, Side};
use crate::stitch::{Carrier, Manner, Phase, SectionId, SectionKind, Shown, ThreadUse};
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
        let Some((first, others)) = book.work.hangings.split_first() else { return };
        let (title, text) = match first.ring {
            None => (Word::StepsHangGuard, self.guard(first)),
            Some(ring) => (Word::StepsHangLoop, self.loop_of_beads(first, ring)),
        };
        let mut blocks = vec![paragraph(&text)];
        blocks.extend(self.warnings_of(SectionKind::Loop));
        let elsewhere = |phase| matches!(phase, Phase::Section(_));
        blocks.extend(self.joins_in(ThreadUse::Body, |phase| !elsewhere(phase)));
        self.add(words.fixed(title), blocks, &[Shown::body(Manner::Hanging)]);
        if others.is_empty() {
            return;
        }
        let blocks = others.iter().map(|carrier| paragraph(&self.further_hanging(carrier))).collect();
        self.add(words.fixed(Word::StepsHangFurther), blocks, &[Shown::body(Manner::Hanging).again()]);
        self.tells((1..=others.len()).map(Told::Hanging));
    }

    /// How a guard is sewn on.
    fn guard(&self, carrier: &Carrier) -> String {
        let words = &self.book.words;
        if self.is_inside(carrier) {
            let [near, far] = self.carriers(carrier);
            let several = self.book.work.hangings.len() > 1;
            return words.say(Word::StepsHangGuardInsideText, context! { near, far, several });
        }
        let alone = self.has_one_line();
        words.fixed(if alone { Word::StepsHangGuardAloneText } else { Word::StepsHangGuardText })
    }

    /// How a loop is strung and sewn on.
    fn loop_of_beads(&self, carrier: &Carrier, ring: SectionId) -> String {
        let book = self.book;
        let values = context! { beads => book.loop_runs(ring), count => book.work.fabric[ring].beads.len() };
        let [near, far] = carrier.stacks;
        if near != far && self.is_inside(carrier) {
            let [near, far] = self.carriers(carrier);
            let several = book.work.hangings.len() > 1;
            return book.words.say(Word::StepsHangLoopInsideText, context! { near, far, several, ..values });
        }
        let word = match (near == far, self.has_one_line()) {
            (true, _) => Word::StepsHangLoopSingle,
            (false, true) => Word::StepsHangLoopAloneText,
            (false, false) => Word::StepsHangLoopText,
        };
        book.words.say(word, values)
    }

    /// How a second guard or loop and those after it are reached; the rest is as with the first.
    fn further_hanging(&self, carrier: &Carrier) -> String {
        let words = &self.book.words;
        let [near, far] = self.carriers(carrier);
        match carrier.ring {
            None => words.say(Word::StepsHangFurtherGuard, context! { near, far }),
            Some(ring) => {
                let (beads, count) = (self.book.loop_runs(ring), self.book.work.fabric[ring].beads.len());
                words.say(Word::StepsHangFurtherLoop, context! { near, far, beads, count })
            }
        }
    }

    /// Whether nothing lies lower than the row it hangs from, to cross through.
    fn has_one_line(&self) -> bool {
        self.book.work.fabric.top_line() == Some(0)
    }

    /// The stacks that carry it, counted from the left.
    fn carriers(&self, carrier: &Carrier) -> [usize; 2] {
        carrier.stacks.map(|stack| self.book.work.fabric[stack].place + 1)
    }

    /// Whether it hangs from stacks further in than the outer ones.
    fn is_inside(&self, carrier: &Carrier) -> bool {
        let fabric = &self.book.work.fabric;
        let row = &fabric[fabric[carrier.stacks[0]].section];
        let outer = [row.stacks.first(), row.stacks.last()];
        carrier.stacks.iter().any(|stack| !outer.contains(&Some(stack)))
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
