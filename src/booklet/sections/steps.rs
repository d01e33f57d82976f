//! Steps: in the order worked, with this design's numbers and diagrams.

use super::fits;
use super::materials::joins;
use super::strands::in_order;
use crate::booklet::book::Book;
use crate::booklet::{Block, CalloutKind, Figure, ParagraphStyle, Section, Step, Text};
use crate::design::{Hang, Pair, Side, Word};
use crate::stitch::{BeadRun, Cut, ExcerptKind, Phase, RowWork, Spot, ThreadUse};
use minijinja::context;

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let mut list = Steps { book, diagrams: super::super::diagrams::figures(book), steps: Vec::new() };
    list.begin();
    list.ladder();
    list.rows();
    list.hanging();
    list.anchoring();
    list.fringe();
    let mut blocks = vec![Block::Paragraph {
        text: Text::plain(words.fixed(Word::StepsDiagramNote)),
        style: ParagraphStyle::Small,
    }];
    blocks.extend(list.steps.into_iter().map(Block::Step));
    Section {
        name: "steps".into(),
        title: words.fixed(Word::StepsTitle),
        new_page: true,
        listed: true,
        blocks,
    }
}

/// The steps so far.
struct Steps<'a> {
    book: &'a Book<'a>,
    /// Diagrams not yet used, each with the kind of move it shows.
    diagrams: Vec<(ExcerptKind, Figure)>,
    steps: Vec<Step>,
}

impl Steps<'_> {
    /// Adds a step with its paragraphs and the diagrams of these kinds.
    fn add(&mut self, title: String, blocks: Vec<Block>, kinds: &[ExcerptKind]) {
        let mut figures = Vec::new();
        for kind in kinds {
            while let Some(at) = self.diagrams.iter().position(|(k, _)| k == kind) {
                figures.push(self.diagrams.remove(at).1);
            }
        }
        self.steps.push(Step { number: self.steps.len() + 1, title: Text::plain(title), blocks, figures });
    }

    fn begin(&mut self) {
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

    fn ladder(&mut self) {
        let book = self.book;
        let words = &book.words;
        let row = &book.work.rows[0];
        let drop = book.design.body.drop;
        let stacks = book.design.body.rows[0].stacks.len();
        let word = if drop == 1 { Word::StepsLadderStartSingle } else { Word::StepsLadderStartText };
        let text = words.say(word, context! { beads => book.spaced(&row.starts_with), drop => drop });
        let mut blocks = vec![paragraph(&text)];
        let check = check(
            book,
            &words.say(Word::StepsLadderCheck, context! { stacks => stacks, beads => row.pick_ups.len() }),
        );
        match row.then.first() {
            Some(next) => {
                self.add(words.fixed(Word::StepsLadderStart), blocks, &[ExcerptKind::FirstLadderStacks]);
                let text = words.say(
                    Word::StepsLadderAddText,
                    context! { beads => book.spaced(&next.beads), then => book.stack_runs(&row.then) },
                );
                let mut blocks = vec![paragraph(&text)];
                blocks.extend(self.warnings(&[0]));
                blocks.push(check);
                self.add(words.fixed(Word::StepsLadderAdd), blocks, &[ExcerptKind::AddLadderStack]);
            }
            None => {
                blocks.push(check);
                self.add(words.fixed(Word::StepsLadderStart), blocks, &[ExcerptKind::FirstLadderStacks]);
            }
        }
    }

    fn rows(&mut self) {
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
            blocks.extend(self.warnings(&[2]));
            self.add(title, blocks, &[ExcerptKind::StartNextRow]);
        }
        let last = rows.len();
        let mut blocks = Vec::new();
        if last > 3 {
            let mut text = words.fixed(Word::StepsMoreRowsText);
            if self.is_single(&rows[last - 1]) {
                text = format!("{text} {}", words.fixed(Word::StepsLastSingleText));
            }
            blocks.push(paragraph(&text));
            blocks.extend(self.warnings(&(3..last).collect::<Vec<_>>()));
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

    fn second_row(&mut self, row: &RowWork) {
        let book = self.book;
        let words = &book.words;
        let stacks = book.design.body.rows[1].stacks.len();
        let check = check(book, &words.say(Word::StepsRowCheck, context! { row => 2, stacks => stacks }));
        let mut blocks = vec![paragraph(&words.say(
            Word::StepsRowStartText,
            context! { row => 2, side => book.side_started(row.from), beads => book.spaced(&row.starts_with) },
        ))];
        let title = words.say(Word::StepsRowStart, context! { row => 2 });
        let Some(next) = row.then.first() else {
            if self.is_single(row) {
                blocks = vec![paragraph(&words.fixed(Word::StepsLastSingleText))];
            }
            blocks.extend(self.warnings(&[1]));
            self.add(title, blocks, &[ExcerptKind::StartRow]);
            return;
        };
        self.add(title, blocks, &[ExcerptKind::StartRow]);
        let text = words.say(
            Word::StepsRowAddText,
            context! { beads => book.spaced(&next.beads), then => book.stack_runs(&row.then) },
        );
        let mut blocks = vec![paragraph(&text)];
        blocks.extend(self.warnings(&[1]));
        blocks.push(check);
        self.add(words.say(Word::StepsRowAdd, context! { row => 2 }), blocks, &[ExcerptKind::AddStack]);
    }

    fn is_single(&self, row: &RowWork) -> bool {
        self.book.design.body.rows[row.row].stacks.len() == 1
    }

    fn hanging(&mut self) {
        let book = self.book;
        let words = &book.words;
        let (title, text) = match &book.design.hang {
            Hang::ThreadGuard => {
                (Word::StepsHangGuard, words.say(Word::StepsHangGuardText, context! { one => 1 }))
            }
            Hang::Loop(beads) => {
                let single = book.work.rows.last().is_some_and(|r| self.is_single(r));
                let word = if single { Word::StepsHangLoopSingle } else { Word::StepsHangLoopText };
                let values = context! { beads => super::rows::loop_runs(book), count => beads.len() };
                (Word::StepsHangLoop, words.say(word, values))
            }
        };
        let mut blocks = vec![paragraph(&text)];
        blocks.extend(self.warnings_where(|spot| matches!(spot, Spot::Loop { .. })));
        blocks.extend(self.joins_in(ThreadUse::Body, |p| {
            matches!(p, Phase::Hanging | Phase::Travel | Phase::Ending(_) | Phase::Beginning(_) | Phase::Tail)
        }));
        self.add(words.fixed(title), blocks, &[ExcerptKind::Hanging]);
    }

    fn anchoring(&mut self) {
        let book = self.book;
        let words = &book.words;
        let mut blocks = Vec::new();
        for (i, anchor) in book.work.anchors.iter().enumerate() {
            if anchor.thread != ThreadUse::Body {
                continue;
            }
            let values = context! {
                place => book.anchor_place(anchor), mark => book.anchor_mark(i),
                close => anchor.is_close(),
            };
            let word = if anchor.begins { Word::StepsAnchoringTail } else { Word::StepsAnchoringText };
            let block = paragraph(&words.say(word, values));
            // The running thread is anchored first, while it is on the needle.
            if anchor.begins { blocks.push(block) } else { blocks.insert(0, block) }
        }
        self.add(words.fixed(Word::StepsAnchoring), blocks, &[ExcerptKind::Anchoring]);
    }

    fn fringe(&mut self) {
        let book = self.book;
        let words = &book.words;
        let strands = in_order(book);
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
        self.add(words.fixed(Word::StepsFringeBegin), vec![paragraph(&text)], &[ExcerptKind::DownToFringe]);

        let Some(first) = strands.first() else { return };
        let picot = first.turn.iter().map(|r| r.count).sum::<usize>() > 1;
        let word = if picot { Word::StepsStrandPicot } else { Word::StepsStrandText };
        let values = context! { runs => book.bead_runs(&first.runs), turn => turn_text(book, &first.turn) };
        let mut blocks = vec![paragraph(&words.say(word, values))];
        blocks.push(check(
            book,
            &words.say(Word::StepsStrandCheck, context! { beads => first.beads, length => first.length.0 }),
        ));
        self.add(words.fixed(Word::StepsStrand), blocks, &[ExcerptKind::Strand]);

        if let Some(next) = strands.get(1) {
            let text = words.say(
                Word::StepsStrandNextText,
                context! {
                    number => next.order, runs => book.bead_runs(&next.runs), turn => turn_text(book, &next.turn),
                    last => strands.len(), side => book.side(book.work.fringe_from.other()),
                },
            );
            let mut blocks = vec![paragraph(&text)];
            blocks.extend(self.warnings_where(|spot| matches!(spot, Spot::Strand { .. })));
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
            self.add(words.fixed(Word::StepsStrandNext), blocks, &[ExcerptKind::NextStrand]);
        }
        let end = self.anchor_values(ThreadUse::Fringe, false);
        let text = words.say(Word::StepsFringeEndText, end);
        self.add(words.fixed(Word::StepsFringeEnd), vec![paragraph(&text)], &[ExcerptKind::LastTail]);
    }

    /// Place and mark of the anchor where a thread begins or ends.
    fn anchor_values(&self, thread: ThreadUse, begins: bool) -> minijinja::Value {
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

    /// Warnings and joins of these rows.
    fn warnings(&self, rows: &[usize]) -> Vec<Block> {
        let mut blocks =
            self.warnings_where(|spot| matches!(spot, Spot::Body { row, .. } if rows.contains(row)));
        blocks.extend(self.joins_in(ThreadUse::Body, |p| matches!(p, Phase::Row(r) if rows.contains(&r))));
        blocks
    }

    /// Warnings of a close fit among these beads.
    fn warnings_where(&self, concerns: impl Fn(&Spot) -> bool) -> Vec<Block> {
        let say = |what| self.book.words.say(Word::StepsTight, context! { what => what });
        let texts = fits::warnings(self.book, concerns).into_iter().map(say);
        texts.map(|text| callout(CalloutKind::Caution, &text)).collect()
    }

    /// Where further lengths of a thread are joined.
    fn joins_in(&self, thread: ThreadUse, concerns: impl Fn(Phase) -> bool) -> Vec<Block> {
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

fn cuts_of<'a>(book: &'a Book, thread: ThreadUse) -> Vec<&'a Cut> {
    book.work.cuts.iter().filter(|c| c.thread == thread).collect()
}

/// `1 D`, the turning bead.
fn turn_text(book: &Book, turn: &[BeadRun]) -> String {
    book.bead_runs(turn)
}

fn paragraph(text: &str) -> Block {
    Block::Paragraph { text: Text::marked(text), style: ParagraphStyle::Body }
}

fn callout(kind: CalloutKind, text: &str) -> Block {
    Block::Callout { kind, title: Text::default(), blocks: vec![paragraph(text)] }
}

/// What to count or measure before going on.
fn check(book: &Book, text: &str) -> Block {
    let title = Text::plain(book.words.fixed(Word::StepsCheckTitle));
    Block::Callout { kind: CalloutKind::Check, title, blocks: vec![paragraph(text)] }
}
