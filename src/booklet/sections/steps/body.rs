//! Steps of the body: foundation, rows, hanging, anchoring.

use super::names::{ADDING, StepName};
use super::rows::after_one;
use super::{Steps, Told, cuts_of};
use crate::booklet::Word;
use crate::booklet::sections::parts::{check, paragraph};
use crate::design::{Pair, Side};
use crate::stitch::{
    Anchor, Carrier, Manner, Move, MoveKind, Phase, SectionId, SectionKind, Shown, ThreadUse, Way,
};
use minijinja::context;

/// From so much on, in millimetres, thread beside a stack is seen (common practice, no source).
const BARE: f64 = 2.0;

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
                    cut => cut.cut.0, thread => words.own(&book.design.body_thread.name), lengths => first.len(),
                    tail => book.design.allowances.tail.0,
                },
            )));
        }
        let mirrored = book.design.pair == Pair::Mirrored && !book.design.is_symmetrical();
        let both = words.say(Word::StepsFirstBoth, context! { mirrored => mirrored });
        blocks.push(paragraph(&format!("{} {both}", words.fixed(start))));
        let hand = if book.work.is_one_row() { Word::StepsFirstHandLadder } else { Word::StepsFirstHand };
        blocks.push(paragraph(&words.fixed(hand)));
        self.add(StepName::Word("begin"), words.fixed(Word::StepsFirst), blocks, &[]);
    }

    pub(super) fn ladder(&mut self) {
        let book = self.book;
        let words = &book.words;
        let row = &book.work.rows[0];
        let drop = book.design.body.drop;
        let stacks = self.stacks(row);
        let beads = book.spaced(&row.starts_with);
        // The tail hangs where the thread comes into the first stack.
        let into = self.row_moves(row).iter().find_map(|made| match &made.kind {
            MoveKind::String { through } => through.first(),
            _ => None,
        });
        let up = into.is_none_or(|pass| pass.way == Way::Up);
        let text = match drop {
            1 => words.say(Word::StepsLadderStartSingle, context! { beads, up }),
            _ => words.say(Word::StepsLadderStartText, context! { beads, drop, up }),
        };
        let mut blocks = vec![paragraph(&text)];
        let check = check(
            book,
            &words.say(Word::StepsLadderCheck, context! { stacks => stacks, beads => row.pick_ups.len() }),
        );
        match row.then.first() {
            Some(next) => {
                self.add(
                    StepName::Ladder(""),
                    words.fixed(Word::StepsLadderStart),
                    blocks,
                    &[Shown::body(Manner::Ladder)],
                );
                let text = words.say(
                    Word::StepsLadderAddText,
                    context! { beads => book.spaced(&next.beads), then => book.stack_runs(&after_one(&row.then)) },
                );
                let mut blocks = vec![paragraph(&text)];
                blocks.extend(self.warnings(std::slice::from_ref(row)));
                blocks.push(check);
                self.add(
                    StepName::Ladder(ADDING),
                    words.fixed(Word::StepsLadderAdd),
                    blocks,
                    &[Shown::body(Manner::LadderOn)],
                );
            }
            None => {
                blocks.push(check);
                self.add(
                    StepName::Ladder(""),
                    words.fixed(Word::StepsLadderStart),
                    blocks,
                    &[Shown::body(Manner::Ladder)],
                );
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
        self.add(StepName::Word("hanging"), words.fixed(title), blocks, &[Shown::body(Manner::Hanging)]);
        if others.is_empty() {
            return;
        }
        // The second has its diagram, those after it are told in words.
        let further = |(index, carrier): (usize, &Carrier)| match index {
            0 => paragraph(&self.further_hanging(carrier)),
            _ => paragraph(&self.hanging_in_words(index + 1, carrier)),
        };
        let blocks = others.iter().enumerate().map(further).collect();
        self.add(
            StepName::Word("hanging next"),
            words.fixed(Word::StepsHangFurther),
            blocks,
            &[Shown::body(Manner::Hanging).again()],
        );
        self.tells((1..=others.len()).map(Told::Hanging));
    }

    /// How a guard is sewn on.
    fn guard(&self, carrier: &Carrier) -> String {
        self.book.words.say(Word::StepsHangGuardText, self.hung(carrier))
    }

    /// How a loop is strung and sewn on.
    fn loop_of_beads(&self, carrier: &Carrier, ring: SectionId) -> String {
        let book = self.book;
        let count = book.work.fabric[ring].beads.len();
        let single = carrier.stacks[0] == carrier.stacks[1];
        let values = context! { beads => book.loop_runs(ring), count, single, ..self.hung(carrier) };
        book.words.say(Word::StepsHangLoopText, values)
    }

    /// Where the first guard or loop hangs, and how the thread comes there and back across.
    fn hung(&self, carrier: &Carrier) -> minijinja::Value {
        let moves = self.book.work.body.moves.iter();
        let mut moves = moves.filter(|made| made.phase == Phase::Hanging(0));
        // What comes before the guard or loop leads to it.
        let led = moves
            .next()
            .is_some_and(|made| matches!(made.kind, MoveKind::Pass(_) | MoveKind::UnderBridge { .. }));
        let [near, far] = carrier.numbers(&self.book.work.fabric);
        let several = self.book.work.hangings.len() > 1;
        let along = self.book.work.is_hung_by_its_foundation();
        // Several are joined above, and the ear wire hangs in what joins them.
        let has_loop = self.book.design.ear_wire().has_loop() && !several;
        context! { near, far, led, several, along, has_loop, of_wire => self.book.of_wire() }
    }

    /// How a second guard or loop is reached; the rest is as with the first.
    fn further_hanging(&self, carrier: &Carrier) -> String {
        let words = &self.book.words;
        let [near, far] = carrier.numbers(&self.book.work.fabric);
        let along = self.book.work.is_hung_by_its_foundation();
        match carrier.ring {
            None => words.say(Word::StepsHangFurtherGuard, context! { near, far, along }),
            Some(ring) => {
                let (beads, count) = (self.book.loop_runs(ring), self.book.work.fabric[ring].beads.len());
                words.say(Word::StepsHangFurtherLoop, context! { near, far, beads, count, along })
            }
        }
    }

    /// The way to a guard or loop, by its number in working order, and once round it.
    fn hanging_in_words(&self, index: usize, carrier: &Carrier) -> String {
        let moves = self.book.work.body.moves.iter();
        let mut times = 0;
        let once = moves.filter(|made| made.phase == Phase::Hanging(index)).take_while(|made| {
            times += usize::from(made.is_through_hanging());
            times < 2
        });
        let (way, looped) = (self.said(once), carrier.ring.is_some());
        self.book.words.say(Word::StepsHangFurtherWay, context! { way, looped })
    }

    /// How the body thread and its starting tail end.
    pub(super) fn anchoring(&mut self) {
        let book = self.book;
        let words = &book.words;
        let ends = |begins| {
            let mut anchors = book.work.anchors.iter().enumerate();
            let wanted = move |anchor: &Anchor| {
                anchor.thread == ThreadUse::Body && anchor.join.is_none() && anchor.begins == begins
            };
            anchors.find(|(_, anchor)| wanted(anchor))
        };
        // The running thread is anchored first, while it is on the needle.
        if let Some((i, anchor)) = ends(false) {
            let shown = Shown::body(Manner::End);
            let values = context! {
                place => book.anchor_place(anchor), mark => book.anchor_link(i), close => anchor.is_close(),
                way => self.has_way(shown), enlarged => self.enlarges(shown),
            };
            let mut text = words.say(Word::StepsAnchoringText, values);
            if let Some((bare, times)) = self.bare_on_the_way(i) {
                text = format!("{text} {}", words.say(Word::StepsAnchoringBare, context! { bare, times }));
            }
            if self.is_told(Shown::body(Manner::Turned)) {
                text = format!("{} {text}", words.fixed(Word::StepsTurnedBack));
            }
            self.add(
                StepName::Word("anchoring"),
                words.fixed(Word::StepsAnchoring),
                vec![paragraph(&text)],
                &[shown],
            );
        }
        if let Some((i, anchor)) = ends(true) {
            let shown = Shown::body(Manner::Tail);
            let values = context! {
                place => book.anchor_place(anchor), mark => book.anchor_link(i), way => self.has_way(shown),
                wraps => self.wraps_drawn_in(),
            };
            let text = words.say(Word::StepsAnchoringTail, values);
            self.add(
                StepName::Word("tail"),
                words.fixed(Word::StepsAnchoringTailTitle),
                vec![paragraph(&text)],
                &[shown],
            );
        }
    }

    /// Most thread, in millimetres, that lies beside a stack on the way to where the body thread is anchored, as out of the
    /// tip of a body, and how often it does; `None` where none is seen.
    fn bare_on_the_way(&self, anchor: usize) -> Option<(f64, usize)> {
        let along = |made: &Move| match (&made.kind, &made.points[..]) {
            // From where the thread stands to where it goes in, and through.
            (MoveKind::Pass(_), [from, into, _]) => (from.y.0 - into.y.0).abs(),
            _ => 0.0,
        };
        let way = self.moves(ThreadUse::Body, Phase::Ending(anchor)).iter();
        let seen: Vec<f64> = way.map(along).filter(|bare| *bare >= BARE).collect();
        seen.iter().copied().max_by(f64::total_cmp).map(|most| (most, seen.len()))
    }
}
