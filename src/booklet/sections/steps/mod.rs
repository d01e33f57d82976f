//! Steps: in the order worked, with this design's numbers and diagrams. Each manner of working that the path meets is
//! told where it first occurs.

mod body;
mod fringe;
mod notes;
mod rows;

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::{Block, ParagraphStyle, Section, Step, Text};
use crate::stitch::{Cut, Manner, Shown, ThreadUse};

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let mut diagrams = crate::booklet::diagrams::figures(book);
    let mut blocks = vec![Block::Paragraph {
        text: Text::plain(words.fixed(Word::StepsDiagramNote)),
        style: ParagraphStyle::Small,
    }];
    for (index, planned) in plan(book).into_iter().enumerate() {
        let mut figures = Vec::new();
        for wanted in planned.shows {
            while let Some(at) = diagrams.iter().position(|(shown, _)| *shown == wanted) {
                figures.push(diagrams.remove(at).1);
            }
        }
        let title = Text::plain(planned.title);
        blocks.push(Block::Step(Step { number: index + 1, title, blocks: planned.blocks, figures }));
    }
    Section {
        name: "steps".into(),
        title: words.fixed(Word::StepsTitle),
        new_page: true,
        listed: true,
        blocks,
    }
}

/// A step before its diagrams are drawn.
pub(super) struct Planned {
    title: String,
    blocks: Vec<Block>,
    /// What its diagrams show.
    shows: Vec<Shown>,
}

/// The steps of a booklet.
fn plan(book: &Book) -> Vec<Planned> {
    let mut list = Steps { book, steps: Vec::new() };
    let (above, below) = book.work.rows.split_at(book.design.body.above);
    list.begin();
    list.ladder();
    list.rows(&above[1..]);
    if below.is_empty() {
        list.body_check();
    }
    list.hanging();
    if !below.is_empty() {
        list.rows(below);
        list.body_check();
    }
    list.anchoring();
    list.fringe();
    list.steps
}

/// The number of the step that shows how the body thread works in a manner.
pub(super) fn told_in(book: &Book) -> impl Fn(Manner) -> Option<usize> {
    let shows: Vec<Vec<Shown>> = plan(book).into_iter().map(|planned| planned.shows).collect();
    move |manner| shows.iter().position(|shows| shows.contains(&Shown::body(manner))).map(|index| index + 1)
}

/// The steps so far.
struct Steps<'a, 'w> {
    book: &'a Book<'w>,
    steps: Vec<Planned>,
}

impl Steps<'_, '_> {
    /// Adds a step with its paragraphs and the diagrams that show these.
    fn add(&mut self, title: String, blocks: Vec<Block>, shows: &[Shown]) {
        self.steps.push(Planned { title, blocks, shows: shows.to_vec() });
    }

    /// Adds to the step added last.
    fn add_to_last(&mut self, blocks: impl IntoIterator<Item = Block>) {
        if let Some(step) = self.steps.last_mut() {
            step.blocks.extend(blocks);
        }
    }

    /// Whether a step shows this already.
    fn is_told(&self, shown: Shown) -> bool {
        self.steps.iter().any(|step| step.shows.contains(&shown))
    }
}

fn cuts_of<'a>(book: &'a Book, thread: ThreadUse) -> Vec<&'a Cut> {
    book.work.cuts.iter().filter(|c| c.thread == thread).collect()
}
